package formula

import (
	"cmp"
	"maps"
	"slices"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/stability"
)

// List is how every dish of a book stands.
type List struct {
	Schema string `json:"schema"`
	Dishes []Row  `json:"dishes"`
}

// Row is one pack, or an output of a dish that has none.
type Row struct {
	Subject
	Name     string   `json:"name"`
	DishName string   `json:"dish_name"`
	Worst    string   `json:"worst"`
	Grade    int      `json:"grade"`
	Slow     int      `json:"grade_if_slow"`
	Notes    int      `json:"notes"`
	Changes  int      `json:"changes"`         // findings that are worse than a note
	First    string   `json:"first,omitempty"` // what goes wrong first
	About    []string `json:"components"`
	Fix      string   `json:"fix,omitempty"` // what leaves least of it
	Asks     int      `json:"asks"`          // what nobody has said and may change the answer
	Problem  string   `json:"problem,omitempty"`
}

// ListOf reviews every dish, the worst first.
func ListOf(book kitchen.Book, foods *foodtable.Table) List {
	l := List{Schema: ListSchema, Dishes: []Row{}}
	for _, dish := range slices.Sorted(maps.Keys(book.Dishes)) {
		for _, s := range SubjectsOf(book, dish) {
			l.Dishes = append(l.Dishes, rowOf(book, foods, s))
		}
	}
	slices.SortStableFunc(l.Dishes, func(a, b Row) int { return cmp.Or(cmp.Compare(b.Grade, a.Grade), cmp.Compare(b.Slow, a.Slow)) })
	return l
}

func rowOf(book kitchen.Book, foods *foodtable.Table, s Subject) Row {
	row := Row{Subject: s, Name: s.name(book), DishName: cmp.Or(book.Dishes[s.Dish].Name, string(s.Dish)), About: []string{}}
	p, err := PotOf(book, foods, s)
	if err != nil {
		row.Problem = err.Error()
		return row
	}
	r, err := p.Review()
	if err != nil {
		row.Problem = err.Error()
		return row
	}
	row.Worst, row.Grade, row.Slow = r.Worst().String(), int(r.Worst()), int(r.Slow)
	for _, f := range r.Findings {
		if f.Severity <= stability.Note {
			row.Notes++
			continue
		}
		if row.Changes++; row.Changes == 1 {
			row.First, row.About = f.Mechanism, append(row.About, f.Components...)
			if len(f.Remedies) > 0 {
				row.Fix = f.Remedies[0].Do
			}
		}
	}
	for _, a := range p.Asks {
		if a.Grave {
			row.Asks++
		}
	}
	return row
}

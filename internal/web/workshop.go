package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"

	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
)

// Addresses of the workshop's review.
const (
	workshopPath     = "/workshop"
	workshopDishPath = workshopPath + "/dish"
)

// Fields of its addresses, besides those of the question (app.FormulaTyped).
const (
	dishKey   = "dish"
	outputKey = "output"
)

func (s *server) workshopRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+workshopPath, s.showWorkshop)
	mux.HandleFunc("GET "+workshopPath+".json", s.showWorkshopJSON)
	mux.HandleFunc("GET "+workshopDishPath, s.showWorkshopDish)
	mux.HandleFunc("GET "+workshopDishPath+".json", s.showWorkshopDishJSON)
}

// workshopPage is all that templates/workshop.html may show: how every dish stands in the freezer.
type workshopPage struct {
	shell
	Rows []workshopRow // the worst first
}

// workshopRow is one pack, or an output of a dish that has none.
type workshopRow struct {
	URL, Name string
	State     verdictView
	First     string // what goes wrong first, and with what
	Fix       string
	Slow      string
	Counts    []string
	Problem   string
}

var workshopTemplate = parse[workshopPage]("workshop")

func (s *server) showWorkshop(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	v := workshopPage{shell: s.inShell(r, book.Kitchen, "Workshop: review", "workshop")}
	for _, x := range s.formulas.Of(book, s.house.Foods()).Dishes {
		v.Rows = append(v.Rows, viewWorkshopRow(x))
	}
	workshopTemplate.show(w, http.StatusOK, v)
}

func viewWorkshopRow(x formula.Row) workshopRow {
	row := workshopRow{URL: workshopDishURL(x.Subject), Name: x.Name, Problem: x.Problem}
	if x.Problem != "" {
		row.State = verdictView{Class: "caution", Sign: "▲", Word: "CANNOT BE TOLD"}
		return row
	}
	row.State = gradeView(x.Grade)
	if x.First != "" {
		row.First = capital(x.First) + ": " + listed(x.About) + "."
	}
	if x.Fix != "" {
		row.Fix = capital(x.Fix) + "."
	}
	if x.Slow > x.Grade {
		row.Slow = "If it freezes slower than reckoned: " + gradeView(x.Slow).Says + "."
	}
	for _, c := range []struct {
		n         int
		one, more string
	}{{x.Changes, "thing to change", "things to change"}, {x.Notes, "thing to know", "things to know"}, {x.Asks, "question that matters", "questions that matter"}} {
		if c.n > 0 {
			row.Counts = append(row.Counts, times(c.n, c.one, c.more))
		}
	}
	return row
}

// gradeView is how bad it is in a word, with a shape of its own.
func gradeView(grade int) verdictView {
	switch grade {
	case 3:
		return verdictView{Class: "stop", Sign: "■", Word: "LEAVE OUT", Says: "leave something out, or add it at reheating"}
	case 2:
		return verdictView{Class: "caution", Sign: "▲", Word: "CHANGE", Says: "change the recipe"}
	}
	return verdictView{Class: "note", Sign: "●", Word: "NOTHING TO CHANGE", Says: "by what is published, of what is known of it"}
}

// workshopDishURL is the address of what is looked at.
func workshopDishURL(x formula.Subject) string {
	q := url.Values{dishKey: {string(x.Dish)}}
	if x.Pack != "" {
		q.Set(packKey, string(x.Pack))
	} else {
		q.Set(outputKey, string(x.Output))
	}
	return workshopDishPath + "?" + q.Encode()
}

func (s *server) showWorkshopJSON(w http.ResponseWriter, _ *http.Request) {
	book, _ := s.house.Book()
	writeJSON(w, http.StatusOK, s.formulas.Of(book, s.house.Foods()))
}

// workshopCard leads from the kitchen's page to the workshop, when a dish is to be changed before it is frozen.
func (s *server) workshopCard(book kitchen.Book) []todayCard {
	worse := 0
	var first formula.Row
	for _, x := range s.formulas.Of(book, s.house.Foods()).Dishes {
		if x.Grade >= 2 {
			if worse++; worse == 1 {
				first = x
			}
		}
	}
	if worse == 0 {
		return nil
	}
	c := todayCard{URL: workshopPath, Name: "Workshop", Grave: true, Says: []string{fmt.Sprintf("%s: %s", first.Name, gradeView(first.Grade).Says)}}
	if worse > 1 {
		c.Says = append(c.Says, fmt.Sprintf("and %s that the freezer is hard on", times(worse-1, "other pack", "other packs")))
	}
	return []todayCard{c}
}

// noSubject says whether an error is that there is no such dish or pack, and puts it into words.
func noSubject(err error) (string, bool) {
	if none := (*formula.NoSubjectError)(nil); errors.As(err, &none) {
		return capital(none.What) + ": " + none.Fix + ".", true
	}
	return "", false
}

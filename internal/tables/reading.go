package tables

import (
	"fmt"
	"strings"

	"kettlefrost/internal/unit"
)

// Row is one row of a sheet, read into the fields of a form.
type Row struct {
	Number int // as a spreadsheet counts, the header being row 1
	values map[string]value
	column map[string]int // of each field that has one, from 1
	heads  map[string]string
}

// value is what stands in a cell, by the kind of its field.
type value struct {
	text  string
	whole int64
	mass  unit.Mass
	money unit.Money
	temp  unit.Temp
}

// Has says whether something stands in a field.
func (r Row) Has(key string) bool { _, ok := r.values[key]; return ok }

// Text is a text, a day or a word of a list; "" when nothing stands there.
func (r Row) Text(key string) string { return r.values[key].text }

// Whole is a whole number, 0 when nothing stands there.
func (r Row) Whole(key string) int64 { return r.values[key].whole }

// Mass is a mass, 0 when nothing stands there.
func (r Row) Mass(key string) unit.Mass { return r.values[key].mass }

// Money is money, 0 when nothing stands there.
func (r Row) Money(key string) unit.Money { return r.values[key].money }

// Temp is a temperature, and false when nothing stands there.
func (r Row) Temp(key string) (unit.Temp, bool) { v, ok := r.values[key]; return v.temp, ok }

// Wrong is a mistake in a field of the row.
func (r Row) Wrong(key, problem, fix string) Mistake {
	return Mistake{Row: r.Number, Column: r.column[key], Head: r.heads[key], Text: r.values[key].text, Problem: problem, Fix: fix}
}

// Reading is a sheet read by a form. Rows with a mistake are not among the Rows. While there is a question nothing that depends on it is
// read.
type Reading struct {
	Rows      []Row
	Mistakes  []Mistake // in the order of the rows
	Questions []Question
	Unused    []string // headers that are no field
	Read      []string // headers that are, as "weight (lb): mass in lb"
}

// mostRows is more than a kitchen sends at once.
const mostRows = 20_000

// Read reads a sheet. What the settings leave open is asked, if a cell needs it.
func (f Form) Read(s Sheet, settings Settings) Reading {
	first := 0
	for first < len(s.Rows) && blank(s.Rows[first]) {
		first++
	}
	switch {
	case first == len(s.Rows):
		return Reading{Mistakes: []Mistake{{Problem: "the sheet is empty", Fix: "give one with a header and a row for each " + f.Name}}}
	case len(s.Rows)-first-1 > mostRows:
		return Reading{Mistakes: []Mistake{{Problem: fmt.Sprintf("the sheet has more than %d rows", mostRows), Fix: "divide it into several"}}}
	}
	found, unused, wrong := f.matches(s.Rows[first])
	for i := range wrong {
		wrong[i].Row = first + 1
	}
	r := reader{settings: settings, matches: found, out: Reading{Unused: unused, Mistakes: wrong}}
	for _, m := range found {
		says := m.head + ": " + m.field.Name
		if m.unit != "" {
			says += " in " + m.unit
		}
		r.out.Read = append(r.out.Read, says)
	}
	if len(wrong) > 0 {
		return r.out
	}
	r.ask(s.Rows[first+1:], first+2)
	rows := 0
	for i, cells := range s.Rows[first+1:] {
		if !blank(cells) {
			rows++
			r.row(cells, first+2+i)
		}
	}
	if rows == 0 {
		r.out.Mistakes = append(r.out.Mistakes, Mistake{Problem: "there is no row under the header", Fix: "write a row for each"})
	}
	return r.out
}

func blank(cells []Cell) bool {
	for _, c := range cells {
		if strings.TrimSpace(c.Text) != "" {
			return false
		}
	}
	return true
}

// reader reads the rows of one sheet.
type reader struct {
	settings Settings
	decimal  sign
	matches  []match
	out      Reading
}

func (r *reader) row(cells []Cell, number int) {
	row := Row{Number: number, values: map[string]value{}, column: map[string]int{}, heads: map[string]string{}}
	before, asked := len(r.out.Mistakes), false
	for _, m := range r.matches {
		row.column[m.field.Key], row.heads[m.field.Key] = m.column+1, m.head
		var cell Cell
		if m.column < len(cells) {
			cell = cells[m.column]
		}
		cell.Text = strings.TrimSpace(cell.Text)
		wrong := func(problem, fix string) {
			r.out.Mistakes = append(r.out.Mistakes, Mistake{Row: number, Column: m.column + 1, Head: m.head, Text: cell.Text, Problem: problem, Fix: fix})
		}
		if cell.Text == "" {
			if m.field.Required {
				wrong("nothing stands here, and the "+m.field.Name+" is needed", "write it")
			}
			continue
		}
		v, problem, fix, open := r.cell(m, cell)
		switch {
		case open:
			asked = true
		case problem != "":
			wrong(problem, fix)
		default:
			row.values[m.field.Key] = v
		}
	}
	if len(r.out.Mistakes) == before && !asked {
		r.out.Rows = append(r.out.Rows, row)
	}
}

package folder

import (
	"strconv"
	"strings"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/record"
)

// done is corrective actions, holds and decisions.
func (p *printer) done() {
	p.head("Corrective actions, holds and decisions")
	t := pdf.Table{Name: "Corrective actions", Columns: []pdf.Column{{Name: "when"}, {Name: "who"}, {Name: "where"}, {Name: "what was done"}}, None: "None was entered."}
	for _, a := range p.Actions {
		says := a.Did
		if a.TempC != nil {
			says += " at " + p.temp(*a.TempC)
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{p.at(a.At), a.Who, a.Where, lines(says, prefixed("for ", a.Code), a.Text)}})
	}
	h := pdf.Table{Name: "Holds and decisions", Columns: []pdf.Column{{Name: "when"}, {Name: "who"}, {Name: "lot"}, {Name: "what"}, {Name: "why"}}, None: "None was entered, and none follows from the critical records."}
	for _, x := range p.Holds {
		what := "held"
		switch {
		case x.Decided != "" && x.Entry != (record.ID{}):
			what = "decided: " + x.Decided
		case x.Entry == (record.ID{}):
			what = "held by its records"
		}
		if x.Standing {
			what += ", now" + prefixed("; decided: ", x.Decided)
		}
		h.Rows = append(h.Rows, pdf.Row{Cells: []string{p.at(x.At), x.Who, lines(string(x.Lot), prefixed("no. ", x.Numbers)), what, lines(x.Why, strings.Join(x.Points, "\n"))}, Strong: x.Standing && x.Decided == ""})
	}
	p.add(t, h)
}

func (p *printer) cold() {
	p.head("Where it was kept cold")
	t := pdf.Table{Columns: []pdf.Column{{Name: "place, thermometer"}, {Name: "looked at"}, {Name: "limit", Figure: true}, {Name: "readings", Figure: true}, {Name: "over the limit", Figure: true}, {Name: "not known", Figure: true}},
		None: "No thermometer of the book watches a place that the lots lay in."}
	e := pdf.Table{Name: "Times over the limit, and times of which nothing is known", Columns: []pdf.Column{{Name: "place"}, {Name: "from, to"}, {Name: "what"}, {Name: "peak", Figure: true}, {Name: "over 41 °F", Figure: true}, {Name: "answered"}}, None: "None was found in what was read."}
	for _, c := range p.Cold {
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{lines(c.Name, c.Instrument), lines(p.at(c.From), p.at(c.Until)), p.temp(c.LimitC), strconv.Itoa(c.Readings), length(c.OverS), length(c.UnreadS)}, Strong: c.Readings == 0})
		for _, x := range c.Excursions {
			peak, what := "", map[string]string{"too-warm": "too warm", "not-known": "not known"}[x.Kind]
			if x.PeakC != nil {
				peak = p.temp(*x.PeakC)
			}
			if x.Open {
				what += ", goes on"
			}
			answer := map[bool]string{true: "yes", false: "NO"}[x.Answered]
			if !x.Asks {
				answer = "not asked for"
			}
			e.Rows = append(e.Rows, pdf.Row{Cells: []string{c.Name, lines(p.at(x.From), p.at(x.Until)), what, peak, length(x.Above41S), answer}, Strong: x.Asks && !x.Answered})
		}
	}
	p.add(t)
	if len(p.Cold) > 0 {
		p.add(e)
	}
	for _, c := range p.Cold {
		p.coldDays(c)
	}
	p.quiet("The temperature of air proves nothing about the food in it, either way. Where nothing was read, nothing is known.")
}

// length of a time in words; nothing for none.
func length(s float64) string {
	if s <= 0 {
		return "0"
	}
	return coldwatch.Length(int64(s * 1000))
}

func (p *printer) thermometers() {
	p.head("Thermometers")
	t := pdf.Table{Columns: []pdf.Column{{Name: "thermometer"}, {Name: "used"}, {Name: "checked"}, {Name: "by"}, {Name: "how"}, {Name: "read", Figure: true}, {Name: "true", Figure: true}, {Name: "then"}}, None: "Nothing in this folder was read with a thermometer that somebody named."}
	for _, x := range p.Thermometers {
		name := lines(x.ID, x.Name, map[bool]string{false: "not in the book"}[x.Listed])
		used := lines(p.at(x.From), p.at(x.Until))
		if len(x.Checks) == 0 {
			t.Rows = append(t.Rows, pdf.Row{Cells: []string{name, used, "no check is in the records"}, Strong: true})
		}
		for i, c := range x.Checks {
			if i > 0 {
				name, used = "", ""
			}
			then := c.Kept
			if c.AfterC != nil {
				then += ", then read " + p.temp(*c.AfterC)
			}
			t.Rows = append(t.Rows, pdf.Row{Cells: []string{name, used, p.at(c.At), c.Who, c.Method, p.temp(c.ReadC), p.temp(c.TrueC), lines(then, c.Note)}})
		}
	}
	p.add(t)
}

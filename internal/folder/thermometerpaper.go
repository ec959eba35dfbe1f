package folder

import (
	"cmp"

	"kettlefrost/internal/pdf"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
)

// ThermometerPaper is the log of all thermometers for paper: how each stands, and every check.
type ThermometerPaper struct {
	Kitchen Kitchen
	Bench   thermometers.Bench
	AsOf    record.Instant
	Clock   Clock
}

// Document is the log for paper, those first that are to be checked first.
func (x ThermometerPaper) Document() pdf.Document {
	p := printer{Contents: Contents{Kitchen: x.Kitchen}, clock: x.Clock}
	name := cmp.Or(x.Kitchen.Name, "Kitchen")
	p.doc = pdf.Document{Title: "Thermometers", Subject: "checks of thermometers", Head: name + " · thermometers and their checks", Foot: "as of " + p.at(x.AsOf), MadeMs: int64(x.AsOf), Paper: paperOf(x.Kitchen)}
	p.add(pdf.Title{Text: "Thermometers and their checks", Below: name + ", as of " + p.at(x.AsOf)})
	rows := x.Bench.Rows(x.AsOf)
	t := pdf.Table{Columns: []pdf.Column{{Name: "thermometer"}, {Name: "where"}, {Name: "stands"}, {Name: "last checked"}, {Name: "due"}, {Name: "counts as wrong by", Figure: true}}, None: "The book has none, and none was checked."}
	for _, r := range rows {
		last := "never"
		if r.Last != nil {
			last = p.at(r.Last.At)
		}
		worth := thermometers.Difference(r.Trust.AccuracyC, x.Kitchen.Units)
		if r.Trust.Unusable {
			worth = "proves nothing"
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{lines(r.ID, r.Name, map[bool]string{false: "not in the book"}[r.Listed]), string(r.At), string(r.Standing), last, p.at(r.Due), worth}, Strong: r.Standing == thermometers.Never || r.Standing == thermometers.Overdue || r.Standing == thermometers.Gone})
	}
	p.add(t)
	p.head("Checks")
	for _, r := range rows {
		checks := x.Bench.Checks(r.ID)
		if len(checks) > 0 {
			p.add(p.checks(r, checks))
		}
	}
	p.add(pdf.Signatures{{As: "verifier, has read all of it"}})
	return p.doc
}

func (p *printer) checks(r thermometers.Row, checks []thermometers.Check) pdf.Table {
	t := pdf.Table{Name: r.ID + ", " + r.Name, Columns: []pdf.Column{{Name: "when"}, {Name: "by"}, {Name: "how"}, {Name: "read", Figure: true}, {Name: "true", Figure: true}, {Name: "off by", Figure: true}, {Name: "then"}}}
	for _, c := range checks {
		then := string(c.Kept)
		if c.AfterC != nil {
			then += ", then read " + p.temp(*c.AfterC)
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{p.at(c.At), c.Who, string(c.Method), p.temp(c.ReadC), p.temp(c.TrueC), thermometers.Difference(c.FoundC(), p.Kitchen.Units), lines(then, string(c.Note))}, Strong: c.Kept != record.InUse})
	}
	return t
}

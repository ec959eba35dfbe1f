package folder

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/pdf"
)

var sortWords = map[string]string{string(lots.Goods): "received", string(lots.Batch): "made", string(lots.Packs): "packed", string(lots.Unknown): "unknown"}

func (p *printer) lots() {
	p.head("Lots")
	asked := pdf.Table{Name: "Asked for", Columns: []pdf.Column{{Name: "lot"}, {Name: "what"}, {Name: "when, run"}, {Name: "how much", Figure: true}, {Name: "best before"}, {Name: "where it is"}}, None: "No lot fits what was asked."}
	behind := pdf.Table{Name: "What went into them", Columns: []pdf.Column{{Name: "lot"}, {Name: "what"}, {Name: "when"}, {Name: "came", Figure: true}, {Name: "supplier, their lot"}}, None: "Nothing that went into them is told."}
	for _, l := range p.Lots {
		what := strings.TrimSpace(sortWords[l.Sort] + ": " + cmp.Or(l.What, "nobody said what"))
		if l.Asked {
			asked.Rows = append(asked.Rows, pdf.Row{Cells: []string{string(l.Lot), what, lines(p.at(l.Born), l.Run), p.amount(l), string(cmp.Or(l.BestBefore, l.UseBy)), p.whereIs(l)}})
			continue
		}
		if l.Sort == string(lots.Pot) { // nobody can hold it in their hands; it stands in the flows
			continue
		}
		from := l.Supplier
		if l.Sort == string(lots.Goods) {
			from += ", " + cmp.Or(l.SupplierLot, "their lot was not written down")
		} else if l.Run != "" {
			from = "run " + l.Run
		}
		behind.Rows = append(behind.Rows, pdf.Row{Cells: []string{string(l.Lot), what, p.at(l.Born), p.mass(l.Came), from}})
	}
	p.add(asked, behind)
	flow := pdf.Table{Name: "What went from which into which", Columns: []pdf.Column{{Name: "from"}, {Name: "into"}, {Name: "mass", Figure: true}}}
	for _, f := range p.Flows {
		flow.Rows = append(flow.Rows, pdf.Row{Cells: []string{string(f.From), string(f.To), p.mass(f.Mass)}})
	}
	p.add(flow)
}

func lines(all ...string) string {
	var some []string
	for _, s := range all {
		if s != "" {
			some = append(some, s)
		}
	}
	return strings.Join(some, "\n")
}

func (p *printer) amount(l LotRow) string {
	if l.Numbers != "" {
		return lines("no. "+l.Numbers, "of "+p.mass(l.Label))
	}
	return p.mass(l.Came)
}

// whereIs is where a lot is now, as the records tell.
func (p *printer) whereIs(l LotRow) string {
	var all []string
	for _, s := range l.Here {
		what := p.mass(s.Mass)
		if s.Numbers != "" {
			what = "no. " + s.Numbers
		}
		all = append(all, fmt.Sprintf("%s at %s", what, cmp.Or(string(s.Place), "a place that nobody told")))
	}
	customers := map[string]bool{}
	for _, h := range l.Handed {
		customers[h.Customer] = true
	}
	if len(l.Handed) > 0 {
		all = append(all, fmt.Sprintf("handed over to %s", counted(len(customers), "customer")))
	}
	for _, x := range [...]struct{ lead, what string }{{"written off: ", l.Off}, {"opened and cooked again: no. ", l.Reused}, {"not found: no. ", l.NotFound}} {
		if x.what != "" {
			all = append(all, x.lead+x.what)
		}
	}
	return cmp.Or(lines(all...), "nothing is left, or nobody told")
}

func (p *printer) plans() {
	p.head("Hazard plans")
	if len(p.Plans) == 0 {
		p.says("None was in the records when these lots were packed.")
	}
	for _, x := range p.Plans {
		p.plan(x)
	}
}

func (p *printer) rules() {
	p.head("Rules that the kitchen holds")
	rules := pdf.Table{Columns: []pdf.Column{{Name: "about"}, {Name: "limit"}, {Name: "source"}, {Name: "remarks"}}, None: "None are chosen in the book."}
	for _, r := range p.Rules {
		var remarks []string
		if r.Changed != "" {
			remarks = append(remarks, map[bool]string{true: "LAXER than published: ", false: "stricter than published: "}[r.Laxer]+r.Changed)
		}
		if r.Confirm != "" {
			remarks = append(remarks, "not read in a published text: "+r.Confirm+"; it stops nothing")
		}
		rules.Rows = append(rules.Rows, pdf.Row{Cells: []string{lines(r.Topic, r.Food), r.Limit, r.Source, strings.Join(remarks, "\n")}, Strong: r.Laxer})
	}
	p.add(rules)
}

func (p *printer) plan(x Plan) {
	p.add(pdf.Heading{Level: 2, Text: fmt.Sprintf("Hazard plan for %s, version %d", x.Pack, x.Version)})
	if !x.Accepted {
		p.add(pdf.Paragraph{Text: "DRAFT: no qualified person has accepted this version.", Tone: pdf.Loud})
	}
	facts := pdf.Facts{{Name: "Entered", Is: p.at(x.At) + " by " + x.Who}, {Name: "Rests on", Is: x.Basis}}
	if x.Note != "" {
		facts = append(facts, pdf.Fact{Name: "Note", Is: x.Note})
	}
	for _, r := range x.Reviews {
		says := fmt.Sprintf("%s on %s by %s (%s), entered by %s", r.Outcome, p.at(r.At), r.Reviewer, r.Qualified, r.Entered)
		facts = append(facts, pdf.Fact{Name: "Reviewed", Is: lines(says, prefixed("authority: ", r.Authority), r.Why)})
	}
	p.add(facts, points(x.plan), opens(x.plan))
}

func prefixed(lead, text string) string {
	if text == "" {
		return ""
	}
	return lead + text
}

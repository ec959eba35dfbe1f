package folder

import (
	"fmt"
	"strings"

	"kettlefrost/internal/critical"
	"kettlefrost/internal/pdf"
)

// estimates are what heat did and what may have grown, each with where it comes from. They decide nothing.
func (p *printer) estimates(r Record) (facts []pdf.Fact) {
	if r.Lethality != nil {
		facts = append(facts, pdf.Fact{Name: "What heat did", Is: p.lethality(*r.Lethality)})
	}
	if g := r.Growth; g != nil {
		var each []string
		for _, x := range g.Each {
			each = append(each, fmt.Sprintf("%s %.2f", x.Product, x.Log10))
		}
		says := fmt.Sprintf("Clostridium perfringens: %.2f to %.2f log10 by the model (%s)", g.Least, g.Most, strings.Join(each, ", "))
		facts = append(facts, pdf.Fact{Name: "Growth while cooling", Is: lines(says, g.Note, g.Doubts, prefixed("source: ", g.Source))})
	}
	return facts
}

func (p *printer) lethality(l critical.Lethality) string {
	var all []string
	if l.Where != "" {
		all = append(all, "at "+l.Where)
	}
	for _, t := range l.Tables {
		all = append(all, fmt.Sprintf("%s: %s the row %g °F for %.0f s of the table; held %.0f s (%s)", t.Class, map[bool]string{true: "meets", false: "does not meet"}[t.Met], t.RowF, t.HoldS, t.HeldS, t.Source))
	}
	for _, t := range l.Targets {
		says := fmt.Sprintf("%s: %.1f s at %s added up, each interval at its colder end, of %.0f s (%s)", t.Name, t.SafeS, p.temp(t.RefC), t.NeedS, t.Source)
		if t.Confirm != "" {
			says += "; not read in a published text: " + t.Confirm
		}
		all = append(all, says)
	}
	for _, w := range l.Without {
		all = append(all, "no published table is held here for "+w)
	}
	return lines(append(all, l.Assumes...)...)
}

package web

import (
	"strconv"

	"kettlefrost/internal/netcontents"
	"kettlefrost/internal/unit"
)

// granted is by how much the average of a lot may be short, with the factor that gives it. The plan has judged and names the rules; these
// are figures of the same rules. Nothing is said where they do not judge the average.
func (x fillingSays) granted() []factRow {
	rules := rulesOf(x.Net.Rules)
	own, ok := x.evaluate(rules)
	if !ok || own.Plan.Average == 0 {
		return nil
	}
	if rules == netcontents.OwnCheck {
		says := "the average must reach the label"
		if theirs, ok := x.evaluate(netcontents.Handbook133); ok {
			says += "; an inspector's factor is " + factor(theirs.Plan.Factor) + ", which lets it be short by " + x.scale.show(unit.MassKg(theirs.LimitG/1000))
		}
		return []factRow{{"Sample correction factor", "none", "a check of one's own takes no benefit of the doubt"}, {"Sample error limit", x.scale.show(0), says}}
	}
	return []factRow{{"Sample correction factor", factor(own.Plan.Factor), "of the rules, for a lot of this size"},
		{"Sample error limit", x.scale.show(unit.MassKg(own.LimitG / 1000)), "so much may the average be short: the factor times the sample's scatter"}}
}

// evaluate is the lot by a set of rules; false when they do not reach so far, or another number of packs was weighed than they take.
func (x fillingSays) evaluate(rules netcontents.Rules) (netcontents.Verdict, bool) {
	v, err := netcontents.Evaluate(netcontents.Lot{Terms: netcontents.Terms{Rules: rules, Lot: x.Lot, Label: x.Label, LabelIn: x.Units}, Gross: x.Nets, Net: true})
	return v, err == nil
}

// rulesOf are the rules of that name; 0 when there are none.
func rulesOf(name string) netcontents.Rules {
	for r := netcontents.Handbook133; r <= netcontents.Directive76211; r++ {
		if r.String() == name {
			return r
		}
	}
	return 0
}

func factor(f float64) string { return strconv.FormatFloat(f, 'f', 3, 64) }

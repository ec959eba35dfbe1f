package web

import (
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/plan"
)

// asksForVacuum is whether the page has to say what vacuum does: no finding of the plan says it.
func asksForVacuum(p plan.Plan) bool {
	return !slices.ContainsFunc(p.Findings, func(f finding.Finding) bool { return f.Code == plan.CodeVacuum })
}

// plannedOf is what the plan says of a kind of pack beyond its count.
func plannedOf(p plan.Plan, pack string, rd reader) []string {
	i := slices.IndexFunc(p.Fill, func(f plan.PackFill) bool { return f.Pack == pack })
	if i < 0 {
		return nil
	}
	f := p.Fill[i]
	says := fillRange(f)
	if f.Time > 0 {
		says = append(says, "about "+rd.span(f.Time)+" for all")
	}
	if f.Proof != "" {
		says = append(says, "the split is "+f.Proof)
	}
	return says
}

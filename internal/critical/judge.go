package critical

import (
	"slices"

	"kettlefrost/internal/haccp"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
)

// Judge is every critical record of a production as it stands: cooking and cooling of each load, and the signed checks of each lot of packs.
// Work is what is heated and chilled in it, as planned.
func (p Production) Judge(work []plan.Handled, set Setting) []Verdict {
	var all []Verdict
	for _, n := range p.needs(work, set) {
		if n.v.What == Cooling {
			all = append(all, p.cooling(n, set))
		} else {
			all = append(all, p.cooking(n, set))
		}
	}
	return append(append(all, p.signedChecks(set)...), p.unplanned(work, set)...)
}

// unplanned finds packs whose records cannot be named: their pack has no control points, or what is made of their dish cannot be worked out.
func (p Production) unplanned(work []plan.Handled, set Setting) []Verdict {
	var all []Verdict
	for t, b := range of[record.Packed](p) {
		x, known := set.Plans[b.Pack]
		why := x.Problem
		switch {
		case !known:
			why = "the book has no pack " + b.Pack
		case why == "" && heats(x) && !slices.ContainsFunc(work, func(h plan.Handled) bool { return h.Dish == x.Dish }):
			why = "the loads of " + x.Dish + " in this run cannot be worked out"
		}
		if why == "" {
			continue
		}
		all = append(all, Verdict{Point: p.Name + "/" + string(b.Lot) + "/" + string(Unplanned), What: Unplanned, Run: p.Name, Lot: b.Lot, Dish: x.Dish, Packs: []string{b.Pack}, Title: "The critical records of " + string(b.Lot),
			Limit: "every lot has a hazard plan, which says what is recorded", Gates: true, Outcome: Missing, Why: WhyNoLoads, Says: why, Fix: "put the pack, its dish and its plan in order in the book", Due: t.Happened})
	}
	return all
}

// Unplanned is a lot of which nobody can say what its critical records are.
const Unplanned What = "plan"

// heats says whether a plan has control points at loads.
func heats(x Plan) bool {
	return slices.ContainsFunc(x.Points, func(p haccp.Point) bool { return p.Stage == haccp.CookingStage || p.Stage == haccp.CoolingStage })
}

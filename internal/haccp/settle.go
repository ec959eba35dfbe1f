package haccp

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// settle puts hazards and points in the order of the flow, numbers the points, and says at each hazard which point keeps it down. cooked are
// the steps that cook each ingredient.
func (p *Plan) settle(cooked map[string][]string) {
	order := map[string]int{}
	for i, s := range p.Flow {
		order[s.ID] = i
		p.Flow[i].Point = ""
	}
	slices.SortStableFunc(p.Points, func(a, b Point) int { return cmp.Compare(order[a.Step], order[b.Step]) })
	slices.SortStableFunc(p.Hazards, func(a, b Hazard) int { return cmp.Compare(order[a.Step], order[b.Step]) })
	for i := range p.Points {
		x := &p.Points[i]
		x.Number, x.Hazards = fmt.Sprintf("CCP %d", i+1), nil
		box := &p.Flow[order[x.Step]]
		box.Point = strings.Trim(box.Point+", "+x.Number, ", ")
	}
	for k := range p.Hazards {
		h := &p.Hazards[k]
		var at []string
		for i := range p.Points {
			if x := &p.Points[i]; h.keptBy(*x, cooked) {
				at = append(at, x.Number)
				if !slices.Contains(x.Hazards, h.What) {
					x.Hazards = append(x.Hazards, h.What)
				}
			}
		}
		h.Point = strings.Join(at, ", ")
	}
	p.science()
	p.principles()
	p.ask()
}

// ask tells what is open once people have had their say.
func (p *Plan) ask() {
	for _, h := range p.Hazards {
		if h.Significant && h.Point == "" && h.Programme == "" && len(h.cooks) == 0 { // what is not cooked, or not watched, is told by its ingredient
			p.Open = append(p.Open, Open{HazardNoPoint, true, "step " + h.Step, h.What + " is significant, and neither a control point nor a programme keeps it down", "name the point or the programme, or say why it is not significant"})
		}
	}
	for _, x := range []struct {
		said bool
		Open
	}{
		{len(p.Team) > 0, Open{TeamNotNamed, false, "team", "nobody is named who made the plan", "name those who did, and what each knows"}},
		{p.Walked != "", Open{FlowNotWalked, false, "flow", "nobody has held the flow against the work as it is really done", "walk it during a run, and enter who did and when"}},
		{p.Life != "", Open{LifeNotSaid, false, "shelf life", "nobody has said how long it keeps, and how that is known", "enter it, from your own taste tests or a published table"}},
	} {
		if !x.said {
			p.Open = append(p.Open, x.Open)
		}
	}
}

// keptBy says whether a point is what keeps a hazard down.
func (h Hazard) keptBy(x Point, cooked map[string][]string) bool {
	switch {
	case !h.Significant:
		return false
	case h.at != "":
		return x.Key == h.at
	case len(h.cooks) > 0:
		return x.Stage == CookingStage && slices.ContainsFunc(h.cooks, func(g string) bool { return slices.Contains(cooked[g], x.Step) })
	case h.later == CookingStage:
		return x.Stage == CookingStage && x.Step == h.Step
	}
	return h.later != "" && x.Stage == h.later
}

// science is what the limits rest on, each source once.
func (p *Plan) science() {
	p.Science = nil
	for _, x := range p.Points {
		says := x.Limit.Source
		if x.Limit.Confirm != "" {
			says += " (from memory, to be confirmed: " + x.Limit.Confirm + ")"
		}
		if !slices.Contains(p.Science, says) {
			p.Science = append(p.Science, says)
		}
	}
}

// principles says of each principle (Codex CXC 1-1969) how the plan answers it.
func (p *Plan) principles() {
	significant, numbers := 0, make([]string, len(p.Points))
	for _, h := range p.Hazards {
		if h.Significant {
			significant++
		}
	}
	for i, x := range p.Points {
		numbers[i] = x.Number + " " + x.Step
	}
	points := strings.Join(numbers, ", ")
	if points == "" {
		points = "none"
	}
	p.Principles = [7]Principle{
		{"Hazard analysis", fmt.Sprintf("%d hazards, %d of them significant", len(p.Hazards), significant)},
		{"Critical control points", points},
		{"Critical limits", "at each point, with its source"},
		{"Monitoring", "at each point: what, how, how often, who"},
		{"Corrective actions", "at each point"},
		{"Verification", "at each point; a review of the plan when anything it rests on changes, and once a year"},
		{"Records", "at each point; kept two years, or a year longer than the packs, whichever is longer (own rule: ask the authority how long)"},
	}
}

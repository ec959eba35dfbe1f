package web

import (
	"cmp"
	"strings"

	"kettlefrost/internal/dishgraph"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// outputName is what a step gives, for people.
func outputName(o kitchen.Output) string {
	if o.Name != "" {
		return o.Name
	}
	return strings.ReplaceAll(string(o.ID), "-", " ")
}

// useName is what a line of a step is of.
func useName(b kitchen.Book, d kitchen.Dish, u kitchen.Use) string {
	if u.Of != "" {
		return cmp.Or(b.Ingredients[u.Of].Name, string(u.Of))
	}
	if i := dishgraph.Giver(d, u.From); i >= 0 {
		for _, o := range d.Steps[i].Outputs() {
			if o.ID == u.From {
				return outputName(o)
			}
		}
	}
	return string(u.From)
}

// useSaid is how much of it, as it is written.
func useSaid(u kitchen.Use) string {
	switch {
	case u.Take.Given && u.Take.Share == unit.Whole:
		return "all of it"
	case u.Take.Given:
		return u.Take.Share.String() + " of it"
	case u.Amount.Kind == 0:
		return "how much is not said"
	}
	return u.Amount.String()
}

// goesTo is where an output goes.
func goesTo(d kitchen.Dish, o kitchen.Output, codes map[string]string) string {
	var to []string
	for _, i := range dishgraph.Takers(d, o.ID) {
		to = append(to, codes[d.Steps[i].ID])
	}
	if len(to) == 0 {
		return ""
	}
	return "to " + strings.Join(to, " and ")
}

// stepFacts are the temperature, time and hands of a step, as they are written.
func stepFacts(s kitchen.Step, rd reader) []string {
	var facts []string
	if s.Stays {
		facts = append(facts, "in the same pot")
	}
	if s.HeatTo != nil {
		f := rd.fig(*s.HeatTo)
		facts = append(facts, "to "+f.First+map[bool]string{true: " (" + f.Second + ")"}[f.Second != ""])
	}
	if s.Time > 0 {
		facts = append(facts, rd.span(s.Time))
	}
	if s.Loses.ReduceTo > 0 {
		facts = append(facts, "boiled down to "+s.Loses.ReduceTo.String())
	}
	if s.Pace > 0 {
		facts = append(facts, "hands "+s.Pace.Show(rd.units))
	}
	if s.Hands.Throughout {
		facts = append(facts, "somebody stands by all the time")
	}
	if s.Skill != "" {
		facts = append(facts, "skill: "+string(s.Skill))
	}
	return facts
}

// equipmentOf is where a step may be done, as it is written.
func equipmentOf(b kitchen.Book, s kitchen.Step) string {
	var names []string
	for _, id := range s.In {
		names = append(names, cmp.Or(b.Equipment[id].Name, string(id)))
	}
	return strings.Join(names, " or ")
}

package web

import (
	"fmt"

	"kettlefrost/internal/plan"
)

// freezeView is what the freezers have to do.
type freezeView struct {
	Grave    []reminder
	Packs    []packFreeze
	Methods  []method
	Freezers []freezerView
	Load     figure
	PerDay   figure
	Rule     figure
	RuleLow  figure
	Room     figure
	Days     string
	Source   string
}

type packFreeze struct {
	Name      string
	Freezer   string
	Thickness figure
	From, To  figure
	Time      string
	Plank     string
	Begins    figure
}

type freezerView struct {
	Name            string
	ByHeat          figure
	RuleLow, RuleHi figure
	Room            figure
}

func viewFreeze(p plan.Plan, r reader) freezeView {
	f := p.Freeze
	v := freezeView{Grave: graveFor(p, atFreeze), Load: r.fig(f.Load), PerDay: r.fig(f.PerDay), Rule: r.fig(f.RuleHigh), RuleLow: r.fig(f.RuleLow),
		Room: r.fig(f.Room), Source: f.Source}
	if f.Days > 0 {
		v.Days = fmt.Sprintf("%.1f days", f.Days)
	}
	for _, k := range f.Packs {
		v.Packs = append(v.Packs, packFreeze{Name: k.Name, Freezer: k.Freezer, Thickness: r.fig(k.Thickness), From: r.fig(k.From), To: r.fig(k.To),
			Time: r.span(k.Time), Plank: r.span(k.Plank), Begins: r.fig(k.Begins)})
		v.Methods = addMethod(v.Methods, k.Name, k.Formula)
	}
	for _, z := range f.Freezers {
		v.Freezers = append(v.Freezers, freezerView{Name: z.Name, ByHeat: r.fig(z.ByHeat), RuleLow: r.fig(z.RuleLow), RuleHi: r.fig(z.RuleHigh), Room: r.fig(z.Room)})
	}
	return v
}

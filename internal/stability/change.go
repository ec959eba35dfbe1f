package stability

import (
	"cmp"
	"slices"
)

// change is a pot with something done to the components that a finding is about.
type change func(p Pot, about []string) Pot

// triedXanthan is the dose that is tried, as a share of the pot: what kept slowly frozen pastes smooth.
const triedXanthan = xanthanFull

// changes are the remedies that can be tried, each without what the others do.
var changes = map[string]change{
	"at-reheating": each(func(c *Component) { c.Joins = AtReheating }),
	"leave-out": func(p Pot, about []string) Pot {
		p.Components = slices.DeleteFunc(slices.Clone(p.Components), func(c Component) bool { return slices.Contains(about, c.Name) })
		return p
	},
	"puree":       each(func(c *Component) { c.Pureed = true }),
	"firm-potato": each(func(c *Component) { c.Waxy, c.Cooked = true, Undercooked }),
	"undercook":   each(func(c *Component) { c.Cooked = Undercooked }),
	"cook":        each(func(c *Component) { c.Cooked = Through }),
	"pack-apart":  each(func(c *Component) { c.Joins = Apart }),
	"melt-in":     each(func(c *Component) { c.Joins, c.Cooked = CookedIn, Through }),
	"salt-egg":    each(func(c *Component) { c.Salted = true }),
	"rich-cream": each(func(c *Component) {
		c.Facts.Water -= max(0, richCream-c.Facts.Fat)
		c.Facts.Fat, c.Joins, c.Cooked = max(richCream, c.Facts.Fat), CookedIn, Through
	}),
	"waxy": each(func(c *Component) {
		if c.Role == Flour || c.Role == NativeStarch {
			c.Role = WaxyStarch
		}
	}),
	"faster":     func(p Pot, _ []string) Pot { p.FrontMMH = max(p.FrontMMH, fastFront); return p },
	"no-air":     func(p Pot, _ []string) Pot { p.AirInPack = false; return p },
	"few-weeks":  func(p Pot, _ []string) Pot { p.Weeks = 4; return p },
	"xanthan":    addXanthan,
	"citrate":    addCitrate,
	"acid-later": acidLater,
}

// each changes what the finding is about, and leaves the rest.
func each(do func(*Component)) change {
	return func(p Pot, about []string) Pot {
		p.Components = slices.Clone(p.Components)
		for i := range p.Components {
			if slices.Contains(about, p.Components[i].Name) {
				do(&p.Components[i])
			}
		}
		return p
	}
}

func addXanthan(p Pot, _ []string) Pot {
	s := p.sums()
	if missing := triedXanthan*s.sauce - s.paste.Xanthan; missing > 0 {
		p.Components = append(slices.Clone(p.Components), Component{Name: "xanthan", MassKg: missing, Role: Gum, Gum: Xanthan})
	}
	return p
}

func addCitrate(p Pot, _ []string) Pot {
	s := p.sums()
	low := remedy("citrate").Low
	if missing := low*s.needyCheese - s.citrate; missing > 0 {
		p.Components = append(slices.Clone(p.Components), Component{Name: "trisodium citrate", MassKg: missing, Role: EmulsifyingSalt})
	}
	return p
}

// acidLater takes the sour liquids out of what freezes. The pH is then not known; where nothing sour was found it stays as it is.
func acidLater(p Pot, about []string) Pot {
	p.Components = slices.Clone(p.Components)
	for i, c := range p.Components {
		if c.Role == Acid && slices.Contains(about, c.Name) {
			p.Components[i].Joins, p.PH = AtReheating, 0
		}
	}
	return p
}

// try reviews the pot with each remedy of a finding that can be tried, and says what is left of the finding, under whatever code it then has.
// What leaves least comes first, what could not be tried last.
func (p Pot) try(f *Finding) {
	for i := range f.Remedies {
		m := &f.Remedies[i]
		do, known := changes[m.ID]
		if !known {
			continue
		}
		q := do(p, f.Components)
		if len(q.frozen()) == 0 {
			continue
		}
		m.Tried, m.After = true, q.review().left(*f)
	}
	slices.SortStableFunc(f.Remedies, func(a, b Remedy) int { return cmp.Compare(a.rank(), b.rank()) })
}

func (r Remedy) rank() Severity {
	if !r.Tried {
		return LeaveOut + 1
	}
	return r.After
}

// left is the worst that is found of the components that a finding is about, or of the pot where it is about that.
func (r Review) left(f Finding) Severity {
	worst := Good
	for _, g := range r.Findings {
		about := g.Code == f.Code
		for _, c := range f.Components {
			about = about || byFood(g.Code) && byFood(f.Code) && slices.Contains(g.Components, c)
		}
		if about {
			worst = max(worst, g.Severity)
		}
	}
	return worst
}

// byFood says whether a code is of a rule of the tables: one component has one of them, and another one when it is changed.
func byFood(code string) bool {
	return slices.ContainsFunc(rules, func(r rule) bool { return r.code == code })
}

package stability

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
)

// Review is what is to be said of a pot.
type Review struct {
	Findings   []Finding // the worst first
	Passed     []Passed  // what the tables warn of and this pot need not
	Protection Protection
	WeepScore  float64  // 0 to 1, an order and no measurement
	Assumed    []string // what was not given and how it was taken
	Unknown    []string // components of which nothing is known
}

// Worst is the gravest severity.
func (r Review) Worst() Severity {
	worst := Good
	for _, f := range r.Findings {
		worst = max(worst, f.Severity)
	}
	return worst
}

// Of reviews a pot, and tries each remedy that can be tried on it. Errors: *InputError.
func Of(p Pot) (Review, error) {
	if err := p.check(); err != nil {
		return Review{}, err
	}
	r := p.review()
	for i := range r.Findings {
		p.try(&r.Findings[i])
	}
	return r, nil
}

// review is the findings without any remedy tried.
func (p Pot) review() Review {
	s := p.sums()
	r := Review{Protection: s.protection(), WeepScore: WeepScore(s.ofSauce())}
	r.foods(p, s)
	r.starch(p, s)
	r.cheeseSauce(p, s)
	r.acid(p, s)
	r.creamed(p, s)
	r.gums(s)
	r.seasoning(p)
	r.pack(p)
	r.assume(p)
	slices.SortStableFunc(r.Findings, func(a, b Finding) int { return cmp.Compare(b.Severity, a.Severity) })
	return r
}

// assume tells what was not given, how it was taken, and of what nothing is known.
func (r *Review) assume(p Pot) {
	for _, c := range p.frozen() {
		if c.rawMatters() && c.Cooked == CookingNotSaid {
			r.Assumed = append(r.Assumed, fmt.Sprintf("whether %s is cooked is not said: taken as raw", c.Name))
		}
		if c.joiningMatters() && c.Joins == JoiningNotSaid {
			r.Assumed = append(r.Assumed, fmt.Sprintf("how %s gets into the pot is not said: taken as stirred in cold", c.Name))
		}
		switch c.Role {
		case Other:
			r.Unknown = append(r.Unknown, c.Name)
		case Flour, NativeStarch, WaxyStarch, ModifiedStarch:
			if c.Facts.Starch == 0 {
				r.Assumed = append(r.Assumed, fmt.Sprintf("the starch of %s is not given: taken as %.0f %%", c.Name, 100*c.starchShare()))
			}
			if c.Role == NativeStarch && c.Starch == UnknownStarch {
				r.Assumed = append(r.Assumed, fmt.Sprintf("what %s is from is not given: taken as corn", c.Name))
			}
		}
	}
	if p.FrontMMH == 0 && r.Protection.Starch > 0 {
		r.Assumed = append(r.Assumed, "how fast it freezes is not known: taken as slower than 1 mm/h")
	}
}

// add is a finding, or something passed where nothing of it is left.
func (r *Review) add(f Finding, remedies ...string) {
	if f.Severity == Good {
		if f.ByItself > Good {
			r.Passed = append(r.Passed, Passed{f.Code, f.Components, f.ByItself, f.Because})
		}
		return
	}
	for _, id := range remedies {
		f.Remedies = append(f.Remedies, remedy(id))
	}
	r.Findings = append(r.Findings, f)
}

// foods goes by the tables: everything that one rule is about counts together.
func (r *Review) foods(p Pot, s sums) {
	type group struct {
		kg    float64
		names []string
		apart bool
	}
	groups := map[string]*group{}
	for _, c := range p.Components {
		rule, ok := p.ruleFor(c)
		if !ok || c.Joins == AtReheating {
			continue
		}
		if why := c.spared(rule); why != "" {
			r.pass(rule, c.Name, why)
			continue
		}
		g := groups[rule.code]
		if g == nil {
			g = &group{}
			groups[rule.code] = g
		}
		g.kg, g.apart = g.kg+c.MassKg, g.apart || c.Joins == Apart
		if !slices.Contains(g.names, c.Name) {
			g.names = append(g.names, c.Name)
		}
	}
	for _, rule := range rules {
		g := groups[rule.code]
		if g == nil {
			continue
		}
		of := share(g.kg, s.pot)
		if g.apart { // a pack of its own is all of it
			of = 1
		}
		severity, because := weigh(rule.severity, rule.spread, of, r.Protection)
		r.add(Finding{Code: rule.code, Components: g.names, Severity: severity, ByItself: rule.severity, Mechanism: rule.mechanism, Because: because,
			Figures: append([]finding.Figure{percent("share of the pot", of)}, r.Protection.figures()...), Source: rule.source, Confirm: rule.confirm}, rule.remedies...)
	}
}

// pass is a rule that does not count for a component, told once for all of which the same is said.
func (r *Review) pass(of rule, name, why string) {
	for i := range r.Passed {
		if p := &r.Passed[i]; p.Code == of.code && p.Why == why {
			if !slices.Contains(p.Components, name) {
				p.Components = append(p.Components, name)
			}
			return
		}
	}
	if of.severity > Good {
		r.Passed = append(r.Passed, Passed{of.code, []string{name}, of.severity, why})
	}
}

// names are the components of some roles that freeze with the pot, what is set within pieces left out.
func (p Pot) names(of ...Role) []string {
	var all []string
	for _, c := range p.frozen() {
		if slices.Contains(of, c.Role) && !c.Inside && !slices.Contains(all, c.Name) {
			all = append(all, c.Name)
		}
	}
	return all
}

// kg is the mass of some roles that freeze with the pot, what is set within pieces left out.
func (p Pot) kg(of ...Role) float64 {
	var sum float64
	for _, c := range p.frozen() {
		if slices.Contains(of, c.Role) && !c.Inside {
			sum += c.MassKg
		}
	}
	return sum
}

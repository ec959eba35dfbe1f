package heatcase

import (
	"cmp"
	"errors"
	"slices"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/vessel"
)

// Answer computes a case three times, with the usual, the low and the high surface coefficients, and puts beside it what is known of
// the food and what handbook formulas say. Errors: *CaseError when Check finds something; *heat.RangeError and *heat.NeverError when an
// engine refuses what Check let through.
func (c Case) Answer() (Answer, error) {
	q, err := c.question()
	if err != nil {
		return Answer{}, err
	}
	return q.answer()
}

func (q question) answer() (Answer, error) {
	a := Answer{Schema: Schema, Process: q.Process, Question: q.words(), Case: q.Given(), Units: q.Units, FromC: q.from, ToC: q.to, Marks: q.marks, By: q.by(),
		Food: q.foodUsed(), Sides: q.sidesUsed()}
	for _, l := range []level{usualFilm, lowFilm, highFilm} {
		run, reached, err := q.run(l)
		if err != nil {
			return Answer{}, err
		}
		a.Runs = append(a.Runs, run)
		for i := range a.Marks {
			a.Marks[i].put(l, reached[i])
		}
	}
	for i := range a.Marks {
		a.Marks[i].order()
	}
	a.Time = a.Marks[len(a.Marks)-1].Band
	a.Methods = q.methods(a.Time.Usual.TimeS)
	if !a.Time.Usual.Reached {
		a.Methods = []Method{}
	}
	var err error
	if a.Heat, err = q.heat(a.Time.Usual); err != nil {
		return Answer{}, err
	}
	if q.Process == Cool {
		if a.Verdict, err = verdict(q.from, a.Marks); err != nil {
			return Answer{}, err
		}
	}
	a.Findings = q.findings(a)
	a.Sources = q.sources(a)
	return a, nil
}

func (q question) run(l level) (Run, []Reach, error) {
	if q.Stir != Unstirred {
		return q.stirred(l)
	}
	run, reached, err := q.simulate(l)
	if err == nil && len(reached) != len(q.marks) {
		err = errors.New("the simulation does not answer for every mark")
	}
	return run, reached, err
}

func (b *Band) put(l level, r Reach) {
	switch l {
	case lowFilm:
		b.Slow = r
	case highFilm:
		b.Fast = r
	default:
		b.Usual = r
	}
}

// order makes the slow end the latest and the fast end the soonest of the three: where water evaporates into air that is warm already, a
// better film warms the wet surface and delays it.
func (b *Band) order() {
	all := []Reach{b.Slow, b.Usual, b.Fast}
	b.Slow, b.Fast = slices.MaxFunc(all, Reach.compare), slices.MinFunc(all, Reach.compare)
}

// compare is negative when r is sooner than s; what is not reached is the latest.
func (r Reach) compare(s Reach) int {
	switch {
	case r.Reached && !s.Reached:
		return -1
	case !r.Reached && s.Reached:
		return 1
	}
	return cmp.Compare(r.TimeS, s.TimeS)
}

func (q question) by() string {
	if q.Stir != Unstirred {
		return "Newton's law of cooling for a pot of one temperature"
	}
	return "finite volumes in the enthalpy, implicit; conduction only: nothing mixes by itself"
}

func (q question) heat(usual Reach) (Heat, error) {
	joules, err := q.food.HeatJKg(q.from, q.to)
	if err != nil {
		return Heat{}, err
	}
	h := Heat{KJKg: joules / 1000, PieceKg: q.pieceKg()}
	h.PieceKJ = h.KJKg * h.PieceKg
	if usual.Reached && usual.TimeS > 0 {
		h.MeanW = h.PieceKJ * 1000 / usual.TimeS
	}
	if around, _, _ := q.sides(); joules > 0 && iceBath(around) {
		h.IceKg, err = vessel.IceKg(joules*h.PieceKg, 0, max(0, around.tempC))
	}
	return h, err
}

func iceBath(s side) bool {
	return !s.closed && (s.medium.ID == "ice-bath-still" || s.medium.ID == "ice-bath-stirred")
}

func (q question) foodUsed() FoodUsed {
	f := q.food
	u := FoodUsed{Name: q.r.name, Source: q.r.source, Composition: Fractions(q.r.composition), DensityKgM3: f.DensityKgM3, UnfrozenHeatKJKgK: f.UnfrozenHeatJKgK / 1000,
		FrozenHeatKJKgK: f.FrozenHeatJKgK / 1000, FreezableKJKg: f.FreezableJKg / 1000, UnfrozenConductivityWMK: f.UnfrozenConductivityWMK,
		FrozenConductivityWMK: f.FrozenConductivityWMK, FreezesAtC: q.r.freezesC, FreezesAtFrom: q.r.freezesFrom, FreezesAtAssumed: q.r.assumed,
		ValidFromC: heat.LowestPropertyC, ValidToC: heat.HighestPropertyC}
	if q.Name != "" {
		u.Name = q.Name
	}
	if ice, err := q.r.composition.IceShare(min(q.from, q.to), q.r.freezesC); err == nil {
		u.IceShare = ice
	}
	return u
}

func (q question) sidesUsed() []SideUsed {
	around, below, above := q.sides()
	all := []side{below, above}
	switch {
	case q.Stir != Unstirred, sameSide(below, around) && sameSide(above, around):
		all = []side{around}
	case !q.Shape.flat():
		all = append(all, around)
	}
	var used []SideUsed
	for _, s := range all {
		f := q.through(s)
		u := SideUsed{Name: s.name, Medium: s.medium.ID, Words: s.medium.Name, TempC: s.tempC, LowW: f.LowWM2K, UsualW: f.UsualWM2K, HighW: f.HighWM2K, Given: s.given,
			Note: s.medium.Note, Source: s.medium.Source}
		switch {
		case s.closed:
			u = SideUsed{Name: s.name, Medium: Closed, Words: "closed: nothing passes", Source: "as given"}
		case s.given:
			u.Source, u.Note = "coefficient as given, 30 % either way (ASHRAE research project 1123, abstract)", ""
		}
		used = append(used, u)
	}
	return used
}

// sameSide says that two sides meet the same.
func sameSide(a, b side) bool {
	return a.closed == b.closed && a.medium.ID == b.medium.ID && a.film == b.film && a.tempC == b.tempC
}

// sources is where the figures come from.
func (q question) sources(a Answer) []string {
	list := []string{a.Food.Source, "properties: Choi and Okos (1986), as tabulated in ASHRAE Handbook Refrigeration; conductivity of frozen food by Levy (1981)"}
	for _, s := range a.Sides {
		if text := s.Words + ": " + s.Source; !slices.Contains(list, text) {
			list = append(list, text)
		}
	}
	for _, m := range a.Methods {
		if m.Applies {
			list = append(list, m.Name+": "+m.Source)
		}
	}
	if a.Verdict != nil {
		list = append(list, "limit: "+a.Verdict.Source)
	}
	return list
}

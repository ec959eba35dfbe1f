package haccp

import "kettlefrost/internal/unit"

// Limit is a critical limit, with where it comes from.
type Limit struct {
	Text    string
	TempC   float64 // the temperature that decides; meaningless for limits that are not of temperature
	HoldS   float64
	Source  string
	Confirm string // what of it is not read in a published text; such a figure is no gate until the authority confirms it
}

func f(tempF float64) float64 { return unit.TempF(tempF).C() }

// cooking is how far each class must be heated, all parts of it. FDA Food Code 3-401.11, in the texts of states that adopted it.
var cooking = map[Class]Limit{
	Fish:       {"145 °F for 15 s", f(145), 15, "FDA Food Code 3-401.11(A)(1)", ""},
	IntactMeat: {"145 °F for 15 s", f(145), 15, "FDA Food Code 3-401.11(A)(1)", ""},
	GroundMeat: {"155 °F for 17 s", f(155), 17, "FDA Food Code 3-401.11(A)(2)", ""},
	Eggs:       {"155 °F for 17 s", f(155), 17, "FDA Food Code 3-401.11(A)(2), pooled eggs", ""},
	Poultry:    {"165 °F, at once", f(165), 0, "FDA Food Code 3-401.11(A)(3)", ""},
	Beans:      {"a rolling boil for 30 min, after soaking for 5 h, the water thrown away", 99, 30 * 60, "FDA, phytohaemagglutinin in beans", "the time and the soaking are from memory"},
}

// strictness puts limits in the order of what meets the others.
func stricter(a, b Limit) Limit {
	if b.TempC > a.TempC || b.TempC == a.TempC && b.HoldS > a.HoldS {
		return b
	}
	return a
}

// meets says whether a step's heat is enough for a limit.
func (s Step) meets(l Limit) bool {
	const slackC = 1e-9
	return s.HeatToC != nil && *s.HeatToC >= l.TempC-slackC && (s.HoldS >= l.HoldS || *s.HeatToC >= l.TempC+hotterC)
}

// hotterC above a limit's temperature its time is as good as none for pots that take minutes to heat: ten degrees, which by any of the z-values
// in use (5.6 to 10 °C) makes seconds into fractions of one. Beans keep their time, since no pot gets hotter than it boils.
const hotterC = 10

var (
	coldHolding  = Limit{"41 °F or colder", f(41), 0, "FDA Food Code 3-501.16", ""}
	frozenGoods  = Limit{"frozen, without signs of thawing", 0, 0, "FDA Food Code 3-202.11", "paragraph from memory"}
	coolingLimit = Limit{"135 to 70 °F within 2 h, and to 41 °F within 6 h in all", f(70), 2 * 3600, "FDA Food Code 3-501.14(A)", ""}
	ropCooling   = Limit{"the same, in bags that were sealed hot; then frozen, or to 34 °F within 48 h", f(34), 48 * 3600, "FDA Food Code 3-502.12(D)", ""}
	keptFrozen   = Limit{"kept frozen; 0 °F or colder is what the trade keeps", f(0), 0, "FDA Food Code 3-501.11 (“maintained frozen”); 0 °F is trade and consumer guidance", ""}
	labelLimit   = Limit{"every allergen of the dish stands on the label, and the label is that of the dish", 0, 0, "21 USC 343(w)", "from memory"}
)

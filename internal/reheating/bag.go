package reheating

import (
	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
)

const (
	// TargetC is 165 °F, rounded up to a tenth of a degree: what cooked and cooled food is reheated to (FDA Food Code 3-403.11; USDA
	// leftovers guidance says it for the home). It counts at once, without a hold.
	TargetC = 73.9
	// HoldC for HoldS is the equivalent in the United Kingdom.
	HoldC, HoldS = 70.0, 120.0
)

// Where the two rules come from.
const (
	TargetSource = "165 °F throughout: FDA Food Code 3-403.11 for hot holding (for 15 seconds, which is less than the margin); " +
		"USDA leftovers guidance for the home"
	HoldSource = "70 °C for 2 minutes at the coldest point: advice in the United Kingdom"
)

// Start is the state a bag is heated from.
type Start int

const (
	Frozen Start = iota // out of a freezer at 0 °F
	Thawed              // out of a refrigerator, thawed through
)

// StartC is the temperature of a bag in this state: -18 °C or 4 °C, throughout.
func (s Start) StartC() float64 {
	if s == Frozen {
		return -18
	}
	return 4
}

// String is "frozen" or "thawed".
func (s Start) String() string {
	if s == Frozen {
		return "frozen"
	}
	return "thawed"
}

func (s Start) check() error {
	return heat.InRange("start", "", float64(s), float64(Frozen), float64(Thawed))
}

// How far a filled bag is from its nominal thickness if nobody has measured: common practice has no figure, so this is our judgement of
// a bag smoothed by hand and frozen on a flat shelf.
const (
	thinShare, thickShare = 0.8, 1.3
)

// The bags for which the card is meant.
const (
	thinnestM, thickestM = 1e-3, 0.2
	lightestKg           = 0.01
	heaviestKg           = 25
)

// Bag is one filled flat bag.
type Bag struct {
	Food           heat.FreezingFood // with the constants of warm food (about 40 °C)
	MassKg         float64           // 0.01 to 25
	ThicknessM     float64           // nominal, filled and lying flat: 1 mm to 0.2 m
	ThinM, ThickM  float64           // thinnest and thickest place of such bags as measured; 0 is 20 % below and 30 % above the nominal
	PackageM2KW    float64           // what lies between water and food beyond one plastic film, 0 to 0.5: that one is in Water.Film
	Fish           bool              // there is fish in it: a vacuum pack of it is opened before thawing (FDA Food Code 3-501.13)
	ThawedKeepDays int               // how long a thawed bag may be kept, as the kitchen has validated it; 0 is not known
}

// measured is b with its defaults filled in. Errors: *heat.RangeError.
func (b Bag) measured() (Bag, error) {
	if b.ThinM == 0 {
		b.ThinM = thinShare * b.ThicknessM
	}
	if b.ThickM == 0 {
		b.ThickM = thickShare * b.ThicknessM
	}
	if err := b.Food.Check(); err != nil {
		return Bag{}, err
	}
	for _, c := range []struct {
		what, unit   string
		v, low, high float64
	}{
		{"mass of the bag", "kg", b.MassKg, lightestKg, heaviestKg},
		{"thickness of the bag", "m", b.ThicknessM, thinnestM, thickestM},
		{"thinnest place of the bag", "m", b.ThinM, thinnestM / 2, b.ThicknessM},
		{"thickest place of the bag", "m", b.ThickM, b.ThicknessM, 2 * thickestM},
		{"resistance of the package", "m²·K/W", b.PackageM2KW, 0, 0.5},
		{"days that a thawed bag keeps", "", float64(b.ThawedKeepDays), 0, 30},
	} {
		if err := heat.InRange(c.what, c.unit, c.v, c.low, c.high); err != nil {
			return Bag{}, err
		}
	}
	return b, nil
}

// slab is a bag of one thickness with both faces in a medium; a nil course is the pool around it.
func (b Bag) slab(thicknessM, startC, filmWM2K float64, course conduction.Course) (conduction.Body, error) {
	food, err := conduction.Food(b.Food)
	if err != nil {
		return conduction.Body{}, err
	}
	face := conduction.Face{FilmWM2K: filmWM2K, Medium: course}
	return conduction.Body{Material: food, Axes: []conduction.Axis{conduction.Both(thicknessM, face)}, StartC: startC}, nil
}

package homemeasure

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Class says how true an amount must be.
type Class int

const (
	Main  Class = iota // 5 %, which is how true household cups are
	Tight              // 2 %: salt, curing salt, leavening, yeast, citrate (common practice)
	Gum                // by the scale, always: a gum is too little and too strong for spoons (common practice); a measure within 5 % is told beside it
)

// String is "main", "tight" or "gum".
func (c Class) String() string {
	switch c {
	case Main:
		return "main"
	case Tight:
		return "tight"
	case Gum:
		return "gum"
	}
	return fmt.Sprintf("class(%d)", int(c))
}

// Bound is how far off a measure may be.
func (c Class) Bound() unit.Share {
	if c == Tight {
		return 2 * unit.PerCent
	}
	return 5 * unit.PerCent
}

// weighedTo is how true the scale must be: 2 % for all that must be tight, gums too.
func (c Class) weighedTo() unit.Share {
	if c == Main {
		return 5 * unit.PerCent
	}
	return 2 * unit.PerCent
}

// Need is an amount to be said. At least one of mass and volume is above 0; who knows both gives both, as one is not made from the other
// here.
type Need struct {
	Mass   unit.Mass
	Volume unit.Volume // as the measures are filled: of flour with the air in it
	Class  Class
}

// Why is the reason to weigh.
type Why int

const (
	NoNeed    Why = iota // it may be measured
	IsGum                // gums are weighed
	NoMeasure            // no two measures come within the bound
	NoVolume             // nobody knows what volume so much fills
)

var whyNames = [...]string{NoNeed: "may be measured", IsGum: "gums are weighed", NoMeasure: "no measures come near enough", NoVolume: "its density is not known"}

// String is the reason in words.
func (w Why) String() string {
	if w < NoNeed || w > NoVolume {
		return fmt.Sprintf("why(%d)", int(w))
	}
	return whyNames[w]
}

// Advice is how to take an amount at home.
type Advice struct {
	Need     Need
	Measures Measures // within Bound; nil if there are none
	Bound    unit.Share
	Off      float64 // what the measures hold less the need, as a share of it; 0 without measures
	Weigh    Why     // not NoNeed: the grams lead, if there are any
	// ScaleStep is the coarsest scale that is fine enough to weigh it: 1 kg to 0.001 g; 0 if there is no mass.
	ScaleStep unit.Mass
	Nearly    string // "a pinch" and the like, if it is about that; never said without grams
}

// Advise says how to take an amount with these utensils. Errors are *InputError.
func Advise(n Need, from []Utensil) (Advice, error) {
	switch {
	case n.Class < Main || n.Class > Gum:
		return Advice{}, &InputError{"the class", fmt.Sprintf("is %d", int(n.Class)), "take Main, Tight or Gum"}
	case n.Mass < 0 || n.Volume < 0 || n.Mass == 0 && n.Volume == 0:
		return Advice{}, &InputError{"the amount", fmt.Sprintf("is %s and %s", n.Mass, n.Volume), "give a mass or a volume above 0"}
	}
	a := Advice{Need: n, Bound: n.Class.Bound(), ScaleStep: scaleFor(n.Mass, n.Class.weighedTo())}
	if m, ok := Choose(n.Volume, a.Bound, from); ok {
		a.Measures = m
		a.Off = float64(m.Volume()-n.Volume) / float64(n.Volume)
	}
	switch {
	case n.Class == Gum:
		a.Weigh = IsGum
	case n.Volume == 0:
		a.Weigh = NoVolume
	case a.Measures == nil:
		a.Weigh = NoMeasure
	}
	if a.Measures == nil && n.Mass > 0 {
		a.Nearly = nearly(n.Volume)
	}
	return a, nil
}

// scaleFor is the coarsest scale whose half step is within share of m.
func scaleFor(m unit.Mass, share unit.Share) unit.Mass {
	if m <= 0 {
		return 0
	}
	for _, step := range []unit.Mass{unit.Kilogram, 100 * unit.Gram, 10 * unit.Gram, 5 * unit.Gram, unit.Gram, 100 * unit.Milligram, 10 * unit.Milligram} {
		if step/2 <= share.Of(m) {
			return step
		}
	}
	return unit.Milligram
}

// String is the advice on one line: "1 1/4 cups (300 g)", "7 g (weigh it)", "0.38 g (weigh it; about a pinch)".
func (a Advice) String() string {
	grams, volume := a.Need.Mass.Show(unit.Metric), a.Need.Volume.Show(unit.Metric)
	switch {
	case a.Need.Mass == 0 && a.Measures == nil:
		return volume
	case a.Need.Mass == 0 && a.Weigh != NoNeed:
		return fmt.Sprintf("%s (about %s; its weight is not known, and it should be weighed)", volume, a.Measures)
	case a.Need.Mass == 0:
		return fmt.Sprintf("%s (%s)", a.Measures, volume)
	case a.Weigh == NoNeed:
		return fmt.Sprintf("%s (%s)", a.Measures, grams)
	case a.Measures != nil:
		return fmt.Sprintf("%s (weigh it; about %s)", grams, a.Measures)
	case a.Nearly != "":
		return fmt.Sprintf("%s (weigh it; about %s)", grams, a.Nearly)
	}
	return grams + " (weigh it)"
}

// nearly names a small volume, if it is within a quarter of what the word is taken for (data/words.csv).
func nearly(v unit.Volume) string {
	for _, w := range smallWords {
		if is := w.volume(); v >= is-is/4 && v <= is+is/4 {
			return "a " + w.Word
		}
	}
	return ""
}

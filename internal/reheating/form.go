package reheating

import "kettlefrost/internal/heat"

// Method is a way to heat a bag, or its content, whose time is measured.
type Method int

const (
	Microwave Method = iota + 1
	Oven
	Simmering // measuring what the card computes
)

var methodNames = [...]string{Microwave: "microwave", Oven: "oven", Simmering: "simmering water"}

// String is "microwave", "oven" or "simmering water".
func (m Method) String() string {
	if m < Microwave || m > Simmering {
		return "unknown method"
	}
	return methodNames[m]
}

const (
	// LeastRuns is how many accepted runs a time needs, and measuredMargin what is put on top of the longest: own practice of the
	// reference, which publishes neither.
	LeastRuns      = 3
	measuredMargin = 0.1
	// microwaveStandMin is how long microwaved food stands covered before it is measured: FDA Food Code 3-403.11.
	microwaveStandMin = 2
	longestTrialMin   = 600
)

// Spots are the five places where the temperature is taken after standing, before stirring.
func Spots() []string {
	return []string{"middle", "thickest place", "a corner", "opposite corner", "edge of a long side"}
}

// Field is one column of the form.
type Field struct{ ID, Label, Unit string }

// Form is what a kitchen fills in to find a time by measuring: largest pack, coldest freezer, coldest spot.
type Form struct {
	Method    Method
	LargestKg float64 // every run with a pack at least this heavy
	ColdestC  float64 // and at most this warm at the start
	Fields    []Field
	Spots     []string
	LeastRuns int
	AcceptC   float64 // in every spot of a run
	Margin    float64 // put on the longest of the accepted runs, as a share
	StandMin  float64 // least
	Rules     []Line
	Source    string
}

// ValidationForm is the form for one method, for the largest pack in kg, 0.01 to 25, and the coldest it is taken from, -40 to 10 °C.
// Errors: *heat.RangeError.
func ValidationForm(m Method, largestKg, coldestC float64) (Form, error) {
	if err := heat.InRange("method", "", float64(m), float64(Microwave), float64(Simmering)); err != nil {
		return Form{}, err
	}
	if err := heat.InRange("mass of the largest pack", "kg", largestKg, lightestKg, heaviestKg); err != nil {
		return Form{}, err
	}
	if err := heat.InRange("coldest start", "°C", coldestC, -40, 10); err != nil {
		return Form{}, err
	}
	f := Form{Method: m, LargestKg: largestKg, ColdestC: coldestC, Fields: fields(m), Spots: Spots(),
		LeastRuns: LeastRuns, AcceptC: TargetC, Margin: measuredMargin, Source: TargetSource + "; number of runs and margin are own practice"}
	if m == Microwave {
		f.StandMin = microwaveStandMin
		f.Source += "; covered, turned or stirred, 2 minutes of standing: FDA Food Code 3-403.11"
	}
	f.Rules = formRules(f)
	return f, nil
}

func fields(m Method) []Field {
	all := []Field{{"appliance", "appliance, make and model", ""}}
	switch m {
	case Microwave:
		all = append(all, Field{"watts", "power as rated", "W"})
	case Oven:
		all = append(all, Field{"set", "oven set to", "°C"})
	case Simmering:
		all = append(all, Field{"set", "water as measured", "°C"})
	}
	all = append(all, Field{"mass", "mass of the pack", "kg"}, Field{"start", "temperature at the start", "°C"},
		Field{"minutes", "time of heating", "min"}, Field{"stand", "time of standing", "min"})
	for _, s := range Spots() {
		all = append(all, Field{"spot", "after standing: " + s, "°C"})
	}
	return append(all, Field{"coldest", "coldest of the five", "°C"}, Field{"who", "measured by", ""}, Field{"date", "date", ""})
}

// Trial is one filled-in line of the form.
type Trial struct {
	Appliance string
	Watts     float64 // of a microwave
	SetC      float64 // of an oven or a water bath
	MassKg    float64
	StartC    float64
	Minutes   float64
	StandMin  float64
	SpotsC    []float64 // in the order of the form's spots
	Who       string
	Date      string // as written
}

// ColdestC is the coldest spot; false if not all were measured.
func (t Trial) ColdestC() (float64, bool) {
	if len(t.SpotsC) != len(Spots()) {
		return 0, false
	}
	coldest := t.SpotsC[0]
	for _, c := range t.SpotsC {
		if !(c >= lowestReadingC && c <= highestReadingC) {
			return 0, false
		}
		coldest = min(coldest, c)
	}
	return coldest, true
}

// reached says whether a reading is 165 °F or more; a thermometer in °F shows exactly that, so there is no rounding up here.
func reached(readingC float64) bool { return readingC >= (165-32)*5/9.0-1e-9 }

// What a thermometer in food can have shown.
const lowestReadingC, highestReadingC = -60, 150

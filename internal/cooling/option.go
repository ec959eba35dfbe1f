package cooling

import (
	"fmt"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/coolrule"
)

// Verdict is what the prediction says of a plan.
type Verdict int

const (
	Unknown      Verdict = iota // could not be computed: Option.Err
	Never                       // not cold in ten days
	TooSlow                     // over a limit, even with the usual surface coefficients
	NotEnough                   // in time, but there are too few vessels, too few paddles or too little ice
	Within                      // within the limits with the usual coefficients, not with the low ones: tight
	WithinMargin                // within the limits even with the low ones
)

var verdictNames = [...]string{"unknown", "never", "too slow", "not enough", "within the limits, tight", "within the limits, with a margin"}

// String is the verdict in words. It is always one of a prediction.
func (v Verdict) String() string {
	if v < Unknown || v > WithinMargin {
		return fmt.Sprintf("verdict(%d)", int(v))
	}
	return verdictNames[v]
}

// Short is what there is too little of.
type Short int

const (
	NothingShort Short = iota
	ShortOfVessels
	ShortOfPaddles
	ShortOfIce
)

var shortNames = [...]string{"nothing", "vessels", "paddles", "ice"}

// String is what there is too little of.
func (s Short) String() string {
	if s < NothingShort || s > ShortOfIce {
		return fmt.Sprintf("short(%d)", int(s))
	}
	return shortNames[s]
}

// Milestone is when the hottest point passes a temperature, from the start of the first stage, with each set of coefficients. What the
// food starts below has passed at once.
type Milestone struct {
	TempC            float64
	Low, Usual, High coolrule.Crossing
}

// StageResult is one stage, with the usual coefficients.
type StageResult struct {
	Vessels
	Formula Formula // NotComputed if the stage was not needed
	StartS  float64 // from the start of the first stage
	TimeS   float64
	EndC    float64 // hottest point
	Taken   Taken
	IceKg   float64
	Paddles int // put in
	HandsS  float64
}

// CurvePoint is one moment for a drawing. Once at its end, the food is drawn as staying there.
type CurvePoint struct {
	TimeS              float64
	CoreC, LowC, HighC float64 // hottest point with the usual, low and high coefficients
	MeanC, MediumC     float64 // with the usual ones
}

// Option is a plan followed and judged. Figures are for the whole load, with the usual coefficients where nothing else is said.
type Option struct {
	Verdict Verdict
	Err     error // Unknown: why
	Short   Short // of what there is too little, also if it is too slow as well

	Stages                       []StageResult
	To                           []Milestone      // 135, 70 and 41 °F and all temperatures of the rule, falling; the last is the end
	LowRule, UsualRule, HighRule coolrule.Verdict // the rule judged with each set of coefficients

	TimeS       float64 // until the end, or as long as it was followed
	HeatJ       float64 // that left the food
	Taken       Taken   // where it went
	MeanW       float64
	PeakW       float64
	IceKg       float64 // of all stages
	MostIceKg   float64 // the same with the coefficients that melt most: what to have ready
	HandsS      float64 // set-up, tending until the end, changing paddles
	FootprintM2 float64 // of the stage that needs most

	Curve    []CurvePoint
	Profile  []conduction.Place // from the bottom of a pan up when the last stage ends; nil otherwise
	Cautions []Caution
	Fit      Fit
}

// SpareS is the least time to spare of all stages of a rule that are not advisory, negative when late; false if one is never met.
func SpareS(v coolrule.Verdict) (float64, bool) {
	least, any := 0.0, false
	for _, s := range v.Stages {
		if s.Stage.Advisory {
			continue
		}
		if s.Never {
			return 0, false
		}
		if !any || s.MarginS < least {
			least, any = s.MarginS, true
		}
	}
	return least, any
}

package coolforecast

import (
	"fmt"
	"math"

	"kettlefrost/internal/cooling"
	"kettlefrost/internal/coollog"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/heat"
)

// Case is one load of food that cools. All times are on one clock, which begins anywhere.
type Case struct {
	Rule      coolrule.Rule
	Logs      []coollog.Log // all of this cooling: from its beginning, or from when it was heated again
	AccuracyC float64       // thermometers read so far wrong at most
	BeganS    *float64      // when the cooling began; nil when nobody wrote it down
	NowS      float64       // no reading is later
	Model     *Model        // how it is cooled now; nil when that is not known
	MediumC   float64       // without a Model: what is around the food
}

// Model is what is predicted of the way that food is cooled.
type Model struct {
	FromS  float64 // the moment where the curve begins; what was read before tells nothing of it
	Curve  []cooling.CurvePoint
	StartK float64 // doubt of its start: a standard deviation, above 0
	BendS  float64 // where on the curve, from its beginning, another way takes over; 0 for none
}

// Outcome of a forecast.
type Outcome string

// Outcomes, from good to bad.
const (
	Meets   Outcome = "will-meet"      // every limit is met, even at the bad end of the band
	InDoubt Outcome = "in-doubt"       // a limit lies within the band
	Misses  Outcome = "will-miss"      // a limit is over before the good end of the band
	Missed  Outcome = "missed"         // a reading shows that a limit was not met
	Unsaid  Outcome = "cannot-be-said" // Why says why
	Over    Outcome = "met"            // readings at or under every limit in time
)

// Why says what an outcome rests on. The codes are stable, for programs.
type Why string

const (
	NoReadings Why = "no-readings"  // nobody has read it
	NoClock    Why = "no-clock"     // nobody read it above where the clock starts, or wrote when the cooling began
	NotRead    Why = "not-read"     // the time of a limit was over without a reading that shows on which side of it the food was
	NoLimits   Why = "no-limits"    // the rule has no limit
	ByForecast Why = "by-forecast"  // readings so far and the predicted curve
	ByReadings Why = "by-readings"  // readings alone: no curve is predicted for it, or what was done has just changed it
	ByLimit    Why = "by-the-limit" // a reading against a limit
)

// State of a limit.
type State string

const (
	Ahead State = "ahead"  // to be met
	Met   State = "met"    // a reading shows it
	Late  State = "missed" // a reading shows it
	Open  State = "open"   // its time is over, and no reading shows whether it was met
)

// Limit is one limit of the rule, at the point of the food that is worst for it. Times that are not known, or come later than two days, are NaN.
type Limit struct {
	Stage     coolrule.Stage
	Point     string
	State     State
	Outcome   Outcome // of this limit alone
	Read      coollog.StageVerdict
	Started   bool    // its clock has started, as far as readings show
	StartS    float64 // when, or when it will, as usual
	DeadlineS float64
	// ReachedS is when the food is at the limit less what thermometers may be wrong by, as a reading must show it: good end, usual and bad end of
	// the band. Of what is Met it is when that was read.
	ReachedS Span
	// MarginS is the time from then to the deadline, negative when late.
	MarginS Span
}

// Span is a band: from Good to Bad the value lies with nine chances in ten, half of them below Usual.
type Span struct{ Good, Usual, Bad float64 }

// BandPoint is the forecast temperature of the worst point at one time.
type BandPoint struct{ TimeS, LowC, UsualC, HighC float64 }

// Forecast is what is to be expected of a Case.
type Forecast struct {
	Outcome Outcome
	Why     Why
	Limits  []Limit // in the order of the rule
	Decides int     // index of the limit that decides; -1 when there is none
	Band    []BandPoint
	NowC    Span    // the worst point now: Good is the coldest
	LastS   float64 // when it was last read; NaN when never
	Due     Due
	Pace    float64 // by which it cools as the predicted curve does: 1 as predicted, 2 twice as fast; NaN without a Model
}

// Nothing is the forecast of what nothing can be said of.
func Nothing() Forecast {
	return Forecast{Outcome: Unsaid, Decides: -1, LastS: math.NaN(), Pace: math.NaN(), Due: Due{math.NaN(), NotDue}}
}

// MarginS is the time to spare at the bad end for the limit that decides, negative when late; NaN when it cannot be said.
func (f Forecast) MarginS() float64 {
	if f.Decides < 0 {
		return math.NaN()
	}
	return f.Limits[f.Decides].MarginS.Bad
}

// A CaseError says what of a case makes no sense.
type CaseError struct{ What string }

func (e *CaseError) Error() string { return "forecast of cooling: " + e.What }

func (c Case) check() error {
	for _, l := range c.Logs {
		if n := len(l.Readings); n > 0 && l.Readings[n-1].TimeS > c.NowS+1e-6 {
			return &CaseError{fmt.Sprintf("%s was read %.0f s from now", l.Point, l.Readings[n-1].TimeS-c.NowS)}
		}
	}
	if err := heat.InRange("accuracy of the thermometer", "K", c.AccuracyC, 0, 20); err != nil {
		return err
	}
	if c.Model == nil {
		return heat.InRange("temperature around the food", "°C", c.MediumC, -100, 100)
	}
	if n := len(c.Model.Curve); n < 2 {
		return &CaseError{fmt.Sprintf("the predicted curve has %d points", n)}
	}
	if err := heat.InRange("change of the way", "s", c.Model.BendS, 0, 1e9); err != nil {
		return err
	}
	return heat.InRange("doubt of the start", "K", c.Model.StartK, 0.01, 100)
}

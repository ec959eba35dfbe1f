package coolrule

import (
	"fmt"
	"math"
)

// Crossing is when a cooling food passes a temperature for good.
type Crossing struct {
	Reached bool
	Never   bool // however long one waits
	// TimeS since the start of the cooling, >= 0. If not reached: how long the food is known to stay warmer, 0 if nothing is known.
	TimeS float64
}

// Crossings answers when the food passes tempC.
type Crossings func(tempC float64) (Crossing, error)

// Outcome is what a prediction says about a rule.
type Outcome int

const (
	NotShown   Outcome = iota // the prediction ends too early to tell
	WithinRule                // every stage within its limit, as predicted
	TooSlow                   // at least one stage is over its limit
)

var outcomeNames = [...]string{NotShown: "not shown", WithinRule: "within the rule as predicted", TooSlow: "too slow"}

// String is the outcome in words.
func (o Outcome) String() string {
	if o < NotShown || o > TooSlow {
		return fmt.Sprintf("outcome(%d)", int(o))
	}
	return outcomeNames[o]
}

// StageVerdict is one stage judged.
type StageVerdict struct {
	Stage   Stage
	Outcome Outcome
	Reached bool // ToC is reached
	Never   bool // ToC, or even FromC, is never reached; then TookS and MarginS are 0
	// TookS is how long the stage takes. If ToC is not reached, it takes longer than this.
	TookS float64
	// MarginS is the time to spare, negative when late. If ToC is not reached it is an upper bound.
	MarginS float64
}

// Verdict is a rule judged.
type Verdict struct {
	Rule     Rule
	Outcome  Outcome        // worst of the stages that are not advisory
	Cautions []StageVerdict // advisory stages that are not within their limit
	Stages   []StageVerdict // all, in the order of the rule
}

// slackS forgives rounding of sums of seconds, no more: limits are inclusive.
const slackS = 1e-6

// Judge holds predicted crossings against a rule. A stage that starts above the food's own starting temperature counts from the
// beginning. Errors: those of when, *CurveError for a crossing that makes no sense (a time that is negative or not finite, or a lower
// temperature before a higher one).
func Judge(rule Rule, when Crossings) (Verdict, error) {
	v := Verdict{Rule: rule, Outcome: WithinRule}
	if len(rule.Stages) == 0 {
		v.Outcome = NotShown
	}
	for _, stage := range rule.Stages {
		s, err := judgeStage(stage, when)
		if err != nil {
			return Verdict{}, err
		}
		v.Stages = append(v.Stages, s)
		switch {
		case stage.Advisory && s.Outcome != WithinRule:
			v.Cautions = append(v.Cautions, s)
		case !stage.Advisory && s.Outcome != WithinRule && v.Outcome != TooSlow:
			v.Outcome = s.Outcome
		}
	}
	return v, nil
}

func judgeStage(stage Stage, when Crossings) (StageVerdict, error) {
	end, err := when.at(stage.ToC)
	if err != nil {
		return StageVerdict{}, err
	}
	start := Crossing{Reached: true}
	if stage.Start == AtFromC {
		if start, err = when.at(stage.FromC); err != nil {
			return StageVerdict{}, err
		}
	}
	switch {
	case end.Never || start.Never:
		return StageVerdict{Stage: stage, Outcome: TooSlow, Never: true}, nil
	case end.Reached && (!start.Reached || end.TimeS < start.TimeS):
		return StageVerdict{}, &CurveError{TempC: stage.ToC, Crossing: end}
	case !start.Reached: // the stage has not begun when the prediction ends
		return StageVerdict{Stage: stage, MarginS: stage.WithinS}, nil
	}
	took := max(0, end.TimeS-start.TimeS)
	s := StageVerdict{Stage: stage, TookS: took, Reached: end.Reached, MarginS: stage.WithinS - took}
	switch {
	case end.Reached && took <= stage.WithinS+slackS:
		s.Outcome = WithinRule
	case end.Reached || took >= stage.WithinS:
		s.Outcome = TooSlow
	}
	return s, nil
}

// A CurveError says that a crossing makes no sense.
type CurveError struct {
	TempC float64
	Crossing
}

func (e *CurveError) Error() string {
	return fmt.Sprintf("cooling curve: passing %.4g °C at %g s (reached: %t) makes no sense", e.TempC, e.TimeS, e.Reached)
}

func (when Crossings) at(tempC float64) (Crossing, error) {
	c, err := when(tempC)
	if err != nil {
		return Crossing{}, err
	}
	if !(c.TimeS >= 0) || math.IsInf(c.TimeS, 1) || c.Reached && c.Never {
		return Crossing{}, &CurveError{TempC: tempC, Crossing: c}
	}
	return c, nil
}

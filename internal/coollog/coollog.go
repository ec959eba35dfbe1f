// Package coollog judges what was really read while food cooled, against a published limit: pass, fail or incomplete, at the worst point, with
// the thermometer's error against the food.
//
// A pass needs a reading at or under the limit within its time. Where the readings on both sides of a deadline leave open when the food
// passed the limit, the log is incomplete, which is never a pass: a straight line between readings is for drawing only. A log that passes
// says that these readings meet this rule, and nothing else.
package coollog

import (
	"fmt"
	"math"

	"kettlefrost/internal/coolrule"
)

// Reading is a temperature at a time.
type Reading struct {
	TimeS float64 // from any beginning, ascending
	TempC float64
}

// Log is what was read at one point of the food, or by one probe.
type Log struct {
	Point    string
	Readings []Reading
}

// Options are what is known beside the readings.
type Options struct {
	AccuracyC float64  // the thermometers read so far wrong at most, as checked; 0 for none
	BeganS    *float64 // when cooling began, by the clock of the readings; nil when nobody wrote it down
}

// Outcome of a log. The order is from good to bad.
type Outcome int

const (
	Pass Outcome = iota
	Incomplete
	Fail
)

// String is the outcome in a word.
func (o Outcome) String() string { return [...]string{"pass", "incomplete", "fail"}[o] }

// Why says what an outcome rests on. The codes are stable, for programs.
type Why string

const (
	InTime     Why = "in-time"         // a reading at or under the limit, in time
	StillWarm  Why = "still-warm"      // a reading over the limit when its time was over
	Between    Why = "between"         // it passed the limit somewhere between two readings, and the deadline lies between them too
	EndsEarly  Why = "ends-early"      // the readings end before the time is over, with the food still over the limit
	StartsCold Why = "starts-cold"     // the first reading is under the temperature where the clock starts: how long before is not known
	NotBegun   Why = "not-begun"       // the food never fell to where the clock starts
	ByItsError Why = "within-accuracy" // it would pass but for the error of the thermometer
	NoReadings Why = "no-readings"
)

// StageVerdict is one stage of a rule judged at one point.
type StageVerdict struct {
	Stage     coolrule.Stage
	Outcome   Outcome
	Why       Why
	Point     string
	StartS    float64 // when its clock started, at the earliest; meaningless for StartsCold, NotBegun and NoReadings
	DeadlineS float64 // StartS and the time of the stage
	At        int     // the reading that decides, of those of the point; -1 when there is none
	MarginS   float64 // from the first reading at or under the limit to the deadline, negative when late; 0 when there is no such reading
	CrossedS  float64 // for drawing only: where a straight line between readings passes the limit; NaN when none does
}

// Verdict is a rule judged by all logs.
type Verdict struct {
	Rule     coolrule.Rule
	Outcome  Outcome        // the worst of all stages that are not advisory, at the worst point
	Stages   []StageVerdict // the worst of each stage, in the order of the rule
	Cautions []StageVerdict // advisory stages that do not pass
	Each     []StageVerdict // every stage at every point
}

// LogError says which reading makes no sense. A log with one is not judged: it is put right by an entry that names the reading.
type LogError struct {
	Point   string
	Reading int // from 0
	Problem string
}

func (e *LogError) Error() string {
	return fmt.Sprintf("coollog: %s, reading %d %s: correct it, and keep what was read", e.Point, e.Reading+1, e.Problem)
}

// Judge holds logs against a rule. Errors are *LogError.
func Judge(rule coolrule.Rule, logs []Log, opt Options) (Verdict, error) {
	v := Verdict{Rule: rule}
	for _, l := range logs {
		if err := l.check(); err != nil {
			return Verdict{}, err
		}
	}
	if len(logs) == 0 {
		logs = []Log{{}}
	}
	for _, stage := range rule.Stages {
		var worst StageVerdict
		for i, l := range logs {
			s := l.judge(stage, opt)
			v.Each = append(v.Each, s)
			if i == 0 || s.Outcome > worst.Outcome || s.Outcome == worst.Outcome && s.MarginS < worst.MarginS {
				worst = s
			}
		}
		v.Stages = append(v.Stages, worst)
		switch {
		case !stage.Advisory:
			v.Outcome = max(v.Outcome, worst.Outcome)
		case worst.Outcome != Pass:
			v.Cautions = append(v.Cautions, worst)
		}
	}
	return v, nil
}

func (l Log) check() error {
	for i, r := range l.Readings {
		switch {
		case !(math.Abs(r.TempC) < 400):
			return &LogError{l.Point, i, fmt.Sprintf("is %g °C", r.TempC)}
		case !(math.Abs(r.TimeS) < 1e11):
			return &LogError{l.Point, i, fmt.Sprintf("is at %g s", r.TimeS)}
		case i > 0 && r.TimeS <= l.Readings[i-1].TimeS:
			return &LogError{l.Point, i, "is not later than the one before it"}
		}
	}
	return nil
}

// judge takes the readings as they stand, and then with the thermometer's error against the food: what fails as it stands fails, and what only
// its error keeps from passing is incomplete.
func (l Log) judge(stage coolrule.Stage, opt Options) StageVerdict {
	plain := l.stage(stage, opt.BeganS, 0)
	if opt.AccuracyC <= 0 || plain.Outcome != Pass {
		return plain
	}
	worst := l.stage(stage, opt.BeganS, opt.AccuracyC)
	if worst.Outcome == Pass {
		return worst
	}
	plain.Outcome, plain.Why = Incomplete, ByItsError
	return plain
}

// slackS forgives the rounding of sums of seconds, and slackC that of °F in °C: limits are inclusive.
const slackS, slackC = 1e-6, 1e-9

// stage judges one stage with every reading wrong by so much to the worse: the food colder when the clock starts, warmer when it must stop.
func (l Log) stage(stage coolrule.Stage, began *float64, offC float64) StageVerdict {
	s := StageVerdict{Stage: stage, Point: l.Point, At: -1, CrossedS: math.NaN()}
	if len(l.Readings) == 0 {
		s.Outcome, s.Why = Incomplete, NoReadings
		return s
	}
	from, why := l.start(stage, began, offC)
	if why != "" {
		s.Outcome, s.Why = Incomplete, why
		return s
	}
	s.StartS = from
	s.DeadlineS = from + stage.WithinS
	for i, r := range l.Readings {
		if r.TimeS < from-slackS {
			continue
		}
		late := r.TimeS > s.DeadlineS+slackS
		warm := r.TempC + offC - stage.ToC
		if warm > slackC {
			if s.At = i; late {
				s.Outcome, s.Why = Fail, StillWarm
				return s
			}
			continue
		}
		s.MarginS, s.CrossedS = s.DeadlineS-r.TimeS, l.crossing(i, stage.ToC)
		switch {
		case !late:
			s.At, s.Outcome, s.Why = i, Pass, InTime
		case warm > -slackC && i > 0: // it has just come to the limit, so it was over it until now
			s.At, s.Outcome, s.Why = i, Fail, StillWarm
		default:
			s.At, s.Outcome, s.Why = i, Incomplete, Between
		}
		return s
	}
	s.Outcome, s.Why = Incomplete, EndsEarly
	return s
}

// start is when the clock of a stage starts, at the earliest: at the last reading that is surely at or over its temperature.
func (l Log) start(stage coolrule.Stage, began *float64, offC float64) (float64, Why) {
	first := l.Readings[0]
	if stage.Start == coolrule.AtTheStart {
		if began != nil {
			return *began, ""
		}
		return first.TimeS, ""
	}
	at, fell := -1, false
	for i, r := range l.Readings {
		if r.TempC-offC >= stage.FromC-slackC {
			at, fell = i, false
		} else {
			fell = true
		}
	}
	switch {
	case at >= 0 && fell:
		return l.Readings[at].TimeS, ""
	case at >= 0 && l.Readings[at].TempC <= stage.FromC+slackC:
		return l.Readings[at].TimeS, ""
	case at >= 0:
		return 0, NotBegun
	case began != nil && *began <= first.TimeS:
		return *began, ""
	}
	return 0, StartsCold
}

// crossing is where a straight line to a reading passes a temperature.
func (l Log) crossing(i int, toC float64) float64 {
	if i == 0 {
		return l.Readings[0].TimeS
	}
	a, b := l.Readings[i-1], l.Readings[i]
	if a.TempC <= b.TempC {
		return b.TimeS
	}
	return a.TimeS + (b.TimeS-a.TimeS)*(a.TempC-toC)/(a.TempC-b.TempC)
}

package critical

import (
	"fmt"
	"math"
	"strconv"

	"kettlefrost/internal/coollog"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/foodcode"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// RuleVerdict is one rule of cooling judged.
type RuleVerdict struct {
	Rule    string         `json:"rule"`
	Title   string         `json:"title"`
	Scope   string         `json:"scope,omitempty"`
	Source  string         `json:"source"`
	Decides bool           `json:"decides"` // it is the rule of the kitchen
	Outcome Outcome        `json:"outcome"`
	Why     string         `json:"why"`
	Says    string         `json:"says"`
	Stages  []StageVerdict `json:"stages"`
}

// StageVerdict is one stage of a rule, at the worst point.
type StageVerdict struct {
	Name     string         `json:"name"`
	FromC    *float64       `json:"from_c,omitempty"` // where its clock starts; left out where that is the beginning
	ToC      float64        `json:"to_c"`
	WithinS  float64        `json:"within_s"`
	Advisory bool           `json:"advisory,omitempty"` // missing it is a caution
	Outcome  Outcome        `json:"outcome"`
	Why      string         `json:"why"`
	Says     string         `json:"says"`
	Where    string         `json:"where,omitempty"`
	Start    record.Instant `json:"start_ms,omitempty"`
	Deadline record.Instant `json:"deadline_ms,omitempty"`
	At       record.Instant `json:"at_ms,omitempty"` // of the reading that decides
	TempC    *float64       `json:"temp_c,omitempty"`
	MarginS  *float64       `json:"margin_s,omitempty"` // from the first reading at or under the limit to the deadline
	Crossed  record.Instant `json:"crossed_ms,omitempty"`
}

// RuleOf is the cooling rule of a limit of a plan: one of coolrule, with the figures that the kitchen holds. False when none has its name.
func RuleOf(l haccp.Limit) (coolrule.Rule, bool) {
	for _, r := range coolrule.All() {
		if r.ID != l.Rule {
			continue
		}
		at := 0
		for i, s := range r.Stages {
			if s.Advisory || at >= len(l.Figures) {
				continue
			}
			f := l.Figures[at]
			at++
			if f.Sense != foodcode.AtMost {
				return coolrule.Rule{}, false
			}
			changed := math.Abs(f.TempC-s.ToC) > 1e-6 || math.Abs(f.Seconds-s.WithinS) > 1e-6
			if r.Stages[i].ToC, r.Stages[i].WithinS = f.TempC, f.Seconds; changed {
				r.Stages[i].Name = f.Words
			}
		}
		return r, true
	}
	return coolrule.Rule{}, false
}

// alsoShown are the rules that are judged beside the kitchen's own: the Food Code's and those of Appendix B for food that is not cured.
func alsoShown(own coolrule.Rule) []coolrule.Rule {
	all := []coolrule.Rule{own}
	for _, r := range []coolrule.Rule{coolrule.FoodCodeCooked(), coolrule.AppendixBFirst(), coolrule.AppendixBSecond()} {
		if r.ID != own.ID {
			all = append(all, r)
		}
	}
	return all
}

// outcomeOf is an outcome of a log in the words of this package.
func outcomeOf(o coollog.Outcome) Outcome {
	return [...]Outcome{coollog.Pass: Pass, coollog.Incomplete: Incomplete, coollog.Fail: Fail}[o]
}

// told puts a verdict on a log into words. Times are seconds after base.
func (c *cooled) told(r coolrule.Rule, v coollog.Verdict, decides bool) RuleVerdict {
	x := RuleVerdict{Rule: r.ID, Title: r.Title, Scope: r.Scope, Source: r.Source, Decides: decides, Outcome: outcomeOf(v.Outcome)}
	var decisive *StageVerdict
	for _, s := range v.Stages {
		t := c.stage(s)
		x.Stages = append(x.Stages, t)
		if last := &x.Stages[len(x.Stages)-1]; !t.Advisory && (decisive == nil || Worse(decisive.Outcome, t.Outcome) != decisive.Outcome || t.Outcome == decisive.Outcome && lessMargin(t, *decisive)) {
			copied := *last
			decisive = &copied
		}
	}
	if decisive != nil {
		x.Why, x.Says = decisive.Why, decisive.Name+": "+decisive.Says
	}
	return x
}

func lessMargin(a, b StageVerdict) bool {
	return a.MarginS != nil && b.MarginS != nil && *a.MarginS < *b.MarginS
}

func (c *cooled) stage(s coollog.StageVerdict) StageVerdict {
	t := StageVerdict{Name: s.Stage.Name, ToC: s.Stage.ToC, WithinS: s.Stage.WithinS, Advisory: s.Stage.Advisory, Outcome: outcomeOf(s.Outcome), Why: string(s.Why), Where: s.Point}
	if s.Stage.Start == coolrule.AtFromC {
		t.FromC = &s.Stage.FromC
	}
	if s.Why != coollog.StartsCold && s.Why != coollog.NotBegun && s.Why != coollog.NoReadings {
		t.Start, t.Deadline = c.instant(s.StartS), c.instant(s.DeadlineS)
	}
	if r, ok := c.reading(s.Point, s.At); ok {
		t.At, t.TempC = r.At, &r.TempC
	}
	if !math.IsNaN(s.CrossedS) {
		t.Crossed = c.instant(s.CrossedS)
	}
	if s.Outcome == coollog.Pass || s.MarginS != 0 {
		m := s.MarginS
		t.MarginS = &m
	}
	t.Says = c.says(s, t)
	return t
}

// says is a verdict on a stage in words.
func (c *cooled) says(s coollog.StageVerdict, t StageVerdict) string {
	to, clock := c.set.temp(s.Stage.ToC), c.set.Clock
	at := ""
	if t.TempC != nil {
		at = fmt.Sprintf("%s at %s", c.set.temp(*t.TempC), clock(t.At))
	}
	switch s.Why {
	case coollog.InTime:
		return fmt.Sprintf("%s, due by %s: %s to spare", at, clock(t.Deadline), span(s.MarginS))
	case coollog.StillWarm:
		if s.MarginS < 0 {
			return fmt.Sprintf("still %s; it had to be %s by %s and was so %s late", at, to, clock(t.Deadline), span(-s.MarginS))
		}
		return fmt.Sprintf("still %s; it had to be %s by %s", at, to, clock(t.Deadline))
	case coollog.Between:
		return fmt.Sprintf("it fell to %s between two readings, and its time was over between them at %s: nobody knows on which side", to, clock(t.Deadline))
	case coollog.EndsEarly:
		return fmt.Sprintf("the readings end before it is %s; it has to be so by %s", to, clock(t.Deadline))
	case coollog.StartsCold:
		return fmt.Sprintf("the first reading is under %s already: nobody knows when it fell through that", c.set.temp(s.Stage.FromC))
	case coollog.NotBegun:
		return fmt.Sprintf("it has not fallen through %s yet", c.set.temp(s.Stage.FromC))
	case coollog.ByItsError:
		return fmt.Sprintf("%s, due by %s; that is in time only if the thermometer was right, and it may be wrong by %s", at, clock(t.Deadline), c.accuracy())
	}
	return "no readings"
}

// temp is a temperature in the kitchen's words, to a tenth: a limit is missed by less than a degree.
func (s Setting) temp(c float64) string {
	word := " °C"
	if s.Units == unit.US {
		c, word = unit.TempC(c).F(), " °F"
	}
	return strconv.FormatFloat(math.Round(c*10)/10+0, 'f', -1, 64) + word // +0: minus zero is zero
}

// span is a time in words.
func span(s float64) string { return unit.SpanS(s).Show(unit.US) }

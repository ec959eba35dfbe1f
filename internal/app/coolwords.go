package app

import (
	"fmt"
	"math"

	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// CoolVoice puts forecasts into words: in the kitchen's units, by the clock on its wall. It says what readings and figures say and no more: never that
// food is safe.
type CoolVoice struct {
	Units unit.System
	Clock func(record.Instant) string
}

// VoiceOf is that of a production.
func VoiceOf(p *Production) CoolVoice {
	return CoolVoice{p.Book.Kitchen.Units, func(at record.Instant) string { return p.Clock(at).String() }}
}

func (v CoolVoice) temp(c float64) string { return unit.TempC(c).Show(v.Units) }

// until is a time that may not be known.
func (v CoolVoice) until(c Cooling, s float64) string {
	switch {
	case math.IsInf(s, 1):
		return "not in two days"
	case math.IsNaN(s):
		return "nobody knows when"
	}
	return v.Clock(c.At(s))
}

// span is a time to the minute, without its sign.
func (v CoolVoice) span(s float64) string {
	if math.IsInf(s, 0) || math.IsNaN(s) {
		return "more than two days"
	}
	return (unit.Span(math.Round(math.Abs(s)/60)) * unit.Minute).String()
}

// Headline is the outcome in a few words.
func (v CoolVoice) Headline(c Cooling) string {
	switch {
	case c.Problem != "":
		return "cannot be said"
	case c.Forecast.Outcome == coolforecast.Over:
		return "read at its limits in time"
	case c.Forecast.Outcome == coolforecast.Meets:
		return "on its way to be in time"
	case c.Forecast.Outcome == coolforecast.InDoubt:
		return "in doubt"
	case c.Forecast.Outcome == coolforecast.Misses:
		return "will not be in time"
	case c.Forecast.Outcome == coolforecast.Missed:
		return "a limit was missed"
	case c.Forecast.Why == coolforecast.NoReadings:
		return "nobody has read it"
	case c.Forecast.Why == coolforecast.NoClock:
		return "nobody knows when it fell through " + v.temp(c.startC())
	case c.Forecast.Why == coolforecast.NotRead:
		return "a limit's time went by unread"
	}
	return "cannot be said"
}

// startC is where the clock of its first limit starts.
func (c Cooling) startC() float64 {
	if len(c.Case.Rule.Stages) == 0 {
		return 0
	}
	return c.Case.Rule.Stages[0].FromC
}

// Line says when it will be at its next limit, or how the last one went.
func (v CoolVoice) Line(c Cooling) string {
	if c.Problem != "" {
		return c.Problem
	}
	for i, l := range c.Forecast.Limits {
		if l.Stage.Advisory || l.State == coolforecast.Met && i < len(c.Forecast.Limits)-1 {
			continue
		}
		return v.Limit(c, l)
	}
	return ""
}

// Limit is one limit in words.
func (v CoolVoice) Limit(c Cooling, l coolforecast.Limit) string {
	to := v.temp(l.Stage.ToC)
	switch l.State {
	case coolforecast.Met:
		return fmt.Sprintf("%s was read at %s, %s before its time was over", to, v.until(c, l.ReachedS.Usual), v.span(l.MarginS.Usual))
	case coolforecast.Late:
		return fmt.Sprintf("it had to be at %s by %s, and was read warmer after that", to, v.until(c, l.DeadlineS))
	case coolforecast.Open:
		return fmt.Sprintf("it had to be at %s by %s, and no reading shows whether it was", to, v.until(c, l.DeadlineS))
	}
	says := to + " " + v.between(c, l.ReachedS)
	switch {
	case math.IsNaN(l.DeadlineS):
		return says
	case !l.Started && l.Stage.Start == coolrule.AtFromC:
		return says + fmt.Sprintf("; its %s begin at %s, about %s", v.span(l.Stage.WithinS), v.temp(l.Stage.FromC), v.until(c, l.StartS))
	}
	return says + ", due by " + v.until(c, l.DeadlineS)
}

// between is a band of times.
func (v CoolVoice) between(c Cooling, s coolforecast.Span) string {
	good, bad := v.until(c, s.Good), v.until(c, s.Bad)
	switch {
	case math.IsNaN(s.Usual):
		return "at a time that nobody can say"
	case math.IsInf(s.Good, 1):
		return "not in two days"
	case math.IsInf(s.Bad, 1):
		return "from " + good + " on, or not in two days"
	case good == bad:
		return "about " + good
	}
	return "between " + good + " and " + bad
}

// Margin is the time to spare at the bad end, or how late it will be then.
func (v CoolVoice) Margin(s coolforecast.Span) string {
	switch {
	case math.IsNaN(s.Bad):
		return ""
	case math.IsInf(s.Bad, -1):
		return "at worst it never gets there"
	case s.Bad < 0:
		return "at worst " + v.span(s.Bad) + " too late"
	}
	return "at worst " + v.span(s.Bad) + " to spare"
}

var dueWords = map[coolforecast.DueWhy]string{
	coolforecast.DueFirst:  "nobody has read it yet",
	coolforecast.DueClock:  "before it falls through the temperature where the clock starts",
	coolforecast.DueLimit:  "only a reading at the limit, in time, shows that it was met",
	coolforecast.DueHourly: "at least every hour",
	coolforecast.DueDoubt:  "every half hour while it is in doubt",
	coolforecast.DueUnread: "its time is over, and no reading shows where it was",
}

// Due is when it must be read next, and why; "" when it need not be.
func (v CoolVoice) Due(c Cooling, now record.Instant) (says, why string, late bool) {
	at, late, any := c.Due(now)
	switch {
	case !any:
		return "", "", false
	case late:
		says = "A reading is missing since " + v.Clock(at)
	case at <= now:
		says = "Read it now"
	default:
		says = "Read it by " + v.Clock(at)
	}
	return says, dueWords[c.Forecast.Due.Why], late
}

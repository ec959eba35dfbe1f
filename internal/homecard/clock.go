package homecard

import (
	"fmt"
	"strconv"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
	"kettlefrost/internal/unit"
)

// timesText is how long it takes, in words.
func (s *Step) timesText(in language.Speaker, units unit.System, step kitchen.Step) {
	each := func(text string) string {
		if s.Lots > 1 {
			return in.Say("%s each", text)
		}
		return text
	}
	switch {
	case step.HeatTo != nil && s.HeatUp.High > 0:
		s.Times = each(in.Fill("{time} to {temp}", map[string]string{"time": s.HeatUp.Text(in), "temp": in.Measure(step.HeatTo.Show(units))}))
	case step.HeatTo != nil:
		s.Times = in.Say("at %s", in.Measure(step.HeatTo.Show(units)))
	}
	switch held := each(s.Time.Text(in)); {
	case s.Time.High <= 0:
	case s.Times == "":
		s.Times = held
	default:
		s.Times = in.Say("%s, then %s", s.Times, held)
	}
}

// Text is the range in whole minutes, one figure where both ends are the same.
func (r Range) Text(in language.Speaker) string {
	low, high := minutesOf(r.Low), minutesOf(r.High)
	switch {
	case high < 1:
		return in.Say("under a minute")
	case low >= high:
		return clock(high)
	case low < 1:
		return in.Say("up to %s", clock(high))
	case high < 60:
		return fromTo(in, strconv.Itoa(low), clock(high))
	}
	return fromTo(in, clock(low), clock(high))
}

func fromTo(in language.Speaker, low, high string) string {
	return in.Fill("{low} to {high}", map[string]string{"low": low, "high": high})
}

func minutesOf(s unit.Span) int { return int((s + unit.Minute/2) / unit.Minute) }

func clock(minutes int) string {
	switch {
	case minutes < 60:
		return fmt.Sprintf("%d min", minutes)
	case minutes%60 == 0:
		return fmt.Sprintf("%d h", minutes/60)
	}
	return fmt.Sprintf("%d h %d min", minutes/60, minutes%60)
}

package roster

import (
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// aims are the words of each aim: its name, what comes before its figure and what behind.
var aims = map[kitchen.Aim][3]string{
	kitchen.Finish:       {"end early", "all is done ", " after the opening"},
	kitchen.LateStart:    {"start late", "the first hands are needed ", " after the opening"},
	kitchen.ShortDay:     {"a short day", "", " from the first hands to the last"},
	kitchen.LeastWaiting: {"little waiting", "cooked food stands ", " between steps, all of it together"},
	kitchen.LeastChange:  {"little change", "starts are moved by ", ", all of them together"},
}

// AimName is an aim in few words.
func AimName(a kitchen.Aim) string {
	if words, known := aims[a]; known {
		return words[0]
	}
	return string(a)
}

// Aims are the aims worth telling: ending early alone is told by how long the day is.
func Aims(t plan.Timetable) []plan.AimResult {
	if len(t.Aims) == 1 && t.Aims[0].Aim == kitchen.Finish {
		return nil
	}
	return t.Aims
}

// AimWords says how well a timetable does by an aim, and how far that may be from the best.
func AimWords(a plan.AimResult, units unit.System) string {
	words, name := aims[a.Aim], AimName(a.Aim)
	text := strings.ToUpper(name[:min(1, len(name))]) + name[min(1, len(name)):] + ": " + words[1] + a.Value.Show(units) + words[2]
	gap := a.Value - a.Bound
	if gap < 0 {
		gap = -gap
	}
	switch {
	case a.Status == "optimal":
		return text + "; proved, nothing better is possible."
	case gap == 0:
		return text + "; nothing better is possible."
	default:
		return text + "; nothing better than " + a.Bound.Show(units) + " is possible, so at most " + gap.Show(units) + " are given away."
	}
}

// SlackWords says how much later a task may begin.
func SlackWords(t plan.Task, units unit.System) string {
	switch {
	case t.State == plan.Done:
		return ""
	case Critical(t):
		return "none"
	}
	return t.Slack.Show(units)
}

// ShiftWords is a shift as "25 min later".
func ShiftWords(by unit.Span, units unit.System) string {
	switch {
	case by > 0:
		return by.Show(units) + " later"
	case by < 0:
		return (-by).Show(units) + " earlier"
	}
	return "at the same time"
}

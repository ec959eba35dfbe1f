// Package sheet shows a plan as text that a cook reads on a screen or on paper: findings first, then the run in a few figures, what
// to buy, the day, the steps at scale, chilling, filling, freezing, heating cards, cost and labels. It computes nothing: every figure is the
// plan's, rounded for reading. No line is longer than 100 characters.
package sheet

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Section is a part of the sheet.
type Section string

// The sections, in the order of the sheet.
const (
	Findings Section = "findings"
	Summary  Section = "summary"
	Buy      Section = "buy"
	Day      Section = "day"
	Steps    Section = "steps"
	Chill    Section = "chill"
	Fill     Section = "fill"
	Freeze   Section = "freeze"
	Cards    Section = "cards"
	Cost     Section = "cost"
	Labels   Section = "labels"
)

// Sections are all sections, in the order of the sheet.
func Sections() []Section {
	return []Section{Findings, Summary, Buy, Day, Steps, Chill, Fill, Freeze, Cards, Cost, Labels}
}

// Text is the sheet of a plan in one system of units, with the sections named, or all when none is named. They come in the order
// of the sheet. The head stands above any of them, and says how many findings there are, so that no part can hide a stop.
func Text(p plan.Plan, units unit.System, only ...Section) string {
	w := &writer{plan: p, units: units}
	w.head()
	for _, s := range Sections() {
		if len(only) == 0 || slices.Contains(only, s) {
			w.section(s)
		}
	}
	return w.String()
}

func (w *writer) section(s Section) {
	switch s {
	case Findings:
		w.findings()
	case Summary:
		w.summary()
	case Buy:
		w.buy()
	case Day:
		w.day()
	case Steps:
		w.steps()
	case Chill:
		w.chill()
	case Fill:
		w.fill()
	case Freeze:
		w.freeze()
	case Cards:
		w.cards()
	case Cost:
		w.cost()
	case Labels:
		w.labels()
	}
}

// head says whose run it is, when, and how far to trust it.
func (w *writer) head() {
	p := w.plan
	w.line(p.Kitchen)
	title := "Plan: " + p.Run
	if p.Day != "" {
		title += ", " + p.Day
	}
	w.line(title)
	w.gap()
	w.para(0, p.Note)
	w.para(0, "Computed from the book before anything is cooked. Weigh, probe and time what really happens; your local food code decides.")
	w.para(0, tally(p.Findings))
}

// many is "1 pack" or "3 packs".
func many(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// list joins what is not empty.
func list(sep string, parts ...string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(parts), func(s string) bool { return s == "" }), sep)
}

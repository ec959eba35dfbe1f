package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// The temperatures between which the plan's times of chilling run.
var hot, cool, cold = unit.TempF(135), unit.TempF(70), unit.TempF(41)

func (w *writer) chill() {
	w.heading("chill", "")
	if len(w.plan.Chill) == 0 {
		w.para(0, "Nothing hot to chill.")
		return
	}
	w.para(0, fmt.Sprintf("Times are computed for the hottest point, from %s on, at the usual surface coefficient and, in brackets, from the best to the worst. A probe in it, written down, is what counts.", hot.Show(w.units)))
	var formulas []string
	for _, c := range w.plan.Chill {
		w.chillOne(c)
		for _, o := range c.Options {
			for _, s := range o.Stages {
				if !slices.Contains(formulas, s.Formula) {
					formulas = append(formulas, s.Formula)
				}
			}
		}
	}
	w.gap()
	w.hang(0, "times by: ", strings.Join(formulas, "; "))
}

// chillOne is one hot output: the way that was chosen, then the others in the order of the book.
func (w *writer) chillOne(c plan.Chill) {
	w.sub(fmt.Sprintf("%s, %s from %s (%s)", c.Name, c.Mass.Show(w.units), c.From.Show(w.units), c.Dish))
	if c.Chosen < 0 || c.Chosen >= len(c.Options) {
		w.para(2, "NO WAY IN THE BOOK WITHIN THE LIMITS.")
	} else {
		w.way("DO: ", c.Options[c.Chosen])
	}
	for i, o := range c.Options {
		if i != c.Chosen {
			w.way("-   ", o)
		}
	}
	rule := c.Rule
	if !strings.Contains(rule, c.Source) {
		rule += "; " + c.Source
	}
	w.hang(2, "rule: ", rule)
}

func (w *writer) way(lead string, o plan.ChillOption) {
	const indent = 2
	w.hang(indent, lead, list(": ", o.Name, string(o.Verdict)))
	below := indent + len(lead)
	w.para(below, o.Why)
	if o.To70 != nil || o.To41 != nil { // or nothing was computed, or it gets nowhere: the reason says it
		ice, hands, space := "", "", ""
		if o.Ice > 0 {
			ice = "ice " + o.Ice.Show(w.units)
		}
		if o.HandsOn > 0 {
			hands = "hands on " + o.HandsOn.Show(w.units)
		}
		if o.Space > 0 {
			space = "space " + o.Space.Show(w.units)
		}
		w.para(below, list("; ", fmt.Sprintf("to %s %s, to %s %s", cool.Show(w.units), w.reachBand(o.To70, o.Fast70, o.Slow70), cold.Show(w.units), w.reachBand(o.To41, o.Fast41, o.Slow41)),
			w.vessels(o), ice, space, hands))
	}
	for _, n := range o.Notes {
		w.hang(below, "! ", n)
	}
	for _, f := range o.Fits {
		w.hang(below, "would do: ", f)
	}
}

// vessels is what a load takes, stage by stage.
func (w *writer) vessels(o plan.ChillOption) string {
	var needs []string
	for _, s := range o.Stages {
		switch {
		case s.Vessels == 0:
		case s.Vessels > s.Have:
			needs = append(needs, fmt.Sprintf("a load takes %d, there are %d", s.Vessels, s.Have))
		default:
			needs = append(needs, fmt.Sprintf("a load takes %d of the %d there are", s.Vessels, s.Have))
		}
	}
	return strings.Join(needs, ", then ")
}

// reachBand is a time to a temperature, and from the best to the worst surface coefficient.
func (w *writer) reachBand(usual, fast, slow *unit.Span) string {
	if fast == nil || slow == nil || *fast == *slow {
		return w.reach(usual)
	}
	return w.reach(usual) + " (" + fast.Show(w.units) + " to " + slow.Show(w.units) + ")"
}

// reach is a time to a temperature, or that it is not reached.
func (w *writer) reach(d *unit.Span) string {
	if d == nil {
		return "never"
	}
	return d.Show(w.units)
}

// count is a number, or nothing when it is zero.
func count(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

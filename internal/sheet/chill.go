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
	w.para(0, fmt.Sprintf("Times are computed for the hottest point, from %s on. A probe in it, written down, is what counts.", hot.Show(w.units)))
	var formulas []string
	for _, c := range w.plan.Chill {
		w.chillOne(c)
		for _, o := range c.Options {
			if o.Formula != "" && !slices.Contains(formulas, o.Formula) {
				formulas = append(formulas, o.Formula)
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
	w.hang(indent, lead, list(": ", o.Name, o.Verdict))
	below := indent + len(lead)
	w.para(below, o.Why)
	if o.To70 == nil && o.To41 == nil {
		return // nothing was computed, or it gets nowhere: the reason says it
	}
	needs, ice, hands := "", "", ""
	if o.Vessels > 0 {
		needs = fmt.Sprintf("a load takes %d of the %d there are", o.Vessels, o.Have)
	}
	if o.Vessels > o.Have {
		needs = fmt.Sprintf("a load takes %d, there are %d", o.Vessels, o.Have)
	}
	if o.Ice > 0 {
		ice = "ice " + o.Ice.Show(w.units)
	}
	if o.HandsOn > 0 {
		hands = "hands on " + o.HandsOn.Show(w.units)
	}
	w.para(below, list("; ", fmt.Sprintf("to %s %s, to %s %s", cool.Show(w.units), w.reach(o.To70), cold.Show(w.units), w.reach(o.To41)), needs, ice, hands))
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

package nutrition

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// Print is one thing that a rule allows to be printed of an amount.
type Print struct {
	Amount  float64 `json:"amount"`         // as declared; of a text the step it stands for
	Text    string  `json:"text"`           // with the unit: "4.5 g", "less than 5 mg", "15 %"
	Less    bool    `json:"less,omitempty"` // it is a text
	Should  bool    `json:"should,omitempty"`
	Source  string  `json:"source"`
	Confirm string  `json:"confirm,omitempty"`
}

// Allowed is everything that may be printed of an amount on a line of the tables of rules ("sodium", "total_fat"), the usual first: a zero
// where it is allowed, else a text ("less than 1 g"), else the figure; of the per cent of a vitamin or mineral the figure first. Halves are
// rounded up: the text is silent. Nothing for a line that has no rule, or an amount below 0.
func Allowed(line string, amount float64) []Print { return roundings.allowed(line, amount) }

func (t roundingTable) allowed(line string, amount float64) []Print {
	x := microOf(amount)
	var all []Print
	if x < 0 || math.IsNaN(amount) || amount > 1e9 {
		return nil
	}
	for _, r := range t[line] {
		if !r.from.holds(x) || !r.to.holds(x) {
			continue
		}
		p := r.print(x)
		if r.rule == "zero_shall" {
			return []Print{p}
		}
		if !slices.ContainsFunc(all, func(q Print) bool { return q.Text == p.Text }) {
			all = append(all, p)
		}
	}
	return all
}

func (r rounding) print(x micro) Print {
	p := Print{Source: r.source, Confirm: r.confirm, Should: r.rule == "nearest_should"}
	switch r.rule {
	case "zero_may", "zero_shall":
		p.set(r, 0, -1)
	case "text_may":
		p.Text, p.Less = r.text, true
		for _, w := range strings.Fields(r.text) {
			if least, err := number(strings.TrimPrefix(w, "<")); err == nil {
				p.Amount = least
			}
		}
	case "figures":
		p.set(r, nearest(x, leading(x, int(r.step/1e6))), -1)
	case "nearest_fixed":
		to, places := nearest(x, r.step), decimals(r.step)
		if r.to.op != "" && to >= r.to.at { // it has rounded into the row above: 9.96 g is 10 g there, not 10.0
			places--
		}
		p.set(r, to, places)
	default:
		p.set(r, nearest(x, r.step), -1)
	}
	return p
}

func (p *Print) set(r rounding, to micro, decimals int) {
	p.Amount = float64(to) / 1e6
	p.Text = strconv.FormatFloat(p.Amount, 'f', decimals, 64) + unitBehind(r.unit)
}

// leading is the step that leaves so many figures.
func leading(x micro, figures int) micro {
	step := micro(1)
	for most := micro(math.Pow10(figures)); x/step >= most; step *= 10 {
	}
	return step
}

// decimals is how many a step has.
func decimals(step micro) int {
	n := 0
	for at := micro(1e6); step%at != 0; at /= 10 {
		n++
	}
	return n
}

// nearest rounds to a step, a half up.
func nearest(x, step micro) micro { return (2*x + step) / (2 * step) * step }

// unitBehind is the unit as it stands behind a figure; calories and servings are said elsewhere.
func unitBehind(unit string) string {
	switch unit {
	case "kcal", "servings", "g_or_mL":
		return ""
	}
	return " " + unit
}

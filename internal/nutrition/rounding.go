package nutrition

import (
	_ "embed"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/sourced"
)

//go:embed data/rounding.csv
var roundingData string

// rounding is one row of the rules: what may be printed of an amount between two bounds.
type rounding struct {
	line, unit string
	from, to   bound
	rule       string // nearest, nearest_should (guidance), zero_may, zero_shall (nothing else will do), text_may
	text       string // of text_may
	step       micro
	source     string
	confirm    string
}

// micro is millionths of a unit: amounts are compared and rounded as whole numbers of them, so that what is a tie in decimals is one here.
type micro int64

func microOf(x float64) micro { return micro(math.Round(x * 1e6)) }

// bound is ">=5", "<0.5" or none.
type bound struct {
	op string
	at micro
}

func (b bound) holds(x micro) bool {
	switch b.op {
	case ">=":
		return x >= b.at
	case ">":
		return x > b.at
	case "<=":
		return x <= b.at
	case "<":
		return x < b.at
	}
	return true
}

var roundings = byLine(sourced.MustRead(roundingData, readRounding))

func byLine(rows []rounding) map[string][]rounding {
	by := map[string][]rounding{}
	for _, r := range rows {
		by[r.line] = append(by[r.line], r)
	}
	return by
}

func readRounding(row sourced.Row) (r rounding, err error) {
	r = rounding{line: row["line"], unit: row["unit"], source: row["source"], confirm: row["confirm"]}
	r.rule, r.text, _ = strings.Cut(row["rule"], ":")
	if r.from, err = readBound(row["from"]); err != nil {
		return r, err
	}
	if r.to, err = readBound(row["to"]); err != nil {
		return r, err
	}
	needsStep := false
	switch r.rule {
	case "nearest", "nearest_should":
		needsStep = true
	case "zero_may", "zero_shall", "text_may":
	default:
		return r, fmt.Errorf("no rule %q", r.rule)
	}
	if needsStep {
		step, err := number(row["step"])
		if r.step = microOf(step); err != nil || r.step <= 0 {
			return r, fmt.Errorf("step %q", row["step"])
		}
	}
	return r, nil
}

func readBound(text string) (b bound, err error) {
	if text == "" {
		return b, nil
	}
	at := strings.TrimLeft(text, "<>=")
	x, err := number(at)
	b = bound{strings.TrimSuffix(text, at), microOf(x)}
	if !slices.Contains([]string{"<", "<=", ">", ">="}, b.op) {
		return b, fmt.Errorf("no bound %q", text)
	}
	return b, err
}

func number(text string) (float64, error) { return strconv.ParseFloat(text, 64) }

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
func Allowed(line string, amount float64) []Print {
	x := microOf(amount)
	var all []Print
	if x < 0 || math.IsNaN(amount) || amount > 1e9 {
		return nil
	}
	for _, r := range roundings[line] {
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
		p.Text = withUnit(0, r.unit)
	case "text_may":
		p.Text, p.Less = r.text, true
		for _, w := range strings.Fields(r.text) {
			if least, err := number(w); err == nil {
				p.Amount = least
			}
		}
	default:
		to := nearest(x, r.step)
		p.Amount, p.Text = float64(to)/1e6, withUnit(to, r.unit)
	}
	return p
}

// nearest rounds to a step, a half up.
func nearest(x, step micro) micro { return (2*x + step) / (2 * step) * step }

// withUnit writes a figure without trailing zeros, and its unit: "4.5 g", "1810 mg".
func withUnit(x micro, unit string) string {
	text := strconv.FormatFloat(float64(x)/1e6, 'f', -1, 64)
	switch unit {
	case "kcal", "servings", "g_or_mL":
		return text
	}
	return text + " " + unit
}

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
	// rule is nearest, nearest_should (guidance), nearest_fixed (zeros at the end stay), figures (as many as step), zero_may, zero_shall (nothing
	// else will do) or text_may.
	rule    string
	text    string // of text_may
	step    micro
	source  string
	confirm string
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

// roundingTable is the rows of each line.
type roundingTable map[string][]rounding

var roundings = byLine(sourced.MustRead(roundingData, readRounding))

func byLine(rows []rounding) roundingTable {
	by := roundingTable{}
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
	case "nearest", "nearest_should", "nearest_fixed", "figures":
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

// Package heatcheck holds every figure of heat in this project that can be compared with somebody else's, and writes docs/heat-checks.md:
// how far off each is. It is tests only. The page is made by the test that holds the figures, so it cannot say what the test does not find;
// a figure outside its tolerance fails the test and is marked on the page. go test ./internal/heatcheck -update writes the page anew.
package heatcheck

import (
	"fmt"
	"math"
	"strings"
)

// status is how well an outside value is known.
type status string

const (
	read       status = "read"
	inputsRead status = "inputs read, value derived"
	partMemory status = "partly from memory"
	memory     status = "from memory"
	derived    status = "derived independently"
	exact      status = "exact mathematics"
	practice   status = "common practice"
	assumed    status = "derived independently; surface coefficient assumed"
)

// source is where an outside value comes from.
type source struct {
	text   string
	status status
}

// tolerance is how far ours may be from the outside value. The zero value holds nothing and must say why.
type tolerance struct {
	rel, abs  float64 // one of them
	low, high float64 // or a range for ours
	words     bool    // or the same word
	text      string  // of a range, if numbers do not say it
	noisy     bool    // the last digits of ours belong to the machine: the error is printed as a bound only
	notHeld   string  // or the reason why nothing is held
}

func percent(p float64) tolerance         { return tolerance{rel: p / 100} }
func absolute(a float64) tolerance        { return tolerance{abs: a} }
func between(low, high float64) tolerance { return tolerance{low: low, high: high} }
func shownOnly(reason string) tolerance   { return tolerance{notHeld: reason} }
func (t tolerance) ranged() bool          { return t.low != 0 || t.high != 0 }
func (t tolerance) allowed(w float64) float64 {
	if t.rel > 0 {
		return t.rel * math.Abs(w)
	}
	return t.abs
}

var sameWord = tolerance{words: true}

func (t tolerance) reading(text string) tolerance { t.text = text; return t }

const noiseMark = "≈"

// noise marks what depends on the last bits of a machine: a front that steps from cell to cell, a thermostat.
func (t tolerance) noise() tolerance { t.noisy = true; return t }

// value is one outside figure, or word, and ours. A figure may have words to be printed in its place.
type value struct {
	name              string // among others of its line
	want, got         float64
	wantWord, gotWord string
	err               error
	row               row
}

// row is where the file of derived check values has the same figure: times scale it is in the unit of the line.
type row struct {
	body, quantity string
	scale          float64
}

// of is an outside value, to be called with ours.
func of(want float64) func(got float64, err error) value {
	return func(got float64, err error) value { return value{want: want, got: got, err: err} }
}

// word is an outside verdict, to be called with ours.
func word(want string) func(got string, err error) value {
	return func(got string, err error) value { return value{wantWord: want, gotWord: got, err: err} }
}

// from is a computed figure of a range, which has no single outside value.
func from(got float64, err error) value { return value{got: got, err: err} }

func (v value) as(name string) value { v.name = name; return v }

// beside is the outside figure of a range in words, and ours if it has any.
func (v value) beside(outside, ours string) value {
	v.wantWord, v.gotWord = outside, ours
	return v
}

func (v value) at(body, quantity string, scale float64) value {
	v.row = row{body, quantity, scale}
	return v
}

// line is one line of the page: a figure, or several of a kind of which the worst is shown.
type line struct {
	what   string
	unit   string
	source source
	tol    tolerance
	values []value
}

type section struct {
	title string
	intro string
	lines []line
	notes []string
}

func (s *section) add(what, unit string, src source, tol tolerance, values ...value) {
	s.lines = append(s.lines, line{what, unit, src, tol, values})
}

func (s *section) note(text string) { s.notes = append(s.notes, text) }

// excess is how much of its tolerance a value uses up: above 1 it fails, and what cannot be computed fails.
func (l line) excess(v value) float64 {
	off := math.Abs(v.got - v.want)
	switch t := l.tol; {
	case v.err != nil || math.IsNaN(v.got) || math.IsInf(v.got, 0):
		return math.Inf(1)
	case t.notHeld != "":
		return 0
	case t.words:
		if v.gotWord == v.wantWord && v.wantWord != "" {
			return 0
		}
		return math.Inf(1)
	case t.ranged():
		return math.Abs(v.got-(t.low+t.high)/2) / ((t.high - t.low) / 2)
	case t.allowed(v.want) > 0:
		return off / t.allowed(v.want)
	}
	return math.Inf(1) // a line that holds nothing and does not say why
}

func (l line) worst() value {
	w := l.values[0]
	for _, v := range l.values[1:] {
		if l.excess(v) > l.excess(w) {
			w = v
		}
	}
	return w
}

func (l line) failing() (all []value) {
	for _, v := range l.values {
		if !(l.excess(v) <= 1) {
			all = append(all, v)
		}
	}
	return all
}

// problem is a failing value in words.
func (l line) problem(v value) string {
	name := l.what
	if v.name != "" {
		name += ", " + v.name
	}
	if v.err != nil {
		return fmt.Sprintf("%s: %v", name, v.err)
	}
	return fmt.Sprintf("%s: %s %s, outside %s, held to %s", name, l.ours(v), l.unit, l.outside(v), l.held())
}

func (l line) outside(v value) string {
	switch {
	case l.tol.words || v.wantWord != "":
		return v.wantWord
	case l.tol.ranged() && v.want == 0:
		return number(l.tol.low) + " to " + number(l.tol.high)
	case l.tol.notHeld != "" && v.want == 0:
		return "no figure"
	}
	return number(v.want)
}

func (l line) ours(v value) string {
	switch {
	case v.err != nil:
		return "no answer: " + v.err.Error()
	case l.tol.words || v.gotWord != "":
		return v.gotWord
	case l.tol.noisy:
		return noiseMark + number(v.got)
	}
	return number(v.got)
}

func (l line) held() string {
	t := l.tol
	switch {
	case t.notHeld != "":
		return "not held: " + t.notHeld
	case t.words:
		return "the same word"
	case t.text != "":
		return t.text
	case t.ranged():
		return number(t.low) + " to " + number(t.high)
	case t.rel > 0:
		return "±" + number(100*t.rel) + " %"
	}
	return strings.TrimSpace("±" + number(t.abs) + " " + l.unit)
}

// The smallest errors that are printed, in % and as a part of the tolerance: below them an error belongs to the last typed digit.
const finest, finestPart = 0.01, 0.05

// off is the error, to two figures.
func (l line) off(v value) string {
	switch t := l.tol; {
	case v.err != nil || t.words || v.want == 0 && (t.ranged() || t.notHeld != ""):
		return "–"
	case t.noisy && l.excess(v) <= 1:
		return "<" + strings.TrimPrefix(l.held(), "±")
	case t.abs > 0:
		return signed(v.got-v.want, finestPart*t.abs, l.unit)
	case v.want == 0:
		return "–"
	}
	return signed(100*(v.got/v.want-1), finest, "%")
}

func signed(x, least float64, unit string) string {
	if math.Abs(x) < least {
		return strings.TrimSpace("<" + figures(least, 1) + " " + unit)
	}
	sign := "+"
	if x < 0 {
		sign = "−"
	}
	return strings.TrimSpace(sign + figures(math.Abs(x), 2) + " " + unit)
}

func number(x float64) string { return strings.Replace(figures(x, 4), "-", "−", 1) }

// figures is x to n significant figures, written without an exponent and without trailing zeros after a point.
func figures(x float64, n int) string {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return fmt.Sprint(x)
	}
	digits := n - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	if digits <= 0 {
		unit := math.Pow(10, float64(-digits))
		return fmt.Sprintf("%.0f", math.Round(x/unit)*unit)
	}
	s := fmt.Sprintf("%.*f", digits, x)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

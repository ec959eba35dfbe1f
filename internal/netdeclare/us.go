package netdeclare

import (
	"fmt"
	"slices"
	"strconv"

	"kettlefrost/internal/unit"
)

// Style is how a statement by weight is written.
type Style struct {
	// Parts is in what parts of an ounce it is written: 2, 4, 8, 16 or 32 for common fractions; 0 for hundredths.
	Parts int
	// Random: every pack of the lot weighs something else; pounds and hundredths of them.
	Random bool
	// NoMetric: packed in the store that sells it, where the law does not ask for grams (15 U.S.C. 1453(a)(6)).
	NoMetric bool
}

// Statement is a net quantity as it is printed.
type Statement struct {
	Text string   // "Net Wt 24 oz (1 lb 8 oz) 680 g"
	Or   []string // other ways of saying just the same
	// Declared is the largest of its figures: what the average of a lot must reach.
	Declared unit.Mass
	Unsaid   unit.Mass // what the pack holds beyond that
	Source   string
	Confirm  string
}

const (
	usSource  = "21 CFR 101.7, formerly 101.105, 2015 (read); 15 U.S.C. 1453(a)(2), (a)(3)(A)(i) and (a)(6) (read); the larger figure is enforced: NIST, metric labelling (quoted)"
	usConfirm = "that 101.105 is 101.7 now is from memory; that kilograms take two places is common practice"
)

// ouncesFirst is up to where ounces stand first, with pounds behind them from one pound on.
const ouncesFirst = 4 * unit.Pound

// US is the statement of a net mass: under 4 lb in ounces, from 1 lb with pounds and ounces in brackets; from 4 lb in pounds and ounces. Grams
// stand beside. Everything is rounded down. Errors are *InputError.
func US(net unit.Mass, s Style) (Statement, error) {
	if net <= 0 {
		return Statement{}, &InputError{"the net mass", "is " + net.String(), "give what a pack holds"}
	}
	if !slices.Contains([]int{0, 2, 4, 8, 16, 32}, s.Parts) {
		return Statement{}, &InputError{"the parts of an ounce", "are " + strconv.Itoa(s.Parts), "use 2, 4, 8, 16 or 32, or 0 for hundredths"}
	}
	if s.Random {
		return random(net)
	}
	parts := 100
	if s.Parts > 0 {
		parts = s.Parts
	}
	if net > 1000*unit.Pound {
		return Statement{}, &InputError{"the net mass", "is " + net.String(), "give what one pack holds"}
	}
	// Parts of an ounce, rounded down: a half of one is no whole number of nanograms, so that one of them may be wanting.
	n := int(int64(net+1) * int64(parts) / int64(unit.Ounce))
	if n == 0 {
		return Statement{}, &InputError{"the net mass", "is " + net.String(), "that is less than the least part of an ounce that may be said"}
	}
	w := weight{n, parts, s.Parts > 0}
	st := Statement{Declared: min(net, w.mass()), Source: usSource, Confirm: usConfirm}
	metric := ""
	if !s.NoMetric {
		text, declared := metricOf(net)
		metric, st.Declared = text, max(st.Declared, declared)
	}
	forms := w.forms(metric)
	st.Text, st.Or = forms[0], forms[1:]
	st.Unsaid = net - st.Declared
	return st, nil
}

// weight is so many parts of an ounce.
type weight struct {
	n, parts int
	common   bool // in common fractions
}

// mass is the weight to the nanogram.
func (w weight) mass() unit.Mass { return unit.Mass(int64(w.n) * int64(unit.Ounce) / int64(w.parts)) }

// forms are the ways of saying it, with the metric figure behind.
func (w weight) forms(metric string) []string {
	pound := 16 * w.parts
	bare, behind := "", ""
	if metric != "" {
		bare, behind = " ("+metric+")", " "+metric
	}
	if w.n < pound {
		return []string{"Net Wt " + w.number(w.n, w.parts) + " oz" + bare}
	}
	var all []string
	for _, pounds := range w.pounds() {
		if w.mass() < ouncesFirst {
			all = append(all, fmt.Sprintf("Net Wt %s oz (%s)%s", w.number(w.n, w.parts), pounds, behind))
		} else {
			all = append(all, "Net Wt "+pounds+bare)
		}
	}
	return all
}

// pounds are the ways of saying it in pounds: with the rest in ounces, as a common fraction and as a decimal, the last two only where they are
// exact in the fractions and places that the rules know.
func (w weight) pounds() []string {
	pound := 16 * w.parts
	whole, rest := w.n/pound, w.n%pound
	if rest == 0 {
		return []string{strconv.Itoa(whole) + " lb"}
	}
	all := []string{fmt.Sprintf("%d lb %s oz", whole, w.number(rest, w.parts))}
	if 32*rest%pound == 0 {
		all = append(all, weight{common: true}.number(w.n, pound)+" lb")
	}
	if 100*rest%pound == 0 {
		all = append(all, weight{}.number(w.n, pound)+" lb")
	}
	return all
}

// number writes n parts: as a whole number, with a common fraction in lowest terms, or with at most two decimals.
func (w weight) number(n, parts int) string {
	if !w.common {
		hundredths := n * 100 / parts
		return strconv.FormatFloat(float64(hundredths)/100, 'f', -1, 64)
	}
	whole, over, under := n/parts, n%parts, parts
	for _, p := range []int{2, 5} { // the primes of 16, 32 and 100
		for over > 0 && over%p == 0 && under%p == 0 {
			over, under = over/p, under/p
		}
	}
	switch {
	case over == 0:
		return strconv.Itoa(whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", over, under)
	}
	return fmt.Sprintf("%d %d/%d", whole, over, under)
}

// metricOf is grams, from a kilogram on kilograms to two places, rounded down, and the mass that it says.
func metricOf(net unit.Mass) (string, unit.Mass) {
	text := func(m, in unit.Mass) string { return strconv.FormatFloat(float64(m)/float64(in), 'f', -1, 64) }
	switch {
	case net >= unit.Kilogram:
		m := net - net%(10*unit.Gram)
		return text(m, unit.Kilogram) + " kg", m
	case net < 10*unit.Gram:
		m := net - net%(unit.Gram/10)
		return text(m, unit.Gram) + " g", m
	}
	m := net - net%unit.Gram
	return text(m, unit.Gram) + " g", m
}

// random is a pack of a lot in which each weighs something else: pounds to hundredths, with no zero before the point.
func random(net unit.Mass) (Statement, error) {
	n := int64(net) * 100 / int64(unit.Pound)
	if n == 0 {
		return Statement{}, &InputError{"the net mass", "is " + net.String(), "that is less than a hundredth of a pound"}
	}
	text := strconv.FormatFloat(float64(n)/100, 'f', -1, 64)
	if n < 100 {
		text = text[1:]
	}
	declared := unit.Mass(n * int64(unit.Pound) / 100)
	return Statement{Text: "Net Wt " + text + " lb", Declared: declared, Unsaid: net - declared, Source: usSource,
		Confirm: usConfirm + "; that a random pack needs no grams is from memory"}, nil
}

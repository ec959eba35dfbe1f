package netcontents_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"kettlefrost/internal/netcontents"
	"kettlefrost/internal/unit"
)

func near(t *testing.T, what string, got, want, room float64) {
	t.Helper()
	if !(math.Abs(got-want) <= room) {
		t.Errorf("%s: got %.9g, want %.9g ± %g", what, got, want, room)
	}
}

// g is a mass in grams, exact to a thousandth.
func g(grams float64) unit.Mass { return unit.Mass(math.Round(grams*1000)) * unit.Milligram }

// lotOf has packs with these errors in grams, in pouches of 11.9 and 12.1 g.
func lotOf(terms netcontents.Terms, errorsG ...float64) netcontents.Lot {
	l := netcontents.Lot{Terms: terms, Tares: []unit.Mass{g(11.9), g(12.1)}}
	for _, e := range errorsG {
		l.Gross = append(l.Gross, terms.Label+g(12)+g(e))
	}
	return l
}

// repeat is n errors of e.
func repeat(n int, e float64) []float64 { return slices.Repeat([]float64{e}, n) }

var (
	ounces24 = netcontents.Terms{Rules: netcontents.Handbook133, Lot: 60, Label: 24 * unit.Ounce, LabelIn: unit.US}
	e500     = netcontents.Terms{Rules: netcontents.Directive76211, Lot: 400, Label: g(500)}
	// sixty are the errors of twelve out of sixty pouches of 24 oz: sum -24, average -2.0, squares about it 110, so s = sqrt(110/11) = 3.162
	// and a limit of 0.635 s = 2.008 (worked by hand).
	sixty = []float64{-6, -2, 1, -4, 0, -3, 2, -5, -1, -2, 3, -7}
)

func shifted(errorsG []float64, by float64) []float64 {
	out := slices.Clone(errorsG)
	for i := range out {
		out[i] += by
	}
	return out
}

// TestLots judges lots that were worked by hand.
func TestLots(t *testing.T) {
	own, small, alone, large, fifty := ounces24, ounces24, ounces24, ounces24, e500
	own.Rules = netcontents.OwnCheck
	small.Lot, alone.Lot, large.Lot, fifty.Lot = 3, 1, 5000, 50
	for _, c := range []struct {
		name    string
		terms   netcontents.Terms
		errorsG []float64
		ending  netcontents.Ending
		reasons []netcontents.Reason
		limitG  float64
	}{
		{"sixty pouches pass, just", ounces24, sixty, netcontents.Passes, nil, 2.008},
		{"0.2 g lower each", ounces24, shifted(sixty, -0.2), netcontents.Fails, []netcontents.Reason{netcontents.AverageShort}, 2.008},
		{"one short by 26 g over a MAV of 25.4", ounces24, slices.Concat(repeat(11, 5), []float64{-26}), netcontents.Fails, []netcontents.Reason{netcontents.PacksShort}, 5.683}, // s = 31 sqrt(1/12) = 8.949
		{"one short by 25.4 g, under 0.056 lb", ounces24, slices.Concat(repeat(11, 5), []float64{-25.4}), netcontents.Passes, nil, 5.573},                                        // 30.4 sqrt(1/12) 0.635
		{"the sixty by the packer's own check", own, sixty, netcontents.Fails, []netcontents.Reason{netcontents.AverageShort}, 0},
		{"all on the label", own, repeat(12, 0), netcontents.Passes, nil, 0},
		{"three packs, all weighed", small, []float64{-1, 0, -2}, netcontents.Passes, nil, 2.484},                                 // s = 1
		{"three packs alike", small, []float64{-1, -1, -1}, netcontents.Fails, []netcontents.Reason{netcontents.AverageShort}, 0}, // s = 0
		{"one pack short: no average of one", alone, []float64{-25}, netcontents.Passes, nil, 0},
		{"one pack short by more than the MAV", alone, []float64{-26}, netcontents.Fails, []netcontents.Reason{netcontents.PacksShort}, 0},
		{"a large lot may have one", large, slices.Concat(repeat(47, 1), []float64{-26}), netcontents.Passes, nil, 1.134},                             // 27 sqrt(1/48) 0.291
		{"but not two", large, slices.Concat(repeat(46, 5), repeat(2, -26)), netcontents.Fails, []netcontents.Reason{netcontents.PacksShort}, 1.8217}, // 31² · 46·2/48/47 = 39.19, s = 6.260
		{"short packs and a short average", ounces24, slices.Concat(repeat(11, -26), []float64{-25}), netcontents.Fails, []netcontents.Reason{netcontents.AverageShort, netcontents.PacksShort}, 0.1833},

		{"the Directive: one of thirty short by 16 g", e500, slices.Concat(repeat(29, 1), []float64{-16}), netcontents.Passes, nil, 1.5612},         // 17 sqrt(1/30) 0.503
		{"two do not decide", e500, slices.Concat(repeat(28, 2), repeat(2, -16)), netcontents.WeighMore, nil, 2.2971},                               // 324·28·2/30/29: s = 4.5668
		{"three fail", e500, slices.Concat(repeat(27, 3), repeat(3, -16)), netcontents.Fails, []netcontents.Reason{netcontents.PacksShort}, 2.9163}, // 361·27·3/30/29: s = 5.7975
		{"with the second sample four pass", e500, slices.Concat(repeat(28, 2), repeat(4, -16), repeat(28, 0)), netcontents.Passes, nil, 2.2971},
		{"and five fail", e500, slices.Concat(repeat(28, 2), repeat(5, -16), repeat(27, 0)), netcontents.Fails, []netcontents.Reason{netcontents.PacksShort}, 2.2971},
		{"a pack short by 31 g, over twice 15", e500, slices.Concat(repeat(29, 3), []float64{-31}), netcontents.Fails, []netcontents.Reason{netcontents.TwiceShort}, 3.1225}, // 34 sqrt(1/30) 0.503
		{"short by 30 g is not over it", e500, slices.Concat(repeat(29, 3), []float64{-30}), netcontents.Passes, nil, 3.0306},
		{"the average short, thirty alike", e500, repeat(30, -0.1), netcontents.Fails, []netcontents.Reason{netcontents.AverageShort}, 0},
		{"and two to decide on", e500, slices.Concat(repeat(28, -2), repeat(2, -16)), netcontents.Fails, []netcontents.Reason{netcontents.AverageShort}, 1.7866}, // 196·28·2/30/29: s = 3.5519
		{"fifty of the Directive, all weighed, one short by 16 g", fifty, slices.Concat(repeat(49, 1), []float64{-16}), netcontents.Passes, nil, 0},
		{"two of them short", fifty, slices.Concat(repeat(48, 1), repeat(2, -16)), netcontents.Fails, []netcontents.Reason{netcontents.PacksShort}, 0},
		{"their mean short by a tenth of a gram", fifty, slices.Concat(repeat(49, 0), []float64{-5}), netcontents.Fails, []netcontents.Reason{netcontents.AverageShort}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			v, err := netcontents.Evaluate(lotOf(c.terms, c.errorsG...))
			if err != nil {
				t.Fatal(err)
			}
			if v.Ending != c.ending || !slices.Equal(v.Reasons, c.reasons) {
				t.Errorf("it %s %v, want %s %v: %+v", v.Ending, v.Reasons, c.ending, c.reasons, v)
			}
			near(t, "limit", v.LimitG, c.limitG, 6e-4)
			if v.Tare != g(12) {
				t.Errorf("tare %s", v.Tare)
			}
		})
	}
}

// TestSixtyPouches: every figure on the way of the lot worked by hand.
func TestSixtyPouches(t *testing.T) {
	v, err := netcontents.Evaluate(lotOf(ounces24, sixty...))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "average error", v.AverageErrorG, -2, 1e-12)
	near(t, "standard deviation", v.DeviationG, math.Sqrt(10), 1e-12)
	near(t, "MAV", float64(v.Plan.Shortfall)/float64(unit.Gram), 25.4, 0.0012) // 0.056 lb is 25.4012 g
	if v.Errors[11] != g(-7) || len(v.Short)+len(v.Twice) != 0 || v.Plan.Sample() != 12 || v.Plan.Tares != 2 {
		t.Errorf("got %+v", v)
	}
}

// TestNumAcc3 is a data set of the NIST Statistical Reference Datasets (values from memory, certified results quoted): 1000000.2 and then
// 1000000.1 and 1000000.3 by turns, 1001 values, mean 1000000.2 and standard deviation 0.1. Here they are tenths of a gram.
func TestNumAcc3(t *testing.T) {
	packs := []unit.Mass{10_000_002 * unit.Gram / 100}
	for range 500 {
		packs = append(packs, 10_000_001*unit.Gram/100, 10_000_003*unit.Gram/100)
	}
	s, err := netcontents.Learn(100*unit.Kilogram, netcontents.Prior{}, [][]unit.Mass{packs}, 95*unit.PerCent)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "standard deviation", s.DeviationG, 0.01, 1e-13)
}

func TestLotsThatMakeNoSense(t *testing.T) {
	good := func() netcontents.Lot { return lotOf(ounces24, sixty...) }
	for _, c := range []struct {
		name string
		edit func(*netcontents.Lot)
		what string
	}{
		{"no rules", func(l *netcontents.Lot) { l.Terms.Rules = 0 }, "Rules"},
		{"no label", func(l *netcontents.Lot) { l.Terms.Label = 0 }, "Label"},
		{"no packs", func(l *netcontents.Lot) { l.Terms.Lot = 0 }, "Lot"},
		{"one tare of two", func(l *netcontents.Lot) { l.Tares = l.Tares[:1] }, "Tares"},
		{"tares of net weights", func(l *netcontents.Lot) { l.Net = true }, "Tares"},
		{"a tare below 0", func(l *netcontents.Lot) { l.Tares[1] = -1 }, "Tares"},
		{"a pack of nothing", func(l *netcontents.Lot) { l.Gross[3] = 0 }, "Gross"},
	} {
		l := good()
		c.edit(&l)
		var wrong *netcontents.InputError
		if _, err := netcontents.Evaluate(l); !errors.As(err, &wrong) || wrong.What != c.what || wrong.Fix == "" {
			t.Errorf("%s: got %v, want an *InputError about %s", c.name, err, c.what)
		}
	}
	l := good()
	l.Gross = l.Gross[:10]
	var sample *netcontents.SampleError
	if _, err := netcontents.Evaluate(l); !errors.As(err, &sample) || !slices.Equal(sample.Want, []int{12}) || sample.Have != 10 {
		t.Errorf("ten of twelve: got %v", err)
	}
}

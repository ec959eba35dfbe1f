package controlchart_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/controlchart"
)

func near(t *testing.T, what string, got, want, room float64) {
	t.Helper()
	if !(math.Abs(got-want) <= room) {
		t.Errorf("%s: got %.6f, want %.6f ± %g", what, got, want, room)
	}
}

// pistonRings are the inside diameters of 25 samples of 5 piston rings, in mm: D. C. Montgomery, Introduction to Statistical Quality
// Control (from memory; the results beside the tests are those printed for it).
var pistonRings = [][]float64{
	{74.030, 74.002, 74.019, 73.992, 74.008}, {73.995, 73.992, 74.001, 74.011, 74.004}, {73.988, 74.024, 74.021, 74.005, 74.002},
	{74.002, 73.996, 73.993, 74.015, 74.009}, {73.992, 74.007, 74.015, 73.989, 74.014}, {74.009, 73.994, 73.997, 73.985, 73.993},
	{73.995, 74.006, 73.994, 74.000, 74.005}, {73.985, 74.003, 73.993, 74.015, 73.988}, {74.008, 73.995, 74.009, 74.005, 74.004},
	{73.998, 74.000, 73.990, 74.007, 73.995}, {73.994, 73.998, 73.994, 73.995, 73.990}, {74.004, 74.000, 74.007, 74.000, 73.996},
	{73.983, 74.002, 73.998, 73.997, 74.012}, {74.006, 73.967, 73.994, 74.000, 73.984}, {74.012, 74.014, 73.998, 73.999, 74.007},
	{74.000, 73.984, 74.005, 73.998, 73.996}, {73.994, 74.012, 73.986, 74.005, 74.007}, {74.006, 74.010, 74.018, 74.003, 74.000},
	{73.984, 74.002, 74.003, 74.005, 73.997}, {74.000, 74.010, 74.013, 74.020, 74.003}, {73.982, 74.001, 74.015, 74.005, 73.996},
	{74.004, 73.999, 73.990, 74.006, 74.009}, {74.010, 73.989, 73.990, 74.009, 74.014}, {74.015, 74.008, 73.993, 74.000, 74.010},
	{73.982, 73.984, 73.995, 74.017, 74.013},
}

// TestPistonRings: Montgomery prints 0.581 as the sum of the ranges and 0.0094 as the mean standard deviation, 74.001 as the centre and
// 73.988 and 74.014 as the limits of the means, worked out from rounded factors (0.58 times 0.023): so 0.001. None is out of control.
func TestPistonRings(t *testing.T) {
	for _, c := range []struct {
		kind                    controlchart.Kind
		sd, spread, spreadUpper float64
		room                    float64
	}{
		{controlchart.MeanRange, 0.581 / 25 / 2.326, 0.581 / 25, 2.115 * 0.581 / 25, 2e-6},
		{controlchart.MeanDeviation, 0.0094 / 0.9400, 0.0094, 2.089 * 0.0094, 6e-5},
	} {
		t.Run(c.kind.String(), func(t *testing.T) {
			s, err := controlchart.Learn(c.kind, pistonRings)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "centre", s.Centre, 74.001, 5e-4)
			near(t, "standard deviation", s.SD, c.sd, c.room)
			chart, err := s.Plot(pistonRings, []controlchart.Rule{controlchart.BeyondLimits})
			if err != nil {
				t.Fatal(err)
			}
			near(t, "lower limit of the means", chart.Location.Lower, 73.988, 1e-3)
			near(t, "upper limit of the means", chart.Location.Upper, 74.014, 1e-3)
			near(t, "mean spread", chart.Spread.Centre, c.spread, c.room)
			near(t, "upper limit of the spread", chart.Spread.Upper, c.spreadUpper, 10*c.room)
			near(t, "lower limit of the spread", chart.Spread.Lower, 0, 0)
			if n := len(chart.Location.Signals) + len(chart.Spread.Signals); n != 0 {
				t.Errorf("%d signals, want none", n)
			}
		})
	}
}

// TestFlowRates is NIST/SEMATECH e-Handbook 6.3.2.2 (from memory): ten flow rates, mean 50.81, mean moving range 1.8778, limits 55.8041
// and 45.8159 by a d2 of 1.128 (so 0.002), nothing out of control.
func TestFlowRates(t *testing.T) {
	rates := controlchart.Singles([]float64{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1})
	s, err := controlchart.Learn(controlchart.Individuals, rates)
	if err != nil {
		t.Fatal(err)
	}
	chart, err := s.Plot(rates, controlchart.WesternElectric)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "centre", chart.Location.Centre, 50.81, 1e-9)
	near(t, "mean moving range", chart.Spread.Centre, 1.8778, 5e-5)
	near(t, "upper limit", chart.Location.Upper, 55.8041, 2e-3)
	near(t, "lower limit", chart.Location.Lower, 45.8159, 2e-3)
	near(t, "upper limit of the moving range", chart.Spread.Upper, 3.267*1.8778, 2e-3)
	if len(chart.Spread.Points) != 9 || len(chart.Location.Signals)+len(chart.Spread.Signals) != 0 {
		t.Errorf("%d moving ranges and signals %v %v; want 9 and none", len(chart.Spread.Points), chart.Location.Signals, chart.Spread.Signals)
	}
}

// TestLaterGroups: a scale that drifts is held against the standard of before.
func TestLaterGroups(t *testing.T) {
	s := controlchart.Standard{Kind: controlchart.MeanRange, Size: 4, Centre: 690, SD: 4} // means scatter by 2
	chart, err := s.Plot([][]float64{{688, 692, 690, 690}, {700, 697, 696, 695}, {670, 690, 700, 700}}, controlchart.WesternElectric)
	if err != nil {
		t.Fatal(err)
	}
	if len(chart.Location.Signals) != 1 || chart.Location.Signals[0].Seen != 1 || chart.Location.Signals[0].Side != controlchart.High {
		t.Errorf("signals of the means %v, want the second, at 697 over 696", chart.Location.Signals)
	}
	if len(chart.Spread.Signals) != 1 || chart.Spread.Signals[0].Seen != 2 {
		t.Errorf("signals of the ranges %v, want the third, 30 over %g", chart.Spread.Signals, chart.Spread.Upper)
	}
	near(t, "upper limit of the range", chart.Spread.Upper, 4.698*4, 0.004) // D2 of 4 is 4.698 (ASTM manual, from memory)
}

// TestCapability: Cpk 1 leaves 0.00135 below a lower limit, Cpk 4/3 0.0000317 (normal tables).
func TestCapability(t *testing.T) {
	s := controlchart.Standard{Kind: controlchart.Individuals, Size: 1, Centre: 700, SD: 5}
	for _, c := range []struct{ lower, cpk, below, room float64 }{
		{685, 1, 0.00135, 5e-6}, {680, 4.0 / 3, 0.0000317, 5e-8}, {700, 0, 0.5, 1e-12}, {705, -1.0 / 3, 0.8413, 5e-5},
	} {
		got := s.Above(c.lower)
		near(t, "Cpk", got.Cpk, c.cpk, 1e-12)
		near(t, "share below", got.ShareBelow, c.below, c.room)
	}
	still := controlchart.Standard{Centre: 700}
	if c := still.Above(701); !math.IsInf(c.Cpk, -1) || c.ShareBelow != 1 {
		t.Errorf("what never scatters and is below: %+v", c)
	}
	if c := still.Above(700); !math.IsInf(c.Cpk, 1) || c.ShareBelow != 0 {
		t.Errorf("what never scatters and is not below: %+v", c)
	}
}

func TestWhatMakesNoSense(t *testing.T) {
	ok := []float64{1, 2}
	for _, c := range []struct {
		name   string
		kind   controlchart.Kind
		groups [][]float64
		group  int
	}{
		{"one group", controlchart.MeanRange, [][]float64{ok}, -1},
		{"no kind", 0, [][]float64{ok, ok}, -1},
		{"a group of 26", controlchart.MeanDeviation, [][]float64{make([]float64, 26), make([]float64, 26)}, -1},
		{"groups of one", controlchart.MeanRange, controlchart.Singles(ok), -1},
		{"individuals in pairs", controlchart.Individuals, [][]float64{ok, ok}, -1},
		{"a short group", controlchart.MeanRange, [][]float64{ok, ok, {1}}, 2},
		{"no number", controlchart.MeanRange, [][]float64{ok, {1, math.NaN()}}, 1},
	} {
		var wrong *controlchart.InputError
		if _, err := controlchart.Learn(c.kind, c.groups); !errors.As(err, &wrong) || wrong.Group != c.group || wrong.Fix == "" {
			t.Errorf("%s: got %v, want an *InputError about group %d with its fix", c.name, err, c.group)
		}
	}
	var wrong *controlchart.InputError
	s := controlchart.Standard{Kind: controlchart.MeanRange, Size: 2, SD: -1}
	if _, err := s.Plot([][]float64{ok}, nil); !errors.As(err, &wrong) {
		t.Errorf("a negative standard deviation: got %v", err)
	}
}

// TestUnitsDoNotMatter: values measured on another scale give the same chart on that scale, with the same signals.
func TestUnitsDoNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.IntRange(2, 6).Draw(t, "size")
		groups := rapid.SliceOfN(rapid.SliceOfN(rapid.Map(rapid.IntRange(-50, 50), func(i int) float64 { return float64(i) }), size, size), 2, 20).Draw(t, "groups")
		scaled := make([][]float64, len(groups))
		for i, g := range groups {
			for _, x := range g {
				scaled[i] = append(scaled[i], 4*x) // a power of two: exact
			}
		}
		for _, kind := range []controlchart.Kind{controlchart.MeanRange, controlchart.MeanDeviation} {
			a, b := chartOf(t, kind, groups), chartOf(t, kind, scaled)
			if math.Abs(b.Location.Upper-4*a.Location.Upper) > 1e-9 || math.Abs(b.Spread.Upper-4*a.Spread.Upper) > 1e-9 {
				t.Fatalf("limits %v and %v", a, b)
			}
			if len(a.Location.Signals) != len(b.Location.Signals) || len(a.Spread.Signals) != len(b.Spread.Signals) {
				t.Fatalf("signals %v and %v", a.Location.Signals, b.Location.Signals)
			}
		}
	})
}

func chartOf(t *rapid.T, kind controlchart.Kind, groups [][]float64) controlchart.Chart {
	s, err := controlchart.Learn(kind, groups)
	if err != nil {
		t.Fatal(err)
	}
	c, err := s.Plot(groups, controlchart.Nelson)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

package growth_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/growth"
)

func line(points ...float64) []growth.Reading { // hours, °C, hours, °C
	var r []growth.Reading
	for i := 0; i < len(points); i += 2 {
		r = append(r, growth.Reading{TimeS: 3600 * points[i], TempC: points[i+1]})
	}
	return r
}

// Computed from the same formulas by other code: they test this code, and are no truth about food. Without a lag and with it, in tenfolds,
// to 0.005.
func TestComputedVectors(t *testing.T) {
	for _, c := range []struct {
		name string
		at   []growth.Reading
		want [6]float64 // beef, chicken, pork
	}{
		{"45 °C for 1 h", line(0, 45, 1, 45), [6]float64{2.584, 1.415, 2.210, 0.428, 2.236, 0.520}},
		{"30 °C for 3 h", line(0, 30, 3, 30), [6]float64{2.943, 1.765, 2.809, 0.885, 2.463, 0.691}},
		{"54.4 to 27 °C in 1.5 h", line(0, 54.4, 1.5, 27), [6]float64{2.502, 1.336, 2.111, 0.368, 2.130, 0.448}},
		{"54.4 to 27 °C in 3 h", line(0, 54.4, 3, 27), [6]float64{5.004, 3.820, 4.222, 2.241, 4.259, 2.392}},
		{"the Food Code's limits", line(0, 57, 2, 21, 6, 5), [6]float64{2.967, 1.789, 2.574, 0.689, 2.495, 0.717}},
		{"Appendix B, first", line(0, 54.4, 1.5, 26.7, 6.5, 4.4), [6]float64{3.333, 2.151, 2.937, 0.999, 2.793, 0.972}},
		{"50 to 15 °C in 3 h", line(0, 50, 3, 15), [6]float64{3.944, 2.760, 3.501, 1.530, 3.360, 1.504}},
	} {
		e, err := growth.Cooling(c.at)
		if err != nil {
			t.Fatal(err)
		}
		for i, g := range e.Each {
			if math.Abs(g.NoLag-c.want[2*i]) > 0.005 || math.Abs(g.Total-c.want[2*i+1]) > 0.005 {
				t.Errorf("%s, %s: %.4f and %.4f, want %.3f and %.3f", c.name, g.Product, g.NoLag, g.Total, c.want[2*i], c.want[2*i+1])
			}
		}
	}
}

// Published: pea soup that cooled straight from 50 to 15 °C in 3 h had one tenfold (J Food Prot 67:352, 2004). The model must not say less.
// Uncured turkey, 48.9 to 26.7 °C in 1 h, then 5 h and 5 h: under one tenfold in all formulas (Meat and Muscle Biology): chicken is 1.01.
func TestPublishedTrials(t *testing.T) {
	pea, err := growth.Cooling(line(0, 50, 3, 15))
	if err != nil || pea.Least < 1 {
		t.Errorf("pea soup: %.2f to %.2f (%v), and 1 was found", pea.Least, pea.Most, err)
	}
	turkey, err := growth.Cooling(line(0, 48.9, 1, 26.7, 6, 12.8, 11, 4.4))
	if err != nil || math.Abs(turkey.Each[1].Total-1.01) > 0.01 {
		t.Errorf("turkey, as chicken: %.3f (%v), want 1.01", turkey.Each[1].Total, err)
	}
}

// Rates at their peak: 2.61 tenfolds an hour for beef at 46 °C, which is 6.0 e-folds; 5.64 and 6.06 were measured in braised beef and
// roast chicken (Huang and Li, Food Control).
func TestThePeakRate(t *testing.T) {
	if r := growth.Products()[0].Rate(46); math.Abs(r-2.61) > 0.01 {
		t.Errorf("%.3f", r)
	}
}

// Whatever the course: the band holds each product, growth never runs backwards, slower cooling grows no less, and cutting an interval in
// two changes nothing.
func TestAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		temps := rapid.SliceOfN(rapid.Float64Range(-5, 80), 2, 20).Draw(t, "temps")
		var at, slow, cut []growth.Reading
		for i, c := range temps {
			h := float64(i)
			if i > 0 {
				cut = append(cut, growth.Reading{TimeS: (h - 0.5) * 3600, TempC: (temps[i-1] + c) / 2})
			}
			at, slow, cut = append(at, growth.Reading{TimeS: h * 3600, TempC: c}), append(slow, growth.Reading{TimeS: h * 5400, TempC: c}), append(cut, growth.Reading{TimeS: h * 3600, TempC: c})
		}
		e, err := growth.Cooling(at)
		s, err2 := growth.Cooling(slow)
		c, err3 := growth.Cooling(cut)
		if err := errors.Join(err, err2, err3); err != nil {
			t.Fatal(err)
		}
		for i, g := range e.Each {
			if g.Total < -1e-12 || g.Total < e.Least || g.Total > e.Most || s.Each[i].Total < g.Total-1e-9 || math.Abs(c.Each[i].Total-g.Total) > 1e-3 {
				t.Errorf("%+v, slower %+v, cut %+v", e, s.Each[i], c.Each[i])
			}
		}
	})
	if _, err := growth.Cooling(line(0, 50, 0, 40)); err == nil {
		t.Error("two temperatures at one time were taken")
	}
	if _, err := growth.Cooling(line(0, math.NaN())); err == nil {
		t.Error("no number was taken for a temperature")
	}
}

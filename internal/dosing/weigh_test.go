package dosing_test

import (
	"strings"
	"testing"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/unit"
)

func xanthan(target unit.Mass) dosing.Dose {
	return dosing.Dose{Substance: dosing.Xanthan, Range: dosing.Range[unit.Mass]{Low: target, Target: target, High: target}}
}

// By hand: 4.41 g on a scale with steps of 1 g is 4 g, 9.3 % low. 0.1 g steps do: half of one is 1.1 %. A 1 % stock holds it in 441 g; the
// least that 1 g steps weigh within 2 % is 25 g, in 2.5 kg of stock.
func TestCoarseScale(t *testing.T) {
	w, err := dosing.Weigh(xanthan(g(4.41)), dosing.Scale{Division: unit.Gram}, unit.PerCent)
	if err != nil || w.Show != g(4) || !near(w.ErrPct, -9.3, 0.03) || w.Within || w.Finer != g(0.1) || !near(w.DoubtPct, 12.5, 1e-9) {
		t.Fatalf("%+v %v", w, err)
	}
	if w.Stock == nil || w.Stock.Take != g(441) || w.Stock.Holds != g(25) || w.Stock.Make != g(2500) || !near(w.Stock.ErrPct, 0, 1e-9) {
		t.Errorf("%+v", w.Stock)
	}
	if f := w.Found; !has(f, "scale-too-coarse") || !strings.Contains(f[0].Message, "9.3 % low") || !strings.Contains(f[0].Fix, "0.10 g") || !strings.Contains(f[0].Fix, "441.0 g") {
		t.Errorf("%v", f)
	}
}

func TestScales(t *testing.T) {
	for _, c := range []struct {
		dose, step, show, err float64
		within                bool
	}{
		{235.3, 1, 235, -0.127, true},
		{235.3, 5, 235, -0.127, true},
		{4.41, 0.1, 4.4, -0.227, true},
		{0.3, 1, 0, -100, false},
		{2.5, 1, 3, 20, false}, // halves go up
		{104, 10, 100, -3.85, false},
	} {
		w, err := dosing.Weigh(xanthan(g(c.dose)), dosing.Scale{Division: g(c.step)}, 0)
		if err != nil || w.Show != g(c.show) || !near(w.ErrPct, c.err, 0.005) || w.Within != c.within || w.Stock != nil || (len(w.Found) == 0) != c.within {
			t.Errorf("%g g by %g g: %+v %v", c.dose, c.step, w, err)
		}
	}
}

// 12.3 kg of flour on a scale that holds 5 kg: three times.
func TestCapacity(t *testing.T) {
	for _, c := range []struct {
		kg, holds float64
		parts     int
	}{{12.3, 5, 3}, {10, 5, 2}, {12.3, 0, 1}, {0.2, 5, 1}} {
		w, err := dosing.Weigh(xanthan(unit.MassKg(c.kg)), dosing.Scale{Division: g(1), Capacity: unit.MassKg(c.holds)}, 0)
		if err != nil || w.Parts != c.parts {
			t.Errorf("%+v: %d %v", c, w.Parts, err)
		}
	}
	if _, err := dosing.Weigh(xanthan(g(5)), dosing.Scale{Division: g(1), Capacity: g(0.5)}, 0); err == nil {
		t.Error("a scale that holds less than its step was taken")
	}
}

// Rounding does not go over a maximum.
func TestScaleUnderMaximum(t *testing.T) {
	d := xanthan(g(4.8))
	d.Most = g(4.9)
	w, err := dosing.Weigh(d, dosing.Scale{Division: unit.Gram}, 0)
	if err != nil || w.Show != g(4) {
		t.Errorf("%+v %v", w, err)
	}
	for name, bad := range map[string]func() (dosing.Weighing, error){
		"no scale":   func() (dosing.Weighing, error) { return dosing.Weigh(d, dosing.Scale{}, 0) },
		"no dose":    func() (dosing.Weighing, error) { return dosing.Weigh(xanthan(0), dosing.Scale{Division: g(1)}, 0) },
		"pure stock": func() (dosing.Weighing, error) { return dosing.Weigh(d, dosing.Scale{Division: g(1)}, unit.Whole) },
	} {
		if _, err := bad(); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
}

package plan_test

import (
	"math"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Four packs by hand. Nets 458.7, 456.7, 461.7 and 454.7 g; deviations from 457.95 g of 0.75, 1.25, 3.75 and 3.25 g; distances from one to
// the next of 2, 5 and 7 g, so that the limits lie 2.66 times 14/3 g from the mean (2.66 = 3/d2 for two: ASTM MNL 7).
func TestCheckWeightsByHand(t *testing.T) {
	f := filling(t, kitchen.Weighing{Tare: grams(11.2, 11.4), Gross: grams(470, 468, 473, 466), Lot: 150})
	for _, c := range []struct {
		what string
		got  unit.Mass
		want float64
		near float64
	}{
		{"empty bag", f.Tare, 11.3, 1e-6},
		{"label, one pound", f.Label, 453.59237, 1e-6},
		{"mean", f.Mean, 457.95, 1e-6},
		{"given away", f.Given, 457.95 - 453.59237, 1e-6},
		{"scatter", f.SD, math.Sqrt((0.75*0.75 + 1.25*1.25 + 3.75*3.75 + 3.25*3.25) / 3), 1e-6},
		{"lower limit", f.Lower, 457.95 - 2.66*14/3, 0.01},
		{"upper limit", f.Upper, 457.95 + 2.66*14/3, 0.01},
	} {
		if got := c.got.Kg() * 1000; math.Abs(got-c.want) > c.near {
			t.Errorf("%s: got %.4f g, want %.4f g", c.what, got, c.want)
		}
	}
	if f.Below != 0 || !f.TooFew || len(f.Signals) != 0 {
		t.Errorf("got %d below the label, too few %v, %d signals; want 0, true, 0", f.Below, f.TooFew, len(f.Signals))
	}
}

// A ladle that fills less and less: the last pack lies under the limit, and is under the label too.
func TestAFillingThatDrifts(t *testing.T) {
	f := filling(t, kitchen.Weighing{Tare: grams(11, 11), Gross: grams(470, 471, 470, 469, 470, 471, 470, 469, 470, 450)})
	if f.Below != 1 {
		t.Errorf("%d packs are below the label, want 1: 450 - 11 = 439 g", f.Below)
	}
	for _, s := range f.Signals {
		if len(s.Points) > 0 && s.Points[len(s.Points)-1] == 10 {
			return
		}
	}
	t.Errorf("nothing points at pack 10: %+v", f.Signals)
}

func TestCheckWeightsThatSayNothing(t *testing.T) {
	book := bookfile.Read(demo.Book()).Book
	for what, w := range map[string]kitchen.Weighing{
		"no empty bag": {Gross: grams(470, 468)},
		"one pack":     {Tare: grams(11, 11), Gross: grams(470)},
	} {
		if _, err := plan.WeighFilling(book, "ale-cheddar-lb", w); err == nil {
			t.Errorf("%s: no error", what)
		}
	}
	if _, err := plan.WeighFilling(book, "no-such-pack", kitchen.Weighing{}); err == nil {
		t.Error("a pack that is not there: no error")
	}
}

func filling(t *testing.T, w kitchen.Weighing) plan.LotWeights {
	t.Helper()
	f, err := plan.WeighFilling(bookfile.Read(demo.Book()).Book, "ale-cheddar-lb", w)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func grams(g ...float64) []unit.Mass {
	var masses []unit.Mass
	for _, v := range g {
		masses = append(masses, unit.MassKg(v/1000))
	}
	return masses
}

package freezing

import (
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

// busy is an invented big day: 288 bags of four kinds at 41 °F, at once, for two chest freezers and an upright one with a fan. By their
// daily intakes they need somewhat less than two days.
func busy() Want {
	bag := func(count int, thickM, kg float64, f heat.FreezingFood) Kind {
		return Kind{Count: count, Pack: Pack{Food: f, ThicknessM: thickM, MassKg: kg, StartC: 5, PackageM2KW: 3e-4}}
	}
	richSauce := heat.FreezingFood{DensityKgM3: 1046, UnfrozenHeatJKgK: 3408, FrozenHeatJKgK: 2123, FreezableJKg: 211e3, FreezingPointC: -1.48,
		UnfrozenConductivityWMK: 0.463, FrozenConductivityWMK: 1.248}
	meatballs := heat.FreezingFood{DensityKgM3: 1055, UnfrozenHeatJKgK: 3674, FrozenHeatJKgK: 2083, FreezableJKg: 253e3, FreezingPointC: -0.97,
		UnfrozenConductivityWMK: 0.517, FrozenConductivityWMK: 1.659}
	thinSauce := heat.FreezingFood{DensityKgM3: 1038, UnfrozenHeatJKgK: 3834, FrozenHeatJKgK: 2017, FreezableJKg: 286e3, FreezingPointC: -0.9,
		UnfrozenConductivityWMK: 0.542, FrozenConductivityWMK: 1.936}
	filling := heat.FreezingFood{DensityKgM3: 1051, UnfrozenHeatJKgK: 3514, FrozenHeatJKgK: 2053, FreezableJKg: 238e3, FreezingPointC: -1.48,
		UnfrozenConductivityWMK: 0.489, FrozenConductivityWMK: 1.467}
	film := func(w float64) medium.Film { return medium.Film{LowWM2K: 0.7 * w, UsualWM2K: w, HighWM2K: 1.3 * w} }
	return Want{
		Kinds: []Kind{bag(160, 0.014, 0.454, richSauce), bag(60, 0.038, 0.51, meatballs), bag(40, 0.0141, 0.454, thinSauce),
			bag(28, 0.0159, 0.907, filling)},
		Freezers: []Freezer{
			{Count: 2, VolumeM3: 0.7, SetC: -20, CoolingW: 130, Film: film(8), RoomKg: 145, Stock: Stock{MassKg: 36}},
			{Count: 1, VolumeM3: 1.39, SetC: -20, CoolingW: 450, Film: film(10), RoomKg: 263, Stock: Stock{MassKg: 54}},
		},
		Days:   3,
		Limits: Limits{CoreC: -18},
	}
}

// TestBusyDay wants the fewest days, two; few ways for the cook: of four kinds into three cabinets six are as few as a division needs that
// cuts kinds only where a cabinet is full (a basic solution of dividing packs), one more for a rest that is made up to a handful; and nothing
// carried by ones and twos.
func TestBusyDay(t *testing.T) {
	w := busy()
	s := must(w.Schedule())(t)
	check(t, w, s)
	checkFull(t, w, s, 7, 0.06)
	if s.Placed != 288 || s.Days != 2 || s.LeastDays != 2 {
		t.Errorf("%d of 288 on %d days, at least %d", s.Placed, s.Days, s.LeastDays)
	}
	entries := make([]int, s.Days)
	for _, e := range s.Entries {
		t.Logf("day %d: %2d of kind %d into %v, core after %.1f h", e.Day, e.Count, e.Kind, e.Place, (e.FrozenS-e.InS)/3600)
		entries[e.Day]++
		if e.Count < 5 {
			t.Errorf("a stray: %+v", e)
		}
	}
	if entries[0] > 7 || entries[1] > 7 {
		t.Errorf("ways to a cabinet with a kind: %d on the first day, %d on the second", entries[0], entries[1])
	}
}

// No mixture of two kinds at 1.2 of the shares keeps the limits, and at 1 all do but for how well the intakes are known: what the first guess
// of a day rests on, and how far LeastDays is from a bound of nature. Halves, and one part in four, in the chest and in the upright.
func TestSharesOfMixedLoads(t *testing.T) {
	w := must(busy().whole())(t)
	shares := must(w.shares(newIntakes()))(t)
	for f, freezer := range w.Freezers {
		for a := range w.Kinds {
			for b := range a {
				for _, part := range []float64{0.25, 0.5, 0.75} {
					excess := func(sum float64) float64 {
						in := []Batch{{Pack: w.Kinds[a].Pack, Count: 1}, {Pack: w.Kinds[b].Pack, Count: 1}}
						counts := []float64{sum * part / shares[f][a], sum * (1 - part) / shares[f][b]}
						got := must(freezer.simulate(in, counts, Ask{CoreC: -18, WithinS: daySeconds}))(t)
						e := w.Limits.excess(freezer, got)
						return e.worst()
					}
					if low, high := excess(1), excess(1.2); low > 0.01 || high <= 0 {
						t.Errorf("freezer %d, %.2f of kind %d and the rest of kind %d: excess %.3f at 1, %.3f at 1.2", f, part, a, b, low, high)
					}
				}
			}
		}
	}
}

// Where the search begins does not matter: with all the others known, and with none, a kind's intake is the same to the accuracy of both.
func TestGuessedIntakes(t *testing.T) {
	w := must(busy().whole())(t)
	w.Limits = must(w.Limits.whole())(t)
	known := newIntakes()
	for _, f := range w.Freezers {
		for k, kind := range w.Kinds {
			near(t, "packs a day", must(known.find(f, kind, w.Limits))(t), must(newIntakes().find(f, kind, w.Limits))(t), 0.012)
			if n := len(*known.found); n == 0 || (*known.found)[n-1].pack != w.Kinds[k].Pack {
				t.Errorf("kind %d is not remembered", k)
			}
		}
	}
}

func BenchmarkBusy(b *testing.B) {
	for b.Loop() {
		if _, err := busy().Schedule(); err != nil {
			b.Fatal(err)
		}
	}
}

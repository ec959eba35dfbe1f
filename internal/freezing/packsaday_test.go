package freezing

import (
	"errors"
	"testing"

	"kettlefrost/internal/heat"
	"pgregory.net/rapid"
)

// The number found is the greatest: it keeps the limits, one more does not. Tried by counting up over loads.
func TestPacksADayIsTheGreatest(t *testing.T) {
	thick := soupBag()
	thick.ThicknessM = 0.045
	for _, c := range []struct {
		name    string
		freezer Freezer
		pack    Pack
		at      Placing
		want    Binding
	}{
		{"ordinary chest", chest(), soupBag(), Placing{}, ByStock},
		{"nothing in it yet", with2(chest(), func(f *Freezer) { f.Stock.MassKg = 0 }), soupBag(), Placing{}, ByTime},
		{"weak machine, much stock", with2(chest(), func(f *Freezer) { f.CoolingW, f.Stock.MassKg = 30, 75 }), soupBag(), Placing{}, ByStock},
		{"nearly full", with2(chest(), func(f *Freezer) { f.RoomKg = 7 }), soupBag(), Placing{}, ByRoom},
		{"full", with2(chest(), func(f *Freezer) { f.RoomKg = 0.5 }), soupBag(), Placing{}, ByRoom},
		{"stacked four high", chest(), soupBag(), StackOf(4), ByPack},
		{"thick bags", chest(), thick, Placing{}, ByStock},
		{"stock already too warm", with2(chest(), func(f *Freezer) { f.Stock.TempC = -14 }), soupBag(), Placing{}, ByStock},
	} {
		t.Run(c.name, func(t *testing.T) {
			lim := Limits{CoreC: -17}
			got := must(c.freezer.PacksADay(c.pack, c.at, lim))(t)
			if got.Binding != c.want {
				t.Errorf("bound by %v, want %v", got.Binding, c.want)
			}
			if n := countUp(t, c.freezer, c.pack, c.at); n != got.Packs {
				t.Errorf("%d packs a day, counting up gives %d", got.Packs, n)
			}
			if got.Packs > 0 && (!got.Load.AllFrozen(daySeconds) || got.Load.StockPeakC > UsualStockLimitC) {
				t.Errorf("its own load breaks a limit: old stock at %g °C", got.Load.StockPeakC)
			}
			t.Logf("%d packs, %.1f kg; alone %.1f h; balance %.1f kg; rule %.1f to %.1f kg",
				got.Packs, got.MassKg, got.AloneS/3600, got.BalanceKg, got.Rule.LowKg, got.Rule.HighKg)
		})
	}
}

func with2(f Freezer, change func(*Freezer)) Freezer {
	change(&f)
	return f
}

// countUp is how many packs keep all limits, one more at a time.
func countUp(t *testing.T, f Freezer, p Pack, at Placing) int {
	t.Helper()
	for n := 1; n < 200; n++ {
		if float64(n)*p.MassKg > f.RoomKg {
			return n - 1
		}
		got := must(f.Load([]Batch{{Pack: p, Placing: at, Count: n}}, Ask{CoreC: -17}))(t)
		if !got.AllFrozen(daySeconds) || f.Stock.MassKg > 0 && got.StockPeakC > UsualStockLimitC {
			return n - 1
		}
	}
	t.Fatal("counts up for ever")
	return 0
}

// The household rule, 2 to 3 lb for each cubic foot a day (extension bulletins, read): what it allows an ordinary chest with an ordinary
// machine is frozen to -17 °C within the day, with the old stock below -15 °C. The rule's own freezers are not known, so no number
// is compared.
func TestHouseholdRuleIsFrozenInADay(t *testing.T) {
	rule := must(chest().HouseholdIntakeKg())(t)
	near(t, "2 lb/ft³, kg", rule.LowKg, 0.3/0.028316846592*2*0.45359237, 1e-9)
	bags := int(rule.HighKg / soupBag().MassKg)
	got := must(chest().Load([]Batch{{Pack: soupBag(), Count: bags}}, Ask{CoreC: -17}))(t)
	if !got.AllFrozen(daySeconds) || got.StockPeakC > -15 {
		t.Errorf("%d bags: %v, old stock %g °C", bags, got.Batches[0].Reached, got.StockPeakC)
	}
}

// More stock in the way of the same heat: warmer limits, stronger machines and thinner packs never take less in a day.
func TestPacksADayAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, p := drawFreezer(t), drawPack(t)
		lim := Limits{CoreC: f.SetC + rapid.Float64Range(1, 5).Draw(t, "above air")}
		packs := func(f Freezer, lim Limits) int {
			got, err := f.PacksADay(p, Placing{}, lim)
			if err != nil {
				t.Fatal(err)
			}
			if got.MassKg > f.RoomKg+1e-9 {
				t.Errorf("%g kg in room for %g", got.MassKg, f.RoomKg)
			}
			finite(t, got.Load)
			return got.Packs
		}
		n := packs(f, lim)
		if more := packs(with2(f, func(f *Freezer) { f.CoolingW *= 1.5 }), lim); more < n {
			t.Errorf("%d packs, with a stronger machine %d", n, more)
		}
		warmer := lim
		warmer.StockC = -12
		if more := packs(f, warmer); more < n {
			t.Errorf("%d packs, with a limit of -12 °C %d", n, more)
		}
	})
}

func TestPacksADayRefused(t *testing.T) {
	for what, lim := range map[string]Limits{
		"time to freeze":                  {CoreC: -17, WithinS: 10},
		"limit of the old stock":          {CoreC: -17, StockC: 4},
		"core temperature":                {CoreC: 3},
		"side of the surface coefficient": {CoreC: -17, Side: -1},
	} {
		_, err := chest().PacksADay(soupBag(), Placing{}, lim)
		var out *heat.RangeError
		if !errors.As(err, &out) || out.What != what {
			t.Errorf("%s: %v", what, err)
		}
	}
	var warm *TooColdError
	if _, err := chest().PacksADay(soupBag(), Placing{}, Limits{CoreC: -19.5}); !errors.As(err, &warm) {
		t.Errorf("core within half a kelvin of the air: %v", err)
	}
}

func BenchmarkPacksADay(b *testing.B) {
	for b.Loop() {
		if _, err := chest().PacksADay(soupBag(), Placing{}, Limits{CoreC: -17}); err != nil {
			b.Fatal(err)
		}
	}
}

// Half of what a freezer takes of one kind in a day and half of another's together are within the limits, and not by more than a tenth:
// what lets a schedule add up shares.
func TestHalvesMakeAWhole(t *testing.T) {
	w := must(run().whole())(t)
	for _, f := range w.Freezers {
		for a := range w.Kinds {
			for b := range a {
				var counts []float64
				for _, k := range []int{a, b} {
					n := must(must(newSearch(f, w.Kinds[k].Pack, Placing{}, w.Limits))(t).real())(t)
					counts = append(counts, n/2)
				}
				got := must(f.simulate([]Batch{{Pack: w.Kinds[a].Pack}, {Pack: w.Kinds[b].Pack}}, counts, Ask{CoreC: -17, WithinS: daySeconds}))(t)
				if over := w.Limits.excess(f, got).worst(); over > 0.01 || over < -0.1 {
					t.Errorf("%g of kind %d and %g of kind %d in a freezer of %g W: %g beyond the limit", counts[0], a, counts[1], b, f.CoolingW, over)
				}
			}
		}
	}
}

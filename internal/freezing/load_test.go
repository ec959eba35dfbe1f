package freezing

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
	"pgregory.net/rapid"
)

// chest is an invented chest freezer of 300 L with 40 kg in it.
func chest() Freezer {
	return Freezer{VolumeM3: 0.3, SetC: -20, CoolingW: 150, Film: medium.Film{LowWM2K: 5, UsualWM2K: 8, HighWM2K: 10},
		RoomKg: 80, Stock: Stock{MassKg: 40}}
}

// empty is a freezer of next to no heat capacity without stock: nothing but the machine takes heat.
func empty(setC, coolingW float64) Freezer {
	return Freezer{VolumeM3: 0.3, SetC: setC, CoolingW: coolingW, Film: one(8), RoomKg: 100, HeatCapacityJK: 100}
}

// 20 bags of 0.68 kg give off 4.3 MJ from 5 to -15 °C, which is 113 W for 10.6 h (derived in the reference: 318.258 kJ/kg).
func TestHeatOfTwentyBags(t *testing.T) {
	all := must(empty(-15, 1000).Load([]Batch{{Pack: soupBag(), Count: 20}}, Ask{CoreC: -14, WithinS: 4 * daySeconds, Accuracy: conduction.Fine}))(t)
	near(t, "heat, J", all.HeatJ, 20*0.68*318258, 1e-3)

	got := must(empty(-18, 113).Load([]Batch{{Pack: soupBag(), Count: 20}}, Ask{CoreC: -15, WithinS: 2 * daySeconds}))(t)
	b := got.Batches[0]
	if !b.Reached || b.TimeS < 10.6*3600 {
		t.Errorf("113 W: core after %g h, cannot be before 10.6 h", b.TimeS/3600)
	}
	if b.TimeS > 16*3600 || got.AirPeakC < -12 {
		t.Errorf("113 W: core after %g h, air up to %g °C: the machine should be working at its limit half the time", b.TimeS/3600, got.AirPeakC)
	}
	if got.FullPowerS > b.TimeS || got.FullPowerS < 0.3*b.TimeS {
		t.Errorf("at full power for %g of %g h", got.FullPowerS/3600, b.TimeS/3600)
	}
}

// A machine that never comes to its limit leaves the time of a pack alone in steady air: 1 % (both simulations are good to that).
func TestStrongMachineIsSteadyAir(t *testing.T) {
	for _, at := range []Placing{{Lie: Apart}, StackOf(4), OnShelf(one(60))} {
		alone := must(Times(soupBag(), at, one(8), -18, -15))(t).Usual.TimeS
		got := must(empty(-18, 1e5).Load([]Batch{{Pack: soupBag(), Placing: at, Count: 20}}, Ask{CoreC: -15, WithinS: 4 * daySeconds}))(t)
		near(t, at.Lie.String(), got.Batches[0].TimeS, alone, 0.01)
		if got.FullPowerS > 0 {
			t.Errorf("%v: at full power for %g s", at.Lie, got.FullPowerS)
		}
	}
}

// A machine so weak that the bags are as cold as the air all the time takes their heat over its power: an energy balance, 2 %.
func TestWeakMachineIsTheHeatBalance(t *testing.T) {
	perKg := must(soup.HeatJKg(5, -15))(t)
	wantS := 20 * 0.68 * perKg / 5
	got := must(empty(-18, 5).Load([]Batch{{Pack: soupBag(), Count: 20}}, Ask{CoreC: -15, WithinS: 20 * daySeconds}))(t)
	near(t, "time, s", got.Batches[0].TimeS, wantS, 0.02)
	if got.Batches[0].TimeS < wantS*0.999 {
		t.Errorf("%g s, sooner than heat over power, %g s", got.Batches[0].TimeS, wantS)
	}
}

// What packs and stock give off, the machine and the air took: machine by its own power curve, 2 % for its steps.
func TestLoadAddsUp(t *testing.T) {
	f := chest()
	got := must(f.Load([]Batch{{Pack: soupBag(), Count: 30}, {Pack: braiseBag(), Count: 10, InS: 5 * 3600}}, Ask{CoreC: -19}))(t)
	machineJ := 0.0
	for i := 1; i < len(got.Air); i++ {
		machineJ += (got.Air[i].PowerW + got.Air[i-1].PowerW) / 2 * (got.Air[i].TimeS - got.Air[i-1].TimeS)
	}
	airJ := cabinetJM3K * f.VolumeM3 * (got.Air[len(got.Air)-1].TempC - f.SetC)
	near(t, "machine and air, J", machineJ+airJ, got.HeatJ+got.StockHeatJ, 0.02)
	if got.Closure > 1e-6 {
		t.Errorf("energy closes to %g", got.Closure)
	}
	if got.EndS != 5*3600+daySeconds {
		t.Errorf("followed for %g s", got.EndS)
	}
}

// What comes in later warms what is frozen, and the old stock with it.
func TestLaterBatchRewarms(t *testing.T) {
	first := Batch{Pack: soupBag(), Count: 10}
	alone := must(chest().Load([]Batch{first}, Ask{CoreC: -17, WithinS: 2 * daySeconds}))(t)
	both := must(chest().Load([]Batch{first, {Pack: soupBag(), Count: 40, InS: daySeconds}}, Ask{CoreC: -17}))(t)
	if got := alone.Batches[0].RewarmedC; got != -17 {
		t.Errorf("by itself it warms to %g °C after freezing", got)
	}
	if got := both.Batches[0].RewarmedC; got < -16 || got > both.AirPeakC {
		t.Errorf("with 40 more it warms to %g °C after freezing, the air to %g °C", got, both.AirPeakC)
	}
	if both.StockPeakC <= alone.StockPeakC || both.StockPeakS < daySeconds {
		t.Errorf("old stock %g °C, with 40 more %g °C at %g h", alone.StockPeakC, both.StockPeakC, both.StockPeakS/3600)
	}
}

// The low end of the film freezes more slowly and warms the air less; the high end the other way round.
func TestSidesOfTheFilm(t *testing.T) {
	var got [3]Loaded
	for _, side := range []Side{Usual, Low, High} {
		got[side] = must(chest().Load([]Batch{{Pack: soupBag(), Count: 30}}, Ask{CoreC: -17, Side: side}))(t)
	}
	for _, c := range [][2]Loaded{{got[Low], got[Usual]}, {got[Usual], got[High]}} {
		if c[0].Batches[0].TimeS <= c[1].Batches[0].TimeS || c[0].AirPeakC >= c[1].AirPeakC {
			t.Errorf("%g s and %g °C, with more film %g s and %g °C", c[0].Batches[0].TimeS, c[0].AirPeakC, c[1].Batches[0].TimeS, c[1].AirPeakC)
		}
	}
}

// A freezer for a single little pack, of a size that bodies in a pool do not have: many such freezers run the same course as one.
func TestLittlePack(t *testing.T) {
	p := soupBag()
	p.MassKg = 0.02
	got := must(empty(-18, 1e4).Load([]Batch{{Pack: p, Count: 1}}, Ask{CoreC: -15}))(t)
	near(t, "time, h", got.Batches[0].TimeS/3600, 10.6431, 0.01) // the bag of the reference: thickness decides
	near(t, "heat, J", got.HeatJ, 0.02*must(soup.HeatJKg(5, -18))(t), 0.01)
}

func TestLoadRefused(t *testing.T) {
	for what, spoil := range map[string]func(*Freezer, *Batch, *Ask){
		"air temperature":                  func(f *Freezer, _ *Batch, _ *Ask) { f.SetC = -4 },
		"cooling power":                    func(f *Freezer, _ *Batch, _ *Ask) { f.CoolingW = 0 },
		"volume of the freezer":            func(f *Freezer, _ *Batch, _ *Ask) { f.VolumeM3 = math.Inf(1) },
		"room":                             func(f *Freezer, _ *Batch, _ *Ask) { f.RoomKg = -1 },
		"number of freezers":               func(f *Freezer, _ *Batch, _ *Ask) { f.Count = -1 },
		"old stock":                        func(f *Freezer, _ *Batch, _ *Ask) { f.Stock.MassKg = math.NaN() },
		"exposed share of the old stock":   func(f *Freezer, _ *Batch, _ *Ask) { f.Stock.Exposed = 2 },
		"temperature of the old stock":     func(f *Freezer, _ *Batch, _ *Ask) { f.Stock.TempC = 3 },
		"heat capacity of air and shelves": func(f *Freezer, _ *Batch, _ *Ask) { f.HeatCapacityJK = -5 },
		"surface coefficient, low":         func(f *Freezer, _ *Batch, _ *Ask) { f.Film.LowWM2K = 0 },
		"number of packs":                  func(_ *Freezer, b *Batch, _ *Ask) { b.Count = 0 },
		"time of going in":                 func(_ *Freezer, b *Batch, _ *Ask) { b.InS = -1 },
		"way of lying in a load":           func(_ *Freezer, b *Batch, _ *Ask) { b.Placing = Placing{Lie: Block, High: 2} },
		"thickness of the pack":            func(_ *Freezer, b *Batch, _ *Ask) { b.Pack.ThicknessM = 0 },
		"time to follow":                   func(_ *Freezer, _ *Batch, a *Ask) { a.WithinS = -1 },
		"core temperature":                 func(_ *Freezer, _ *Batch, a *Ask) { a.CoreC = math.NaN() },
		"side of the surface coefficient":  func(_ *Freezer, _ *Batch, a *Ask) { a.Side = 7 },
		"accuracy":                         func(_ *Freezer, _ *Batch, a *Ask) { a.Accuracy = 7 },
	} {
		f, b, a := chest(), Batch{Pack: soupBag(), Count: 3}, Ask{CoreC: -17}
		spoil(&f, &b, &a)
		_, err := f.Load([]Batch{b}, a)
		var out *heat.RangeError
		if !errors.As(err, &out) || out.What != what {
			t.Errorf("%s: %v", what, err)
		}
	}
	_, err := chest().Load([]Batch{{Pack: soupBag(), Count: 3}}, Ask{CoreC: -20})
	var warm *TooColdError
	if !errors.As(err, &warm) || warm.ColdestC != -19 {
		t.Errorf("core as cold as the air: %v", err)
	}
}

// drawFreezer is some freezer that a small kitchen may have.
func drawFreezer(t *rapid.T) Freezer {
	film := rapid.Float64Range(5, 20).Draw(t, "film")
	return Freezer{
		VolumeM3: rapid.Float64Range(0.1, 1).Draw(t, "volume"), SetC: rapid.Float64Range(-30, -18).Draw(t, "air"),
		CoolingW: rapid.Float64Range(40, 600).Draw(t, "watt"), Film: medium.Film{LowWM2K: 0.7 * film, UsualWM2K: film, HighWM2K: 1.3 * film},
		RoomKg: rapid.Float64Range(0, 60).Draw(t, "room"), Stock: Stock{MassKg: rapid.SampledFrom([]float64{0, 5, 60}).Draw(t, "stock")},
	}
}

func drawPack(t *rapid.T) Pack {
	return Pack{Food: rapid.SampledFrom([]heat.FreezingFood{soup, braise, gel}).Draw(t, "food"),
		ThicknessM: rapid.Float64Range(0.012, 0.06).Draw(t, "thick"),
		MassKg:     rapid.Float64Range(0.2, 2).Draw(t, "mass"), StartC: rapid.Float64Range(2, 20).Draw(t, "start")}
}

func TestLoadAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, p := drawFreezer(t), drawPack(t)
		n := rapid.IntRange(1, 60).Draw(t, "packs")
		ask := Ask{CoreC: f.SetC + rapid.Float64Range(1, 6).Draw(t, "above air"), WithinS: 2 * daySeconds}
		load := func(n int) Loaded {
			got, err := f.Load([]Batch{{Pack: p, Count: n}}, ask)
			if err != nil {
				t.Fatal(err)
			}
			finite(t, got)
			return got
		}
		few, many := load(n), load(n+10)
		const tolS, tolC = 0.005, 0.15 // of engineering accuracy; the thermostat swings by 0.1 K
		a, b := few.Batches[0], many.Batches[0]
		if b.Reached && (!a.Reached || a.TimeS > b.TimeS*(1+tolS)) {
			t.Errorf("%d packs take %g s, ten more %g s", n, a.TimeS, b.TimeS)
		}
		if many.StockPeakC < few.StockPeakC-tolC || many.AirPeakC < few.AirPeakC-tolC {
			t.Errorf("stock %g, air %g °C; with ten more %g, %g °C", few.StockPeakC, few.AirPeakC, many.StockPeakC, many.AirPeakC)
		}
		if boundS := energyBoundS(t, f, few, p, n, ask.CoreC); a.Reached && a.TimeS < boundS*(1-tolS)-60 {
			t.Errorf("frozen after %g s: sooner than the energy balance allows, %g s", a.TimeS, boundS)
		}
	})
}

// energyBoundS is the heat of packs whose warmest point is at coreC, less what air, shelves and stock took at most, over the power.
func energyBoundS(t *rapid.T, f Freezer, l Loaded, p Pack, n int, coreC float64) float64 {
	perKg, err := p.Food.HeatJKg(p.StartC, coreC)
	if err != nil {
		t.Fatal(err)
	}
	stockJKg, err := DefaultStock().HeatJKg(l.StockPeakC, f.SetC)
	if err != nil {
		t.Fatal(err)
	}
	return (float64(n)*p.MassKg*perKg - cabinetJM3K*f.VolumeM3*(l.AirPeakC-f.SetC) - f.Stock.MassKg*stockJKg) / f.CoolingW
}

// failer is a test of any kind.
type failer interface {
	Helper()
	Errorf(string, ...any)
}

func finite(t failer, l Loaded) {
	t.Helper()
	all := []float64{l.AirPeakC, l.AirPeakS, l.StockPeakC, l.StockPeakS, l.HeatJ, l.StockHeatJ, l.FullPowerS, l.EndS, l.Closure}
	for _, b := range l.Batches {
		all = append(all, b.TimeS, b.WarmestC, b.RewarmedC)
	}
	for _, p := range l.Air {
		all = append(all, p.TempC, p.TimeS, p.PowerW)
	}
	for _, x := range all {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Errorf("not finite: %v", all)
			return
		}
	}
}

func BenchmarkLoadOfThree(b *testing.B) {
	in := []Batch{{Pack: soupBag(), Count: 12}, {Pack: braiseBag(), Count: 8}, {Pack: soupBag(), Count: 5, InS: 4 * 3600}}
	for b.Loop() {
		if _, err := chest().Load(in, Ask{CoreC: -17}); err != nil {
			b.Fatal(err)
		}
	}
}

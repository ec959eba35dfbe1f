package freezing

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

func one(h float64) medium.Film { return medium.Film{LowWM2K: h, UsualWM2K: h, HighWM2K: h} }

// soupBag is 24 oz in a flat bag an inch thick at 41 °F; the size that the reference takes.
func soupBag() Pack {
	return Pack{Food: soup, ThicknessM: 0.0254, LengthM: 0.160, WidthM: 0.165, MassKg: 0.68, StartC: 5}
}

func braiseBag() Pack {
	p := soupBag()
	p.Food = braise
	return p
}

func gelBrick(thickM, lengthM, widthM, startC float64) Pack {
	return Pack{Food: gel, ThicknessM: thickM, LengthM: lengthM, WidthM: widthM, MassKg: 1, StartC: startC}
}

// Bags and stacks of the reference, derived there with an implicit solver in another language, and blocks with an explicit solver in
// three dimensions. 1 %.
func TestTimesAgainstTheReference(t *testing.T) {
	apart, stack := Placing{Lie: Apart}, StackOf(4)
	solid := Placing{Lie: Stacked, High: 4}
	for _, c := range []struct {
		name        string
		pack        Pack
		at          Placing
		film, airC  float64
		coreC, want float64 // h
	}{
		{"soup, h 5", soupBag(), apart, 5, -18, -10, 14.3709},
		{"soup, h 5, to -15", soupBag(), apart, 5, -18, -15, 16.8534},
		{"soup, h 8", soupBag(), apart, 8, -18, -10, 9.08273},
		{"soup, h 8, to -15", soupBag(), apart, 8, -18, -15, 10.6431},
		{"soup, h 10", soupBag(), apart, 10, -18, -10, 7.31909},
		{"soup, h 10, to -15", soupBag(), apart, 10, -18, -15, 8.57209},
		{"soup, h 30", soupBag(), apart, 30, -18, -10, 2.60863},
		{"soup, h 30, to -15", soupBag(), apart, 30, -18, -15, 3.04232},
		{"soup, blast", soupBag(), apart, 30, -30, -10, 1.46448},
		{"soup, blast, to -15", soupBag(), apart, 30, -30, -15, 1.5904},
		{"soup, four on each other", soupBag(), solid, 8, -18, -10, 39.3766},
		{"soup, four with air between", soupBag(), stack, 8, -18, -10, 41.6667},
		{"braise, h 5", braiseBag(), apart, 5, -18, -10, 12.008},
		{"braise, h 5, to -15", braiseBag(), apart, 5, -18, -15, 14.837},
		{"braise, h 8", braiseBag(), apart, 8, -18, -10, 7.6204},
		{"braise, h 8, to -15", braiseBag(), apart, 8, -18, -15, 9.40251},
		{"braise, h 10", braiseBag(), apart, 10, -18, -10, 6.15713},
		{"braise, h 10, to -15", braiseBag(), apart, 10, -18, -15, 7.59032},
		{"braise, h 30", braiseBag(), apart, 30, -18, -10, 2.24859},
		{"braise, h 30, to -15", braiseBag(), apart, 30, -18, -15, 2.75201},
		{"braise, blast", braiseBag(), apart, 30, -30, -10, 1.24248},
		{"braise, blast, to -15", braiseBag(), apart, 30, -30, -15, 1.3869},
		{"braise, four on each other", braiseBag(), solid, 8, -18, -10, 34.0178},
		{"braise, four with air between", braiseBag(), stack, 8, -18, -10, 35.9333},
		{"soup bag with free edges", soupBag(), Placing{Lie: Block, High: 1}, 8, -18, -10, 27083.0 / 3600},
		{"stack of four alone", soupBag(), Placing{Lie: Block, High: 4}, 8, -18, -10, 67970.0 / 3600},
		{"gel block", gelBrick(0.04, 0.12, 0.16, 10), Placing{Lie: Block, High: 1}, 40, -30, -10, 5010.0 / 3600},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := must(Times(c.pack, c.at, one(c.film), c.airC, c.coreC))(t)
			if !got.Usual.Reached {
				t.Fatal("not frozen")
			}
			t.Logf("%+.2f %%, %d steps", (got.Usual.TimeS/3600/c.want-1)*100, got.Usual.Steps)
			near(t, "time, h", got.Usual.TimeS/3600, c.want, 0.01)
			for _, f := range got.Formulas {
				t.Logf("%s %+.1f %%, %v", f.Name, 100*f.Difference, f.Err)
			}
		})
	}
}

// A bag with one face on a -18 °C shelf (contact 60, the other face 8): 2.7 h (derived in the reference, two figures).
func TestShelf(t *testing.T) {
	got := must(Times(soupBag(), OnShelf(one(60)), one(8), -18, -10))(t)
	near(t, "time, h", got.Usual.TimeS/3600, 2.7, 0.05/2.7)
	for _, f := range got.Formulas {
		var uneven *UnevenError
		if !errors.As(f.Err, &uneven) || f.TimeS != 0 {
			t.Errorf("%s knows a bag with unlike faces: %v", f.Name, f)
		}
	}
}

// The formulas stay within what the reference found over 27 slabs: Pham 0.91 to 1.12 of the full solution, Plank shorter (derived).
func TestFormulasBesideTheSimulation(t *testing.T) {
	got := must(Times(soupBag(), Placing{Lie: Apart}, medium.Film{LowWM2K: 5, UsualWM2K: 8, HighWM2K: 10}, -18, -15))(t)
	pham, plank := got.Formulas[0], got.Formulas[1]
	if pham.Name != Pham1986 || pham.Err != nil || pham.Difference < -0.09 || pham.Difference > 0.12 {
		t.Errorf("%+v", pham)
	}
	if plank.Name != PlankTimes || plank.Err != nil || plank.Difference > -0.12 || plank.Difference < -0.35 {
		t.Errorf("%+v", plank)
	}
	if !(got.High.TimeS < got.Usual.TimeS && got.Usual.TimeS < got.Low.TimeS) {
		t.Errorf("times %g, %g, %g s do not fall with the film", got.Low.TimeS, got.Usual.TimeS, got.High.TimeS)
	}
	if len(got.Usual.Points) < 10 || len(got.Usual.Profiles) < 4 {
		t.Errorf("%d points and %d profiles to draw", len(got.Usual.Points), len(got.Usual.Profiles))
	}
}

// -18 °C air never makes a core of -18 °C; the coldest to ask for is 1 K above.
func TestAirTooWarmForTheCore(t *testing.T) {
	_, err := Times(soupBag(), Placing{Lie: Apart}, one(8), -18, -18)
	var warm *TooColdError
	if !errors.As(err, &warm) || warm.ColdestC != -17 {
		t.Fatalf("%v", err)
	}
	var never *heat.NeverError
	if !errors.As(err, &never) || never.LimitC != -18 {
		t.Errorf("not a NeverError: %v", err)
	}
	if got := must(Times(soupBag(), Placing{Lie: Apart}, one(8), -18, warm.ColdestC))(t); !got.Usual.Reached {
		t.Error("the coldest that can be asked for is not reached")
	}
}

func TestTimesRefused(t *testing.T) {
	for what, spoil := range map[string]func(*Pack, *Placing, *medium.Film, *float64){
		"thickness of the pack":       func(p *Pack, _ *Placing, _ *medium.Film, _ *float64) { p.ThicknessM = 0 },
		"mass of the pack":            func(p *Pack, _ *Placing, _ *medium.Film, _ *float64) { p.MassKg = math.NaN() },
		"start temperature":           func(p *Pack, _ *Placing, _ *medium.Film, _ *float64) { p.StartC = -3 },
		"resistance of the package":   func(p *Pack, _ *Placing, _ *medium.Film, _ *float64) { p.PackageM2KW = -1 },
		"density":                     func(p *Pack, _ *Placing, _ *medium.Film, _ *float64) { p.Food.DensityKgM3 = 0 },
		"way of lying":                func(_ *Pack, at *Placing, _ *medium.Film, _ *float64) { at.Lie = 0 },
		"packs on each other":         func(_ *Pack, at *Placing, _ *medium.Film, _ *float64) { *at = StackOf(0) },
		"contact with the plate, low": func(_ *Pack, at *Placing, _ *medium.Film, _ *float64) { at.Lie = OnPlate },
		"length of the pack": func(p *Pack, at *Placing, _ *medium.Film, _ *float64) {
			*at, p.LengthM = Placing{Lie: Block, High: 1}, 0
		},
		"surface coefficient, usual": func(_ *Pack, _ *Placing, f *medium.Film, _ *float64) { f.UsualWM2K = 1 },
		"core temperature":           func(_ *Pack, _ *Placing, _ *medium.Film, core *float64) { *core = 1 },
	} {
		p, at, film, core := soupBag(), Placing{Lie: Apart}, one(8), -10.0
		spoil(&p, &at, &film, &core)
		_, err := Times(p, at, film, -18, core)
		var out *heat.RangeError
		if !errors.As(err, &out) || out.What != what {
			t.Errorf("%s: %v", what, err)
		}
	}
}

func BenchmarkTimes(b *testing.B) {
	for b.Loop() {
		if _, err := Times(soupBag(), Placing{Lie: Apart}, medium.Film{LowWM2K: 5, UsualWM2K: 8, HighWM2K: 10}, -18, -17); err != nil {
			b.Fatal(err)
		}
	}
}

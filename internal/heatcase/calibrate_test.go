package heatcase

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/unit"
)

func calibrated(t *testing.T, took unit.Span, c Case) Calibration {
	t.Helper()
	k, err := c.Calibrate(took)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// A plane wall with the same film on both faces cools as its exact series has it (Carslaw and Jaeger; any handbook): with ζ·tan ζ = Bi,
// centre θ = C·exp(-ζ²·Fo), C = 4 sin ζ/(2ζ + sin 2ζ), exact to 1 % from Fo 0.2 on. The time is worked out backwards from a ζ, apart
// from the simulation; the film that belongs to it is Bi·k/L.
func TestCalibratedAgainstTheSeries(t *testing.T) {
	for _, r := range []struct{ zeta, mm float64 }{{0.3, 20}, {0.6, 40}, {1.0, 60}, {1.3, 80}} {
		c := ask(t, Cool, "from", "60 °C", "to", "20 °C", "at", "0 °C")
		c.Shape, c.Package = Shape{Kind: Pan, Thickness: lengthMm(r.mm)}, NoPackage
		a, err := c.Answer()
		if err != nil {
			t.Fatal(err)
		}
		l, f := r.mm/2000, a.Food
		film := r.zeta * math.Tan(r.zeta) * f.UnfrozenConductivityWMK / l
		first := 4 * math.Sin(r.zeta) / (2*r.zeta + math.Sin(2*r.zeta))
		fo := math.Log(first*60/20) / (r.zeta * r.zeta)
		took := fo * l * l * f.DensityKgM3 * f.UnfrozenHeatKJKgK * 1000 / f.UnfrozenConductivityWMK
		k := calibrated(t, unit.SpanS(took), c)
		if math.Abs(k.UsualW/film-1) > 0.01 {
			t.Errorf("ζ %g, %g mm: film %.4g, want %.4g", r.zeta, r.mm, k.UsualW, film)
		}
		if !(k.LowW < k.UsualW && k.UsualW < k.HighW) || k.LowOpen || k.HighOpen || k.Overall {
			t.Errorf("ζ %g: %+v", r.zeta, k)
		}
	}
}

// By hand, where nothing but the surface counts: the range of a thin layer is that of ln((Ts-Tm)/(Te-Tm)) over the time, with 1 K and
// 30 s either way. 60 to 20 °C in air of 0 °C: ln 3 in the logged time, ln(59/21) in 30 s more and ln(61/19) in 30 s less.
func TestDoubtOfALogByHand(t *testing.T) {
	c := ask(t, Cool, "from", "60 °C", "to", "20 °C", "at", "0 °C")
	c.Shape, c.Package = Shape{Kind: Pan, Thickness: lengthMm(4)}, NoPackage
	const took = 1200.0
	k := calibrated(t, unit.SpanS(took), c)
	low, high := math.Log(59.0/21)/math.Log(3)*took/(took+30), math.Log(61.0/19)/math.Log(3)*took/(took-30)
	if math.Abs(k.LowW/k.UsualW/low-1) > 0.01 || math.Abs(k.HighW/k.UsualW/high-1) > 0.01 {
		t.Errorf("range %.4g and %.4g of the usual, want %.4g and %.4g", k.LowW/k.UsualW, k.HighW/k.UsualW, low, high)
	}
}

// By hand: a pot of 0.4 m filled 0.3 m deep has 0.377 m² of side and 0.1257 m² of base. With U 150 it cools from 60 to 20 °C in ice
// water of 0 °C in m·c·ln 3/(150·0.5027 m²). In air of 0 °C its top counts too, and the wall alone stands for it.
func TestCalibratedStirredPot(t *testing.T) {
	for _, r := range []struct {
		in         string
		area, wall float64 // m²
	}{{"ice-bath-stirred", 0.50265, 0.50265}, {"walk-in-fan", 0.62832, 0.50265}} {
		c := ask(t, Cool, "from", "60 °C", "to", "20 °C", "in", r.in, "at", "0 °C", "pot", "40 cm x 30 cm", "stir", "thin")
		a, err := c.Answer()
		if err != nil {
			t.Fatal(err)
		}
		took := a.Heat.PieceKg * a.Food.UnfrozenHeatKJKgK * 1000 * math.Log(3) / (150 * r.area)
		k := calibrated(t, unit.SpanS(took), c)
		if !k.Overall || math.Abs(k.UsualW-150) > 0.1 || math.Abs(k.WallW-150*r.area/r.wall) > 0.2 || !(k.LowW < 150 && k.HighW > 150) {
			t.Errorf("%s: %+v, want 150 and a wall of %.4g", r.in, k, 150*r.area/r.wall)
		}
	}
}

// A log of what the simulation itself says is read back, also through freezing and in a bag's film: the coefficient may be off where it
// hardly counts, its time may not.
func TestCalibrationReadsBack(t *testing.T) {
	for _, p := range []Process{Cool, Freeze} {
		for _, mm := range []float64{10, 27, 60} {
			for _, film := range []float64{5, 40, 300} {
				c := Example(p)
				c.Shape.Thickness = lengthMm(mm)
				timeS := func(film float64) float64 {
					with := c
					with.Around.Film = new(unit.Film(film))
					a, err := with.Answer()
					if err != nil {
						t.Fatal(err)
					}
					return a.Time.Usual.TimeS
				}
				took := timeS(film)
				k := calibrated(t, unit.SpanS(took), c)
				if !(k.LowW <= k.UsualW && k.UsualW <= k.HighW) {
					t.Errorf("%s %g mm: %g, %g, %g do not rise", p, mm, k.LowW, k.UsualW, k.HighW)
				}
				if back := timeS(k.UsualW); math.Abs(back/took-1) > 0.003 {
					t.Errorf("%s %g mm: %g W/m²K for %g takes %g s, logged %g s", p, mm, k.UsualW, film, back, took)
				}
			}
		}
	}
}

func TestLogsThatTellNothing(t *testing.T) {
	pan := func(more ...string) Case {
		return ask(t, Cool, append([]string{"from", "60 °C", "to", "20 °C", "at", "3 °C", "pan", "2 in"}, more...)...)
	}
	noStart := pan()
	noStart.From = nil
	for _, r := range []struct {
		name string
		c    Case
		took unit.Span
		key  string
	}{
		{"no start", noStart, unit.Hour, "from"},
		{"a moment", pan(), 4 * unit.Minute, "took"},
		{"no change", pan("to", "58 °C"), unit.Hour, "to"},
		{"known already", pan("film", "20 W/m2K"), unit.Hour, "film"},
		{"warmer air", pan("at", "30 °C"), unit.Hour, "at"},
		{"a pot that stopped at its bath", pan("pot", "12 in x 10 in", "stir", "thin", "in", "ice-bath-still", "at", "19.5 °C"), unit.Hour, "to"},
	} {
		_, err := r.c.Calibrate(r.took)
		bad, ok := errors.AsType[*CaseError](err)
		if !ok || bad.Found[0].Path != r.key || bad.Found[0].Fix == "" {
			t.Errorf("%s: %v, want a case error at %s with a fix", r.name, err, r.key)
		}
	}
	// 2 in need well over an hour to 20 °C with any surface, and cannot take a month in the weakest of air.
	for _, r := range []struct {
		took  unit.Span
		quick bool
	}{{20 * unit.Minute, true}, {29 * unit.Day, false}} {
		_, err := pan().Calibrate(r.took)
		if no, ok := errors.AsType[*UnexplainedError](err); !ok || no.Quick != r.quick || no.Error() == "" || (no.LimitS > r.took.S()) != r.quick {
			t.Errorf("%s: %v, want it unexplained", r.took, err)
		}
	}
	_, err := pan("pot", "12 in x 10 in", "stir", "thin", "in", "ice-bath-still").Calibrate(29 * unit.Day)
	if no, ok := errors.AsType[*UnexplainedError](err); !ok || no.Quick {
		t.Errorf("a stirred pot for a month: %v", err)
	}
}

// What happened is read from the temperatures.
func TestProcessOfALog(t *testing.T) {
	for _, r := range []struct {
		from, to float64
		want     Process
	}{{90, 5, Cool}, {5, -18, Freeze}, {-18, 74, Reheat}, {-18, 0, Reheat}} {
		if got := processOf(r.from, r.to, -0.8); got != r.want {
			t.Errorf("%g to %g °C is %s, want %s", r.from, r.to, got, r.want)
		}
	}
	c := ask(t, "", "from", "5 °C", "to", "-18 °C", "bag", "1 in", "in", "freezer-air", "at", "-24 °C")
	c.Process = ""
	if k := calibrated(t, 6*unit.Hour, c); k.Case["process"] != "freeze" || k.Medium != "freezer-air" {
		t.Errorf("a bag from 5 to -18 °C: %+v", k)
	}
}

// The published coefficients of simmering water hold through a bag's film; so does one that is told from a log of a bag in it.
func TestCalibratedSimmeringWaterHasTheBagInIt(t *testing.T) {
	c := Example(Reheat)
	a, err := c.Answer()
	if err != nil {
		t.Fatal(err)
	}
	k := calibrated(t, unit.SpanS(a.Time.Usual.TimeS), c)
	if math.Abs(k.UsualW/k.PublishedUsualW-1) > 0.02 || k.Medium != "simmering-water" {
		t.Errorf("the published time tells %.4g W/m²K of %s, want the published %.4g", k.UsualW, k.Medium, k.PublishedUsualW)
	}
}

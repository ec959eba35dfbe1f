package conduction

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/heat"
)

func TestNonsenseIsRefused(t *testing.T) {
	good := func() Body { return slabOf(soupCold, 5, 0.0254, in(8, -18)) }
	for name, spoil := range map[string]func(*Body, *Ask){
		"no thickness":           func(b *Body, _ *Ask) { b.Axes[0].SizeM = 0 },
		"thickness not a number": func(b *Body, _ *Ask) { b.Axes[0].SizeM = math.NaN() },
		"negative film":          func(b *Body, _ *Ask) { b.Axes[0].High.FilmWM2K = -1 },
		"no open face":           func(b *Body, _ *Ask) { b.Axes[0].High.FilmWM2K, b.Axes[0].Low.FilmWM2K = 0, 0 },
		"no medium, no pool":     func(b *Body, _ *Ask) { b.Axes[0].High.Medium = nil },
		"start too hot":          func(b *Body, _ *Ask) { b.StartC = 151 },
		"air too cold":           func(b *Body, _ *Ask) { b.Axes[0].High.Medium = Steady(-61) },
		"air too hot later":      func(b *Body, _ *Ask) { b.Axes[0].High.Medium = func(s float64) float64 { return -18 + s/1e3 } },
		"air not a number":       func(b *Body, _ *Ask) { b.Axes[0].High.Medium = Steady(math.NaN()) },
		"wetter than wet":        func(b *Body, _ *Ask) { b.Axes[0].High.Wet = 1.1 },
		"negative gap":           func(b *Body, _ *Ask) { b.Axes[0].GapM2KW = -1 },
		"negative layers":        func(b *Body, _ *Ask) { b.Axes[0].Layers = -1 },
		"no material":            func(b *Body, _ *Ask) { b.Material = nil },
		"molten nonsense":        func(b *Body, _ *Ask) { b.Material = Pure{} },
		"unknown shape":          func(b *Body, _ *Ask) { b.Axes[0].Shape = 9 },
		"core not a number":      func(_ *Body, a *Ask) { a.CoreC = math.NaN() },
		"mark not a number":      func(_ *Body, a *Ask) { a.MarksC = []float64{math.NaN()} },
		"negative time":          func(_ *Body, a *Ask) { a.WithinS = -1 },
		"unknown accuracy":       func(_ *Body, a *Ask) { a.Accuracy = 7 },
	} {
		b, a := good(), Ask{CoreC: -10}
		spoil(&b, &a)
		_, err := b.Simulate(a)
		var out *heat.RangeError
		if !errors.As(err, &out) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, axes := range map[string][]Axis{
		"no axes": nil, "four slabs": {Both(1, in(8, 3)), Both(1, in(8, 3)), Both(1, in(8, 3)), Both(1, in(8, 3))},
		"ball and slab": {{Shape: heat.Sphere, SizeM: 0.1, High: in(8, 3)}, Both(0.1, in(8, 3))},
	} {
		_, err := Body{soupCold, axes, 5}.Simulate(Ask{CoreC: 4})
		var out *heat.AxesError
		if !errors.As(err, &out) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, p := range map[string]Pool{"no capacity": {}, "negative ice": {HeatCapacityJK: 1e3, IceKg: -1}, "power not a number": {HeatCapacityJK: 1e3, PowerW: math.NaN()}} {
		_, err := p.Simulate(nil, Ask{CoreC: 4})
		var out *heat.RangeError
		if !errors.As(err, &out) {
			t.Errorf("%s: %v", name, err)
		}
	}
	var out *heat.RangeError
	if _, err := (Pool{HeatCapacityJK: 1e3}).Simulate([]Batch{{Body: good()}}, Ask{CoreC: 4}); !errors.As(err, &out) {
		t.Errorf("no bodies in a batch: %v", err)
	}
	if _, err := Food(heat.FreezingFood{}); err == nil {
		t.Error("a food of nothing")
	}
	if _, err := Solid(heat.Solid{}); err == nil {
		t.Error("a solid of nothing")
	}
}

func TestNeverAndGivingUp(t *testing.T) {
	for name, c := range map[string]struct {
		b     Body
		coreC float64
	}{
		"air not cold enough":    {slabOf(soupCold, 5, 0.0254, in(8, -10)), -10},
		"the wrong way":          {slabOf(soupCold, 5, 0.0254, in(8, -18)), 8},
		"water not hot enough":   {slabOf(soupHot, -18, 0.0254, in(435, 70)), 73.9},
		"one face closed":        {panOf(soupCold, 5, 0.0254, Face{}, in(8, -10)), -12},
		"neither medium is cold": {panOf(soupCold, 5, 0.0254, in(8, 3), in(8, -10)), -12},
		"an open pan in a room":  {panOf(soupHot, 57.2, 0.05, in(8, 21), Face{10, Steady(21), 1}), 20},
	} {
		_, err := c.b.Simulate(Ask{CoreC: c.coreC})
		var never *heat.NeverError
		if !errors.As(err, &never) || never.TargetC != c.coreC || never.StartC != c.b.StartC {
			t.Errorf("%s: %v", name, err)
		}
	}
	// Between two media it cannot be known beforehand.
	r, err := panOf(soupCold, 5, 0.0254, in(8, 3), in(8, -30)).Simulate(Ask{CoreC: -25, MarksC: []float64{2}, WithinS: 3 * 86400})
	if err != nil || r.Reached || r.TimeS != 3*86400 || !r.Passed[0].Reached {
		t.Errorf("%+v, %v", r.Passed, err)
	}
	// A course that gets there in the end.
	later := Face{FilmWM2K: 8, Medium: func(s float64) float64 {
		if s < 6*3600 {
			return 3
		}
		return -18
	}}
	r, err = slabOf(soupCold, 5, 0.0254, later).Simulate(Ask{CoreC: -10})
	if err != nil || !r.Reached {
		t.Fatalf("%v %v", r.Reached, err)
	}
	chilled, err := coreTime(slabOf(soupCold, 3, 0.0254, in(8, -18)), -10, Fine)()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "six hours in the fridge, then the freezer", r.TimeS, 6*3600+chilled, 0.01) // after 6 h it is at 3.06 °C
	// Already there.
	r, err = slabOf(soupCold, 5, 0.0254, in(8, -18)).Simulate(Ask{CoreC: 5, MarksC: []float64{5, 4}})
	if err != nil || !r.Reached || r.TimeS != 0 || !r.Passed[0].Reached || r.Passed[1].Reached {
		t.Errorf("already there: %+v, %v", r, err)
	}
}

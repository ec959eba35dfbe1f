package series

import (
	"errors"
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/heat/heattest"
)

// Temperatures that are never reached say so, and say where the food ends up.
func TestNever(t *testing.T) {
	pan := Sheet{heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}, 0.05, 8, 10}
	body := Brick(pan.Solid, 0.05, 0.1, 0.2, 8)
	for _, c := range []struct {
		name                       string
		startC, mediumC, targetC   float64
		wantNever                  bool
		wantStart, wantLimit, want float64
	}{
		{"to the medium itself", 57.2, 5, 5, true, 57.2, 5, 0},
		{"colder than the medium", 57.2, 8, 5, true, 57.2, 8, 0},
		{"warming food does not cool", 60, 80, 21.1, true, 60, 80, 0},
		{"nothing drives it", 20, 20, 5, true, 20, 20, 0},
		{"there already", 21.1, 3, 21.1, false, 0, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			for what, time := range map[string]func(a, b, c float64) (float64, error){
				"sheet": pan.CoreTimeS, "body": body.CentreTimeS,
			} {
				got, err := time(c.startC, c.mediumC, c.targetC)
				var never *heat.NeverError
				if errors.As(err, &never) != c.wantNever {
					t.Fatalf("%s: %v", what, err)
				}
				if c.wantNever && (never.StartC != c.wantStart || never.LimitC != c.wantLimit || never.TargetC != c.targetC) {
					t.Errorf("%s: %+v", what, never)
				}
				if !c.wantNever && got != c.want {
					t.Errorf("%s: %g", what, got)
				}
			}
		})
	}
}

// What lies outside a range is refused and named.
func TestRefused(t *testing.T) {
	solid := heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}
	for _, c := range []struct {
		what string
		err  error
	}{
		{"thickness", heattest.Second(Sheet{solid, 0, 8, 8}.CoreTimeS(57, 3, 21))},
		{"surface coefficient", heattest.Second(Sheet{solid, 0.05, 0, 0}.CoreTimeS(57, 3, 21))},
		{"conductivity", heattest.Second(Sheet{heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850}, 0.05, 8, 8}.CoreTempC(57, 3, 21))},
		{"time", heattest.Second(Sheet{solid, 0.05, 8, 8}.CoreTempC(57, 3, -1))},
		{"start temperature", heattest.Second(Sheet{solid, 0.05, 8, 8}.CoreTimeS(math.Inf(1), 3, 21))},
		{"Fourier number", heattest.Second(Sheet{solid, 0.05, 8, 8}.MeanTempC(57, 3, 1e-9))},
		{"Fourier number", heattest.Second(RelativeTemp(heat.Slab, Mean, 2, 1e-9))},
		{"Biot number", heattest.Second(RelativeTemp(heat.Slab, Mean, 0, 1))},
		{"shape", heattest.Second(FirstTermOf(heat.Shape(4), 1))},
		{"place", heattest.Second(RelativeTemp(heat.Slab, Place(0), 2, 1))},
		{"half thickness or radius", heattest.Second(Brick(solid, 1, 1, 0, 8).CentreTimeS(57, 3, 21))},
	} {
		var out *heat.RangeError
		if !errors.As(c.err, &out) || out.What != c.what {
			t.Errorf("%s: got %v", c.what, c.err)
		} else if !strings.Contains(out.Error(), c.what) || !strings.Contains(out.Error(), "want") {
			t.Errorf("%s: message %q", c.what, out.Error())
		}
	}
}

func TestBodyAxes(t *testing.T) {
	a := func(shapes ...heat.Shape) Body {
		b := Body{Solid: heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}}
		for _, s := range shapes {
			b.Axes = append(b.Axes, Axis{s, 0.05, 8})
		}
		return b
	}
	for _, c := range []struct {
		body Body
		ok   bool
	}{
		{a(heat.Slab), true}, {a(heat.Slab, heat.Slab), true}, {a(heat.Slab, heat.Slab, heat.Slab), true},
		{a(heat.Cylinder), true}, {a(heat.Cylinder, heat.Slab), true}, {a(heat.Sphere), true},
		{a(), false}, {a(heat.Slab, heat.Slab, heat.Slab, heat.Slab), false}, {a(heat.Cylinder, heat.Slab, heat.Slab), false},
		{a(heat.Sphere, heat.Slab), false}, {a(heat.Cylinder, heat.Cylinder), false},
	} {
		_, err := c.body.CentreTimeS(57, 3, 21)
		var axes *heat.AxesError
		if (err == nil) != c.ok || (!c.ok && !errors.As(err, &axes)) {
			t.Errorf("%d axes %v: %v", len(c.body.Axes), c.body.Axes, err)
		}
	}
}

func TestAtTheStart(t *testing.T) {
	pan := Sheet{heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}, 0.05, 8, 10}
	heattest.Within(t, "core", heattest.Must(pan.CoreTempC(57.2, 3, 0))(t), 57.2, 0)
	heattest.Within(t, "mean", heattest.Must(pan.MeanTempC(57.2, 3, 0))(t), 57.2, 0)
	heattest.Within(t, "θ", heattest.Must(RelativeTemp(heat.Sphere, Surface, 2, 0))(t), 1, 0)
	for p := Centre; p <= Mean; p++ {
		heattest.Within(t, "body", heattest.Must(Can(pan.Solid, 0.2, 0.2, 8).TempC(p, 57.2, 3, 0))(t), 57.2, 0)
	}
}

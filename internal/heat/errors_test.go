package heat

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// Temperatures that are never reached say so, and say where the food ends up.
func TestNever(t *testing.T) {
	pan := Sheet{Solid{1030, 3850, 0.59}, 0.05, 8, 10}
	body := Brick(pan.Solid, 0.05, 0.1, 0.2, 8)
	stirred := Vessel{600e3, 100}
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
				"sheet": pan.CoreTimeS, "body": body.CentreTimeS, "vessel": stirred.TimeS,
			} {
				got, err := time(c.startC, c.mediumC, c.targetC)
				var never *NeverError
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
	if _, err := (Vessel{HeatCapacityJK: 600e3}).TimeS(57, 3, 21); err == nil || !strings.Contains(err.Error(), "never reaches 21 °C") {
		t.Errorf("no exchange: %v", err)
	}
	if _, err := stirred.HeatUpTimeS(Heater{20e3, 1}, 95, 20, 20); err == nil {
		t.Error("heating to a colder target gives a time")
	}
}

// What lies outside a range is refused and named.
func TestRefused(t *testing.T) {
	soup := Composition{Water: 0.86, Protein: 0.035, Fat: 0.03, Carb: 0.055, Fibre: 0.01, Ash: 0.01}
	solid := Solid{1030, 3850, 0.59}
	spirit, short := soup, soup
	spirit.Alcohol, spirit.Water = 0.4, 0.46
	short.Water = 0.5
	for _, c := range []struct {
		what string
		err  error
	}{
		{"alcohol fraction", second(spirit.At(20))},
		{"sum of the composition", second(short.At(20))},
		{"temperature for food properties", second(soup.At(151))},
		{"temperature for food properties", second(soup.At(math.NaN()))},
		{"temperature of the frozen food", second(soup.FrozenAt(5, -0.8))},
		{"freezing point", second(soup.FrozenAt(-20, -16))},
		{"temperature of the unfrozen food", second(soup.FreezingFood(-0.8, -5))},
		{"enthalpy", second(rounded("soup").TempC(1e9))},
		{"ideal freezing point", second(FreezingPointC(0.5, Solute{Salt, 0.3}))},
		{"sum of the composition", second(Composition{Water: 0.2}.Normalise())},
		{"thickness", second(Sheet{solid, 0, 8, 8}.CoreTimeS(57, 3, 21))},
		{"surface coefficient", second(Sheet{solid, 0.05, 0, 0}.CoreTimeS(57, 3, 21))},
		{"conductivity", second(Sheet{Solid{1030, 3850, 0}, 0.05, 8, 8}.CoreTempC(57, 3, 21))},
		{"time", second(Sheet{solid, 0.05, 8, 8}.CoreTempC(57, 3, -1))},
		{"start temperature", second(Sheet{solid, 0.05, 8, 8}.CoreTimeS(math.Inf(1), 3, 21))},
		{"Fourier number", second(Sheet{solid, 0.05, 8, 8}.MeanTempC(57, 3, 1e-9))},
		{"Fourier number", second(RelativeTemp(Slab, Mean, 2, 1e-9))},
		{"Biot number", second(RelativeTemp(Slab, Mean, 0, 1))},
		{"shape", second(FirstTermOf(Shape(4), 1))},
		{"place", second(RelativeTemp(Slab, Place(0), 2, 1))},
		{"half thickness or radius", second(Brick(solid, 1, 1, 0, 8).CentreTimeS(57, 3, 21))},
		{"ice temperature", second(IceUptakeJKg(1, 20))},
		{"temperature of the melt water", second(IceKg(1e6, -18, -1))},
		{"heat", second(IceKg(-1, 0, 0))},
		{"net power", second(BoilOffKgH(-1))},
		{"efficiency", second(Heater{1000, 1.1}.NetW())},
		{"target temperature", second(Vessel{600e3, 10}.HeatUpTimeS(Heater{1e5, 1}, 20, 20, 101))},
		{"freezing point", second(soup.State(-20, 0))},
		{"temperature for food properties", second(soup.State(-41, -0.8))},
		{"temperature for Chen's formulas", second(ChenFood{0.86, 0.03, 0.14, -0.8}.HeatJKgK(101))},
		{"solids fraction", second(ChenFood{0.86, 0.03, 1.4, -0.8}.EnthalpyJKg(5))},
		{"sum of the composition", second(short.Chen(-0.8))},
		{"temperature for Tchigeov's formula", second(TchigeovIceShare(0.86, -0.8, 5))},
		{"water share for Chang and Tao's formula", second(ChangTaoJKg(0.5))},
		{"solute share", second(soup.FreezingRange(Solute{Salt, -0.1}))},
		{"water temperature", second(OpenSurfaceEvaporation(101, 20))},
		{"air temperature", second(OpenSurfaceEvaporation(50, 70))},
		{"open area", second(OpenVessel{Vessel{600e3, 10}, -1, 1}.To(Heater{}, 57, 3, 21))},
		{"wet share of the open area", second(OpenVessel{Vessel{600e3, 10}, 0.2, 1.5}.After(Heater{}, 57, 3, 60))},
		{"start temperature", second(OpenVessel{Vessel{600e3, 10}, 0.2, 1}.To(Heater{}, -5, 3, 21))},
		{"target temperature", second(OpenVessel{Vessel{600e3, 10}, 0.2, 1}.To(Heater{1e4, 1}, 5, 3, 105))},
		{"ambient temperature", second(OpenVessel{Vessel{600e3, 10}, 0.2, 1}.After(Heater{1e4, 1}, 5, 90, 60))},
		{"time", second(OpenVessel{Vessel{600e3, 10}, 0.2, 1}.After(Heater{1e4, 1}, 5, 20, -1))},
		{"share of the content that goes off as vapour", second(OpenVessel{Vessel{600e3, 10}, 0.2, 1}.After(Heater{2e4, 1}, 95, 20, 1e5))},
		{"mass", second(Kettle{Of: soup, DiameterM: 0.5}.HeatUp(20, 95))},
		{"diameter", second(Kettle{Of: soup, MassKg: 50}.HeatUp(20, 95))},
		{"depth of the food", second(Kettle{Of: soup, MassKg: 50, DiameterM: 0.1}.HeatUp(20, 95))},
		{"start temperature", second(Kettle{Of: soup, MassKg: 50, DiameterM: 0.5}.HeatUp(-18, 95))},
		{"layer thickness", second(CoatedFilmWM2K(8, Coat{-1, 0.3}))},
	} {
		var out *RangeError
		if !errors.As(c.err, &out) || out.What != c.what {
			t.Errorf("%s: got %v", c.what, c.err)
		} else if !strings.Contains(out.Error(), c.what) || !strings.Contains(out.Error(), "want") {
			t.Errorf("%s: message %q", c.what, out.Error())
		}
	}
}

func second[T any](_ T, err error) error { return err }

func TestBodyAxes(t *testing.T) {
	a := func(shapes ...Shape) Body {
		b := Body{Solid: Solid{1030, 3850, 0.59}}
		for _, s := range shapes {
			b.Axes = append(b.Axes, Axis{s, 0.05, 8})
		}
		return b
	}
	for _, c := range []struct {
		body Body
		ok   bool
	}{
		{a(Slab), true}, {a(Slab, Slab), true}, {a(Slab, Slab, Slab), true}, {a(Cylinder), true}, {a(Cylinder, Slab), true}, {a(Sphere), true},
		{a(), false}, {a(Slab, Slab, Slab, Slab), false}, {a(Cylinder, Slab, Slab), false}, {a(Sphere, Slab), false}, {a(Cylinder, Cylinder), false},
	} {
		_, err := c.body.CentreTimeS(57, 3, 21)
		var axes *AxesError
		if (err == nil) != c.ok || (!c.ok && !errors.As(err, &axes)) {
			t.Errorf("%d axes %v: %v", len(c.body.Axes), c.body.Axes, err)
		}
	}
}

func TestAtTheStart(t *testing.T) {
	pan := Sheet{Solid{1030, 3850, 0.59}, 0.05, 8, 10}
	within(t, "core", must(pan.CoreTempC(57.2, 3, 0))(t), 57.2, 0)
	within(t, "mean", must(pan.MeanTempC(57.2, 3, 0))(t), 57.2, 0)
	within(t, "θ", must(RelativeTemp(Sphere, Surface, 2, 0))(t), 1, 0)
	for p := Centre; p <= Mean; p++ {
		within(t, "body", must(Can(pan.Solid, 0.2, 0.2, 8).TempC(p, 57.2, 3, 0))(t), 57.2, 0)
	}
}

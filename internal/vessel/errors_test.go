package vessel

import (
	"errors"
	"strings"
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/heat/heattest"
)

// Temperatures that are never reached say so, and say where the food ends up.
func TestNever(t *testing.T) {
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
			got, err := stirred.TimeS(c.startC, c.mediumC, c.targetC)
			var never *heat.NeverError
			if errors.As(err, &never) != c.wantNever {
				t.Fatal(err)
			}
			if c.wantNever && (never.StartC != c.wantStart || never.LimitC != c.wantLimit || never.TargetC != c.targetC) {
				t.Errorf("%+v", never)
			}
			if !c.wantNever && got != c.want {
				t.Errorf("%g", got)
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
	soup := heat.Composition{Water: 0.86, Protein: 0.035, Fat: 0.03, Carb: 0.055, Fibre: 0.01, Ash: 0.01}
	for _, c := range []struct {
		what string
		err  error
	}{
		{"ice temperature", heattest.Second(IceUptakeJKg(1, 20))},
		{"temperature of the melt water", heattest.Second(IceKg(1e6, -18, -1))},
		{"heat", heattest.Second(IceKg(-1, 0, 0))},
		{"net power", heattest.Second(BoilOffKgH(-1))},
		{"efficiency", heattest.Second(Heater{1000, 1.1}.NetW())},
		{"target temperature", heattest.Second(Vessel{600e3, 10}.HeatUpTimeS(Heater{1e5, 1}, 20, 20, 101))},
		{"water temperature", heattest.Second(OpenSurfaceEvaporation(101, 20))},
		{"air temperature", heattest.Second(OpenSurfaceEvaporation(50, 70))},
		{"open area", heattest.Second(Open{Vessel{600e3, 10}, -1, 1}.To(Heater{}, 57, 3, 21))},
		{"wet share of the open area", heattest.Second(Open{Vessel{600e3, 10}, 0.2, 1.5}.After(Heater{}, 57, 3, 60))},
		{"start temperature", heattest.Second(Open{Vessel{600e3, 10}, 0.2, 1}.To(Heater{}, -5, 3, 21))},
		{"target temperature", heattest.Second(Open{Vessel{600e3, 10}, 0.2, 1}.To(Heater{1e4, 1}, 5, 3, 105))},
		{"ambient temperature", heattest.Second(Open{Vessel{600e3, 10}, 0.2, 1}.After(Heater{1e4, 1}, 5, 90, 60))},
		{"time", heattest.Second(Open{Vessel{600e3, 10}, 0.2, 1}.After(Heater{1e4, 1}, 5, 20, -1))},
		{"mass", heattest.Second(Kettle{Of: soup, DiameterM: 0.5}.HeatUp(20, 95))},
		{"diameter", heattest.Second(Kettle{Of: soup, MassKg: 50}.HeatUp(20, 95))},
		{"depth of the food", heattest.Second(Kettle{Of: soup, MassKg: 50, DiameterM: 0.1}.HeatUp(20, 95))},
		{"start temperature", heattest.Second(Kettle{Of: soup, MassKg: 50, DiameterM: 0.5}.HeatUp(-18, 95))},
	} {
		var out *heat.RangeError
		if !errors.As(c.err, &out) || out.What != c.what {
			t.Errorf("%s: got %v", c.what, c.err)
		} else if !strings.Contains(out.Error(), c.what) || !strings.Contains(out.Error(), "want") {
			t.Errorf("%s: message %q", c.what, out.Error())
		}
	}
}

// 20 kW on 143 kg of water's worth boil off 32 kg an hour: after a day nothing would be left.
func TestBoilsDry(t *testing.T) {
	_, err := Open{Vessel{600e3, 10}, 0.2, 1}.After(Heater{2e4, 1}, 95, 20, 1e5)
	var dries *EvaporatedError
	if !errors.As(err, &dries) || dries.Share <= dries.Most || !strings.Contains(err.Error(), "vapour") {
		t.Errorf("got %v", err)
	}
}

package vessel

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/heat/heattest"
	"kettlefrost/internal/unit"
)

// The file of derived check values that the tables of these tests were typed from, if it is at hand: it guards the typing.
func TestCheckFile(t *testing.T) {
	if known := heattest.CheckFile(t, checkFileVessel); known < 22 { // of the pot, its ice and evaporation
		t.Errorf("only %d rows understood", known)
	}
}

// btuH is a burner of so many Btu/h at 40 %.
func btuH(btu float64) Heater { return Heater{RatedW: btu * 1055.05585262 / 3600, Efficiency: 0.40} }

// checkFileVessel works out the rows of the pot of 40 gal and of evaporation, all vessels as Open.
func checkFileVessel(body, quantity string) (float64, bool) {
	o := openPot()
	lidded := o
	lidded.Wet = 0
	var from, to, u float64
	fmt.Sscanf(strings.TrimPrefix(quantity, "time "), "%g -> %g C", &from, &to)
	switch {
	case strings.HasPrefix(body, "40 gal pot stirred in 0 C ice bath"):
		fmt.Sscanf(body, "40 gal pot stirred in 0 C ice bath, U %g", &u)
		v, wetM2, _, _ := pot()
		p, err := Open{Vessel: Vessel{v.HeatCapacityJK, u * wetM2}}.To(Heater{}, from, 0, to)
		return p.TimeS / 60, err == nil
	case strings.HasPrefix(body, "40 gal pot perfectly mixed, covered, 3 C air"):
		p, err := lidded.To(Heater{}, from, 3, to)
		return p.TimeS / 3600, err == nil
	case body == "40 gal pot perfectly mixed, open top, air 3 C":
		p, err := o.To(Heater{}, from, 3, to)
		return p.TimeS / 3600, err == nil
	case body == "40 gal pot perfectly mixed, open top, air 21 C":
		p, err := o.After(Heater{}, 57.2, 21, 7200)
		return p.TempC, err == nil
	case strings.HasPrefix(body, "40 gal pot 20 -> 95 C"):
		p, err := lidded.To(btuH(90_000), 20, 20, 95)
		return p.TimeS / 60, err == nil
	case body == "same, no losses":
		lidded.Vessel.LossWK = 0
		p, err := lidded.To(btuH(90_000), 20, 20, 95)
		return p.TimeS / 60, err == nil
	}
	return checkFileWater(body, quantity)
}

func checkFileWater(body, quantity string) (float64, bool) {
	v, _, _, depthM := pot()
	heatJ := func(to float64) float64 { j, _ := v.HeatJ(57.2, to); return j }
	uptake, _ := IceUptakeJKg(-18, 21.1)
	var tempF float64
	switch {
	case quantity == "fill depth":
		return depthM, true
	case quantity == "heat capacity":
		return v.HeatCapacityJK, true
	case strings.HasPrefix(quantity, "mean power"):
		return heatJ(21.1) / 7200, true
	case strings.HasPrefix(quantity, "ice to melt"):
		kg, err := IceKg(heatJ(5), 0, 0)
		return kg, err == nil
	case strings.HasPrefix(body, "ice paddle"):
		return 3.6 * uptake / 1000, true
	case strings.HasPrefix(quantity, "such paddles"):
		return heatJ(21.1) / (3.6 * uptake), true
	case strings.HasPrefix(body, "open hot surface"):
		fmt.Sscanf(body, "open hot surface %g F", &tempF)
		e, err := OpenSurfaceEvaporation(unit.TempF(tempF).C(), 15.6)
		return e.KgM2H, err == nil
	case strings.HasPrefix(body, "boiling, 10 kW"):
		p, err := Open{Vessel: v}.After(Heater{10e3, 1}, 100, 20, 3600)
		return p.WaterLostKg, err == nil
	}
	return 0, false
}

// The rows of the check file that an Open answers, for when the file is not at hand (derived apart from this code, from the same
// table of evaporation). How the reference goes on below 37.8 °C, where the table ends, is not stated there: its 8.586 h fall between
// no evaporation below (9.2 h) and as much as at 37.8 °C (7.9 h). Ours is Dalton's law, 8.54 h.
func TestOpenPotRows(t *testing.T) {
	for _, r := range []struct {
		body, quantity string
		want, tol      float64
	}{
		{"40 gal pot perfectly mixed, open top, air 3 C", "time 57.2 -> 21.1 C", 8.58611, 0.01},
		{"40 gal pot perfectly mixed, open top, air 21 C", "", 46.5869, 1e-3},
		{"40 gal pot perfectly mixed, covered, 3 C air", "time 57.2 -> 21.1 C", 10.2017, 1e-3},
		{"40 gal pot perfectly mixed, covered, 3 C air", "time 57.2 -> 5 C", 30.6908, 1e-3},
		{"40 gal pot 20 -> 95 C", "", 76.1001, 1e-3},
		{"same, no losses", "", 71.1397, 1e-3},
		{"boiling, 10 kW", "", 15.9504, 1e-3},
	} {
		got, ok := checkFileVessel(r.body, r.quantity)
		if !ok {
			t.Errorf("%s: no value", r.body)
		}
		heattest.Near(t, r.body+" "+r.quantity, got, r.want, r.tol)
	}
	// After 2 h in 3 °C air the reference has 43.4 °C.
	heattest.Within(t, "open top, air 3 °C, after 2 h", heattest.Must(openPot().After(Heater{}, 57.2, 3, 7200))(t).TempC, 43.4, 0.06)
	heattest.Within(t, "open area", openPot().OpenAreaM2, math.Pi/4*0.57*0.57, 1e-12)
}

package reheating

import (
	"math"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

const (
	simmerC      = 95 // at sea level
	belowBoilK   = 5  // how far a gentle simmer stays below the boil: our judgement, it is where thermal practice puts "simmering"
	coldestBathC = 30 // no bath below this is called heating
	hottestBathC = 100
	// hotterK is how far the water must be above 165 °F. Closer than that the middle creeps, and a degree less of water, which a cook
	// does not see, costs minutes: our own limit.
	hotterK = 5
)

// Water is what the bags are heated in.
type Water struct {
	TempC float64 // 30 to 100; 0 is 95. SimmerC gives that of a place in the mountains
	// Film is the surface coefficient as it acts on the food through one film of plastic, as that of medium "simmering-water" does; zero
	// is that one. A second film, a carton or trapped air is Bag.PackageM2KW.
	Film         medium.Film
	LitresPerBag float64 // 0.2 to 100; 0 is not known: the card then says how much to take
	Bags         int     // in the pot at once, up to 100; 0 is not known: one is counted
	// NetPowerW is what the burner puts into the water when it is full on, all losses taken off, for the pot with all its bags. If it and
	// LitresPerBag are given, the dip of the water when the bags go in is simulated; otherwise the water stays at TempC.
	NetPowerW float64 // up to 1e5; 0 is not known
}

// ready is w with its defaults filled in. Errors: *heat.RangeError.
func (w Water) ready() (Water, error) {
	if w.TempC == 0 {
		w.TempC = simmerC
	}
	if w.Film == (medium.Film{}) {
		m, _ := medium.Find("simmering-water")
		w.Film = m.Film
	}
	if err := checkFilm(w.Film); err != nil {
		return Water{}, err
	}
	for _, c := range []struct {
		what, unit   string
		v, low, high float64
	}{
		{"water temperature", "°C", w.TempC, coldestBathC, hottestBathC},
		{"bags in the pot", "", float64(w.Bags), 0, 100},
		{"power into the water", "W", w.NetPowerW, 0, 1e5},
	} {
		if err := heat.InRange(c.what, c.unit, c.v, c.low, c.high); err != nil {
			return Water{}, err
		}
	}
	if w.LitresPerBag == 0 && w.NetPowerW == 0 {
		return w, nil
	}
	return w, heat.InRange("water per bag", "L", w.LitresPerBag, 0.2, 100)
}

func checkFilm(f medium.Film) error {
	if err := heat.InRange("lowest surface coefficient", "W/(m²·K)", f.LowWM2K, 1, 1e5); err != nil {
		return err
	}
	if err := heat.InRange("usual surface coefficient", "W/(m²·K)", f.UsualWM2K, f.LowWM2K, 1e5); err != nil {
		return err
	}
	return heat.InRange("highest surface coefficient", "W/(m²·K)", f.HighWM2K, f.UsualWM2K, 1e5)
}

// dips says whether the water is simulated with the bags.
func (w Water) dips() bool { return w.NetPowerW > 0 && w.LitresPerBag > 0 }

// hotEnough says whether the water is so far above 165 °F that a time can be given.
func (w Water) hotEnough() bool { return w.TempC >= TargetC+hotterK }

const (
	seaLevelPa = 101_325
	// The troposphere of the standard atmosphere (ISO 2533, ICAO): p = p0·(1 - L·h/T0)^(g/(R·L)).
	lapseKM, standardK, pressurePower = 0.0065, 288.15, 5.25588
)

// PressurePa is the pressure of the standard atmosphere at an altitude of -500 to 6000 m (ISO 2533; constants from memory). The weather
// changes it by some 3 %, which is 1 °C at the boil. Errors: *heat.RangeError.
func PressurePa(altitudeM float64) (float64, error) {
	if err := heat.InRange("altitude", "m", altitudeM, -500, 6000); err != nil {
		return 0, err
	}
	return seaLevelPa * math.Pow(1-lapseKM*altitudeM/standardK, pressurePower), nil
}

// saturation are the constants of the saturation line of water, IAPWS-IF97 region 4 (from memory; held to the printed check values).
var saturation = [...]float64{0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
	0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3}

// boilsK is the temperature at which water boils under a pressure of 611 Pa to 22 MPa: the backward equation of region 4.
func boilsK(pressurePa float64) float64 {
	n := saturation
	b := math.Pow(pressurePa/1e6, 0.25)
	e := b*b + n[2]*b + n[5]
	f := n[0]*b*b + n[3]*b + n[6]
	g := n[1]*b*b + n[4]*b + n[7]
	d := 2 * g / (-f - math.Sqrt(f*f-4*e*g))
	s := n[9] + d
	return (s - math.Sqrt(s*s-4*(n[8]+n[9]*d))) / 2
}

// BoilC is where water boils at an altitude of -500 to 6000 m in standard weather. Errors: *heat.RangeError.
func BoilC(altitudeM float64) (float64, error) {
	p, err := PressurePa(altitudeM)
	if err != nil {
		return 0, err
	}
	return boilsK(p) - 273.15, nil
}

// SimmerC is the temperature of gently simmering water at that altitude: 5 K below the boil. Range and errors as BoilC.
func SimmerC(altitudeM float64) (float64, error) {
	c, err := BoilC(altitudeM)
	if err != nil {
		return 0, err
	}
	return c - belowBoilK, nil
}

package calibration

import (
	"errors"
	"math"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/vessel"
)

// Calibrated is a setting found from one logged batch, and the range that the doubt of the reading leaves. What the log cannot know
// (whether the pot was stirred, whether the air stayed as it was) is not in the range.
type Setting struct{ Value, Low, High float64 }

// Logged is what was read while something warmed or cooled. Its doubts are those of one reading, either way; 0 means exact.
type Logged struct {
	StartC, EndC float64
	MediumC      float64 // air or bath, which stayed so
	TimeS        float64 // above 0 to 1e9
	TempDoubtK   float64 // 0 to 20
	TimeDoubtS   float64 // 0 to less than the time
}

// Usual doubts of a log: a probe thermometer of the kitchen, and a time read off the wall (common practice).
const (
	ThermometerDoubtK = 1
	ClockDoubtS       = 30
)

func (l Logged) check() error {
	if err := heat.TempInRange("start temperature", l.StartC); err != nil {
		return err
	}
	if err := heat.TempInRange("end temperature", l.EndC); err != nil {
		return err
	}
	if err := heat.TempInRange("temperature of the medium", l.MediumC); err != nil {
		return err
	}
	if err := heat.InRange("logged time", "s", l.TimeS, 1, heat.LongestTimeS); err != nil {
		return err
	}
	if err := heat.InRange("doubt of a temperature", "K", l.TempDoubtK, 0, 20); err != nil {
		return err
	}
	return heat.InRange("doubt of the time", "s", l.TimeDoubtS, 0, 0.9*l.TimeS)
}

// shifted is the log with all its doubts pulling one way: 1 makes the change larger and quicker, -1 smaller and slower. warming is +1
// or -1 after the direction of the change.
func (l Logged) shifted(pull, warming float64) Logged {
	l.StartC -= pull * warming * l.TempDoubtK
	l.EndC += pull * warming * l.TempDoubtK
	l.TimeS -= pull * l.TimeDoubtS
	return l
}

// LossWK is the overall coefficient times surface of a stirred vessel that went from StartC to EndC in a medium at MediumC:
// (C/t)·ln((Ts-Tm)/(Te-Tm)), Newton's law read backwards. Errors: *heat.NeverError if the end does not lie between start and medium;
// *heat.RangeError, also if it is so close to either that the doubt of the thermometer swallows the difference.
func LossWK(heatCapacityJK float64, l Logged) (Setting, error) {
	if err := l.check(); err != nil {
		return Setting{}, err
	}
	if err := (vessel.Vessel{HeatCapacityJK: heatCapacityJK}).Check(); err != nil {
		return Setting{}, err
	}
	if _, err := heat.WayLeft(l.StartC, l.MediumC, l.EndC); err != nil {
		return Setting{}, err
	}
	const widestK = heat.HighestTempC - heat.LowestTempC
	change, left := math.Abs(l.EndC-l.StartC), math.Abs(l.EndC-l.MediumC)
	if err := heat.InRange("change of temperature", "K", change, 2*l.TempDoubtK+smallestChangeK, widestK); err != nil {
		return Setting{}, err
	}
	if err := heat.InRange("distance of the end from the medium", "K", left, l.TempDoubtK+smallestChangeK, widestK); err != nil {
		return Setting{}, err
	}
	loss := func(l Logged) float64 {
		return heatCapacityJK / l.TimeS * math.Log((l.StartC-l.MediumC)/(l.EndC-l.MediumC))
	}
	warming := math.Copysign(1, l.EndC-l.StartC)
	return Setting{loss(l), loss(l.shifted(-1, warming)), loss(l.shifted(1, warming))}, nil
}

// smallestChangeK is what a log must show beyond its doubt.
const smallestChangeK = 0.1

// Efficiency is the part of ratedW (1 to 1e6 W) that reached the content of v while it heated up as logged: a known mass of
// water, with the lid on (Wet 0) or off. The loss of the vessel is counted as given; LossWK 0 makes it part of the efficiency, as a
// figure of a burner and its pot together. Errors: *heat.RangeError, also if even all of the power would not be enough, which says that mass,
// time or power is not what it is said to be.
func Efficiency(v vessel.Open, ratedW float64, l Logged) (Setting, error) {
	if err := l.check(); err != nil {
		return Setting{}, err
	}
	if err := heat.InRange("rated power", "W", ratedW, 1, 1e6); err != nil {
		return Setting{}, err
	}
	if err := heat.InRange("rise of temperature", "K", l.EndC-l.StartC, 2*l.TempDoubtK+smallestChangeK, vessel.BoilsC); err != nil {
		return Setting{}, err
	}
	find := func(l Logged) (float64, error) {
		return settingFor(l.TimeS, smallestEfficiency, 1, efficiencyTolerance, func(efficiency float64) (float64, error) {
			p, err := v.To(vessel.Heater{RatedW: ratedW, Efficiency: efficiency}, max(0, l.StartC), l.MediumC, min(vessel.BoilsC, l.EndC))
			var dries *vessel.EvaporatedError
			if errors.As(err, &dries) {
				return math.Inf(1), nil // so slow that it would boil dry
			}
			return p.TimeS, err
		})
	}
	return calibrated(smallestEfficiency, 1, func(pull float64) (float64, error) { return find(l.shifted(pull, 1)) })
}

const smallestEfficiency = 1e-3

// The surface coefficients among which FilmWM2K looks: from a bag in crowded still air to a strong stream of water.
const (
	SmallestFilmWM2K = 1
	LargestFilmWM2K  = 5000
)

// FilmWM2K is the surface coefficient with which timeS, a simulation or formula of the caller, takes loggedS (1 to 1e9 s, read
// to doubtS either way, up to 90 % of it) from the logged start to the logged core temperature. timeS must fall as the coefficient rises;
// a *heat.NeverError of it counts as a time without end, any other error is passed on. Some 10 calls for each of three values.
//
// Low and High are the coefficients of the longest and shortest reading. Where food and not surface sets the pace, the time hardly tells
// the coefficient, and the range is wide: High is LargestCalibratedWM2K if no coefficient is large enough for the shortest reading, and
// Low likewise. Errors: *heat.RangeError, also if no coefficient gives loggedS.
func FilmWM2K(loggedS, doubtS float64, timeS func(filmWM2K float64) (float64, error)) (Setting, error) {
	l := Logged{TimeS: loggedS, TimeDoubtS: doubtS}
	if err := l.check(); err != nil {
		return Setting{}, err
	}
	return calibrated(SmallestFilmWM2K, LargestFilmWM2K, func(pull float64) (float64, error) {
		return settingFor(l.shifted(pull, 1).TimeS, SmallestFilmWM2K, LargestFilmWM2K, filmTolerance, timeS)
	})
}

// calibrated finds the value and its range; an end of the range that cannot be found is the end of what was looked through.
func calibrated(low, high float64, find func(pull float64) (float64, error)) (Setting, error) {
	value, err := find(0)
	if err != nil {
		return Setting{}, err
	}
	c := Setting{value, low, high}
	for _, side := range []struct {
		pull float64
		at   *float64
	}{{-1, &c.Low}, {1, &c.High}} {
		var out *heat.RangeError
		x, err := find(side.pull)
		if err == nil {
			*side.at = x
		} else if !errors.As(err, &out) {
			return Setting{}, err
		}
	}
	return c, nil
}

// settingFor is the setting between low and high with which timeS is wantS. The time falls as the setting rises and is nearly a straight
// line in its inverse (heat through a film, heat from a burner), so the search is by chords in the inverse, every third step a halving.
// The lowest setting is tried only if all others are too quick: it may take a simulation years.
func settingFor(wantS, low, high, tolerance float64, timeS func(setting float64) (float64, error)) (float64, error) {
	excess := func(inverse float64) (float64, error) {
		s, err := timeS(1 / inverse)
		var never *heat.NeverError
		if errors.As(err, &never) {
			return math.Inf(1), nil
		}
		if err == nil && math.IsNaN(s) {
			err = heat.InRange("computed time", "s", s, 0, heat.LongestTimeS)
		}
		return s - wantS, err
	}
	a, b, fb := 1/high, 1/low, math.Inf(1)
	fa, err := excess(a)
	if err != nil {
		return 0, err
	}
	if fa > 0 {
		return 0, &heat.RangeError{What: "logged time", Unit: "s", Value: wantS, Low: min(wantS+fa, heat.LongestTimeS), High: heat.LongestTimeS}
	}
	for step := 1; step < maxSteps && b/a > 1+tolerance; step++ {
		x := math.Sqrt(a * b)
		if chord := a - fa*(b-a)/(fb-fa); step%3 > 0 && chord > a && chord < b {
			x = chord
		}
		fx, err := excess(x)
		switch {
		case err != nil:
			return 0, err
		case math.Abs(fx) <= tolerance*wantS:
			return 1 / x, nil
		case fx < 0:
			a, fa = x, fx
		default:
			b, fb = x, fx
		}
	}
	if b == 1/low {
		return 0, &heat.RangeError{What: "logged time", Unit: "s", Value: wantS, Low: 0, High: wantS + fa}
	}
	return 1 / b, nil
}

// maxSteps bounds the search, which takes some ten.
const maxSteps = 100

// How near a setting or its time must be, as a share. For films far finer than any log (30 %), coarse enough for a simulation that is
// not smooth to the last digit and takes its time.
const (
	efficiencyTolerance = 1e-6
	filmTolerance       = 1e-4
)

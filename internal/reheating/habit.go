package reheating

import (
	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
)

// Thickest is the greatest thickness for which a time is enough, by the film. 0: not even 1 mm; 0.2 m: every bag for which the card is
// meant.
type Thickest struct{ LowFilmM, UsualFilmM, HighFilmM float64 }

// ThicknessFor is how thick a bag may be so that its coldest point is at 165 °F after the minutes, 1 to 240: to show up to where a habit
// holds, such as a quarter of an hour for a flat bag of one meal (common practice, no source). No margin is in it. What the bag says about
// its own thickness does not count. Errors: *heat.RangeError.
func ThicknessFor(minutes float64, s Start, b Bag, w Water) (Thickest, error) {
	b.ThicknessM, b.ThinM, b.ThickM = thickestM, 0, 0
	b, err := b.measured()
	if err != nil {
		return Thickest{}, err
	}
	if w, err = w.ready(); err != nil {
		return Thickest{}, err
	}
	if err := s.check(); err != nil {
		return Thickest{}, err
	}
	if err := heat.InRange("time", "min", minutes, 1, 240); err != nil {
		return Thickest{}, err
	}
	films := []float64{w.Film.LowWM2K, w.Film.UsualWM2K, w.Film.HighWM2K}
	var found [3]float64
	for i, film := range films {
		if found[i], err = thickestWithin(60*minutes, s, b, w, film); err != nil {
			return Thickest{}, err
		}
	}
	return Thickest{found[0], found[1], found[2]}, nil
}

// thickestWithin halves the range of thicknesses until it is known to 0.1 mm, from below: the time rises with the thickness.
func thickestWithin(timeS float64, s Start, b Bag, w Water, filmWM2K float64) (float64, error) {
	enough := func(thicknessM float64) (bool, error) {
		ask := conduction.Ask{CoreC: TargetC, WithinS: timeS}
		run, err := soak(b, w, thicknessM, filmWM2K, s, ask)
		return err == nil && inTime(run, timeS), err
	}
	low, high := thinnestM, thickestM
	if ok, err := enough(low); err != nil || !ok {
		return 0, err
	}
	if ok, err := enough(high); err != nil || ok {
		return high, err
	}
	for high-low > 1e-4 {
		middle := (low + high) / 2
		ok, err := enough(middle)
		if err != nil {
			return 0, err
		}
		if ok {
			low = middle
		} else {
			high = middle
		}
	}
	return low, nil
}

package heat

import "fmt"

// RangeError says that a value lies outside the range in which a formula holds. NaN is outside every range.
type RangeError struct {
	What      string // "air temperature"
	Unit      string // "°C"; empty for a plain number
	Value     float64
	Low, High float64 // both allowed
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("%s %.6g %s: want %.6g to %.6g", e.What, e.Value, e.Unit, e.Low, e.High)
}

// NeverError says that a body starting at StartC and drawn towards LimitC does not pass TargetC, however long one waits.
type NeverError struct {
	StartC, TargetC float64
	LimitC          float64 // where it ends up: the medium, or the balance of heating power and loss
}

func (e *NeverError) Error() string {
	return fmt.Sprintf("never reaches %.6g °C: starts at %.6g °C and goes towards %.6g °C", e.TargetC, e.StartC, e.LimitC)
}

// InRange is nil if low <= v <= high, else a *RangeError.
func InRange(what, unit string, v, low, high float64) error {
	if v >= low && v <= high {
		return nil
	}
	return &RangeError{What: what, Unit: unit, Value: v, Low: low, High: high}
}

// Wide physical limits: they keep nonsense and overflow out, not unusual kitchens.
const (
	lowestTempC, highestTempC = -200, 1000
	longestTimeS              = 1e9
)

func checkTemps(named ...namedTemp) error {
	for _, t := range named {
		if err := InRange(t.what, "°C", t.tempC, lowestTempC, highestTempC); err != nil {
			return err
		}
	}
	return nil
}

type namedTemp struct {
	what  string
	tempC float64
}

// unaccomplished is (target - limit) / (start - limit), the part of the way still to go, which is in (0, 1). It is 1 if the target
// is the start. A target that is not between start and limit is a *NeverError: also one that lies behind the start, because
// "already there" would be a false comfort for a food that is drifting the wrong way.
func unaccomplished(startC, limitC, targetC float64) (float64, error) {
	err := checkTemps(namedTemp{"start temperature", startC}, namedTemp{"temperature of the medium", limitC},
		namedTemp{"target temperature", targetC})
	if err != nil {
		return 0, err
	}
	if targetC == startC {
		return 1, nil
	}
	theta := (targetC - limitC) / (startC - limitC)
	if !(theta >= closest && theta < 1) {
		return 0, &NeverError{StartC: startC, TargetC: targetC, LimitC: limitC}
	}
	return theta, nil
}

// closest is how near to the medium a target may lie, as a part of the whole way: a body gets there only in infinite time, so a
// billionth of the way is called never.
const closest = 1e-9

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

// An AxesError says that the directions of a body do not make a solid.
type AxesError struct{ Axes []Shape }

func (e *AxesError) Error() string {
	return fmt.Sprintf("axes %v make no body: want 1 to 3 slabs, a cylinder, a cylinder and a slab, or a sphere", e.Axes)
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
	LowestTempC, HighestTempC = -200, 1000
	LongestTimeS              = 1e9
)

// TempInRange is nil for a temperature between LowestTempC and HighestTempC, else a *RangeError.
func TempInRange(what string, tempC float64) error {
	return InRange(what, "°C", tempC, LowestTempC, HighestTempC)
}

// WayLeft is (target - limit) / (start - limit), the part of the way still to go, which is in (0, 1). It is 1 if the target
// is the start. A target that is not between start and limit is a *NeverError: also one that lies behind the start, because
// "already there" would be a false comfort for a food that is drifting the wrong way. Other errors: *RangeError.
func WayLeft(startC, limitC, targetC float64) (float64, error) {
	if err := TempInRange("start temperature", startC); err != nil {
		return 0, err
	}
	if err := TempInRange("temperature of the medium", limitC); err != nil {
		return 0, err
	}
	if err := TempInRange("target temperature", targetC); err != nil {
		return 0, err
	}
	if targetC == startC {
		return 1, nil
	}
	theta := (targetC - limitC) / (startC - limitC)
	if !(theta >= LeastWayLeft && theta < 1) {
		return 0, &NeverError{StartC: startC, TargetC: targetC, LimitC: limitC}
	}
	return theta, nil
}

// LeastWayLeft is how near to the medium a target may lie, as a part of the whole way: a body gets there only in infinite time, so a
// billionth of the way is called never.
const LeastWayLeft = 1e-9

package vessel

import (
	"math"

	"kettlefrost/internal/heat"
)

// Vessel is a content that is mixed so well that it has one temperature, and its exchange with the surroundings. A food that is not
// stirred is no Vessel unless its Biot number is below 0.1: a pot of thick food left alone is a series.Body, and slower by far.
// Evaporation is not in it, and above 60 °C an open surface gives off more by evaporation than through the wall: see Open.
type Vessel struct {
	HeatCapacityJK float64 // mass times specific heat, 1 to 1e9
	LossWK         float64 // overall coefficient times surface, 0 to 1e6
}

// Check is nil if both values are in range.
func (v Vessel) Check() error {
	if err := heat.InRange("heat capacity", "J/K", v.HeatCapacityJK, 1, 1e9); err != nil {
		return err
	}
	return heat.InRange("loss", "W/K", v.LossWK, 0, 1e6)
}

// TimeS is how long the content takes from startC to targetC in a medium that stays at mediumC: (mc/UA)·ln((Ts-Tm)/(Tt-Tm)),
// Newton's law. 0 if start and target are the same. Errors: *heat.NeverError if the target does not lie between start and medium, or
// nothing is exchanged; *heat.RangeError.
func (v Vessel) TimeS(startC, mediumC, targetC float64) (float64, error) {
	if err := v.Check(); err != nil {
		return 0, err
	}
	theta, err := heat.WayLeft(startC, mediumC, targetC)
	if err != nil || theta == 1 {
		return 0, err
	}
	if v.LossWK == 0 {
		return 0, &heat.NeverError{StartC: startC, TargetC: targetC, LimitC: startC}
	}
	return inTime(v.HeatCapacityJK / v.LossWK * -math.Log(theta))
}

// TempC is the temperature of the content after timeS, 0 to 1e9 s, in a medium that stays at mediumC. Errors: *heat.RangeError.
func (v Vessel) TempC(startC, mediumC, timeS float64) (float64, error) {
	if err := v.Check(); err != nil {
		return 0, err
	}
	if err := heat.TempInRange("start temperature", startC); err != nil {
		return 0, err
	}
	if err := heat.TempInRange("temperature of the medium", mediumC); err != nil {
		return 0, err
	}
	if err := heat.InRange("time", "s", timeS, 0, heat.LongestTimeS); err != nil {
		return 0, err
	}
	return mediumC + (startC-mediumC)*math.Exp(-v.LossWK*timeS/v.HeatCapacityJK), nil
}

// HeatJ is what the content gives off between two temperatures (negative if it takes heat up). Errors: *heat.RangeError.
func (v Vessel) HeatJ(fromC, toC float64) (float64, error) {
	if err := v.Check(); err != nil {
		return 0, err
	}
	if err := heat.TempInRange("first temperature", fromC); err != nil {
		return 0, err
	}
	if err := heat.TempInRange("last temperature", toC); err != nil {
		return 0, err
	}
	return v.HeatCapacityJK * (fromC - toC), nil
}

// Heater is a burner or element under a vessel.
type Heater struct {
	RatedW     float64 // 0 to 1e6
	Efficiency float64 // part of it that reaches the content, 0 to 1
}

// NetW is the power that reaches the content. Errors: *heat.RangeError.
func (h Heater) NetW() (float64, error) {
	if err := heat.InRange("rated power", "W", h.RatedW, 0, 1e6); err != nil {
		return 0, err
	}
	if err := heat.InRange("efficiency", "", h.Efficiency, 0, 1); err != nil {
		return 0, err
	}
	return h.RatedW * h.Efficiency, nil
}

// BoilsC is where an open vessel stops getting hotter, °C.
const BoilsC = 100

// HeatUpTimeS is how long the content takes from startC to targetC (at most 100 °C) with the heater on, losing heat to ambientC.
// The content tends to ambientC + power/UA; m·c/UA·ln((Teq-Ts)/(Teq-Tt)), or m·c·ΔT/power with no loss. Errors: *heat.NeverError if that
// balance is not above the target, or the target is below the start; *heat.RangeError.
func (v Vessel) HeatUpTimeS(h Heater, startC, ambientC, targetC float64) (float64, error) {
	if err := v.Check(); err != nil {
		return 0, err
	}
	netW, err := h.NetW()
	if err != nil {
		return 0, err
	}
	for _, t := range []struct {
		what  string
		tempC float64
	}{{"start temperature", startC}, {"ambient temperature", ambientC}, {"target temperature", targetC}} {
		if err := heat.InRange(t.what, "°C", t.tempC, heat.LowestTempC, BoilsC); err != nil {
			return 0, err
		}
	}
	if targetC == startC {
		return 0, nil
	}
	surplusW := netW - v.LossWK*(startC-ambientC) // W at the start
	balanceC := startC
	if v.LossWK > 0 {
		balanceC = ambientC + netW/v.LossWK
	}
	if targetC < startC || surplusW <= 0 {
		return 0, &heat.NeverError{StartC: startC, TargetC: targetC, LimitC: balanceC}
	}
	// x is the loss added on the way as a part of the power at the start; log1p keeps a tiny loss exact.
	x := v.LossWK * (targetC - startC) / surplusW
	if x >= 1-heat.LeastWayLeft {
		return 0, &heat.NeverError{StartC: startC, TargetC: targetC, LimitC: balanceC}
	}
	if x == 0 {
		return inTime(v.HeatCapacityJK * (targetC - startC) / surplusW)
	}
	return inTime(v.HeatCapacityJK / v.LossWK * -math.Log1p(-x))
}

// inTime refuses times of decades: the formula holds, the constant surroundings do not.
func inTime(timeS float64) (float64, error) {
	if err := heat.InRange("time", "s", timeS, 0, heat.LongestTimeS); err != nil {
		return 0, err
	}
	return timeS, nil
}

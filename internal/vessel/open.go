package vessel

import (
	"fmt"
	"math"

	"kettlefrost/internal/heat"
)

// Open is a stirred Vessel whose surface gives off vapour while it heats up or cools down:
//
//	C·dT/dt = P - UA·(T - Ta) - A·wet·e(T)    up to 100 °C, where all that is left of P makes steam
//
// with e(T) after OpenSurfaceEvaporation. Content that can boil at 100 °C and freeze at 0 °C, air that stays as it is. The heat capacity
// is that of the start: the water that goes off is counted but the content is not made smaller by it, so a time is off by up to the
// share of water lost on the way. The equation knows no time of its own, so the time is the integral of C dT over the net power.
type Open struct {
	Vessel     Vessel  // LossWK counts all surfaces, the open one too: what it loses besides vapour
	OpenAreaM2 float64 // 0 to 10
	Wet        float64 // 0 under a lid, 1 an open watery surface in still air, between for fat or a lid ajar; 0 to 1
}

// Passage is one heating up or cooling down.
type Passage struct {
	TimeS       float64
	TempC       float64 // at the end
	WaterLostKg float64 // by evaporation and boiling, without its spread: EvaporationSpread
	BoilingS    float64 // part of the time at 100 °C
	EnergyJ     float64 // what the heater used: rated power times time, to be paid for
}

// Most water that may go off, as a share of what the content would weigh if it were water.
const (
	mostEvaporated = 0.2 // on the way to a temperature: beyond that the constant heat capacity is too rough
	mostBoiledOff  = 0.5
)

// maxSteps bounds every search: 50 halvings get down to rounding.
const maxSteps = 100

// Check is nil if every value is in range.
func (o Open) Check() error {
	if err := o.Vessel.Check(); err != nil {
		return err
	}
	if err := heat.InRange("open area", "m²", o.OpenAreaM2, 0, 10); err != nil {
		return err
	}
	return heat.InRange("wet share of the open area", "", o.Wet, 0, 1)
}

// course is an open vessel with its heater and air.
type course struct {
	Open
	netW, ratedW, startC, airC float64
	kinks                      []float64
}

func (o Open) course(h Heater, startC, ambientC float64) (course, error) {
	if err := o.Check(); err != nil {
		return course{}, err
	}
	netW, err := h.NetW()
	if err != nil {
		return course{}, err
	}
	if err := heat.InRange("start temperature", "°C", startC, 0, BoilsC); err != nil {
		return course{}, err
	}
	if err := heat.InRange("ambient temperature", "°C", ambientC, coldestAirC, hottestAirC); err != nil {
		return course{}, err
	}
	return course{o, netW, h.RatedW, startC, ambientC, surfaceKinks(ambientC)}, nil
}

// surplusW is the power that warms the content at t. It never rises with t.
func (c course) surplusW(t float64) float64 {
	return c.dryW(t) - c.OpenAreaM2*c.Wet*surfaceLossWM2(t, c.airC)
}

// dryW is surplusW without evaporation.
func (c course) dryW(t float64) float64 { return c.netW - c.Vessel.LossWK*(t-c.airC) }

// timeS is how long the content takes from one temperature to the next.
func (c course) timeS(from, to float64) float64 {
	return integrate(func(t float64) float64 { return c.Vessel.HeatCapacityJK / c.surplusW(t) }, from, to, c.kinks)
}

func (c course) evaporationKgS(t float64) float64 {
	return c.OpenAreaM2 * c.Wet * surfaceLossWM2(t, c.airC) / VaporLatentJKg(t)
}

// evaporatedKg is the water lost on the way from the start to t.
func (c course) evaporatedKg(t float64) float64 {
	if c.OpenAreaM2*c.Wet == 0 {
		return 0
	}
	return integrate(func(t float64) float64 { return c.evaporationKgS(t) * c.Vessel.HeatCapacityJK / c.surplusW(t) }, c.startC, t, c.kinks)
}

// settles is where the temperature ends up, and whether it would go on from there: it does at 100 and 0 °C, where the content boils or
// freezes, not at a balance, which it never quite reaches.
func (c course) settles() (endC float64, through bool) {
	atStart := c.surplusW(c.startC)
	if atStart == 0 {
		return c.startC, false
	}
	goesOn := func(t float64) bool { return c.surplusW(t)*atStart > 0 }
	moving, still := c.startC, 0.0
	if atStart > 0 {
		still = BoilsC
	}
	if goesOn(still) {
		return still, true
	}
	for range maxSteps {
		middle := (moving + still) / 2
		if middle == moving || middle == still {
			break
		}
		if goesOn(middle) {
			moving = middle
		} else {
			still = middle
		}
	}
	return moving, false
}

// To is the way from startC to targetC (both 0 to 100 °C) in air of ambientC (-60 to 60 °C), with the heater at full power: Heater{} for a
// pot that cools. No time passes if they are the same. Errors: *heat.NeverError if the content does not pass the target, with where it ends
// up; *EvaporatedError if a fifth of the content would go off as vapour on the way; *heat.RangeError, also if it takes 1e9 s.
func (o Open) To(h Heater, startC, ambientC, targetC float64) (Passage, error) {
	c, err := o.course(h, startC, ambientC)
	if err != nil {
		return Passage{}, err
	}
	if err := heat.InRange("target temperature", "°C", targetC, 0, BoilsC); err != nil {
		return Passage{}, err
	}
	if targetC == startC {
		return Passage{TempC: startC}, nil
	}
	end, through := c.settles()
	way := (targetC - startC) / (end - startC)
	if !(way > 0 && (way < 1-heat.LeastWayLeft || through && way <= 1)) {
		return Passage{}, &heat.NeverError{StartC: startC, TargetC: targetC, LimitC: end}
	}
	timeS, err := inTime(c.timeS(startC, targetC))
	if err != nil {
		return Passage{}, err
	}
	return c.passage(targetC, timeS, 0, 0)
}

// After is what became of a content timeS (0 to 1e9 s) after it was at startC; otherwise as To. At 100 °C it boils: all power left after
// the losses of the wall makes steam, under a lid too. Errors: *heat.RangeError, also if it would freeze; *EvaporatedError if more than a fifth of the
// content evaporated, more than half boiled off.
func (o Open) After(h Heater, startC, ambientC, timeS float64) (Passage, error) {
	c, err := o.course(h, startC, ambientC)
	if err != nil {
		return Passage{}, err
	}
	if err := heat.InRange("time", "s", timeS, 0, heat.LongestTimeS); err != nil {
		return Passage{}, err
	}
	end, through := c.settles()
	if through {
		arrivesS := c.timeS(startC, end)
		if end == 0 {
			if err := heat.InRange("time before it starts to freeze", "s", timeS, 0, arrivesS); err != nil {
				return Passage{}, err
			}
		} else if timeS >= arrivesS {
			return c.passage(BoilsC, timeS, 0, timeS-arrivesS)
		}
	}
	t, spentS := c.at(timeS, end)
	return c.passage(t, timeS, timeS-spentS, 0)
}

// at is the temperature after timeS on the way to end, by halving what is left of the way, and the time it takes to get there. That is
// shorter when the content rests at its balance.
func (c course) at(timeS, end float64) (t, spentS float64) {
	before, after := c.startC, end
	for range maxSteps {
		middle := (before + after) / 2
		if middle == before || math.Abs(after-before) <= heat.LeastWayLeft*math.Abs(end-c.startC) {
			break
		}
		if next := spentS + c.timeS(before, middle); next <= timeS {
			before, spentS = middle, next
		} else {
			after = middle
		}
	}
	return before, spentS
}

// passage is the way from the start to t in timeS, the last restS of it at rest at t, or boiling for boilingS.
func (c course) passage(t, timeS, restS, boilingS float64) (Passage, error) {
	p := Passage{TimeS: timeS, TempC: t, BoilingS: boilingS, EnergyJ: c.ratedW * timeS}
	p.WaterLostKg = c.evaporatedKg(t) + c.evaporationKgS(t)*restS
	if err := c.checkLost(p.WaterLostKg, mostEvaporated); err != nil {
		return Passage{}, err
	}
	p.WaterLostKg += c.dryW(BoilsC) / BoilingLatentJKg * boilingS
	if err := c.checkLost(p.WaterLostKg, mostBoiledOff); err != nil {
		return Passage{}, err
	}
	return p, nil
}

// An EvaporatedError says that more of the content would go off as vapour than the constant heat capacity stands.
type EvaporatedError struct{ Share, Most float64 }

func (e *EvaporatedError) Error() string {
	return fmt.Sprintf("%.2g of the content would go off as vapour: want %.2g at most", e.Share, e.Most)
}

func (c course) checkLost(kg, most float64) error {
	share := kg / (c.Vessel.HeatCapacityJK / WaterHeatJKgK)
	if share <= most {
		return nil
	}
	return &EvaporatedError{share, most}
}

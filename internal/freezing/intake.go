package freezing

import (
	"math"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/unit"
)

// DailyIntakeKg is what a freezer can bring from fresh to frozen in 24 h if all of its coolingW (0 to 1e6 W: what its machine takes
// out, less what its walls and doors let in) goes into food that gives off heatJKg (1e3 to 1e6 J/kg; heat.FreezingFood.HeatJKg).
// An energy balance: an upper bound. Errors: *heat.RangeError.
func DailyIntakeKg(coolingW, heatJKg float64) (float64, error) {
	err := checkAll(
		limit{"cooling power", "W", coolingW, 0, 1e6},
		limit{"heat of freezing", "J/kg", heatJKg, 1e3, 1e6},
	)
	if err != nil {
		return 0, err
	}
	return coolingW * daySeconds / heatJKg, nil
}

const daySeconds = 24 * 3600

// Intake is how much fresh food may go into a freezer in one day.
type Intake struct{ LowKg, HighKg float64 }

// The household rule: 2 to 3 lb per cubic foot of freezer and day. Michigan State University Extension, bulletins 01600507 and
// 01600508; West Virginia University Extension, freezing guidelines.
const lowLbPerFt3, highLbPerFt3 = 2, 3

// HouseholdIntakeKg is the household rule for a freezer of volumeM3 (0.01 to 200 m³): 2 to 3 lb per cubic foot (32 to 48 g/L) in
// 24 h. The upper end is for vegetables, the lower for meat and fish. Errors: *heat.RangeError.
func HouseholdIntakeKg(volumeM3 float64) (Intake, error) {
	if err := heat.InRange("volume of the freezer", "m³", volumeM3, 0.01, 200); err != nil {
		return Intake{}, err
	}
	perLb := volumeM3 / math.Pow(unit.Foot.M(), 3) * unit.Pound.Kg() // kg a day for each lb/ft³
	return Intake{LowKg: lowLbPerFt3 * perLb, HighKg: highLbPerFt3 * perLb}, nil
}

package thermometers

import "kettlefrost/internal/record"

// Method is a way to check a thermometer, with what it must read then.
type Method struct {
	Method record.CheckMethod
	Name   string
	How    string
	TrueC  *float64 // nil: what the reference reads
	Source string
}

// dropFPerFt is how much lower water boils for each foot of altitude: about 1 °F for 500 ft (from memory, common in teaching). Against the
// standard atmosphere it is near enough up to the highest towns of the US: see the tests.
const dropFPerFt = 1.0 / 500

const metresPerFoot = 0.3048

// BoilingC is where water boils so high over the sea.
func BoilingC(altitudeM float64) float64 { return 100 - altitudeM/metresPerFoot*dropFPerFt/1.8 }

// Methods are the ways to check a thermometer in a kitchen so high over the sea.
func Methods(altitudeM float64) []Method {
	ice, boiling := 0.0, BoilingC(altitudeM)
	return []Method{
		{record.IcePoint, "Ice water", "Fill a tall glass with crushed ice, add water until it just covers the ice, stir. Hold the probe in the middle, not touching the glass, until it stands still.", &ice, "ice melts at 32 °F (0 °C)"},
		{record.BoilingPoint, "Boiling water", "Bring water to a rolling boil. Hold the probe in the middle, not touching the pot, until it stands still.", &boiling, "212 °F (100 °C) at the sea, about 1 °F less for each 500 ft (from memory)"},
		{record.AgainstReference, "Beside another thermometer", "Hold both probes side by side in stirred water or food until both stand still. The other must have been checked itself.", nil, "what the other thermometer reads"},
	}
}

package heat

// component is one of the substances a food is reckoned from.
type component int

const (
	water component = iota
	protein
	fat
	carb
	fibre
	ash
	alcohol
	componentCount // those that a Composition has
	ice            = componentCount
)

var componentNames = [...]string{water: "water", protein: "protein", fat: "fat", carb: "carbohydrate", fibre: "fibre", ash: "ash",
	alcohol: "alcohol", ice: "ice"}

func (c component) String() string { return componentNames[c] }

// The temperatures for which the polynomials were fitted.
const (
	LowestPropertyC  = -40
	HighestPropertyC = 150
)

// quadratic is a + b·t + c·t² with t in °C.
type quadratic [3]float64

func (q quadratic) at(t float64) float64 { return q[0] + t*(q[1]+t*q[2]) }

// substance holds the three properties of one component as functions of temperature.
type substance struct {
	conductivity quadratic // W/(m·K)
	density      quadratic // kg/m³
	specificHeat quadratic // kJ/(kg·K)
}

// substances are the polynomials of Choi and Okos (1986), as tabulated in ASHRAE Handbook Refrigeration, "Thermal properties of
// foods", tables 1 and 2, for -40 to 150 °C. They were read in copies of those tables. Public copies carry misprints (water
// conductivity starting 0.457, ice slope ten times too big, fat slope 1.4733e-4), so every one is tested at several temperatures.
//
// Alcohol is no part of that work: its figures are handbook values of ethanol near 20 °C (0.169 W/(m·K), 789 kg/m³,
// 2.44 kJ/(kg·K)), from memory, taken as constant.
var substances = [...]substance{
	water: {
		quadratic{0.57109, 1.7625e-3, -6.7036e-6},
		quadratic{997.18, 3.1439e-3, -3.7574e-3},
		quadratic{4.1762, -9.0864e-5, 5.4731e-6},
	},
	protein: {
		quadratic{0.17881, 1.1958e-3, -2.7178e-6},
		quadratic{1329.9, -0.51840},
		quadratic{2.0082, 1.2089e-3, -1.3129e-6},
	},
	fat: {
		quadratic{0.18071, -2.7604e-4, -1.7749e-7},
		quadratic{925.59, -0.41757},
		quadratic{1.9842, 1.4733e-3, -4.8008e-6},
	},
	carb: {
		quadratic{0.20141, 1.3874e-3, -4.3312e-6},
		quadratic{1599.1, -0.31046},
		quadratic{1.5488, 1.9625e-3, -5.9399e-6},
	},
	fibre: {
		quadratic{0.18331, 1.2497e-3, -3.1683e-6},
		quadratic{1311.5, -0.36589},
		quadratic{1.8459, 1.8306e-3, -4.6509e-6},
	},
	ash: {
		quadratic{0.32962, 1.4011e-3, -2.9069e-6},
		quadratic{2423.8, -0.28063},
		quadratic{1.0926, 1.8896e-3, -3.6817e-6},
	},
	alcohol: {
		quadratic{0.169},
		quadratic{789},
		quadratic{2.44},
	},
	ice: {
		quadratic{2.2196, -6.2489e-3, 1.0154e-4},
		quadratic{916.89, -0.13071},
		quadratic{2.0623, 6.0769e-3},
	},
}

// supercooledHeat is the specific heat of liquid water below 0 °C. Its constant is printed 4.1289 in some copies and 4.0817 in
// others; at -20 °C, where it matters most, the two differ by 1 %, on the 5 to 15 % of a food that is still liquid water there.
var supercooledHeat = quadratic{4.1289, -5.3062e-3, 9.9516e-4}

// heatKJKgK is the specific heat of c at t °C in kJ/(kg·K).
func (c component) heatKJKgK(t float64) float64 {
	if c == water && t < 0 {
		return supercooledHeat.at(t)
	}
	return substances[c].specificHeat.at(t)
}

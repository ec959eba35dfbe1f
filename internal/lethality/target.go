package lethality

import "math"

// Target is a lethality that a heating should reach: so long at a reference temperature, or as much at others.
type Target struct {
	Name  string
	RefC  float64
	NeedS float64 // at RefC
	// ZC is how many degrees make it ten times as fast, below RefC and above it.
	ZBelowC, ZAboveC float64
	Logs             float64 // that NeedS stands for: tenfold reductions
	Source           string
	Confirm          string // what of it is not read in a published text; empty when all is
}

// The targets that are used in the trade. UK Food Standards Agency, vacuum-packing training (70 °C for 2 minutes, 90 °C for 10 minutes).
var (
	// Listeria is six tenfold reductions of Listeria monocytogenes.
	Listeria = Target{Name: "Listeria monocytogenes, six tenfold", RefC: 70, NeedS: 120, ZBelowC: 7.5, ZAboveC: 7.5, Logs: 6,
		Source: "UK Food Standards Agency, 70 °C for 2 minutes", Confirm: "z of 7.5 °C is from memory: have the local authority confirm it"}
	// ColdBotulinum is six tenfold reductions of the spores of non-proteolytic Clostridium botulinum. Its z is fitted to the agency's equivalents.
	ColdBotulinum = Target{Name: "non-proteolytic Clostridium botulinum, six tenfold", RefC: 90, NeedS: 600, ZBelowC: 9, ZAboveC: 10, Logs: 6,
		Source: "UK Food Standards Agency, 90 °C for 10 minutes and its equivalents from 80 to 100 °C"}
)

// rate is how many seconds at the reference temperature a second at this one is worth.
func (t Target) rate(tempC float64) float64 {
	z := t.ZBelowC
	if tempC > t.RefC {
		z = t.ZAboveC
	}
	return math.Pow(10, (tempC-t.RefC)/z)
}

// EquivalentS is how long at another temperature is worth the target, in seconds.
func (t Target) EquivalentS(tempC float64) float64 { return t.NeedS / t.rate(tempC) }

// Accumulated is what a heating came to, in seconds at the target's reference temperature.
type Accumulated struct {
	// SafeS counts each interval at its colder end: no course between the readings that stays above it kills less. This one decides.
	SafeS float64
	// ExactS takes the temperature to run straight from reading to reading.
	ExactS float64
	// TrapezoidS is what is often printed; it overstates, and is here to compare with.
	TrapezoidS float64
	Logs       float64 // SafeS as tenfold reductions
	Reached    bool    // by SafeS
	AtS        float64 // when SafeS reached the target; meaningless unless Reached
	Assumes    []string
}

// Accumulate adds up a heating. Errors are *ReadingError.
func Accumulate(t Target, readings []Reading) (Accumulated, error) {
	if err := check(readings); err != nil {
		return Accumulated{}, err
	}
	a := Accumulated{Assumes: assumes}
	if t.Confirm != "" {
		a.Assumes = append(a.Assumes[:len(a.Assumes):len(a.Assumes)], t.Confirm)
	}
	for i := 1; i < len(readings); i++ {
		dt, from, to := readings[i].TimeS-readings[i-1].TimeS, readings[i-1].TempC, readings[i].TempC
		safe := t.rate(min(from, to))
		if !a.Reached && a.SafeS+dt*safe >= t.NeedS {
			a.Reached, a.AtS = true, readings[i-1].TimeS+(t.NeedS-a.SafeS)/safe
		}
		a.SafeS += dt * safe
		a.ExactS += dt * t.straight(from, to)
		a.TrapezoidS += dt * (t.rate(from) + t.rate(to)) / 2
	}
	a.Logs = t.Logs * a.SafeS / t.NeedS
	return a, nil
}

// straight is the mean rate while the temperature runs straight from one to another: on each side of the reference, the logarithmic mean.
func (t Target) straight(from, to float64) float64 {
	if low, high := min(from, to), max(from, to); low < t.RefC && t.RefC < high && t.ZBelowC != t.ZAboveC {
		below := (t.RefC - low) / (high - low)
		return below*t.straight(low, t.RefC) + (1-below)*t.straight(t.RefC, high)
	}
	a, b := t.rate(from), t.rate(to)
	if math.Abs(from-to) < 1e-9 {
		return a
	}
	return (b - a) / math.Log(b/a)
}

var assumes = []string{
	"the readings are of the coldest point of the largest piece or the middle of the pot",
	"the thermometer was checked, and its error is taken off the readings",
	"the food is moist throughout: dry surfaces are not covered by it",
}

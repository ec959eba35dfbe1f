package tastetrial

import (
	"fmt"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"
)

// Aim is what a trial is to find out: a difference of Matters or more, with a chance of Power, and no difference where there is none with
// a chance of Level.
type Aim struct {
	Matters float64
	Power   float64 // above 0.5 and below 1, such as 0.8
	Level   float64 // above 0.5 and below 1, such as 0.95
}

func (a Aim) check() error {
	switch {
	case !(a.Matters > 0) || !finite(a.Matters):
		return &InputError{"the smallest difference that matters", fmt.Sprintf("is %g", a.Matters), "give one above 0"}
	case !(a.Power > 0.5 && a.Power < 1):
		return &InputError{"the power", fmt.Sprintf("is %g", a.Power), "take one between 0.5 and 1, such as 0.8"}
	}
	return checkLevel(a.Level)
}

// mostNeeded is where a search for a size ends.
const mostNeeded = 10_000

// PowerPaired is the chance that the paired t test of so many pairs, two-sided, finds a mean difference of matters where differences
// scatter normally by sd: the noncentral t distribution. It is exact under that assumption.
func PowerPaired(pairs int, matters, sd, level float64) float64 {
	if pairs < 2 || !(sd > 0) {
		return 0
	}
	critical := student(pairs - 1).Quantile((1 + level) / 2)
	d := distuv.NoncentralT{Nu: float64(pairs - 1), Mu: matters / sd * math.Sqrt(float64(pairs))}
	return min(1, max(0, 1-d.CDF(critical)+d.CDF(-critical)))
}

// PairsNeeded are the fewest pairs for which PowerPaired reaches the aim. Errors are *InputError.
func PairsNeeded(a Aim, sd float64) (int, error) {
	if err := a.check(); err != nil {
		return 0, err
	}
	if !(sd > 0) || !finite(sd) {
		return 0, &InputError{"the standard deviation of differences", fmt.Sprintf("is %g", sd), "give one above 0, from a trial or a guess"}
	}
	if PowerPaired(mostNeeded, a.Matters, sd, a.Level) < a.Power {
		return 0, tooMany("pairs")
	}
	low, high := 1, mostNeeded // power rises with pairs: high has it, low has not
	for low+1 < high {
		if middle := (low + high) / 2; PowerPaired(middle, a.Matters, sd, a.Level) >= a.Power {
			high = middle
		} else {
			low = middle
		}
	}
	return high, nil
}

func tooMany(what string) error {
	return &InputError{"the aim", fmt.Sprintf("takes more than %d %s", mostNeeded, what), "take a larger difference, or less power"}
}

// PowerTriangle is the chance that a triangle test shows a difference where a share of tasters tell the two apart. It is exact if tasters
// answer once each, and alone.
func PowerTriangle(tasters int, share, level float64) float64 {
	right := guessing + (1-guessing)*share
	return atLeast(tasters, leastRight(tasters, 1-level), right)
}

// TriangleNeeded are the fewest tasters for whom PowerTriangle reaches the aim; Matters is a share below 1. One taster more can have less
// power, for the count of right answers goes in steps. Errors are *InputError.
func TriangleNeeded(a Aim) (int, error) {
	if err := a.check(); err != nil {
		return 0, err
	}
	if a.Matters >= 1 {
		return 0, &InputError{"the share that matters", fmt.Sprintf("is %g", a.Matters), "give one below 1"}
	}
	for n := 2; n <= mostNeeded; n++ {
		if PowerTriangle(n, a.Matters, a.Level) >= a.Power {
			return n, nil
		}
	}
	return 0, tooMany("tasters")
}

// Simulated is a power from draws, with its standard error.
type Simulated struct {
	Pairs        int
	Power, Error float64
	Draws        int
	Seed         uint64
}

// SimulateSignedRank is how often the signed-rank test of so many pairs finds a shift of matters, two-sided: differences are drawn normal
// with sd and rounded to the step of the scale (0: not rounded). Above manyRanks differences their p is by the normal distribution, which is then
// off by far less than the draws are. Errors are *InputError.
func SimulateSignedRank(pairs int, matters, sd, step, level float64, draws int, seed uint64) (Simulated, error) {
	if err := (Aim{matters, 0.8, level}).check(); err != nil {
		return Simulated{}, err
	}
	switch {
	case pairs < 1 || pairs > mostPairs:
		return Simulated{}, &InputError{"the pairs", fmt.Sprintf("are %d", pairs), fmt.Sprintf("give 1 to %d", mostPairs)}
	case !(sd > 0) || !finite(sd) || !(step >= 0) || !finite(step):
		return Simulated{}, &InputError{"the scatter", fmt.Sprintf("is %g by steps of %g", sd, step), "give a standard deviation above 0, and steps of 0 or more"}
	case draws < 1 || draws > 100_000:
		return Simulated{}, &InputError{"the draws", fmt.Sprintf("are %d", draws), "take 1 to 100000, such as 2000"}
	}
	source := rand.New(rand.NewPCG(seed, uint64(pairs)))
	d, found := make([]float64, pairs), 0
	for range draws {
		for i := range d {
			d[i] = matters + sd*source.NormFloat64()
			if step > 0 {
				d[i] = math.Round(d[i]/step) * step
			}
		}
		ranks, _, plus, minus := signedRanks(d)
		p := 0.0
		if len(ranks) > manyRanks {
			p = nearlyTwoSided(ranks, plus, minus)
		} else {
			p = twoSided(ranks, plus, minus)
		}
		if p <= 1-level {
			found++
		}
	}
	p := float64(found) / float64(draws)
	return Simulated{pairs, p, math.Sqrt(p * (1 - p) / float64(draws)), draws, seed}, nil
}

// manyRanks is from where on a simulation does not go through all signs.
const manyRanks = 25

// nearlyTwoSided is twoSided by the normal distribution, with a correction for steps: the sum of ranks has the mean of half of them all, and a
// quarter of their squares as its variance, ties or none.
func nearlyTwoSided(ranks []int, plus, minus int) float64 {
	squares := 0
	for _, r := range ranks {
		squares += r * r
	}
	z := (math.Abs(float64(plus-minus)) - 1) / math.Sqrt(float64(squares)) // ranks are doubled: a step is 2, half of it 1
	return math.Erfc(z / math.Sqrt2)
}

package tastetrial

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Triangle is a test of whether tasters find the odd one of three. Who tells the two variants apart is right; of those who do not, a third.
type Triangle struct {
	Tasters, Right int
	Least          int     // so many right are the fewest that show a difference at the level
	P              float64 // one-sided: so many right or more by guessing
	// Apart is the share of tasters who tell the two apart, (3 right/tasters - 1)/2 and never below 0, with its interval from Clopper and
	// Pearson's for the share right.
	Apart    float64
	Interval Interval
	Verdict  Verdict // MattersMore, TooSmall, Some or CannotTell
}

const guessing = 1.0 / 3

// TriangleTest judges a triangle test; matters is the share of tasters who would have to tell the two apart for it to matter. Errors are
// *InputError.
func TriangleTest(tasters, right int, matters, level float64) (Triangle, error) {
	switch {
	case tasters < 1 || tasters > 10_000:
		return Triangle{}, &InputError{"the tasters", fmt.Sprintf("are %d", tasters), "give 1 to 10000"}
	case right < 0 || right > tasters:
		return Triangle{}, &InputError{"the right answers", fmt.Sprintf("are %d of %d", right, tasters), "count them again"}
	case !(matters > 0 && matters < 1):
		return Triangle{}, &InputError{"the share that matters", fmt.Sprintf("is %g", matters), "take one between 0 and 1, such as 0.3"}
	}
	if err := checkLevel(level); err != nil {
		return Triangle{}, err
	}
	t := Triangle{Tasters: tasters, Right: right, Least: leastRight(tasters, 1-level), P: atLeast(tasters, right, guessing)}
	low, high := 0.0, 1.0
	n, x := float64(tasters), float64(right)
	if right > 0 {
		low = distuv.Beta{Alpha: x, Beta: n - x + 1}.Quantile((1 - level) / 2)
	}
	if right < tasters {
		high = distuv.Beta{Alpha: x + 1, Beta: n - x}.Quantile((1 + level) / 2)
	}
	t.Apart = apart(x / n)
	t.Interval = Interval{apart(low), apart(high), level}
	t.Verdict = Judge(t.Interval, matters, level)
	return t, nil
}

// apart is the share who tell apart where a share is right.
func apart(right float64) float64 { return max(0, (right-guessing)/(1-guessing)) }

// leastRight is the smallest number of right answers that guessing reaches with a chance of at most alpha; one more than tasters if none.
func leastRight(tasters int, alpha float64) int {
	least, chance := tasters+1, 0.0
	for x := tasters; x >= 0; x-- {
		if chance += binomial(tasters, x, guessing); chance > alpha {
			break
		}
		least = x
	}
	return least
}

// binomial is the chance of x out of n.
func binomial(n, x int, p float64) float64 {
	all, _ := math.Lgamma(float64(n + 1))
	some, _ := math.Lgamma(float64(x + 1))
	rest, _ := math.Lgamma(float64(n - x + 1))
	return math.Exp(all - some - rest + float64(x)*math.Log(p) + float64(n-x)*math.Log1p(-p))
}

// atLeast is the chance of x or more out of n.
func atLeast(n, x int, p float64) float64 {
	sum := 0.0
	for i := n; i >= x; i-- {
		sum += binomial(n, i, p)
	}
	return min(1, sum)
}

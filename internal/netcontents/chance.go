package netcontents

import "math"

// Chance is how likely a lot passes whose filling has a certain mean and spread. Each part is by itself; they hang together, and how much is
// not worked out: the lot passes all with a chance between AtLeast (1 less all chances of failing, Bonferroni) and AtMost (the smallest).
type Chance struct {
	Average float64 // the average is not short; 1 where it is not judged
	Packs   float64 // not too many packs are short by more than the shortfall
	Twice   float64 // no pack of the whole lot is short twice over; 1 where the plan does not ask
	AtLeast float64
	AtMost  float64
}

// odds reckons chances for one plan.
type odds struct {
	plan Plan
	chi  chi // empty unless the average is judged with a factor
}

func oddsOf(p Plan) odds {
	o := odds{plan: p}
	if p.Average > 1 && p.Factor > 0 {
		o.chi = chiOf(p.Average)
	}
	return o
}

// Chance is how likely a lot passes the plan when the filling's mean is overG above the label (below 0: under it) and packs scatter by
// spreadG, 0 or more.
func (p Plan) Chance(overG, spreadG float64) Chance { return oddsOf(p).chance(overG, spreadG) }

func (o odds) chance(overG, spreadG float64) Chance {
	average, packs, twice := o.average(overG, spreadG), o.packs(overG, spreadG), o.twice(overG, spreadG)
	return Chance{
		Average: 1 - average, Packs: 1 - packs, Twice: 1 - twice,
		AtLeast: max(0, 1-(average+packs+twice)), AtMost: 1 - max(average, packs, twice),
	}
}

// fails is the most that the chance of failing can be.
func (o odds) fails(overG, spreadG float64) float64 {
	return o.average(overG, spreadG) + o.packs(overG, spreadG) + o.twice(overG, spreadG)
}

// average is the chance of failing by the average. Mean and standard deviation of a normal sample are independent, so it is the mean over
// the standard deviation s of the chance that the sample's mean lies under -Factor s: the distribution function of a noncentral t.
func (o odds) average(overG, spreadG float64) float64 {
	n, k := float64(o.plan.Average), o.plan.Factor
	switch {
	case n == 0:
		return 0
	case spreadG == 0:
		return certainly(overG < 0)
	}
	u := overG / spreadG
	if len(o.chi.at) == 0 {
		return below(-math.Sqrt(n) * u)
	}
	return min(1, o.chi.mean(func(s float64) float64 { return below(-math.Sqrt(n) * (u + k*s)) }))
}

// packs is the chance of failing by the count of short packs: binomial, through the stages.
func (o odds) packs(overG, spreadG float64) float64 {
	p := o.shortBy(1, overG, spreadG)
	first := o.plan.Stages[0]
	fail := atLeast(first.Packs, first.Reject, p)
	if len(o.plan.Stages) > 1 {
		second := o.plan.Stages[1]
		for x := first.Accept + 1; x < first.Reject; x++ {
			fail += exactly(first.Packs, x, p) * atLeast(second.Packs, second.Reject-x, p)
		}
	}
	return min(1, fail)
}

// twice is the chance that one pack of the lot or more is short twice over.
func (o odds) twice(overG, spreadG float64) float64 {
	if !o.plan.Twice {
		return 0
	}
	return -math.Expm1(float64(o.plan.Terms.Lot) * math.Log1p(-o.shortBy(2, overG, spreadG)))
}

// shortBy is the chance that one pack is short by more than so many times the shortfall.
func (o odds) shortBy(times, overG, spreadG float64) float64 {
	room := overG + times*grams(o.plan.Shortfall)
	if spreadG == 0 {
		return certainly(room < 0)
	}
	return below(-room / spreadG)
}

func certainly(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// exactly is the binomial chance of x out of n.
func exactly(n, x int, p float64) float64 {
	switch p {
	case 0:
		return certainly(x == 0)
	case 1:
		return certainly(x == n)
	}
	all, _ := math.Lgamma(float64(n + 1))
	some, _ := math.Lgamma(float64(x + 1))
	rest, _ := math.Lgamma(float64(n - x + 1))
	return math.Exp(all - some - rest + float64(x)*math.Log(p) + float64(n-x)*math.Log1p(-p))
}

// atLeast is the binomial chance of x or more out of n.
func atLeast(n, x int, p float64) float64 {
	sum := 0.0
	for i := max(0, x); i <= n; i++ {
		sum += exactly(n, i, p)
	}
	return min(1, sum)
}

package cooling

import (
	"math"

	"kettlefrost/internal/coolrule"
)

// Fit is what would bring a plan within the limits with the low coefficients, one change at a time. 0 is that there is no such change,
// or that it was not asked: LoadKg and IceKg are for plans that are not within the limits with a margin.
type Fit struct {
	LateS    float64 // by how much the worst stage of the rule is over its limit with the low coefficients; 0 also if it is never met
	DeepestM float64 // filling of the pans, of a plan with one stage of pans
	Pans     int     // that the load needs then
	LoadKg   float64 // largest load, in as many pots as this one needs, or as there are
	IceKg    float64 // put into a bath that is not topped up
}

// inTime says how much of its limit the worst stage of the rule takes with the low coefficients, infinite if never met, and whether
// ice and paddles last.
func (t task) inTime(p Plan, used []int) (share float64, enough bool) {
	c, err := t.follow(p, used, low)
	if err != nil {
		return math.Inf(1), false
	}
	v, err := coolrule.Judge(t.rule, c.crossing)
	if err != nil {
		return math.Inf(1), false
	}
	for _, s := range v.Stages {
		switch {
		case s.Stage.Advisory:
		case s.Never || !s.Reached:
			return math.Inf(1), false
		default:
			share = max(share, s.TookS/s.Stage.WithinS)
		}
	}
	return share, c.shortOf == NothingShort
}

func (t task) fits(p Plan, used []int) bool {
	share, enough := t.inTime(p, used)
	return share <= 1 && enough
}

// fit is for a plan without a margin.
func (t task) fit(p Plan, used []int) Fit {
	f := Fit{LoadKg: t.largestLoad(p), IceKg: t.ice(p, used)}
	if c, err := t.follow(p, used, low); err == nil {
		if v, err := coolrule.Judge(t.rule, c.crossing); err == nil {
			if spare, ok := SpareS(v); ok {
				f.LateS = max(0, -spare)
			}
		}
	}
	return f
}

// Searches.
const (
	halvings       = 10
	smallestPart   = 0.02 // of the load
	depthTries     = 8
	nearLimit      = 0.97 // share of a limit that is near enough to it
	depthExponent  = 1.3  // time goes with the depth to the power of 1 (film decides) to 2 (conduction)
	mostIceToFood  = 3.0  // kg/kg
	steepestChange = 4.0  // of depth in one try
)

// largest is the largest part of full, down to smallestPart, that fits, by halving; 0 if none does.
func largest(full float64, fits func(float64) bool) float64 {
	if fits(full) {
		return full
	}
	good, bad := smallestPart*full, full
	if !fits(good) {
		return 0
	}
	for range halvings {
		if middle := (good + bad) / 2; fits(middle) {
			good = middle
		} else {
			bad = middle
		}
	}
	return good
}

// largestLoad is the largest load, up to this one, that the plan has in time with the vessels there are.
func (t task) largestLoad(p Plan) float64 {
	return largest(t.food.MassKg, func(kg float64) bool {
		smaller := t
		smaller.food.AddedWaterKg *= kg / t.food.MassKg
		smaller.food.MassKg = kg
		if kg < smallestLoadKg {
			return false
		}
		used := make([]int, len(p.Stages))
		for i, s := range p.Stages {
			v := s.Way.vessels(smaller.food)
			if v.Need > v.Have {
				return false
			}
			used[i] = v.Need
			if _, pans := s.Way.(Pans); !pans { // as many pots as for the whole load, so that less in them is never slower
				used[i] = min(v.Have, s.Way.vessels(t.food).Need)
			}
		}
		return smaller.fits(p, used)
	})
}

// ice is how much would do in the bath of a plan that is not topped up.
func (t task) ice(p Plan, used []int) float64 {
	for i, s := range p.Stages {
		pot, ok := s.Way.(Pot)
		if !ok || pot.Bath.Ice != OnceOnly {
			continue
		}
		stages := append([]Stage(nil), p.Stages...)
		with := func(kg float64) Plan {
			pot.Bath.IceKg = kg
			stages[i].Way = pot
			return Plan{stages}
		}
		good, bad := max(pot.Bath.IceKg, mostIceToFood*t.food.MassKg), pot.Bath.IceKg
		if !t.fits(with(good), used) {
			return 0
		}
		for range halvings {
			if middle := (good + bad) / 2; t.fits(with(middle), used) {
				good = middle
			} else {
				bad = middle
			}
		}
		return good
	}
	return 0
}

// deepest is the deepest filling of the only stage of pans that is in time, and how many pans it needs. Secant steps in the logarithms
// of depth and time, kept between the deepest that fits and the shallowest that does not; what is returned was followed.
func (t task) deepest(p Plan) (depthM float64, pans int) {
	at := -1
	for i, s := range p.Stages {
		if _, ok := s.Way.(Pans); ok {
			if at >= 0 {
				return 0, 0
			}
			at = i
		}
	}
	if at < 0 {
		return 0, 0
	}
	stages := append([]Stage(nil), p.Stages...)
	pan := stages[at].Way.(Pans)
	try := func(depthM float64) float64 {
		pan.DepthM = depthM
		stages[at].Way = pan
		deeper := Plan{stages}
		_, used := deeper.vessels(t.food)
		share, enough := t.inTime(deeper, used)
		if !enough {
			return math.Inf(1)
		}
		return share
	}
	good, bad := 0.0, math.Inf(1)
	d, exponent, lastD, lastShare := pan.DepthM, depthExponent, 0.0, 0.0
	for range depthTries {
		share := try(d)
		if share <= 1 {
			good = d
			if share >= nearLimit || d >= deepestPanM {
				break
			}
		} else {
			bad = d
		}
		change := 1 / steepestChange
		if !math.IsInf(share, 0) && share > 0 {
			if lastD > 0 && lastShare > 0 && lastD != d && share != lastShare {
				exponent = min(3, max(0.5, math.Log(share/lastShare)/math.Log(d/lastD)))
			}
			change = math.Pow((1+nearLimit)/2/share, 1/exponent)
			lastD, lastShare = d, share
		} else if good > 0 {
			change = math.Sqrt(good / d)
		}
		next := d * min(steepestChange, max(1/steepestChange, change))
		if next <= good || next >= bad {
			next = math.Sqrt(good * bad)
			if good == 0 {
				next = bad / 2
			}
		}
		d = min(deepestPanM, max(shallowestM, next))
		if d == lastD {
			break
		}
	}
	if good == 0 {
		return 0, 0
	}
	pan.DepthM = good
	return good, pan.vessels(t.food).Need
}

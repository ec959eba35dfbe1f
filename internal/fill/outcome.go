package fill

import (
	"math"
	"math/bits"
	"slices"

	"kettlefrost/internal/unit"
)

// shortages are the outputs and supplies of which there is not enough for the minima.
func (t *table) shortages(p Problem) []Shortage {
	var short []Shortage
	for j := range t.usable {
		var need uint64
		for g := range t.groups {
			over, low := bits.Mul64(uint64(t.lo[g]), uint64(t.take[g][j]))
			over2, ng := bits.Mul64(low, uint64(t.grain[j]))
			if over != 0 || over2 != 0 || ng > math.MaxInt64-need {
				need = math.MaxInt64 // held at the end of the range
				break
			}
			need += ng
		}
		by := int64(need) - t.usable[j]
		switch {
		case by <= 0:
		case j >= t.outputs:
			short = append(short, Shortage{Output: -1, Supply: j - t.outputs, ByPieces: int(by)})
		default:
			s := Shortage{Output: j, Supply: -1, Need: unit.Mass(need), Have: unit.Mass(t.usable[j]), By: unit.Mass(by)}
			if len(p.PieceMass) > 0 {
				s.ByPieces = Pieces(s.By, p.PieceMass[j])
			}
			short = append(short, s)
		}
	}
	return short
}

// plan turns what the search found into the plan for the caller.
func (t *table) plan(p Problem, s *search) Plan {
	count := s.rank.counts(s.best)
	left := slices.Clone(t.usable)
	for g := range t.groups {
		for j, a := range t.take[g] {
			left[j] -= a * t.grain[j] * s.best[g]
		}
	}
	plan := Plan{Count: asInts(count), Left: make([]unit.Mass, t.outputs), Spare: asInts(left[t.outputs:])}
	for i, c := range count {
		plan.Value += c * p.Packs[i].Value
	}
	plan.Proof = Proof{Optimal: s.proven == len(s.goals), Even: s.even, Bound: plan.Value, Steps: s.steps}
	plan.Why = Why{Decided: s.decided, Rejected: t.alternative(s), Stops: t.stops(count, left)}
	for j := range plan.Left {
		plan.Left[j] = unit.Mass(left[j]) + p.Stock[j] - unit.Mass(t.usable[j])
	}
	for k := range s.goals {
		r := t.reachedOf(p, s, k)
		if r.Rule == ByValue {
			plan.Proof.Bound = r.Best
		}
		plan.Goals = append(plan.Goals, r)
	}
	return plan
}

func asInts(v []int64) []int {
	out := make([]int, len(v))
	for i, x := range v {
		out[i] = int(x)
	}
	return out
}

// reachedOf says what goal k came to in the caller's terms: what is short or left over counts down from all of it.
func (t *table) reachedOf(p Problem, s *search, k int) Reached {
	o := &s.goals[k]
	bound := s.bounds[k]
	if k > s.proven {
		bound = t.beyond(o) // no pass was run for it
	}
	r := Reached{Rule: o.rule, Proven: k < s.proven}
	var all int64
	switch o.rule {
	case ByValue:
		r.Amount, r.Best = s.reached[k]*o.unit, bound*o.unit
		return r
	case ByLeft:
		for _, m := range p.Stock {
			all += int64(m)
		}
	default:
		all = o.whole * o.unit
	}
	r.Amount, r.Best = all-s.reached[k]*o.unit, max(0, all-bound*o.unit)
	return r
}

// beyond is what no plan can exceed in a goal, at a glance: all that can be used, or the most of everything that adds to it.
func (t *table) beyond(o *goal) int64 {
	var sum int64
	if o.rule == ByLeft {
		for _, m := range t.usable[:t.outputs] {
			sum += m
		}
		return sum / o.unit
	}
	for g, w := range o.w {
		sum += max(0, w) * min(t.hi[g], o.cap[g])
	}
	return sum
}

// alternative is the plan that the last rule turned down.
func (t *table) alternative(s *search) *Alternative {
	if s.rejected == nil {
		return nil
	}
	a := &Alternative{Count: asInts(s.rank.counts(s.rejected))}
	for k := range s.goals {
		if o := &s.goals[k]; o.rule == s.decided {
			a.Worse = (s.reached[k] - o.of(s.rejected)) * o.unit
		}
	}
	return a
}

func (t *table) stops(count, left []int64) []Stop {
	stops := make([]Stop, len(count))
	for g, packs := range t.groups {
		s := Stop{Output: -1, Supply: -1}
		for j, a := range t.take[g] {
			short := a*t.grain[j] - left[j]
			switch {
			case j < t.outputs && short > int64(s.Short):
				s.Output, s.Short = j, unit.Mass(short)
			case j >= t.outputs && short > int64(s.ShortPieces):
				s.Supply, s.ShortPieces = j-t.outputs, int(short)
			}
		}
		for _, i := range packs {
			stops[i] = s
			stops[i].AtMax = count[i] >= t.most(i)
		}
	}
	return stops
}

package fill

import (
	"math"
	"math/bits"
	"slices"

	"kettlefrost/internal/unit"
)

// shortages are the outputs of which there is not enough for the minima.
func (t *table) shortages(p Problem) []Shortage {
	var short []Shortage
	for j := range t.usable {
		var need uint64
		for g := range t.groups {
			over, low := bits.Mul64(uint64(t.lo[g]), uint64(t.take[g][j]))
			if over != 0 || low > math.MaxInt64-need {
				need = math.MaxInt64 // held at the end of the range
				break
			}
			need += low
		}
		by := int64(need) - t.usable[j]
		if by <= 0 {
			continue
		}
		s := Shortage{Output: j, Need: unit.Mass(need), Have: unit.Mass(t.usable[j]), By: unit.Mass(by)}
		if len(p.PieceMass) > 0 {
			s.ByPieces = Pieces(s.By, p.PieceMass[j])
		}
		short = append(short, s)
	}
	return short
}

// plan turns group totals into the plan for the caller.
func (t *table) plan(p Problem, total []int64, proof Proof, decided Rule) Plan {
	count := make([]int64, len(p.Packs))
	left := slices.Clone(t.usable)
	for g := range t.groups {
		t.share(g, total[g], count)
		for j, a := range t.take[g] {
			left[j] -= a * total[g]
		}
	}
	plan := Plan{Count: make([]int, len(p.Packs)), Left: make([]unit.Mass, len(left)), Proof: proof}
	plan.Why.Decided = decided
	for i, c := range count {
		plan.Count[i] = int(c)
		plan.Value += c * p.Packs[i].Value
	}
	plan.Why.Stops = t.stops(count, left)
	for j := range left {
		plan.Left[j] = unit.Mass(left[j]) + p.Stock[j] - unit.Mass(t.usable[j])
	}
	return plan
}

func (t *table) stops(count, left []int64) []Stop {
	stops := make([]Stop, len(count))
	for g, packs := range t.groups {
		output, short := -1, int64(0)
		for j, a := range t.take[g] {
			if a-left[j] > short {
				output, short = j, a-left[j]
			}
		}
		for _, i := range packs {
			stops[i] = Stop{AtMax: count[i] >= t.most(i), Output: output, Short: unit.Mass(short)}
		}
	}
	return stops
}

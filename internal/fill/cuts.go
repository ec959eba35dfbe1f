package fill

import (
	"math"
	"slices"
)

// cut is a limit that all whole plans keep to and that fractions of packs may not. From sum a c <= stock and any d > 0 follows
// sum floor(a/d) c <= floor(stock/d), since the left side is whole (Chvátal and Gomory). Packs of 250 to 252 g show what it is good for: of
// 20.195 kg no 81 can be made, and only the cut by 250 g says so; without it, all 80 of every kind would have to be tried.
type cut struct {
	take  []int64 // of each group
	stock int64
}

// How many cuts are added at most, and by how much of a pack the corner must break one for it to be worth its row.
const (
	mostCuts = 6
	cutDepth = 0.01
)

// addCuts adds to the table of this search the cuts that the relaxed corner of the whole problem breaks. Only the search sees them.
func (s *search) addCuts() {
	for range mostCuts {
		copy(s.left, s.t.stock)
		for g, take := range s.t.take {
			for j, a := range take {
				s.left[j] -= a * s.t.lo[g]
			}
		}
		n := node{s.copyOf(s.t.lo), s.copyOf(s.t.hi), math.MaxInt64}
		s.corners = s.corners[:0]
		s.probe(&n, s.goalSteps())
		c, found := s.deepest(s.corners[len(s.corners)-1])
		if !found {
			return
		}
		t := *s.t
		t.take = nil
		for g, take := range s.t.take {
			t.take = append(t.take, append(slices.Clone(take), c.take[g]))
		}
		t.stock = append(slices.Clone(s.t.stock), c.stock)
		s.t, s.r, s.left = &t, newRelaxation(&t), make([]int64, len(t.stock))
	}
}

// deepest is the cut that a corner breaks by the most packs.
func (s *search) deepest(corner []float64) (best cut, found bool) {
	deepest := cutDepth
	for _, row := range s.rows() {
		for _, d := range row.take {
			if d <= 1 {
				continue
			}
			c := cut{stock: row.stock / d}
			over := -float64(c.stock)
			for g, a := range row.take {
				c.take = append(c.take, a/d)
				over += float64(a/d) * corner[g]
			}
			if over > deepest {
				best, found, deepest = c, true, over
			}
		}
	}
	return best, found
}

// rows are the limits as they are, and all outputs together.
func (s *search) rows() []cut {
	var rows []cut
	all := cut{take: slices.Clone(s.t.mass)}
	for j, stock := range s.t.stock {
		row := cut{stock: stock}
		for _, take := range s.t.take {
			row.take = append(row.take, take[j])
		}
		rows = append(rows, row)
		if j < s.t.outputs {
			all.stock += stock * s.t.grain[j]
		}
	}
	return append(rows, all)
}

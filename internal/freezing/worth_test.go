package freezing

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// smallPlanner is a planner of made-up shares; nothing is simulated.
func smallPlanner(counts []int, cabinets []int, shares [][]float64, days int) *planner {
	w := Want{Days: days, WaitS: longestLoad}
	for _, n := range counts {
		w.Kinds = append(w.Kinds, Kind{Count: n, Pack: Pack{MassKg: 1}})
	}
	for _, n := range cabinets {
		w.Freezers = append(w.Freezers, Freezer{Count: n, RoomKg: 1e4})
	}
	p := &planner{want: w, places: w.places(), shares: shares}
	p.suits, p.least = p.suit(), p.leastDays()
	return p
}

// byShares is the better draft.
func (p *planner) byShares() *course {
	a, b := p.draft(way{light, false, 1}), p.draft(way{scarce, false, 1})
	if b.compare(a) < 0 {
		return b
	}
	return a
}

// fewest tries every way of putting one pack after another into cabinets and days and is the fewest days that place all, if no cabinet's day
// is given more than most of it, nor more than mostOfOne to one kind.
func fewest(p *planner, most float64) int {
	for days := 1; ; days++ {
		used := make([]float64, days*len(p.places))
		ofKind := make([]float64, len(used)*len(p.want.Kinds))
		var put func(k, n, from int) bool
		put = func(k, n, from int) bool {
			for k < len(p.want.Kinds) && n == p.want.Kinds[k].Count {
				k, n, from = k+1, 0, 0
			}
			if k == len(p.want.Kinds) {
				return true
			}
			for i := from; i < len(used); i++ { // equal packs in order of their places
				share := p.shares[p.places[i%len(p.places)].Freezer][k]
				one := &ofKind[i*len(p.want.Kinds)+k]
				if used[i]+share <= most+1e-9 && *one+share <= mostOfOne+1e-9 {
					used[i] += share
					*one += share
					if put(k, n+1, i) {
						return true
					}
					used[i] -= share
					*one -= share
				}
			}
			return false
		}
		if put(0, 0, 0) {
			return days
		}
	}
}

// The bound never exceeds what trying everything finds, and the schedule is at most a day longer on these small cases; where freezers
// are equal for all kinds but for a factor, the bound is what cut packs need.
func TestBoundAndGreedyAgainstTryingEverything(t *testing.T) {
	gaps := 0
	rapid.Check(t, func(t *rapid.T) {
		counts := []int{rapid.IntRange(0, 5).Draw(t, "a"), rapid.IntRange(0, 5).Draw(t, "b")}
		var shares [][]float64
		for range 2 {
			shares = append(shares, []float64{rapid.Float64Range(0.2, 1).Draw(t, "share"), rapid.Float64Range(0.2, 1).Draw(t, "share")})
		}
		p := smallPlanner(counts, []int{1, 1}, shares, 12)
		best, bound, got := 0, p.leastDays(), p.byShares()
		if counts[0]+counts[1] > 0 {
			best = fewest(p, 1)
			if allowed := fewest(p, mostShare); bound > allowed {
				t.Fatalf("bound %d, but %d days do at %g a day", bound, allowed, mostShare)
			}
		}
		if bound > best {
			t.Fatalf("bound %d, but %d days do", bound, best)
		}
		if got.leftOver() > 0 || got.days() < best || got.days() > best+1 {
			t.Fatalf("%d days with %d left over, %d days do", got.days(), got.leftOver(), best)
		}
		if got.days() > best {
			gaps++
		}
	})
	t.Logf("a day longer than the best in %d cases", gaps)
}

// Each kind goes where it is at an advantage: bag A takes 10 a day here and 2 there, bag B the other way round. 20 of each need two days so,
// and would need more the other way (by hand).
func TestEachWhereItSuits(t *testing.T) {
	p := smallPlanner([]int{20, 20}, []int{1, 1}, [][]float64{{0.1, 0.5}, {0.5, 0.1}}, 9)
	d := p.byShares()
	if d.days() != 2 || d.leftOver() != 0 || p.leastDays() != 2 {
		t.Errorf("%d days, at least %d", d.days(), p.leastDays())
	}
}

// Freezers that differ by a factor: all worth in days is total share over total intake (by hand: 30 packs at 10 and 5 a day, 12 at 4 and 2).
func TestBoundOfProportionalFreezers(t *testing.T) {
	p := smallPlanner([]int{30, 12}, []int{1, 1}, [][]float64{{1. / 10, 1. / 4}, {1. / 5, 1. / 2}}, 9)
	_, days := p.worth([]int{30, 12})
	near(t, "days", days, (30./10+12./4)/1.5, 1e-9)
	_, days = p.worth([]int{0, 0})
	if days != 0 {
		t.Errorf("nothing takes %g days", days)
	}
	p.shares[0][1], p.shares[1][1] = math.Inf(1), math.Inf(1)
	if _, days = p.worth([]int{30, 12}); !math.IsInf(days, 1) || p.leastDays() != 0 {
		t.Errorf("what no freezer takes: %g days", days)
	}
}

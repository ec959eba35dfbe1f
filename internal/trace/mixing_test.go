package trace_test

import (
	"fmt"
	"math/big"
	"slices"
	"testing"

	"kettlefrost/internal/trace"
	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// Nothing is lost to rounding: what stayed, what was lost in making and what went from one into another is all there was.
func TestWhatIsFoundAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lots, flows := drawn(t, rapid.SampledFrom([]int64{3, 50, int64(300 * kg)}).Draw(t, "mass"))
		g := grow(t, lots, flows)
		asked := rapid.SliceOfN(rapid.IntRange(0, len(lots)-1), 1, 3).Draw(t, "asked")
		for _, r := range []trace.Reach{must(g.Forward(asked...)), must(g.Backward(asked...))} {
			sum := r.Absorbed
			for _, l := range r.Lots {
				sum += l.Rest + l.Lost
				if l.Rest < 0 || l.Lost < 0 || l.Lost > 0 && !r.Forward {
					t.Fatalf("rest or loss of %+v", l)
				}
				bounded(t, l.Content)
			}
			for _, c := range r.Flows {
				bounded(t, c.Content)
				if c.Most > g.Flow(c.Flow).Mass {
					t.Fatalf("%+v in %+v", c, g.Flow(c.Flow))
				}
			}
			if sum != r.Whole {
				t.Fatalf("adds up to %d of %d", sum, r.Whole)
			}
		}
	})
}

func bounded(t *rapid.T, c trace.Content) {
	if c.Least < 0 || c.Least > c.Expected || c.Expected > c.Most {
		t.Fatalf("out of order: %+v", c)
	}
}

// Expected is perfect mixing in exact fractions, but for a nanogram wherever something was cut: shares of what a lot held, and of what
// went into it when less came. What of one lot is in another is the same asked from either end.
func TestExpectedIsPerfectMixing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lots, flows := drawn(t, int64(300*kg))
		g := grow(t, lots, flows)
		from := rapid.IntRange(0, len(lots)-1).Draw(t, "from")
		room := big.NewRat(int64(len(lots)+len(flows)), 1)
		for _, l := range must(g.Forward(from)).Lots {
			want := mixed(g, lots, flows, from, l.Lot, map[int]*big.Rat{})
			within(t, fmt.Sprintf("%d in %d, forward", from, l.Lot), l.Expected, want, room)
			back := must(g.Backward(l.Lot)).Lots
			i := slices.IndexFunc(back, func(b trace.Reached) bool { return b.Lot == from })
			within(t, fmt.Sprintf("%d in %d, backward", from, l.Lot), back[i].Expected, want, room)
		}
	})
}

// mixed is how much of one lot is in another: the flows into it bring their share of what the lots that they come from held.
func mixed(g *trace.Graph, lots []trace.Lot, flows []trace.Flow, of, in int, known map[int]*big.Rat) *big.Rat {
	if known[in] != nil {
		return known[in]
	}
	all := held(g, lots, in)
	sum := new(big.Rat)
	if of == in {
		sum.SetInt64(int64(all))
	} else {
		for _, f := range flows {
			if f.To == in && f.Mass > 0 {
				sum.Add(sum, new(big.Rat).Mul(mixed(g, lots, flows, of, f.From, known), big.NewRat(int64(f.Mass), int64(held(g, lots, f.From)))))
			}
		}
		if into := g.Into(in); into > all {
			sum.Mul(sum, big.NewRat(int64(all), int64(into)))
		}
	}
	known[in] = sum
	return sum
}

func held(g *trace.Graph, lots []trace.Lot, lot int) unit.Mass {
	if lots[lot].Unweighed {
		return max(g.Into(lot), g.OutOf(lot))
	}
	return max(lots[lot].Came, g.OutOf(lot))
}

func within(t *rapid.T, what string, got unit.Mass, want, room *big.Rat) {
	diff := new(big.Rat).Sub(big.NewRat(int64(got), 1), want)
	if diff.Abs(diff).Cmp(room) > 0 {
		t.Fatalf("%s: got %d, want %s", what, got, want.FloatString(3))
	}
}

// The bounds hold for any mixing: grains that remember every lot they were in are dealt out at random, and never lie outside.
func TestBoundsHoldForAnyMixing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lots, flows := drawn(t, 12)
		g := grow(t, lots, flows)
		in := deal(t, g, lots, flows)
		for of := range lots {
			for _, r := range []trace.Reach{must(g.Forward(of)), must(g.Backward(of))} {
				for _, l := range r.Lots {
					from, to := of, l.Lot
					if !r.Forward {
						from, to = to, from
					}
					if n := in[from][to]; n < l.Least || n > l.Most {
						t.Fatalf("forward %v: %d of lot %d is in lot %d, told %d to %d", r.Forward, n, from, to, l.Least, l.Most)
					}
				}
			}
		}
	})
}

// deal is one way that all could have gone: how many grains of each lot are in each.
func deal(t *rapid.T, g *trace.Graph, lots []trace.Lot, flows []trace.Flow) [][]unit.Mass {
	reach := reachable(len(lots), flows)
	order := upTo(len(lots))
	slices.SortFunc(order, func(a, b int) int { return before(reach, a) - before(reach, b) })
	grains := make([][]uint, len(lots)) // of a lot: for each grain one bit for every lot that it was in
	in := make([][]unit.Mass, len(lots))
	for i := range in {
		in[i] = make([]unit.Mass, len(lots))
	}
	for _, lot := range order {
		all := int(held(g, lots, lot))
		own := grains[lot]
		if len(own) > 0 {
			own = rapid.Permutation(own).Draw(t, "lost")
		}
		own = append(own[:min(all, len(own))], make([]uint, max(0, all-len(own)))...)
		for i := range own {
			own[i] |= 1 << lot
			for of := range lots {
				in[of][lot] += unit.Mass(own[i] >> of & 1)
			}
		}
		if len(own) > 0 {
			own = rapid.Permutation(own).Draw(t, "dealt")
		}
		for _, f := range flows {
			if f.From == lot {
				grains[f.To] = append(grains[f.To], own[:f.Mass]...)
				own = own[f.Mass:]
			}
		}
	}
	return in
}

// before is how many lots lead to one.
func before(reach [][]bool, lot int) int {
	n := 0
	for from := range reach {
		if reach[from][lot] {
			n++
		}
	}
	return n
}

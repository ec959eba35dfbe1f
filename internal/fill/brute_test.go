package fill

import (
	"cmp"
	"slices"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// brute tries every plan and keeps the best by the rules, written down once more and plainly.
func brute(p Problem) (best []int, found bool) {
	soft := p.Soften && !canBeMet(p)
	count := make([]int, len(p.Packs))
	var try func(i int)
	try = func(i int) {
		if i == len(p.Packs) {
			if _, c := prefers(p, soft, count, best); !found || c > 0 {
				best, found = slices.Clone(count), true
			}
			return
		}
		least := p.Packs[i].Min
		if soft {
			least = 0
		}
		for c := least; p.Packs[i].Max < 0 || c <= p.Packs[i].Max; c++ {
			count[i] = c
			if _, ok := leftOf(p, count[:i+1]); !ok {
				break
			}
			try(i + 1)
		}
		count[i] = 0
	}
	try(0)
	return best, found
}

func canBeMet(p Problem) bool {
	var minima []int
	for _, k := range p.Packs {
		minima = append(minima, k.Min)
	}
	_, ok := leftOf(p, minima)
	return ok
}

func leftOf(p Problem, count []int) (total unit.Mass, ok bool) {
	left := slices.Clone(p.Stock)
	pieces := make([]int, len(left))
	supplies := make([]int, len(p.Supplies))
	for j := range left {
		if len(p.PieceMass) > 0 && p.PieceMass[j] > 0 {
			pieces[j] = int(left[j] / p.PieceMass[j])
		}
	}
	for i, c := range count {
		for _, n := range p.Packs[i].Needs {
			if n.Pieces > 0 {
				pieces[n.Output] -= c * n.Pieces
				left[n.Output] -= unit.Mass(c*n.Pieces) * p.PieceMass[n.Output]
				if pieces[n.Output] < 0 {
					return 0, false
				}
			} else if left[n.Output] -= unit.Mass(c) * n.Mass; left[n.Output] < 0 {
				return 0, false
			}
		}
		for _, u := range p.Packs[i].Uses {
			if supplies[u.Supply] += c * u.Pieces; supplies[u.Supply] > p.Supplies[u.Supply].Have {
				return 0, false
			}
		}
	}
	for _, m := range left {
		total += m
	}
	return total, true
}

// prefers says which rule tells x from y and which is the better; y may be nothing.
func prefers(p Problem, soft bool, x, y []int) (Rule, int) {
	if y == nil {
		return ByValue, 1
	}
	rules := p.Goals
	if len(rules) == 0 {
		rules = []Rule{ByOrders, ByKeep, ByValue, ByLeft}
	}
	if soft {
		rules = append([]Rule{ByMinimum}, rules...)
	}
	for _, r := range rules {
		if c := cmp.Compare(worth(p, r, x), worth(p, r, y)); c != 0 {
			return r, c
		}
	}
	sx, sy := slices.Sorted(slices.Values(x)), slices.Sorted(slices.Values(y))
	if c := slices.Compare(sx, sy); c != 0 {
		return ByEven, c
	}
	return ByList, slices.Compare(x, y)
}

// worth is what a rule makes of a plan, more being better.
func worth(p Problem, r Rule, count []int) int64 {
	var sum int64
	if r == ByLeft {
		left, _ := leftOf(p, count)
		return -int64(left)
	}
	for i, k := range p.Packs {
		short := func(of int) int64 { return int64(max(0, of-count[i])) }
		switch r {
		case ByMinimum:
			sum -= short(k.Min)
		case ByOrders:
			sum -= max(1, k.Penalty) * short(k.Ordered)
		case ByKeep:
			sum -= short(k.Ordered + k.Keep)
		case ByValue:
			sum += k.Value * int64(count[i])
		}
	}
	return sum
}

func TestNoPlanBeatsTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { againstEveryPlan(t, smallProblem(t)) })
}

func TestNoPlanBeatsTheBestWithOrdersAndSupplies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { againstEveryPlan(t, trading(t, smallProblem(t))) })
}

func againstEveryPlan(t *rapid.T, p Problem) {
	want, ok := brute(p)
	got, err := Solve(p)
	if !ok {
		if _, short := err.(*ShortError); !short {
			t.Fatalf("no plan is possible, yet got %v, %v", got, err)
		}
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	if !got.Proof.Optimal || !got.Proof.Even || got.Gap() != 0 {
		t.Fatalf("not proven: %+v", got.Proof)
	}
	if !slices.Equal(got.Count, want) {
		t.Fatalf("got %v, every plan tried says %v", got.Count, want)
	}
	if err := Check(p, got); err != nil {
		t.Fatal(err)
	}
	for _, r := range got.Goals {
		if !r.Proven || r.Amount != r.Best {
			t.Fatalf("goal not proven: %+v", r)
		}
	}
	if r := got.Why.Rejected; r != nil {
		if _, ok := leftOf(p, r.Count); !ok {
			t.Fatalf("the plan turned down, %v, is not possible", r.Count)
		}
		if rule, c := prefers(p, p.Soften && !canBeMet(p), got.Count, r.Count); rule != got.Why.Decided || c <= 0 {
			t.Fatalf("%v was turned down by %v, not by %v", r.Count, rule, got.Why.Decided)
		}
	}
}

// Two packs of two pots, to the gram and in the numbers of a real day: every pair of counts is tried.
func TestTwoPacksOfARealDay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		grams := func(lo, hi int, what string) unit.Mass {
			return unit.Gram * unit.Mass(rapid.IntRange(lo, hi).Draw(t, what))
		}
		p := Problem{Stock: []unit.Mass{grams(5_000, 60_000, "stew"), grams(500, 20_000, "broth")}}
		for range 2 {
			p.Packs = append(p.Packs, Pack{Value: 50_000 * int64(rapid.IntRange(60, 180).Draw(t, "value")), Max: -1, Needs: []Need{
				{Output: 0, Mass: grams(280, 900, "of stew")}, {Output: 1, Mass: grams(20, 400, "of broth")}}})
		}
		want, _ := brute(p)
		got, err := Solve(p)
		if err != nil || !slices.Equal(got.Count, want) || !got.Proof.Optimal || !got.Proof.Even {
			t.Fatalf("got %+v, %v; every plan tried says %v", got, err, want)
		}
	})
}

// Three packs of one pot, worth their mass to the gram, so that nearly all plans tie: every pair of counts is tried, and the third is
// as many as fit.
func TestWorthTheirMass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Problem{Stock: []unit.Mass{unit.Gram * unit.Mass(rapid.IntRange(20_000, 50_000).Draw(t, "stew"))}}
		for range 3 {
			mass := rapid.IntRange(250, 1000).Draw(t, "pack")
			p.Packs = append(p.Packs, pack(int64(mass), of(0, mass)))
		}
		var want []int
		fit := func(left unit.Mass, i int) int { return int(left / p.Packs[i].Needs[0].Mass) }
		for a := range fit(p.Stock[0], 0) + 1 {
			left := p.Stock[0] - unit.Mass(a)*p.Packs[0].Needs[0].Mass
			for b := range fit(left, 1) + 1 {
				count := []int{a, b, fit(left-unit.Mass(b)*p.Packs[1].Needs[0].Mass, 2)}
				if _, c := prefers(p, false, count, want); c > 0 {
					want = count
				}
			}
		}
		got, err := Solve(p)
		if err != nil || !slices.Equal(got.Count, want) || !got.Proof.Optimal || !got.Proof.Even {
			t.Fatalf("got %+v, %v; every plan tried says %v", got, err, want)
		}
	})
}

// More stock never earns less.
func TestMoreStockNeverEarnsLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := smallProblem(t)
		before, err := Solve(p)
		if err != nil {
			return
		}
		p.Stock = slices.Clone(p.Stock)
		for j := range p.Stock {
			p.Stock[j] += unit.Mass(rapid.IntRange(0, 500).Draw(t, "more")) * unit.Gram
		}
		after, err := Solve(p)
		if err != nil || after.Value < before.Value {
			t.Fatalf("%d with less, %d with more, %v", before.Value, after.Value, err)
		}
	})
}

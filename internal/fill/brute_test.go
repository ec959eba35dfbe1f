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

// smallProblem draws problems small enough to try every plan, with many ties: coarse masses, few values, alike packs, minima
// that can't always be made, packs of no or negative value, and pieces.
func smallProblem(t *rapid.T) Problem {
	outputs := rapid.IntRange(1, 3).Draw(t, "outputs")
	grain := rapid.SampledFrom([]unit.Mass{unit.Gram, 100 * unit.Gram, unit.Ounce, 7}).Draw(t, "grain")
	p := Problem{PieceMass: make([]unit.Mass, outputs)}
	for j := range outputs {
		p.Stock = append(p.Stock, grain*unit.Mass(rapid.IntRange(0, 90).Draw(t, "stock"))+unit.Mass(rapid.IntRange(0, 1).Draw(t, "crumb")))
		if rapid.IntRange(0, 3).Draw(t, "counted") == 0 {
			p.PieceMass[j] = grain * 3
		}
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "packs") {
		k := Pack{Value: int64(rapid.IntRange(-1, 4).Draw(t, "value")), Max: rapid.IntRange(-1, 6).Draw(t, "max")}
		k.Min = rapid.IntRange(0, 2).Draw(t, "min")
		if k.Max >= 0 {
			k.Min = min(k.Min, k.Max)
		}
		for j := range outputs {
			amount := rapid.IntRange(0, 6).Draw(t, "amount")
			switch {
			case amount == 0 && (j < outputs-1 || len(k.Needs) > 0):
			case p.PieceMass[j] > 0:
				k.Needs = append(k.Needs, Need{Output: j, Pieces: amount/2 + 1})
			default:
				k.Needs = append(k.Needs, Need{Output: j, Mass: grain * unit.Mass(amount+4)})
			}
		}
		if i > 0 && rapid.IntRange(0, 3).Draw(t, "alike") == 0 {
			k.Needs, k.Value = p.Packs[i-1].Needs, p.Packs[i-1].Value
		}
		p.Packs = append(p.Packs, k)
	}
	return p
}

// trading draws orders, minimum stock, supplies that packs share, goals in any order, and minima that may be softened.
func trading(t *rapid.T, p Problem) Problem {
	for range rapid.IntRange(0, 3).Draw(t, "supplies") {
		p.Supplies = append(p.Supplies, Supply{Have: rapid.IntRange(0, 8).Draw(t, "have")})
	}
	for i := range p.Packs {
		k := &p.Packs[i]
		for j := range p.Supplies {
			if n := rapid.IntRange(-1, 2).Draw(t, "takes"); n > 0 {
				k.Uses = append(k.Uses, Use{j, n})
			}
		}
		if rapid.Bool().Draw(t, "wanted") {
			k.Ordered, k.Penalty = rapid.IntRange(0, 4).Draw(t, "ordered"), int64(rapid.IntRange(0, 3).Draw(t, "penalty"))
			k.Keep = rapid.IntRange(0, 3).Draw(t, "keep")
		}
	}
	p.Soften = rapid.Bool().Draw(t, "soften")
	if rapid.Bool().Draw(t, "own goals") {
		all := rapid.Permutation([]Rule{ByOrders, ByKeep, ByValue, ByLeft}).Draw(t, "goals")
		p.Goals = all[:rapid.IntRange(1, 4).Draw(t, "how many goals")]
	}
	return p
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

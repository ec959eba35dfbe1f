package productmix

import (
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// small is a problem of which every mix can be tried.
func small(t *rapid.T) Problem {
	n := func(what string, low, high int64) int64 { return rapid.Int64Range(low, high).Draw(t, what) }
	var p Problem
	for range n("resources", 1, 3) {
		p.Resources = append(p.Resources, Resource{"r", n("have", 0, 40), n("step", 1, 9)})
	}
	for range n("products", 1, 2) {
		x := Product{Demand: n("demand", 0, 12)}
		for range n("lots", 1, 3) {
			l := Lot{Packs: n("packs", 1, 4), Contribution: unit.Money(n("contribution", -2, 12)), Least: n("least", 0, 1)}
			for range p.Resources {
				l.Uses = append(l.Uses, n("use", 0, 9))
			}
			x.Lots = append(x.Lots, l)
		}
		p.Products = append(p.Products, x)
	}
	return p
}

// brute tries every mix; thrift is the least use of any of the best, in the millionths that Proof tells.
func brute(p Problem) (best, thrift int64, found bool) {
	var lots []Lot
	var of []int
	for i, x := range p.Products {
		for _, l := range x.Lots {
			lots, of = append(lots, l), append(of, i)
		}
	}
	var try func(i int, earns, uses int64, have, demand []int64)
	try = func(i int, earns, uses int64, have, demand []int64) {
		if i == len(lots) {
			if !found || earns > best || (earns == best && uses < thrift) {
				best, thrift, found = earns, uses, true
			}
			return
		}
		l := lots[i]
		for c := int64(0); c <= 12; c++ {
			ok := c*l.Packs <= demand[of[i]]
			left, room := append([]int64(nil), have...), append([]int64(nil), demand...)
			room[of[i]] -= c * l.Packs
			for k, u := range l.Uses {
				left[k] -= c * u
				ok = ok && left[k] >= 0
			}
			if !ok {
				break
			}
			if c >= l.Least {
				try(i+1, earns+c*int64(l.Contribution), uses+c*share(p, l), left, room)
			}
		}
	}
	var have, demand []int64
	for _, r := range p.Resources {
		have = append(have, r.Have)
	}
	for _, x := range p.Products {
		demand = append(demand, x.Demand)
	}
	try(0, 0, 0, have, demand)
	return best, thrift, found
}

// share is what one lot uses of all resources, in millionths of what there is of each.
func share(p Problem, l Lot) (sum int64) {
	for k, r := range p.Resources {
		if r.Have > 0 {
			sum += l.Uses[k] * 1_000_000 / r.Have
		}
	}
	return sum
}

func TestAgainstEveryMix(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := small(t)
		want, thrift, can := brute(p)
		m, err := Best(p)
		if (err == nil) != can {
			t.Fatalf("%v, but a mix exists: %v", err, can)
		}
		if !can {
			return
		}
		if m.Contribution != unit.Money(want) || m.Gap() != 0 || Check(p, m) != nil {
			t.Fatalf("earns %d, gap %d, %v; want %d", m.Contribution, m.Gap(), Check(p, m), want)
		}
		var uses int64
		for i, x := range p.Products {
			for j, l := range x.Lots {
				uses += m.Lots[i][j] * share(p, l)
			}
		}
		if !m.Proof.Thrifty || uses != thrift {
			t.Fatalf("uses %d millionths (thrifty: %v), and as good a mix uses %d", uses, m.Proof.Thrifty, thrift)
		}
		k := rapid.IntRange(0, len(p.Resources)-1).Draw(t, "resource")
		w, err := Worths(p, m)
		if err != nil {
			t.Fatal(err)
		}
		for steps := int64(1); steps <= MostSteps; steps++ {
			more := p
			more.Resources = append([]Resource(nil), p.Resources...)
			more.Resources[k].Have += steps * p.Resources[k].Step
			money, _, _ := brute(more)
			gains := unit.Money(money - want)
			switch {
			case steps == 1 && w[k].More != Range{gains, gains}:
				t.Fatalf("one more step earns %d, not %+v", gains, w[k].More)
			case steps == w[k].Pays && w[k].Earn != Range{gains, gains}:
				t.Fatalf("%d steps earn %d, not %+v", steps, gains, w[k].Earn)
			case gains > 0 && (w[k].Pays == 0 || steps < w[k].Pays):
				t.Fatalf("%d steps already earn %d: %+v", steps, gains, w[k])
			}
		}
	})
}

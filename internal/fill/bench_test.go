package fill

import (
	"math/rand/v2"
	"slices"
	"testing"

	"kettlefrost/internal/unit"
)

// kettleDay is an invented day of n packs drawing on m outputs of 10 to 230 kg each, weighed to grain: packs of 12 oz to 1 kg,
// some with two or three parts, worth 2 to 9 money units by the cent.
func kettleDay(seed uint64, n, m int, grain unit.Mass) Problem {
	r := rand.New(rand.NewPCG(seed, 8))
	var p Problem
	for range m {
		p.Stock = append(p.Stock, grain*unit.Mass(int64(10*unit.Kilogram/grain)+r.Int64N(int64(220*unit.Kilogram/grain))))
	}
	for range n {
		k := Pack{Value: 10_000 * (200 + r.Int64N(700)), Max: -1, Min: r.IntN(8)}
		parts := 1 + r.IntN(min(3, m))
		for _, j := range r.Perm(m)[:parts] {
			mass := (unit.Mass(340+r.IntN(660)) * unit.Gram / unit.Mass(parts)) / grain * grain
			k.Needs = append(k.Needs, Need{Output: j, Mass: mass})
		}
		p.Packs = append(p.Packs, k)
	}
	return p
}

// The proportional case is the hard one: every pack of one pot is worth its mass, so that nearly all plans tie.
func proportional(n int) Problem {
	p := Problem{Stock: []unit.Mass{229*unit.Kilogram + 830*unit.Gram}}
	for i := range n {
		g := []int64{340, 425, 510, 680, 905, 1130, 250, 595}[i]
		p.Packs = append(p.Packs, Pack{Value: g * 10_000, Max: -1, Needs: []Need{{Mass: unit.Mass(g) * unit.Gram}}})
	}
	return p
}

// weighty is a hard day: n packs, each of parts of m outputs, worth a cent a gram and 50 cents, with two bags, a lid and maxima on
// every other day.
func weighty(seed uint64, n, m, parts int) Problem {
	r := rand.New(rand.NewPCG(seed, 99))
	p := Problem{Supplies: []Supply{{"small bag", 100 + r.IntN(200)}, {"large bag", 100 + r.IntN(200)}, {"lid", 100 + r.IntN(300)}}, Soften: true}
	for range m {
		p.Stock = append(p.Stock, unit.Gram*unit.Mass(10_000+r.IntN(150_000)))
	}
	for i := range n {
		k := Pack{Max: -1, Value: 500_000}
		for _, j := range r.Perm(m)[:parts] {
			mass := unit.Gram * unit.Mass(40+r.IntN(900/parts))
			k.Value += int64(mass/unit.Gram) * 10_000
			k.Needs = append(k.Needs, Need{Output: j, Mass: mass})
		}
		if seed%2 == 0 {
			k.Uses, k.Min = []Use{{i % 3, 1}}, r.IntN(5)
			if r.IntN(2) == 0 {
				k.Max = 20 + r.IntN(100)
			}
		}
		p.Packs = append(p.Packs, k)
	}
	return p
}

func BenchmarkSolve(b *testing.B) {
	plain := func(n, m int, grain unit.Mass) func(uint64) Problem {
		return func(seed uint64) Problem { return kettleDay(seed, n, m, grain) }
	}
	hard := func(n, m, parts int) func(uint64) Problem {
		return func(seed uint64) Problem { return weighty(seed, n, m, parts) }
	}
	alike := func(n int) func(uint64) Problem { return func(uint64) Problem { return proportional(n) } }
	for _, c := range []struct {
		name string
		day  func(seed uint64) Problem
	}{
		{"2 packs of 1 pot, grams", plain(2, 1, unit.Gram)},
		{"4 packs of 3 pots, grams", plain(4, 3, unit.Gram)},
		{"8 packs of 8 pots, 5 g", plain(8, 8, 5*unit.Gram)},
		{"8 packs of 8 pots, grams", plain(8, 8, unit.Gram)},
		{"8 packs of 8 pots, 0.1 oz", plain(8, 8, unit.Ounce/10)},
		{"8 packs of 4 pots, grams", plain(8, 4, unit.Gram)},
		{"6 to 10 packs and pots, orders, supplies and limits", tradingDay},
		{"8 packs of 8 pots, worth nearly their mass, 3 parts", hard(8, 8, 3)},
		{"8 packs of 8 pots, worth nearly their mass, 8 parts", hard(8, 8, 8)},
		{"10 packs of 10 pots, worth nearly their mass, 5 parts", hard(10, 10, 5)},
		{"8 packs of 2 pots, worth nearly their mass, 2 parts", hard(8, 2, 2)},
		{"worth their mass, 2 packs of 1 pot", alike(2)},
		{"worth their mass, 4 packs of 1 pot", alike(4)},
		{"worth their mass, 8 packs of 1 pot", alike(8)},
	} {
		b.Run(c.name, func(b *testing.B) {
			steps, open, uneven, runs := 0, 0, 0, 0
			for b.Loop() {
				plan, err := Solve(c.day(uint64(runs % 50)))
				if err != nil {
					b.Fatal(err)
				}
				runs++
				steps += plan.Proof.Steps
				if !plan.Proof.Optimal {
					open++
				} else if !plan.Proof.Even {
					uneven++
				}
			}
			b.ReportMetric(float64(steps)/float64(runs), "steps/op")
			b.ReportMetric(float64(open)/float64(runs), "open/op")
			b.ReportMetric(float64(uneven)/float64(runs), "uneven/op")
		})
	}
}

// One weight comes in, a few per cent off what was planned, and the day is decided anew from scratch.
func BenchmarkOneMoreWeight(b *testing.B) {
	p := tradingDay(7)
	planned := slices.Clone(p.Stock)
	r := rand.New(rand.NewPCG(7, 7))
	for at := 0; b.Loop(); at = (at + 1) % len(planned) {
		p.Stock[at] = (planned[at]*unit.Mass(950+r.IntN(100))/1000 + unit.Gram/2) / unit.Gram * unit.Gram
		if _, err := Solve(p); err != nil {
			b.Fatal(err)
		}
	}
}

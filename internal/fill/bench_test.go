package fill

import (
	"math/rand/v2"
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

func BenchmarkSolve(b *testing.B) {
	for _, c := range []struct {
		name string
		n, m int
		each unit.Mass
	}{
		{"2 packs of 1 pot, grams", 2, 1, unit.Gram},
		{"4 packs of 3 pots, grams", 4, 3, unit.Gram},
		{"8 packs of 8 pots, 5 g", 8, 8, 5 * unit.Gram},
		{"8 packs of 8 pots, grams", 8, 8, unit.Gram},
		{"8 packs of 8 pots, 0.1 oz", 8, 8, unit.Ounce / 10},
		{"8 packs of 4 pots, grams", 8, 4, unit.Gram},
	} {
		b.Run(c.name, func(b *testing.B) {
			steps, open, uneven, runs := 0, 0, 0, 0
			for b.Loop() {
				plan, err := Solve(kettleDay(uint64(runs%50), c.n, c.m, c.each))
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
	for _, n := range []int{2, 4, 8} {
		b.Run("worth their mass "+string(rune('0'+n)), func(b *testing.B) {
			for b.Loop() {
				plan, err := Solve(proportional(n))
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(plan.Proof.Steps), "steps/op")
				b.ReportMetric(map[bool]float64{false: 1}[plan.Proof.Optimal], "open/op")
				b.ReportMetric(map[bool]float64{false: 1}[plan.Proof.Even], "uneven/op")
			}
		})
	}
}

package trials

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"kettlefrost/internal/record"
)

// large is a trial of five variants, thirty tasters and six weeks, with two figures: more than a small kitchen can eat.
func large(b *testing.B) Trial {
	laid := record.TrialLaid{Trial: "t", Dish: "d", Asks: "which?", Weeks: []record.Week{0, 2, 4, 8, 12, 16}, Packs: 2, Seed: 3,
		Figures: []record.Figured{{Figure: Drip, Unit: Grams, Better: record.LowIsBetter, Matters: 1000}, {Figure: "texture", Unit: Points, Better: record.HighIsBetter, Matters: 800}}}
	for i := range 5 {
		laid.Variants = append(laid.Variants, record.Variant{Name: fmt.Sprint("v", i), Change: "x", Base: i == 0})
	}
	for i := range 30 {
		laid.Tasters = append(laid.Tasters, fmt.Sprint("taster ", i))
	}
	t := Trial{Name: "t", Laid: Said[record.TrialLaid]{Body: laid}}
	t.lay()
	source := rand.New(rand.NewPCG(1, 2))
	for v := range laid.Variants {
		for _, w := range laid.Weeks {
			for n := int64(1); n <= 2; n++ {
				d := record.Decimal(5000 + 2000*source.NormFloat64())
				t.Opened = append(t.Opened, Said[record.TrialOpened]{Body: record.TrialOpened{Variant: laid.Variants[v].Name, Week: w, Number: n, Drip: &d}})
			}
			for taster := range laid.Tasters {
				points := record.Decimal(1000 * min(10, max(0, int(7+2*source.NormFloat64()))))
				t.Scored = append(t.Scored, Scored{Said[record.TrialScored]{Body: record.TrialScored{Week: w, Scores: []record.Score{{Figure: "texture", Points: points}}}}, v, taster})
			}
		}
	}
	return t
}

func BenchmarkResultsOfALargeTrial(b *testing.B) {
	t := large(b)
	for b.Loop() {
		ResultsOf(t)
	}
}

func BenchmarkTheNextTrial(b *testing.B) {
	r := ResultsOf(large(b))
	for b.Loop() {
		r.PlanNext(Aimed)
	}
}

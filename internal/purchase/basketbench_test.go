package purchase

import (
	"fmt"
	"testing"
)

// A weekly order: 60 ingredients, each with one to three sizes of pack at each of 5 suppliers.
func BenchmarkBasket(b *testing.B) {
	for _, d := range []drawn{
		{"loose terms", 60, 5, 1, 0, 0, 0.5, 0},
		{"tight terms", 60, 5, 1, 0, 0, 1, 0},
		{"tight, breaks and left-overs", 60, 5, 1, 0.3, 0.2, 1, 0},
		{"half of it listed", 60, 5, 0.5, 0.3, 0.2, 1, 0},
	} {
		for seed := range uint64(3) {
			b.Run(fmt.Sprintf("%s %d", d.name, seed), func(b *testing.B) {
				basket := d.basket(seed)
				var p Purchase
				for b.Loop() {
					var err error
					if p, err = Best(basket, Options{}); err != nil {
						b.Fatal(err)
					}
				}
				b.ReportMetric(float64(p.Proof.Steps), "steps")
				b.ReportMetric(100*float64(p.Gap())/float64(p.Total), "%gap")
			})
		}
	}
}

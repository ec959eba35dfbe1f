package plan_test

import (
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/plan"
)

// BenchmarkMake plans each run of the demo book end to end; the request and the book are read beforehand.
func BenchmarkMake(b *testing.B) {
	book := bookfile.Read(demo.Book()).Book
	foods, err := foodtable.Default()
	if err != nil {
		b.Fatal(err)
	}
	for name, req := range book.Runs {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if p := plan.Make(b.Context(), book, foods, req); len(p.Fill) == 0 {
					b.Fatal("no packs")
				}
			}
		})
	}
}

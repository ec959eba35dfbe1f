package heatcase

import "testing"

// One question, three simulations: what a slider waits for.
func BenchmarkAnswer(b *testing.B) {
	for _, r := range []struct {
		name string
		of   Process
		keys []string
	}{
		{"pan to cool", Cool, []string{"pan", "2 in"}},
		{"bag to freeze", Freeze, []string{"bag", "1 in"}},
		{"pot left alone", Cool, []string{"pot", "22 in x 23 in"}},
		{"block to freeze", Freeze, []string{"brick", "165 mm x 160 mm x 100 mm"}},
		{"block to reheat", Reheat, []string{"brick", "165 mm x 160 mm x 25 mm"}},
		{"block of all sizes to thaw, open", Thaw, []string{"brick", "2 m x 1 m x 10 mm"}},
	} {
		b.Run(r.name, func(b *testing.B) {
			c := Example(r.of)
			c.Shape, c.Piece, c.Package = Shape{}, 0, ""
			for i := 0; i < len(r.keys); i += 2 {
				if err := c.Set(r.keys[i], r.keys[i+1]); err != nil {
					b.Fatal(err)
				}
			}
			for b.Loop() {
				if _, err := c.Answer(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

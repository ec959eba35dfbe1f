package heat

import "testing"

func BenchmarkFreezingFood(b *testing.B) {
	c := Composition{Water: 0.86, Protein: 0.035, Fat: 0.03, Carb: 0.055, Fibre: 0.01, Ash: 0.01}
	for b.Loop() {
		if _, err := c.FreezingFood(-0.8, 5); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkState(b *testing.B) {
	c := Composition{Water: 0.86, Protein: 0.035, Fat: 0.03, Carb: 0.055, Fibre: 0.01, Ash: 0.01}
	for b.Loop() {
		if _, err := c.State(-18, -0.8); err != nil {
			b.Fatal(err)
		}
	}
}

package series

import (
	"testing"

	"kettlefrost/internal/heat"
)

func BenchmarkPanCoreTime(b *testing.B) {
	s := Sheet{heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}, 0.0508, 8, 10}
	for b.Loop() {
		if _, err := s.CoreTimeS(57.2, 3, 5); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPanCoreTimeBarelyCooled(b *testing.B) { // small Fourier number: all terms
	s := Sheet{heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}, 0.1016, 300, 500}
	for b.Loop() {
		if _, err := s.CoreTimeS(57.2, 3, 57); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPotCentreTime(b *testing.B) {
	pot := Can(heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}, 0.57, 0.593, 10)
	for b.Loop() {
		if _, err := pot.CentreTimeS(57.2, 3, 21.1); err != nil {
			b.Fatal(err)
		}
	}
}

package heat

import "testing"

func BenchmarkPanCoreTime(b *testing.B) {
	s := Sheet{Solid{1030, 3850, 0.59}, 0.0508, 8, 10}
	for b.Loop() {
		if _, err := s.CoreTimeS(57.2, 3, 5); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPanCoreTimeBarelyCooled(b *testing.B) { // small Fourier number: all terms
	s := Sheet{Solid{1030, 3850, 0.59}, 0.1016, 300, 500}
	for b.Loop() {
		if _, err := s.CoreTimeS(57.2, 3, 57); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPotCentreTime(b *testing.B) {
	pot := Can(Solid{1030, 3850, 0.59}, 0.57, 0.593, 10)
	for b.Loop() {
		if _, err := pot.CentreTimeS(57.2, 3, 21.1); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFreezingFood(b *testing.B) {
	c := Composition{Water: 0.86, Protein: 0.035, Fat: 0.03, Carb: 0.055, Fibre: 0.01, Ash: 0.01}
	for b.Loop() {
		if _, err := c.FreezingFood(-0.8, 5); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkStirredVessel(b *testing.B) {
	v := Vessel{600e3, 131.8}
	for b.Loop() {
		if _, err := v.TimeS(57.2, 0, 21.1); err != nil {
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

func BenchmarkOpenVesselTo(b *testing.B) {
	o := openPot()
	for b.Loop() {
		if _, err := o.To(Heater{}, 57.2, 3, 21.1); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkOpenVesselAtRest(b *testing.B) { // the longest search: the end of the way is never reached
	o := openPot()
	for b.Loop() {
		if _, err := o.After(Heater{250, 1}, 57.2, 21, 7.2e5); err != nil {
			b.Fatal(err)
		}
	}
}

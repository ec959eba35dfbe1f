package vessel

import "testing"

func BenchmarkStirredVessel(b *testing.B) {
	v := Vessel{600e3, 131.8}
	for b.Loop() {
		if _, err := v.TimeS(57.2, 0, 21.1); err != nil {
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

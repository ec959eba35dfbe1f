package conduction

import (
	"math"
	"testing"
	"time"

	"kettlefrost/internal/heat"
)

// explicitCentreS is the independent twin: the heat balance of every cell, forward in small steps, with conductances of half cells in
// series. It shares no line with the solver: properties are written out again from the definition of the seven constants.
func explicitCentreS(c heat.FreezingFood, thickM, filmWM2K, mediumC, startC, coreC float64, cells int) float64 {
	tf, cu, cf, a, ku, kf := c.FreezingPointC, c.UnfrozenHeatJKgK, c.FrozenHeatJKgK, c.FreezableJKg, c.UnfrozenConductivityWMK, c.FrozenConductivityWMK
	dx := thickM / 2 / float64(cells)
	temp, k, h := make([]float64, cells), make([]float64, cells), make([]float64, cells)
	start := cu * (startC - tf)
	if startC < tf {
		start = cf*(startC-tf) + a*(tf/startC-1)
	}
	for i := range h {
		h[i] = start
	}
	dt := 0.45 * c.DensityKgM3 * min(cf, cu) * dx * dx / (2 * max(kf, ku))
	for timeS := 0.0; ; timeS += dt {
		for i, e := range h {
			if e >= 0 {
				temp[i], k[i] = tf+e/cu, ku
				continue
			}
			b := e + cf*tf + a
			temp[i] = (b - math.Sqrt(b*b-4*cf*a*tf)) / (2 * cf)
			k[i] = kf + (ku-kf)*tf/temp[i]
		}
		core := (9*temp[0] - temp[1]) / 8
		if startC > coreC && core <= coreC || startC < coreC && core >= coreC {
			return timeS
		}
		flow := 0.0
		for i := range h {
			out := (temp[i] - mediumC) / (1/filmWM2K + dx/2/k[i])
			if i < cells-1 {
				out = (temp[i] - temp[i+1]) / (dx/2/k[i] + dx/2/k[i+1])
			}
			h[i] += (flow - out) * dt / (c.DensityKgM3 * dx)
			flow = out
		}
	}
}

func TestExplicitTwin(t *testing.T) {
	for _, c := range []struct {
		name                   string
		m                      Material
		thickM, film           float64
		mediumC, startC, coreC float64
	}{
		{"freezing a bag", soupCold, 0.0254, 8, -18, 5, -10},
		{"freezing in a blast", soupCold, 0.0254, 50, -30, 20, -15},
		{"freezing in brine", gel, 0.04, 300, -20, 5, -10},
		{"reheating", braiseHot, 0.0254, 435, 95, -18, 73.9},
		{"thawing", soupHot, 0.0254, 200, 15, -18, 0},
		{"chilling", soupHot, 0.05, 20, 3, 57.2, 5},
	} {
		want := explicitCentreS(c.m.(food).FreezingFood, c.thickM, c.film, c.mediumC, c.startC, c.coreC, 40)
		for acc, tol := range map[Accuracy]float64{Engineering: 0.012, Fine: 0.003} { // the twin itself is off by 0.2 % with 40 cells
			got, err := coreTime(slabOf(c.m, c.startC, c.thickM, in(c.film, c.mediumC)), c.coreC, acc)()
			if err != nil {
				t.Fatal(err)
			}
			near(t, c.name, got, want, tol)
		}
	}
}

// One bag, a night in still air, or a few minutes in hot water: the usual questions. The explicit twin does the same in the same run,
// with the fewest cells that bring it as near to the answer of a much finer grid; both errors and the ratio of times are reported.
func BenchmarkBag(b *testing.B) {
	for _, c := range []struct {
		name                         string
		m                            Material
		film, mediumC, startC, coreC float64
		acc                          Accuracy
	}{
		{"freezing", soupCold, 8, -18, 5, -15, Engineering},
		{"freezing, fine", soupCold, 8, -18, 5, -15, Fine},
		{"reheating", soupHot, 435, 95, -18, 73.9, Engineering},
		{"reheating, fine", soupHot, 435, 95, -18, 73.9, Fine},
	} {
		b.Run(c.name, func(b *testing.B) {
			body, ask := slabOf(c.m, c.startC, 0.0254, in(c.film, c.mediumC)), Ask{CoreC: c.coreC, WithinS: 86400, Accuracy: c.acc}
			exact := run(b, body, settings{150, 4e-5, 1e-7}, c.coreC).TimeS
			var r Result
			var err error
			for b.Loop() {
				if r, err = body.Simulate(ask); err != nil || !r.Reached {
					b.Fatal(err)
				}
			}
			own, off := float64(b.Elapsed().Nanoseconds())/float64(b.N), math.Abs(r.TimeS/exact-1)
			cells, twinOff, twinNs := 2, math.Inf(1), 0.0
			for twinOff > max(off, 1e-4) && cells < 100 {
				cells++
				began := time.Now()
				twinS := explicitCentreS(c.m.(food).FreezingFood, 0.0254, c.film, c.mediumC, c.startC, c.coreC, cells)
				twinNs, twinOff = float64(time.Since(began).Nanoseconds()), math.Abs(twinS/exact-1)
			}
			b.ReportMetric(twinNs/own, "explicit/own")
			b.ReportMetric(float64(cells), "explicit-cells")
			b.ReportMetric(100*off, "%off")
			b.ReportMetric(100*twinOff, "%off-explicit")
		})
	}
}

// Twice the cells at the same steps is twice the time.
func BenchmarkCells(b *testing.B) {
	for _, cells := range []int{25, 50, 100, 200, 400} {
		b.Run(itoa(cells), func(b *testing.B) {
			body := slabOf(soupCold, 5, 0.0254, in(30, -30))
			m, f := fixed(&body, cells)
			for b.Loop() {
				if _, ok, err := m.trial(10); err != nil || !ok {
					b.Fatal(ok, err)
				}
				if m.accept(10); f.core[now] < -29 {
					b.StopTimer()
					m, f = fixed(&body, cells)
					b.StartTimer()
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(cells), "ns/cell/step")
		})
	}
}

func BenchmarkBodies(b *testing.B) {
	for _, c := range []struct {
		name  string
		body  Body
		coreC float64
	}{
		{"pan chilled", panOf(soupHot, 57.2, 0.0508, in(8, 3), in(10, 3)), 5},
		{"tub frozen", Body{soupCold, []Axis{{Shape: heat.Cylinder, SizeM: 0.1, High: in(8, -18)}, Both(0.08, in(8, -18))}, 5}, -15},
		{"brick frozen", brickOf(soupCold, 5, in(8, -18), 0.0254, 0.16, 0.165), -15},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := c.body.Simulate(Ask{CoreC: c.coreC}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkPool(b *testing.B) {
	pool, batches := fourBags()
	for b.Loop() {
		if _, err := pool.Simulate(batches, Ask{CoreC: 73.9}); err != nil {
			b.Fatal(err)
		}
	}
}

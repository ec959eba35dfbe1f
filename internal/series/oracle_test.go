package series

import (
	"math"
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/heat/heattest"
)

// Slow and obvious twins of what the package does fast.

// halfSpaceSurface is the surface of a half space with a film.
func halfSpaceSurface(bi, fo float64) float64 {
	h := bi * math.Sqrt(fo)
	return math.Exp(h*h) * math.Erfc(h)
}

// equalCylinderM is the side of a cylinder as high as wide that holds so many US gallons.
func equalCylinderM(gallons float64) float64 {
	return math.Cbrt(4 * gallons * 3.785411784e-3 / math.Pi)
}

// stepSheet marches a sheet with an explicit scheme, the heat balance of each of n cells, until the hottest cell is at the target.
func stepSheet(s Sheet, startC, mediumC, targetC float64, n int) (timeS, hottestDepth float64) {
	dx := s.ThicknessM / float64(n)
	capacity := s.Solid.DensityKgM3 * s.Solid.SpecificHeatJKgK * dx
	inner := s.Solid.ConductivityWMK / dx
	edge := func(film float64) float64 {
		if film == 0 {
			return 0
		}
		return 1 / (1/film + dx/2/s.Solid.ConductivityWMK)
	}
	bottom, top := edge(s.BottomFilmWM2K), edge(s.TopFilmWM2K)
	dt := 0.4 * capacity / (inner + max(inner, bottom, top))
	temp, next := make([]float64, n), make([]float64, n)
	for i := range temp {
		temp[i] = startC
	}
	hottest := n / 2
	for temp[hottest] > targetC {
		for i := range temp {
			flow := 0.0
			if i > 0 {
				flow += inner * (temp[i-1] - temp[i])
			} else {
				flow += bottom * (mediumC - temp[i])
			}
			if i < n-1 {
				flow += inner * (temp[i+1] - temp[i])
			} else {
				flow += top * (mediumC - temp[i])
			}
			next[i] = temp[i] + flow*dt/capacity
		}
		temp, next = next, temp
		timeS += dt
		hottest = 0
		for i := range temp {
			if temp[i] > temp[hottest] {
				hottest = i
			}
		}
	}
	return timeS, (float64(hottest) + 0.5) / float64(n)
}

// The exact sheet and the stepped one agree within 0.5 %, whatever the two faces do.
func TestSheetAgainstSteps(t *testing.T) {
	soup := heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}
	for _, c := range []struct{ mm, bottom, top float64 }{
		{50, 8, 10}, {50, 0, 10}, {50, 200, 0}, {100, 300, 5}, {25, 15, 1000}, {65, 35, 35},
	} {
		s := Sheet{Solid: soup, ThicknessM: c.mm / 1000, BottomFilmWM2K: c.bottom, TopFilmWM2K: c.top}
		for _, target := range []float64{50, 21.1, 5} {
			want, depth := stepSheet(s, 57.2, 3, target, 60)
			heattest.Near(t, "core time", heattest.Must(s.CoreTimeS(57.2, 3, target))(t), want, 5e-3)
			w := heattest.Must(s.wall())(t)
			_, _, got := w.core(w.pace*want, w.restingPlace())
			heattest.Within(t, "depth of the core", got, depth, 0.02)
		}
	}
}

// The mean is that of the profile, here by Simpson's rule on 200 intervals.
func TestMeanIsTheMeanOfTheProfile(t *testing.T) {
	solid := heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}
	for _, s := range []Sheet{{solid, 0.05, 8, 10}, {solid, 0.1, 0, 35}, {solid, 0.1, 300, 0}, {solid, 0.06, 5, 500}} {
		for _, timeS := range []float64{1800, 7200, 36000} {
			w := heattest.Must(s.wall())(t)
			const n = 200
			var sum float64
			for i := 0; i <= n; i++ {
				theta, _, _ := w.at(float64(i)/n, w.pace*timeS)
				switch {
				case i == 0 || i == n:
					sum += theta
				case i%2 == 1:
					sum += 4 * theta
				default:
					sum += 2 * theta
				}
			}
			heattest.Within(t, "mean", heattest.Must(s.MeanTempC(57.2, 3, timeS))(t), 3+54.2*sum/(3*n), 1e-6)
		}
	}
}

package heatcase

import (
	"math"

	"kettlefrost/internal/conduction"
)

// curvePoints is how many points of a simulation are kept: enough for a picture.
const curvePoints = 80

// curve thins the steps of a simulation: points equally far from each other along the picture, so that a sharp bend keeps its shape
// and a plateau is not drawn with a thousand points.
func curve(all []conduction.Point) []CurvePoint {
	if len(all) == 0 {
		return []CurvePoint{}
	}
	way := distances(all)
	whole := way[len(way)-1]
	kept := []CurvePoint{pointOf(all[0])}
	for i := 1; i < len(all)-1; i++ {
		if len(all) <= curvePoints || way[i] >= whole*float64(len(kept))/(curvePoints-1) {
			kept = append(kept, pointOf(all[i]))
		}
	}
	if len(all) > 1 {
		kept = append(kept, pointOf(all[len(all)-1]))
	}
	return kept
}

// distances is how far along its picture each point lies, the picture being as wide as it is high.
func distances(all []conduction.Point) []float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range all {
		low, high = min(low, p.CoreC, p.SurfaceC), max(high, p.CoreC, p.SurfaceC)
	}
	width, height := max(1e-9, all[len(all)-1].TimeS-all[0].TimeS), max(1e-9, high-low)
	way := make([]float64, len(all))
	for i := 1; i < len(all); i++ {
		a, b := all[i-1], all[i]
		across := (b.TimeS - a.TimeS) / width
		way[i] = way[i-1] + max(math.Hypot(across, (b.CoreC-a.CoreC)/height), math.Hypot(across, (b.SurfaceC-a.SurfaceC)/height))
	}
	return way
}

func pointOf(p conduction.Point) CurvePoint {
	return CurvePoint{TimeS: p.TimeS, CoreC: p.CoreC, SurfaceC: p.SurfaceC, MeanC: p.MeanC, MediumC: p.MediumC}
}

// profilePlaces is how many places of a profile are kept.
const profilePlaces = 25

func profiles(all []conduction.Profile) []ProfileTimes {
	var out []ProfileTimes
	for _, p := range all {
		one := ProfileTimes{TimeS: p.TimeS}
		last := len(p.Places) - 1
		for i, at := range p.Places {
			// the k-th place kept is the first at or beyond k parts of the way, so both ends are
			if i == last || i*(profilePlaces-1) >= len(one.Places)*last {
				one.Places = append(one.Places, PlaceAt{DepthMm: at.DepthM * 1000, TempC: at.TempC})
			}
		}
		out = append(out, one)
	}
	return out
}

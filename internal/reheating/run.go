package reheating

import (
	"errors"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
)

// Run is one bag, of one thickness throughout, in the water.
type Run struct {
	ThicknessM, FilmWM2K float64
	Reached              bool    // the coldest point is at 165 °F
	TimeS                float64 // until then; if not reached, how long it was followed
	HeldTimeS            float64 // until the coldest point has been at 70 °C for 2 minutes; 0 if it never got to 70 °C
	LowestWaterC         float64
	Points               []conduction.Point   // CoreC is the coldest point; of the nominal and the worst run only
	Profiles             []conduction.Profile // at the start, when the coldest point is at 0 and 70 °C, and at the end; likewise
}

const (
	followS = 6 * 3600 // no bag is followed longer
	// A litre of water as it is filled in, cold; J/(kg·K) from memory.
	waterKgL, waterJKgK = 1.0, 4186
)

// soak is one bag of the water's bags, all alike. A bag that never gets there is a Run that is not Reached. Errors: *heat.RangeError.
func soak(b Bag, w Water, thicknessM, filmWM2K float64, s Start, ask conduction.Ask) (Run, error) {
	run := Run{ThicknessM: thicknessM, FilmWM2K: 1 / (1/filmWM2K + b.PackageM2KW), LowestWaterC: w.TempC}
	var result conduction.Result
	var err error
	if w.dips() {
		result, err = soakTogether(b, w, s, &run, ask)
	} else {
		var body conduction.Body
		if body, err = b.slab(thicknessM, s.StartC(), run.FilmWM2K, conduction.Steady(w.TempC)); err == nil {
			result, err = body.Simulate(ask)
		}
	}
	var never *heat.NeverError
	if errors.As(err, &never) {
		return run, nil
	}
	if err != nil {
		return Run{}, err
	}
	run.Reached, run.TimeS = result.Reached, result.TimeS
	run.Points, run.Profiles = result.Points, result.Profiles
	for _, p := range result.Passed {
		if p.TempC == HoldC && p.Reached {
			run.HeldTimeS = p.TimeS + HoldS // the coldest point only gets warmer
		}
	}
	return run, nil
}

// soakTogether is soak in a pot whose water the bags cool.
func soakTogether(b Bag, w Water, s Start, run *Run, ask conduction.Ask) (conduction.Result, error) {
	body, err := b.slab(run.ThicknessM, s.StartC(), run.FilmWM2K, nil)
	if err != nil {
		return conduction.Result{}, err
	}
	bags := float64(max(1, w.Bags))
	pot := conduction.Pool{
		StartC: w.TempC, SetC: w.TempC, PowerW: w.NetPowerW, AmbientC: w.TempC,
		HeatCapacityJK: bags * w.LitresPerBag * waterKgL * waterJKgK,
	}
	faceM2 := b.MassKg / (b.Food.DensityKgM3 * run.ThicknessM)
	result, err := pot.Simulate([]conduction.Batch{{Body: body, Count: bags * faceM2}}, ask)
	if err != nil {
		return conduction.Result{}, err
	}
	for _, p := range result.Points {
		run.LowestWaterC = min(run.LowestWaterC, p.TempC)
	}
	return result.Batches[0], nil
}

// light is r without what is only for drawing.
func (r Run) light() Run {
	r.Points, r.Profiles = nil, nil
	return r
}

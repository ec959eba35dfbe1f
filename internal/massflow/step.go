package massflow

import (
	"math"

	"kettlefrost/internal/loads"
)

// regime is what does not change smoothly with scale: which vessel a step is in and how many fillings it takes.
type regime struct {
	vessel int // index into Vessels, -1 when there is none
	loads  int
}

// stepResult is one step computed at one scale.
type stepResult struct {
	in      Stream
	inKg    float64
	volumeL float64
	out     []Stream
	lost    Losses
	makeUp  float64 // kilograms of the make-up ingredient
	clamped bool    // the make-up would have had to be negative
	short   []Shortfall
}

// Losses are what left the food in one step, kilograms, by cause.
type Losses struct {
	Evaporated float64
	CookWater  float64
	CookFat    float64
	Drained    float64
	Residue    float64
}

// Kg is all of it.
func (l Losses) Kg() float64 { return l.Evaporated + l.CookWater + l.CookFat + l.Drained + l.Residue }

// Cause is a reason why a step could not lose or give what it should.
type Cause int

const (
	DriedOut      Cause = iota + 1 // more water should evaporate than there is
	NoFatLeft                      // more fat should be rendered than there is
	NoWaterLeft                    // more water should run off than there is
	NothingLeft                    // the residue is all there is
	InputShort                     // an earlier output falls short and nothing may stand in
	MakeUpClamped                  // the make-up would have to be less than nothing
)

// Shortfall is one such case, with the figures.
type Shortfall struct {
	Cause  Cause
	Use    int // of the step, for InputShort
	WantKg float64
	HaveKg float64
}

// take is a loss or an output that may ask for more than there is.
func (r *stepResult) take(cause Cause, want, got float64) float64 {
	if got < want*(1-1e-9)-1e-12 {
		r.short = append(r.short, Shortfall{Cause: cause, Use: -1, WantKg: want, HaveKg: got})
	}
	return got
}

// run cooks one step: in is what goes in (it is used up), without the make-up.
func (g Graph) run(s Step, in Stream, rg regime) stepResult {
	r := stepResult{in: newStream(len(g.Ingredients))}
	r.in.add(in, 1)
	r.inKg = in.Kg()
	r.volumeL = g.volume(s, in)
	if r.inKg <= 0 {
		r.out = make([]Stream, len(s.Outputs))
		for i := range r.out {
			r.out[i] = newStream(len(g.Ingredients))
		}
		return r
	}
	n := float64(rg.loads)

	r.lost.CookWater = r.take(NoWaterLeft, s.WaterLoss*r.inKg, in.drop(Water, s.WaterLoss*r.inKg))
	r.lost.CookFat = r.take(NoFatLeft, s.FatLoss*r.inKg, in.drop(Fat, s.FatLoss*r.inKg))
	evaporate := s.evaporationKgH(rg) * n * s.TimeS / 3600
	if s.ReduceTo > 0 {
		evaporate = max(0, in.Kg()-s.ReduceTo*r.inKg)
	}
	r.lost.Evaporated = r.take(DriedOut, evaporate, in.drop(Water, evaporate))
	r.out = make([]Stream, len(s.Outputs))
	for i, o := range s.Outputs {
		if !o.Main {
			r.out[i] = in.draw(o.Part, o.Takes*r.inKg)
			r.take(o.Part.cause(), o.Takes*r.inKg, r.out[i].Kg())
		}
	}
	r.lost.Drained = r.take(NoWaterLeft, s.Drain*r.inKg, in.drop(Water, s.Drain*r.inKg))
	r.lost.Residue = r.take(NothingLeft, s.ResidueKg*n, in.shrink(s.ResidueKg*n))
	for i, o := range s.Outputs {
		if o.Main {
			r.out[i] = in
		}
	}
	return r
}

func (p Part) cause() Cause {
	switch p {
	case FromFat:
		return NoFatLeft
	case FromWater:
		return NoWaterLeft
	default:
		return NothingLeft
	}
}

// evaporationKgH is what one filling loses in an hour.
func (s Step) evaporationKgH(rg regime) float64 {
	if rg.vessel < 0 || rg.vessel >= len(s.Vessels) {
		return 0
	}
	if v := s.Vessels[rg.vessel]; v.BoilKgH > 0 {
		return v.BoilKgH
	}
	return s.EvaporationKgM2H * s.Vessels[rg.vessel].OpenAreaM2
}

func (s Step) main() int {
	for i, o := range s.Outputs {
		if o.Main {
			return i
		}
	}
	return -1
}

func (g Graph) volume(s Step, in Stream) float64 {
	if s.BulkKgL > 0 {
		return in.Kg() / s.BulkKgL
	}
	return in.volumeL(g.DensityKgL)
}

// runMadeUp cooks one step whose make-up is set so that the main output weighs wantKg. The output grows with the make-up in a
// straight line as long as nothing runs out, so two trials give it; two more rounds settle the cases where something does.
func (g Graph) runMadeUp(s Step, rest Stream, rg regime, wantKg float64) stepResult {
	trial := func(kg float64) stepResult {
		in := newStream(len(g.Ingredients))
		in.add(rest, 1)
		u := s.Uses[s.MakeUp]
		in.addIngredient(u.Ingredient, g.Ingredients[u.Ingredient], kg)
		r := g.run(s, in, rg)
		r.makeUp = kg
		return r
	}
	gave := func(r stepResult) float64 { return r.out[s.main()].Kg() }
	low := trial(0)
	if gave(low) >= wantKg {
		if gave(low) > wantKg*(1+1e-12) {
			low.clamped = true
			low.short = append(low.short, Shortfall{Cause: MakeUpClamped, Use: s.MakeUp, WantKg: wantKg, HaveKg: gave(low)})
		}
		return low
	}
	a, b := low, trial(max(wantKg-gave(low), 1e-9))
	for range 8 {
		slope := (gave(b) - gave(a)) / (b.makeUp - a.makeUp)
		if !(slope > 0) || math.Abs(gave(b)-wantKg) <= 1e-13*wantKg {
			break
		}
		a, b = b, trial(max(0, b.makeUp+(wantKg-gave(b))/slope))
		if a.makeUp == b.makeUp {
			break
		}
	}
	return b
}

// choose picks the vessel and the number of fillings of every step from the food now in it. Steps that stay in an earlier step's
// vessel share its fillings: the fullest of them decides.
func (g Graph) choose(results []stepResult) ([]regime, []loads.Split, error) {
	chosen := make([]regime, len(g.Steps))
	splits := make([]loads.Split, len(g.Steps))
	for _, chain := range g.chains() {
		kg, densest := 0.0, 0
		volume := 0.0
		for _, i := range chain {
			if results[i].volumeL > volume {
				volume, densest = results[i].volumeL, i
			}
			kg = max(kg, results[i].inKg)
		}
		vessels := g.Steps[chain[0]].Vessels
		limits := make([]loads.Limit, len(vessels))
		for v := range vessels {
			limits[v] = vessels[v].Limit
			for _, i := range chain[1:] {
				if v < len(g.Steps[i].Vessels) {
					limits[v] = tighter(limits[v], g.Steps[i].Vessels[v].Limit)
				}
			}
		}
		density := 1.0
		if volume > 0 {
			density = results[densest].inKg / volume
		}
		v, split, err := loads.Fewest(results[densest].inKg, density, limits)
		if err != nil {
			return nil, nil, &StepError{Step: densest, Err: err}
		}
		for _, i := range chain {
			chosen[i] = regime{vessel: v, loads: max(1, split.N)}
			splits[i] = split
			if split.N > 0 {
				splits[i].EachKg, splits[i].EachL = results[i].inKg/float64(split.N), results[i].volumeL/float64(split.N)
			}
		}
	}
	return chosen, splits, nil
}

func tighter(a, b loads.Limit) loads.Limit {
	return loads.Limit{VolumeL: least(a.VolumeL, b.VolumeL), MassKg: least(a.MassKg, b.MassKg)}
}

// least is the smaller limit, where zero means none.
func least(a, b float64) float64 {
	if a == 0 || b != 0 && b < a {
		return b
	}
	return a
}

// chains groups the steps that share a vessel, each from the first step on.
func (g Graph) chains() [][]int {
	head := make([]int, len(g.Steps))
	for i := range g.Steps {
		head[i] = i
		for hops := 0; g.Steps[head[i]].After >= 0 && hops < len(g.Steps); hops++ {
			head[i] = g.Steps[head[i]].After
		}
	}
	var chains [][]int
	for i := range g.Steps {
		if head[i] != i {
			continue
		}
		chain := []int{i}
		for j := range g.Steps {
			if j != i && head[j] == i {
				chain = append(chain, j)
			}
		}
		chains = append(chains, chain)
	}
	return chains
}

package massflow

import "fmt"

// gather mixes what step i uses, without its make-up, and takes it from the outputs it draws on.
func (s *solver) gather(i int) (Stream, []InFlow, []Shortfall) {
	step := s.Steps[i]
	mix := newStream(len(s.Ingredients))
	inflow := make([]InFlow, len(step.Uses))
	s.parts[i] = make([]Stream, len(step.Uses))
	var short []Shortfall
	for k, u := range step.Uses {
		part := newStream(len(s.Ingredients))
		s.parts[i][k] = part
		want := s.scale[i] * s.use[i][k]
		switch {
		case k == step.MakeUp && s.written != nil:
			continue
		case u.Ingredient >= 0:
			part.addIngredient(u.Ingredient, s.Ingredients[u.Ingredient], want)
			inflow[k].Kg = want
		default:
			var miss float64
			inflow[k], miss = s.drawFrom(i, k, part)
			if miss > 1e-6*(inflow[k].Kg+miss) {
				short = append(short, Shortfall{Cause: InputShort, Use: k, WantKg: inflow[k].Kg + miss, HaveKg: inflow[k].Kg})
			}
		}
		mix.add(part, 1)
	}
	return mix, inflow, short
}

// drawFrom puts use k of step i, an earlier output, into part, with the stand-in for what is missing. It returns what went in and
// what is missing still.
func (s *solver) drawFrom(i, k int, part Stream) (InFlow, float64) {
	u := s.Steps[i].Uses[k]
	source := s.results[u.From.Step].out[u.From.Output]
	want := s.wants(i, k, source.Kg())
	left := &s.left[u.From.Step][u.From.Output]
	have := min(want, *left)
	if all := source.Kg(); all > 0 {
		part.add(source, have/all)
	}
	*left -= have
	miss := want - have
	if miss <= 1e-12*want || u.StandIn < 0 {
		return InFlow{Kg: have}, max(0, miss)
	}
	part.addIngredient(u.StandIn, s.Ingredients[u.StandIn], miss)
	return InFlow{Kg: want, StandInKg: miss}, 0
}

// wants is what use k of step i takes of an output that weighs sourceKg. All is what the other takers leave; another share is its part
// of the whole. But where packs drive the scale, each taker wants what its own scale asks for: a share only says how the dish was
// written, and all takes what is over besides.
func (s *solver) wants(i, k int, sourceKg float64) float64 {
	u := s.Steps[i].Uses[k]
	switch {
	case u.Share == 1 && s.byDemand:
		return max(s.rest(u.From, sourceKg), s.scale[i]*s.use[i][k])
	case u.Share == 1:
		return s.rest(u.From, sourceKg)
	case u.Share > 0 && !s.byDemand:
		return u.Share * sourceKg
	default:
		return s.scale[i] * s.use[i][k]
	}
}

// rest is what those who do not take all of an output leave of it.
func (s *solver) rest(from Ref, sourceKg float64) float64 {
	kg := sourceKg
	for j := range s.Steps {
		for l, u := range s.Steps[j].Uses {
			if u.Ingredient < 0 && u.From == from && u.Share < 1 {
				kg -= s.wants(j, l, sourceKg)
			}
		}
	}
	return max(0, kg)
}

// backward sets the scale of every step to the least that gives what later steps and the packs want of it.
func (s *solver) backward(want map[Ref]float64) error {
	need := make(map[Ref]float64, len(want))
	for r, kg := range want {
		need[r] = kg
	}
	for o := len(s.order) - 1; o >= 0; o-- {
		i := s.order[o]
		scale := 0.0
		for out := range s.Steps[i].Outputs {
			kg := need[Ref{i, out}]
			if kg == 0 || s.Steps[i].Outputs[out].ByProduct && !s.Steps[i].Outputs[out].Main {
				continue
			}
			x, err := s.scaleFor(i, out, kg)
			if err != nil {
				return &StepError{Step: i, Err: err}
			}
			scale = max(scale, x)
		}
		s.scale[i] = scale
		for k, u := range s.Steps[i].Uses {
			if u.Ingredient < 0 {
				need[u.From] += scale * s.use[i][k]
			}
		}
	}
	return nil
}

// scaleFor is the scale at which step i gives wantKg of an output, with its fillings as they are and its inputs made of what they
// were made of in the last pass. What a step gives grows with its scale in a straight line once its fixed losses are met, so
// Newton's rule finds the scale in a few steps.
func (s *solver) scaleFor(i, out int, wantKg float64) (float64, error) {
	gives := func(scale float64) float64 { return s.trial(i, scale).out[out].Kg() }
	x := 1.0
	if s.scale[i] > 0 {
		x = s.scale[i]
	}
	for range 60 {
		y, ahead := gives(x), gives(x*1.5)
		if near([]float64{y}, []float64{wantKg}) {
			return x, nil
		}
		slope := (ahead - y) / (0.5 * x)
		if !(slope > 0) || y <= 0 {
			if x > 1e12 {
				return 0, fmt.Errorf("%s: %w", s.Steps[i].Outputs[out].Name, ErrGivesNothing)
			}
			x *= 4 // below its fixed losses: look further out
			continue
		}
		next := x + (wantKg-y)/slope
		if next <= 0 {
			next = x / 2
		}
		if near([]float64{x}, []float64{next}) {
			return next, nil
		}
		x = next
	}
	return x, nil
}

// trial cooks step i at another scale.
func (s *solver) trial(i int, scale float64) stepResult {
	step := s.Steps[i]
	mix := newStream(len(s.Ingredients))
	for k := range step.Uses {
		part := s.parts[i][k]
		if k == step.MakeUp {
			continue
		}
		if kg := part.Kg(); kg > 0 {
			mix.add(part, scale*s.use[i][k]/kg)
		} else if u := step.Uses[k]; u.Ingredient >= 0 {
			mix.addIngredient(u.Ingredient, s.Ingredients[u.Ingredient], scale*s.use[i][k])
		} else if kg := s.written[u.From.Step].out[u.From.Output].Kg(); kg > 0 {
			mix.add(s.written[u.From.Step].out[u.From.Output], scale*s.use[i][k]/kg)
		}
	}
	if step.MakeUp >= 0 {
		return s.runMadeUp(step, mix, s.regimes[i], scale*s.writtenMain[i])
	}
	return s.run(step, mix, s.regimes[i])
}

// flow is the solver's last pass, told.
func (s *solver) flow(rounds int) Flow {
	f := Flow{Order: s.order, Bought: make([]float64, len(s.Ingredients)), Rounds: rounds, Steps: make([]StepFlow, len(s.Steps))}
	in, out := 0.0, 0.0
	for i, r := range s.results {
		sf := StepFlow{Scale: s.scale[i], In: s.in[i], InKg: r.inKg, VolumeL: r.volumeL, Vessel: s.regimes[i].vessel, Split: s.splits[i],
			Lost: r.lost, ReduceS: s.reduceTime(i), Shortages: r.short, Mixture: r.in}
		for k, u := range s.Steps[i].Uses {
			bought, kg := u.StandIn, s.in[i][k].StandInKg
			if u.Ingredient >= 0 {
				bought, kg = u.Ingredient, s.in[i][k].Kg
			}
			if bought >= 0 {
				f.Bought[bought] += kg
				in += kg
			}
		}
		for o := range r.out {
			sf.Out = append(sf.Out, OutFlow{Kg: r.out[o].Kg(), LeftKg: s.left[i][o], Stream: r.out[o]})
			out += s.left[i][o]
		}
		out += r.lost.Kg()
		f.Steps[i] = sf
	}
	if in > 0 {
		f.ClosureRel = abs(in-out) / in
	}
	return f
}

func abs(x float64) float64 { return max(x, -x) }

// reduceTime is how long step i takes to reduce, at the rate of its fillings.
func (s *solver) reduceTime(i int) float64 {
	rate := s.Steps[i].evaporationKgH(s.regimes[i]) * float64(s.regimes[i].loads)
	if s.Steps[i].ReduceTo == 0 || rate <= 0 {
		return 0
	}
	return s.results[i].lost.Evaporated / rate * 3600
}

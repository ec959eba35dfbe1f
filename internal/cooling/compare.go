package cooling

import "kettlefrost/internal/coolrule"

// Compare follows and judges each plan for one load of food, in their order. It changes nothing. What cannot be computed has the verdict
// Unknown and an error: *heat.RangeError for a value out of range, *PiecesError, or what says that a plan makes no sense.
func Compare(f Food, plans []Plan, rule coolrule.Rule) []Option { return compare(f, plans, rule, true) }

// Judge is Compare without the search for what would make a plan fit, which takes most of the time.
func Judge(f Food, plans []Plan, rule coolrule.Rule) []Option { return compare(f, plans, rule, false) }

func compare(f Food, plans []Plan, rule coolrule.Rule, fits bool) []Option {
	options := make([]Option, len(plans))
	t, err := newTask(f, rule)
	for i, p := range plans {
		if err != nil {
			options[i] = Option{Err: err}
			continue
		}
		options[i] = t.judge(p, fits)
	}
	return options
}

// Recommend is the index of the plan with the least work among those within the limits with a margin; if there is none, among the tight
// ones; -1 if none is in time. Of equal work, the one that is cold first; then the first.
func Recommend(options []Option) int {
	best := -1
	for i, o := range options {
		if o.Verdict >= Within && (best < 0 || o.before(options[best])) {
			best = i
		}
	}
	return best
}

func (o Option) before(b Option) bool {
	switch {
	case o.Verdict != b.Verdict:
		return o.Verdict > b.Verdict
	case o.HandsS != b.HandsS:
		return o.HandsS < b.HandsS
	}
	return o.TimeS < b.TimeS
}

func (t task) judge(p Plan, fits bool) Option {
	o, err := t.option(p, fits)
	if err != nil {
		return Option{Err: err}
	}
	return o
}

func (t task) option(p Plan, fits bool) (Option, error) {
	if err := p.check(t.food); err != nil {
		return Option{}, err
	}
	vessels, used := p.vessels(t.food)
	var courses [levels]course
	var verdicts [levels]coolrule.Verdict
	for l := range levels {
		var err error
		if courses[l], err = t.follow(p, used, l); err != nil {
			return Option{}, err
		}
		if verdicts[l], err = coolrule.Judge(t.rule, courses[l].crossing); err != nil {
			return Option{}, err
		}
	}
	o := Option{LowRule: verdicts[low], UsualRule: verdicts[usual], HighRule: verdicts[high]}
	o.describe(p, courses[usual], vessels, used)
	for _, c := range t.marksC {
		m := Milestone{TempC: c}
		for l, at := range []*coolrule.Crossing{&m.Low, &m.Usual, &m.High} {
			*at, _ = courses[l].crossing(c) // it has no errors
		}
		o.To = append(o.To, m)
	}
	for l := range levels {
		o.MostIceKg = max(o.MostIceKg, courses[l].iceKg())
	}
	o.Verdict = verdict(courses, verdicts, o.Short)
	o.Curve = curve(courses)
	if !fits {
		return o, nil
	}
	if o.Verdict != WithinMargin {
		o.Fit = t.fit(p, used)
	}
	o.Fit.DeepestM, o.Fit.Pans = t.deepest(p)
	return o, nil
}

func verdict(c [levels]course, v [levels]coolrule.Verdict, short Short) Verdict {
	switch {
	case !c[usual].reached:
		return Never
	case v[usual].Outcome != coolrule.WithinRule:
		return TooSlow
	case short != NothingShort:
		return NotEnough
	}
	// Warm surroundings can turn a better surface coefficient into a disadvantage, so both ends are asked.
	for _, l := range []level{low, high} {
		if v[l].Outcome != coolrule.WithinRule || c[l].shortOf != NothingShort {
			return Within
		}
	}
	return WithinMargin
}

// describe writes what the usual course is like.
func (o *Option) describe(p Plan, c course, vessels []Vessels, used []int) {
	o.TimeS, o.Taken, o.HeatJ, o.Short = c.timeS, c.taken, c.taken.SumJ(), c.shortOf
	if c.timeS > 0 {
		o.MeanW = o.HeatJ / c.timeS
	}
	endC := c.startC
	for i, l := range c.legs {
		s := StageResult{Vessels: vessels[i], Formula: l.formula, StartS: c.startsS[i], TimeS: l.timeS, Taken: l.taken, IceKg: l.iceKg, Paddles: l.paddles}
		if l.formula == NotComputed {
			s.Vessels.Need, s.FootprintM2 = 0, 0
		} else {
			endC = l.endC
			s.HandsS = handsS(p.Stages[i].Way, used[i], l)
			o.Profile = l.profile
		}
		s.EndC = endC
		o.Stages = append(o.Stages, s)
		o.HandsS += s.HandsS
		o.IceKg += s.IceKg
		o.PeakW = max(o.PeakW, l.peakW)
		o.FootprintM2 = max(o.FootprintM2, s.FootprintM2)
		if s.Vessels.Need > s.Have && o.Short == NothingShort {
			o.Short = ShortOfVessels
		}
		for _, k := range l.cautions {
			k.Stage = i
			o.Cautions = append(o.Cautions, k)
		}
	}
}

// handsS is the hands-on time of one stage.
func handsS(w Way, used int, l leg) float64 {
	work := w.work()
	hands := work.SetUpS*float64(used) + work.Tend*l.timeS
	if p, ok := w.(Pot); ok {
		hands += p.Paddles.ChangeS * float64(l.paddles)
	}
	return hands
}

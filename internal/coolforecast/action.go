package coolforecast

import (
	"cmp"
	"math"
	"slices"

	"kettlefrost/internal/cooling"
	"kettlefrost/internal/coolrule"
)

// Action is something that could be done now: another way of cooling, from the temperature of now.
type Action struct {
	ID     string
	Name   string
	Plan   cooling.Plan
	ReadyS float64 // until it has begun; meanwhile the food counts as not cooling
}

// Prospect is an action followed by internal/cooling from the temperature of now. Good, Usual and Bad are its high, usual and low surface
// coefficients.
type Prospect struct {
	Action  Action
	Outcome Outcome
	Limits  []ProspectLimit // those still ahead
	Option  cooling.Option  // times from when it has begun
	LatestS float64         // done until then, every limit is still met at its low surface coefficients; NaN when it is too late for that
	Err     error           // Unsaid: why it cannot be computed
}

// ProspectLimit is when a limit is reached after an action.
type ProspectLimit struct {
	Stage     coolrule.Stage
	DeadlineS float64
	ReachedS  Span
	MarginS   Span
}

// MarginS is the least margin at the low surface coefficients; NaN when nothing is ahead or nothing is known.
func (p Prospect) MarginS() float64 {
	least := math.NaN()
	for _, l := range p.Limits {
		if !(least < l.MarginS.Bad) {
			least = l.MarginS.Bad
		}
	}
	return least
}

// left is what is still ahead of a food as a rule that begins now, with the stages of the case's rule that it is made of; false when nothing is.
// Limits are lower by what thermometers may read wrong, since a reading must show them.
func (c Case) left(f Forecast, readyS float64) (rule coolrule.Rule, of []coolrule.Stage, any bool) {
	rule = c.Rule
	rule.Stages = nil
	for _, x := range f.Limits {
		s := x.Stage
		s.ToC -= c.AccuracyC
		switch {
		case x.State != Ahead:
			continue
		case x.Started:
			s.Start, s.WithinS = coolrule.AtTheStart, x.DeadlineS-c.NowS-readyS
		case s.Start == coolrule.AtFromC:
			s.FromC += c.AccuracyC
		}
		s.WithinS = max(1, s.WithinS)
		rule.Stages, of = append(rule.Stages, s), append(of, x.Stage)
	}
	return rule, of, len(rule.Stages) > 0
}

// Prospects follows actions from tempC now and ranks them: what meets every limit at its low surface coefficients comes first, of those the
// one with the least work, then what has more time to spare.
func (c Case) Prospects(f Forecast, food cooling.Food, tempC float64, actions []Action) []Prospect {
	all := make([]Prospect, 0, len(actions))
	food.StartC = tempC
	for _, a := range actions {
		all = append(all, c.prospect(f, food, a))
	}
	slices.SortStableFunc(all, func(a, b Prospect) int {
		if by := cmp.Compare(prospectRank(a), prospectRank(b)); by != 0 {
			return by
		}
		if a.Outcome == Meets {
			return cmp.Or(cmp.Compare(a.Option.HandsS, b.Option.HandsS), cmp.Compare(b.MarginS(), a.MarginS()))
		}
		return cmp.Compare(b.usualS(), a.usualS())
	})
	return all
}

// usualS is the least margin at the usual surface coefficients.
func (p Prospect) usualS() float64 {
	least := math.Inf(1)
	for _, l := range p.Limits {
		least = min(least, l.MarginS.Usual)
	}
	return least
}

// prospectRank orders what comes of actions. One that lacks vessels or ice can be done with a part of the food: it comes after what can be done with
// all of it, and before what helps nothing.
func prospectRank(p Prospect) int {
	short := 0
	if p.Option.Short != cooling.NothingShort {
		short = 2
	}
	switch p.Outcome {
	case Meets:
		return short
	case InDoubt:
		return 1 + short
	case Misses:
		return 4 + short
	}
	return 9
}

func (c Case) prospect(f Forecast, food cooling.Food, a Action) Prospect {
	p := Prospect{Action: a, Outcome: Unsaid, LatestS: math.NaN()}
	rule, of, any := c.left(f, a.ReadyS)
	if !any {
		return p
	}
	p.Option = cooling.Judge(food, []cooling.Plan{a.Plan}, rule)[0]
	if p.Err = p.Option.Err; p.Err != nil {
		return p
	}
	p.Outcome = Meets
	for i, stage := range rule.Stages {
		l := ProspectLimit{Stage: of[i], DeadlineS: c.NowS + a.ReadyS + stage.WithinS}
		milestone := p.milestone(stage.ToC)
		for _, x := range []struct {
			rule              coolrule.Verdict
			at                coolrule.Crossing
			reachedS, marginS *float64
		}{
			{p.Option.HighRule, milestone.High, &l.ReachedS.Good, &l.MarginS.Good},
			{p.Option.UsualRule, milestone.Usual, &l.ReachedS.Usual, &l.MarginS.Usual},
			{p.Option.LowRule, milestone.Low, &l.ReachedS.Bad, &l.MarginS.Bad},
		} {
			if *x.reachedS, *x.marginS = math.Inf(1), math.Inf(-1); x.at.Reached {
				*x.reachedS, *x.marginS = c.NowS+a.ReadyS+x.at.TimeS, x.rule.Stages[i].MarginS
			}
		}
		if l.MarginS.Good < l.MarginS.Bad { // air that warms can make a better coefficient the slower one
			l.ReachedS.Good, l.ReachedS.Bad = l.ReachedS.Bad, l.ReachedS.Good
			l.MarginS.Good, l.MarginS.Bad = l.MarginS.Bad, l.MarginS.Good
		}
		p.Limits = append(p.Limits, l)
		if o := outcomeOf(l.MarginS); !stage.Advisory && gravity[o] > gravity[p.Outcome] {
			p.Outcome = o
		}
	}
	p.LatestS = c.latest(f, p, rule)
	return p
}

// milestone is when it passes a temperature of the rule.
func (p Prospect) milestone(tempC float64) cooling.Milestone {
	i := slices.IndexFunc(p.Option.To, func(m cooling.Milestone) bool { return math.Abs(m.TempC-tempC) < 1e-6 })
	if i < 0 {
		return cooling.Milestone{}
	}
	return p.Option.To[i]
}

const (
	latestStepS = 60
	lagK        = 2 // the middle of unstirred food has cooled by this when a new way has come through to it
)

// latest is until when an action may wait: meanwhile the food goes along the warm end of its forecast, and then takes as long as the action takes
// from there at its low surface coefficients, with the time again until it is felt in the middle.
func (c Case) latest(f Forecast, p Prospect, rule coolrule.Rule) float64 {
	if p.Outcome != Meets || len(p.Option.Curve) == 0 || len(f.Band) == 0 {
		return math.NaN()
	}
	slow := make([]coolrule.Mark, 0, len(p.Option.Curve))
	for _, x := range p.Option.Curve {
		if n := len(slow); n == 0 || x.LowC < slow[n-1].TempC {
			slow = append(slow, coolrule.Mark{TempC: x.LowC, TimeS: x.TimeS})
		}
	}
	when, err := coolrule.FromMarks(slow...)
	if err != nil {
		return math.NaN()
	}
	at := func(tempC float64) float64 {
		x, _ := when(tempC) // it has no errors
		return x.TimeS
	}
	lagS := at(slow[0].TempC - lagK)
	latest := math.NaN()
	for t := c.NowS; ; t += latestStepS {
		tempC := f.warmC(t)
		for i, stage := range rule.Stages {
			if stage.Start == coolrule.AtFromC {
				return latest // its clock has not started, so that nothing can be said
			}
			left := at(stage.ToC) - max(0, at(tempC)-lagS)
			if tempC > stage.ToC && !stage.Advisory && t+p.Action.ReadyS+left > p.Limits[i].DeadlineS {
				return latest
			}
		}
		if latest = t; t > p.Limits[len(p.Limits)-1].DeadlineS {
			return latest
		}
	}
}

// warmC is the warm end of the forecast at a time.
func (f Forecast) warmC(timeS float64) float64 {
	b := f.Band
	for i := 1; i < len(b); i++ {
		if timeS <= b[i].TimeS {
			along := max(0, (timeS-b[i-1].TimeS)/(b[i].TimeS-b[i-1].TimeS))
			return b[i-1].HighC + along*(b[i].HighC-b[i-1].HighC)
		}
	}
	return b[len(b)-1].HighC
}

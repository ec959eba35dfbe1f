package app

import (
	"kettlefrost/internal/board"
	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/coollog"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/hazards"
	"kettlefrost/internal/record"
)

// settle works out the case of a load and its forecast.
func (c *Cooling) settle(b *Boards, p *Production, stages []*board.Task, now record.Instant) {
	c.Case = coolforecast.Case{Rule: ruleOf(c.Log, hazards.CoolRule(p.Book)), MediumC: unknownAirC}
	logs := c.sinceReheated()
	c.Zero = now
	for _, l := range logs {
		for _, r := range l.Readings[:min(1, len(l.Readings))] {
			c.Zero = min(c.Zero, r.At)
		}
	}
	c.Case.NowS = c.seconds(now)
	c.Case.Logs = c.series(logs)
	if v := c.Log.Accuracy; v != nil {
		c.Case.AccuracyC = v.C
	}
	c.began(stages)
	c.way = c.cooledBy(p, stages)
	c.Way = c.way.name
	c.Case.Model = c.model(b, p)
	switch c.Log.Why {
	case critical.WhyReheated, critical.WhyRewarmed, critical.WhyUnusable, critical.WhyDisorder:
		c.Problem, c.Forecast = c.Log.Says, coolforecast.Nothing()
		return
	}
	var err error
	if c.Forecast, err = coolforecast.Of(c.Case); err != nil {
		c.Problem = err.Error()
	}
}

// ruleOf is the rule by which a record is judged: that of the plan in force, with its figures. Before anything is read it is the kitchen's.
func ruleOf(v critical.Verdict, kitchens coolrule.Rule) coolrule.Rule {
	for _, r := range v.Rules {
		if !r.Decides || len(r.Stages) == 0 {
			continue
		}
		rule := coolrule.Rule{ID: r.Rule, Title: r.Title, Scope: r.Scope, Source: r.Source}
		for _, s := range r.Stages {
			stage := coolrule.Stage{Name: s.Name, ToC: s.ToC, WithinS: s.WithinS, Advisory: s.Advisory, Start: coolrule.AtTheStart}
			if s.FromC != nil {
				stage.FromC, stage.Start = *s.FromC, coolrule.AtFromC
			}
			rule.Stages = append(rule.Stages, stage)
		}
		return rule
	}
	return kitchens
}

// unknownAirC is taken to be around food of which nobody knows how it is cooled: the air of a walk-in.
const unknownAirC = 3

func (c *Cooling) seconds(at record.Instant) float64 { return float64(at-c.Zero) / 1000 }

// sinceReheated is what was read of this cooling: all, or what was read since it was heated again, which begins with the temperature that it
// was heated to. It is the log that package critical judges.
func (c *Cooling) sinceReheated() []critical.Log {
	last := critical.Act{}
	for _, a := range c.Log.Acted {
		if a.Did == record.Reheated && a.Temp != nil {
			c.Reheats++
			last = a
		}
	}
	if c.Reheats == 0 {
		return c.Log.Logs
	}
	logs := []critical.Log{}
	for _, l := range c.Log.Logs {
		after := critical.Log{Where: l.Where, Readings: []critical.Reading{{At: last.At, TempC: last.Temp.C(), Who: last.Who}}}
		for _, r := range l.Readings {
			if r.At > last.At {
				after.Readings = append(after.Readings, r)
			}
		}
		logs = append(logs, after)
	}
	return logs
}

// series are the readings that count, the warmest of each time.
func (c *Cooling) series(logs []critical.Log) []coollog.Log {
	var all []coollog.Log
	for _, l := range logs {
		x := coollog.Log{Point: l.Where}
		for _, r := range l.Readings {
			s, n := c.seconds(r.At), len(x.Readings)
			switch {
			case r.Unusable || s > c.Case.NowS:
			case n > 0 && s <= x.Readings[n-1].TimeS:
				x.Readings[n-1].TempC = max(x.Readings[n-1].TempC, r.TempC)
			default:
				x.Readings = append(x.Readings, coollog.Reading{TimeS: s, TempC: r.TempC})
			}
		}
		all = append(all, x)
	}
	return all
}

// began takes from the verdict when the clock started, where no reading of the cooling shows it.
func (c *Cooling) began(stages []*board.Task) {
	if len(c.Log.Rules) == 0 || len(c.Log.Rules[0].Stages) == 0 {
		return
	}
	if at := c.Log.Rules[0].Stages[0].Start; at != 0 && at <= c.Zero {
		s := c.seconds(at)
		c.Case.BeganS = &s
	}
}

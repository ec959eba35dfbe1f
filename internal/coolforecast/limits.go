package coolforecast

import (
	"math"

	"kettlefrost/internal/coollog"
	"kettlefrost/internal/coolrule"
)

// Of is what is to be expected. Errors: *CaseError and *heat.RangeError for a case that makes no sense, *coollog.LogError for readings that do not.
func Of(c Case) (Forecast, error) {
	if err := c.check(); err != nil {
		return Nothing(), err
	}
	c.Logs = readLogs(c.Logs)
	read, err := coollog.Judge(c.Rule, c.Logs, coollog.Options{AccuracyC: c.AccuracyC, BeganS: c.BeganS})
	if err != nil {
		return Nothing(), err
	}
	f := Nothing()
	fits := make([]fit, max(1, len(c.Logs)))
	if len(c.Logs) == 0 {
		if c.Model == nil {
			f.Why, f.Due = NoReadings, Due{c.NowS, DueFirst}
			return f, nil
		}
		fits[0] = c.fit(coollog.Log{})
	}
	for i, l := range c.Logs {
		fits[i] = c.fit(l)
		if at := l.Readings[len(l.Readings)-1].TimeS; !(f.LastS > at) {
			f.LastS = at
		}
	}
	worst := make([]int, len(c.Rule.Stages)) // the fit of the point that is worst for each stage
	for i, stage := range c.Rule.Stages {
		var limit Limit
		for j := range fits {
			x := c.limit(stage, read.Each[i*len(fits)+j], fits[j])
			if j == 0 || x.worse(limit) {
				limit, worst[i] = x, j
			}
		}
		f.Limits = append(f.Limits, limit)
	}
	f.decide(len(c.Logs) > 0)
	of := fits[0]
	if f.Decides >= 0 {
		of = fits[worst[f.Decides]]
	}
	f.draw(of, c)
	f.Due = c.due(f)
	return f, nil
}

// readLogs leaves out points at which nothing was read.
func readLogs(all []coollog.Log) []coollog.Log {
	var some []coollog.Log
	for _, l := range all {
		if len(l.Readings) > 0 {
			some = append(some, l)
		}
	}
	return some
}

// fit is what one point of the food does.
func (c Case) fit(l coollog.Log) fit {
	if c.Model != nil {
		last := c.Model.Curve[len(c.Model.Curve)-1]
		var since []coollog.Reading
		for _, r := range l.Readings {
			if r.TimeS >= c.Model.FromS {
				since = append(since, r)
			}
		}
		if shapes := c.Model.shapes(last.MediumC); len(shapes) > 0 {
			return fitted(shapes, c.Model.FromS, since, prior{c.Model.Curve[0].CoreC, c.Model.StartK, last.MediumC, mediumDoubtK})
		}
	}
	mediumC := c.MediumC
	if c.Model != nil {
		mediumC = c.Model.Curve[len(c.Model.Curve)-1].MediumC
	}
	if len(l.Readings) == 0 {
		return fit{}
	}
	first := l.Readings[0]
	return fitted([]shape{openShape()}, first.TimeS, l.Readings, prior{first.TempC, openStartK, mediumC, mediumDoubtK})
}

// slackS is what time is told by: nobody judges seconds.
const slackS = 1e-6

// limit is one stage at one point: as read, and else as forecast.
func (c Case) limit(stage coolrule.Stage, read coollog.StageVerdict, f fit) Limit {
	x := Limit{Stage: stage, Point: read.Point, Read: read, StartS: math.NaN(), DeadlineS: math.NaN(), ReachedS: unknown, MarginS: unknown}
	switch read.Why {
	case coollog.NoReadings, coollog.StartsCold, coollog.NotBegun:
	default:
		x.Started, x.StartS, x.DeadlineS = true, read.StartS, read.DeadlineS
	}
	switch read.Outcome {
	case coollog.Pass:
		at := read.DeadlineS - read.MarginS
		x.State, x.Outcome, x.ReachedS, x.MarginS = Met, Over, Span{at, at, at}, Span{read.MarginS, read.MarginS, read.MarginS}
		return x
	case coollog.Fail:
		x.State, x.Outcome = Late, Missed
	default:
		x.State, x.Outcome = Ahead, Unsaid
	}
	if len(f.courses) == 0 {
		return x
	}
	x.ReachedS = f.reached(stage.ToC - c.AccuracyC)
	switch {
	case x.State == Late || read.Why == coollog.StartsCold:
	case read.Why == coollog.Between, x.Started && c.NowS > x.DeadlineS+slackS:
		x.State = Open
		if read.Why != coollog.Between && x.ReachedS.Good > x.DeadlineS {
			x.Outcome = Misses
		}
	default:
		x.MarginS = f.margin(stage, x, c.AccuracyC)
		if !x.Started {
			x.StartS = f.crossing(stage.FromC + c.AccuracyC)
			x.DeadlineS = x.StartS + stage.WithinS
		}
		x.Outcome = outcomeOf(x.MarginS)
		if read.Why == coollog.NoReadings {
			x.Outcome = Unsaid
		}
	}
	return x
}

var unknown = Span{math.NaN(), math.NaN(), math.NaN()}

func outcomeOf(margin Span) Outcome {
	switch {
	case margin.Bad >= 0:
		return Meets
	case margin.Good < 0:
		return Misses
	}
	return InDoubt
}

// gravity orders outcomes from good to bad.
var gravity = map[Outcome]int{Over: 0, Meets: 1, Unsaid: 2, InDoubt: 3, Misses: 4, Missed: 5}

func (x Limit) worse(than Limit) bool {
	if gravity[x.Outcome] != gravity[than.Outcome] {
		return gravity[x.Outcome] > gravity[than.Outcome]
	}
	return x.MarginS.Bad < than.MarginS.Bad
}

func (f *Forecast) decide(read bool) {
	for i, x := range f.Limits {
		if !x.Stage.Advisory && (f.Decides < 0 || x.worse(f.Limits[f.Decides])) {
			f.Decides = i
		}
	}
	f.Outcome = Unsaid
	if f.Decides < 0 {
		f.Why = NoLimits
		return
	}
	x := f.Limits[f.Decides]
	f.Outcome = x.Outcome
	switch {
	case !read:
		f.Outcome, f.Why = Unsaid, NoReadings
	case x.State == Met || x.State == Late:
		f.Why = ByLimit
	case x.State == Open:
		f.Why = NotRead
	case x.Outcome == Unsaid:
		f.Why = NoClock
	default:
		f.Why = ByForecast
	}
}

package app

import (
	"cmp"
	"slices"
	"strings"

	"kettlefrost/internal/board"
	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/cooling"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// cooledBy is how a load is cooled since when, and from what temperature.
type cooledBy struct {
	name   string
	id     string // of the way, as plan.Chillers has it; "" when nobody knows
	stage  int    // of that way, where it begins
	since  record.Instant
	fromC  float64
	doubtK float64
	chill  plan.Chill
}

// NowBy is how an entry tells which way food was put into: its text begins so. The board's own buttons write it.
const NowBy = "Now: "

// cooledBy finds how the load is cooled: by the stage of its plan that was begun last, or by what somebody said they had done since.
func (c *Cooling) cooledBy(p *Production, stages []*board.Task) cooledBy {
	i := slices.IndexFunc(p.First.Chill, func(x plan.Chill) bool { return x.Dish == c.Log.Dish && x.Output == c.Log.Output })
	if i < 0 {
		return cooledBy{since: c.firstRead(), doubtK: readDoubtK}
	}
	by := cooledBy{chill: p.First.Chill[i], since: c.firstRead(), doubtK: readDoubtK}
	c.Mass = by.chill.Mass / unit.Mass(max(1, c.Log.Loads))
	if by.chill.Chosen >= 0 {
		by.id, by.name = by.chill.Options[by.chill.Chosen].ID, by.chill.Options[by.chill.Chosen].Name
	}
	by.fromC = c.tempAt(by.since, by.chill.From.C())
	for n, t := range stages {
		if t.Is == board.ToDo || t.Is == board.Skipped || t.Unmarked {
			continue
		}
		by.since, by.stage = t.Began, n
		if by.fromC, by.doubtK = by.chill.From.C(), planDoubtK; n > 0 {
			by.fromC, by.doubtK = c.tempAt(t.Began, by.fromC), readDoubtK
		}
	}
	return c.acted(by)
}

// Doubt of where a predicted curve begins, a standard deviation: as planned, and as read (common practice).
const (
	planDoubtK = 5
	readDoubtK = 2
)

// acted is how it is cooled since somebody did something about it.
func (c *Cooling) acted(by cooledBy) cooledBy {
	for _, a := range c.Log.Acted {
		if a.At < by.since || a.Did == record.Discarded {
			continue
		}
		name, said := strings.CutPrefix(string(a.Text), NowBy)
		switch name, _, _ = strings.Cut(name, "\n"); {
		case said:
			by.id, by.name, by.stage = "", strings.TrimSuffix(name, "."), 0
		case a.Did == record.Relocated || a.Did == record.Shallower || a.Did == record.OtherDeed || a.Did == record.Stirred:
			by.id, by.name, by.stage = "", "", 0
		}
		if a.Did == record.Reheated {
			by.stage = 0
		}
		by.since, by.doubtK = a.At, readDoubtK
		if by.fromC = c.tempAt(a.At, by.fromC); a.Temp != nil {
			by.fromC = a.Temp.C()
		}
		c.Moved = string(a.Did)
	}
	return by
}

// firstRead is when it was read first; 0 for never.
func (c *Cooling) firstRead() record.Instant {
	if len(c.Case.Logs) == 0 {
		return 0
	}
	return c.Zero
}

// tempAt is the warmest of what was read last at each point before a time, or what is given where nothing was.
func (c *Cooling) tempAt(at record.Instant, otherwise float64) float64 {
	found, warmest := false, 0.0
	for _, l := range c.Case.Logs {
		for _, r := range slices.Backward(l.Readings) {
			if c.At(r.TimeS) <= at+60_000 {
				if !found || r.TempC > warmest {
					found, warmest = true, r.TempC
				}
				break
			}
		}
	}
	if !found {
		return otherwise
	}
	return warmest
}

// model is the curve that is predicted for the way the load is cooled; nil when that is not known.
func (c *Cooling) model(b *Boards, p *Production) *coolforecast.Model {
	if c.Mass <= 0 || c.way.since == 0 {
		return nil
	}
	food, ways, err := plan.Chillers(p.Book, b.house.Foods(), kitchen.DishID(c.Log.Dish), kitchen.OutputID(c.Log.Output), c.Mass, unit.TempC(c.way.fromC))
	if err != nil {
		return nil
	}
	i := slices.IndexFunc(ways, func(w plan.Chiller) bool { return w.ID == c.way.id || c.way.id == "" && w.Name == c.way.name })
	if i < 0 {
		return nil
	}
	c.way.id = ways[i].ID
	way := ways[i].Plan
	way.Stages = way.Stages[min(c.way.stage, len(way.Stages)-1):]
	o := cooling.Judge(food, []cooling.Plan{way}, c.Case.Rule)[0]
	if o.Err != nil || len(o.Curve) < 2 {
		return nil
	}
	m := &coolforecast.Model{FromS: c.seconds(c.way.since), Curve: o.Curve, StartK: cmp.Or(c.way.doubtK, readDoubtK)}
	if len(o.Stages) > 1 && o.Stages[1].Formula != cooling.NotComputed {
		m.BendS = o.Stages[1].StartS
	}
	return m
}

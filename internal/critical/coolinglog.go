package critical

import (
	"kettlefrost/internal/coollog"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/record"
)

// backC is how far the food may seem to get warmer again while it cools: stirring does that.
const backC = 2

// again finds food that got warm again: over a limit that it had met, or over the temperature that the clock starts at.
func (c *cooled) again(r coolrule.Rule, logs []coollog.Log) (atC, wasC float64, warm bool) {
	slack := backC + 2*c.e.worst.C
	for _, s := range r.Stages {
		for _, l := range logs {
			hot, met := c.hot != 0, false
			low := s.FromC - slack
			fell := false
			for _, x := range l.Readings {
				hot = hot || x.TempC >= s.FromC-slackC || s.Start == coolrule.AtTheStart
				fell = fell || hot && x.TempC < low
				met = met || hot && x.TempC <= s.ToC+slackC
				switch {
				case met && x.TempC > s.ToC+slack:
					return x.TempC, s.ToC, true
				case fell && s.Start == coolrule.AtFromC && x.TempC >= s.FromC-slackC:
					return x.TempC, low, true
				}
			}
		}
	}
	return 0, 0, false
}

func (c *cooled) seconds(at record.Instant) float64 { return float64(at-c.base) / 1000 }

// series are the readings to be judged: of one time, the warmest.
func (c *cooled) series(doubtfulToo bool) []coollog.Log {
	var all []coollog.Log
	for _, l := range c.logs {
		x := coollog.Log{Point: l.Where}
		for _, r := range l.Readings {
			if r.Unusable || r.Doubtful && !doubtfulToo {
				continue
			}
			n := len(x.Readings)
			if s := c.seconds(r.At); n > 0 && s <= x.Readings[n-1].TimeS {
				x.Readings[n-1].TempC = max(x.Readings[n-1].TempC, r.TempC)
			} else {
				x.Readings = append(x.Readings, coollog.Reading{TimeS: s, TempC: r.TempC})
			}
		}
		all = append(all, x)
	}
	return all
}

// reading is the reading of a log that a verdict names.
func (c *cooled) reading(where string, i int) (Reading, bool) {
	if i < 0 {
		return Reading{}, false
	}
	for _, l := range c.read {
		if l.Point == where && i < len(l.Readings) {
			return Reading{At: c.instant(l.Readings[i].TimeS), TempC: l.Readings[i].TempC}, true
		}
	}
	return Reading{}, false
}

// lastHot is when the food of a load was surely hotter than where the clock starts, by what was measured while it was cooked, before anything
// was read of its cooling.
func (p Production) lastHot(n need, e evidence, set Setting, rule coolrule.Rule) record.Instant {
	first := e.logs[0].Readings[0].At
	for _, l := range e.logs {
		first = min(first, l.Readings[0].At)
	}
	fromC := rule.Stages[0].FromC
	last := record.Instant(0)
	hot := func(at record.Instant, tempC float64, instrument string) {
		t := set.Trust(instrument, at)
		if !t.Unusable && at <= first && tempC-max(t.AccuracyC, codeC(t)) >= fromC {
			last = max(last, at)
		}
	}
	for _, t := range p.told {
		switch b := t.Says.(type) {
		case record.Measured:
			if n.from != "" && under(b.Task, n.from) {
				hot(t.Happened, b.Temp.C(), b.Instrument)
			}
		case record.Watched:
			if n.from != "" && under(b.Task, n.from) {
				for _, r := range set.Read[t.ID] {
					hot(r.At, r.TempC, b.Probe)
				}
			}
		}
	}
	return last
}

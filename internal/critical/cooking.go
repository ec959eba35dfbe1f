package critical

import (
	"fmt"
	"math"

	"kettlefrost/internal/coollog"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
)

// hotterC above a limit's temperature its time is as good as none: see haccp, which counts a step as cooking by the same.
const hotterC = 10

// cooking judges whether the coldest spot of a load was as hot as it must be, for as long.
func (p Production) cooking(n need, set Setting) Verdict {
	e := p.evidence(n, set)
	if e.empty() {
		return n.nothing(e, "the temperature of the coldest spot, with its time")
	}
	v := n.v
	v.Logs, v.Acted, v.Doubtful, v.Accuracy = e.logs, e.acts, e.doubtful(), &e.worst
	if !e.usable() {
		v.Outcome, v.Why, v.Says, v.Fix = Incomplete, WhyUnusable, nothingCounts, "measure with another"
		return v
	}
	tempC, holdS, ok := n.limit.Hot()
	v.LimitC, v.HoldS = &tempC, holdS
	if !ok {
		v.Outcome, v.Why, v.Says, v.Fix = Incomplete, WhyDisorder, "its limit has no temperature", "look at the hazard plan"
		return v
	}
	h := heated{n: n, set: set, accuracyC: e.worst.C, tempC: tempC, holdS: holdS}
	v = h.judge(v, e, true)
	if e.doubtful() > 0 {
		sure := h.judge(v, e, false)
		switch {
		case sure.Outcome == v.Outcome:
		case v.Outcome == Pass:
			sure.Outcome, sure.Why = Incomplete, WhyOdd
			sure.Says = words("some readings are doubtful, and it passes only with them", sure.Says)
			v = sure
		case sure.Outcome == Pass:
			v.Outcome, v.Why = Worse(Incomplete, v.Outcome), WhyOdd
			v.Says = words("some readings are doubtful, and it passes only without them", v.Says)
		}
	}
	v.Lethality = killed(h.series(e, true), set.Class(n.v.Dish))
	return v
}

// heated judges one load.
type heated struct {
	n                       need
	set                     Setting
	accuracyC, tempC, holdS float64
}

// judge takes the worst of the points in the food.
func (h heated) judge(v Verdict, e evidence, doubtfulToo bool) Verdict {
	var worst *Verdict
	base := e.logs[0].Readings[0].At
	for _, l := range h.series(e, doubtfulToo) {
		if len(l.Readings) == 0 {
			continue
		}
		x := h.point(v, l, base)
		if worst == nil || Worse(worst.Outcome, x.Outcome) != worst.Outcome || x.Outcome == worst.Outcome && *x.MarginC < *worst.MarginC {
			worst = &x
		}
	}
	if worst == nil {
		v.Outcome, v.Why, v.Says, v.Fix = Incomplete, WhyOdd, "every reading is doubtful", "measure again"
		return v
	}
	return *worst
}

// point judges the readings of one point: the hottest that was held long enough.
func (h heated) point(v Verdict, l coollog.Log, base record.Instant) Verdict {
	best := 0
	for i, r := range l.Readings {
		if r.TempC > l.Readings[best].TempC {
			best = i
		}
	}
	at, held := best, false
	for _, offC := range []float64{h.accuracyC, 0} { // at the bad end of the thermometer first
		if i, ok := h.held(l, offC); ok {
			at, held = i, true
			v.Outcome, v.Why = Pass, WhyReached
			if offC == 0 && h.accuracyC > 0 {
				v.Outcome, v.Why = Incomplete, WhyByItsError
			}
			break
		}
	}
	hottest := l.Readings[best].TempC
	r := l.Readings[at]
	marginC := hottest - h.tempC
	v.Where, v.At, v.TempC, v.MarginC = l.Point, base+record.Instant(math.Round(r.TimeS*1000)), &r.TempC, &marginC
	need := h.set.temp(h.tempC)
	if h.holdS > 0 {
		need += " for " + span(h.holdS)
	}
	is := fmt.Sprintf("%s at %s", h.set.temp(r.TempC), h.set.Clock(v.At))
	switch {
	case v.Outcome == Pass && held:
		v.Says, v.Fix = fmt.Sprintf("%s: it had to be %s", is, need), ""
	case held:
		v.Says, v.Fix = fmt.Sprintf("%s: it had to be %s, and the thermometer may be wrong by %s", is, need, thermometers.Difference(h.accuracyC, h.set.Units)), "go on heating and measure again, or check the thermometer in ice water"
	case hottest >= h.tempC-slackC:
		v.Outcome, v.Why = Incomplete, WhyTooShort
		v.Says, v.Fix = fmt.Sprintf("%s, and nothing shows that it was held: it had to be %s", is, need), "measure the same spot again after that time"
	case h.n.ended:
		v.Outcome, v.Why = Fail, WhyTooCold
		v.Says, v.Fix = fmt.Sprintf("at most %s: it had to be %s", is, need), "if it was hotter later and somebody measured that, enter it; otherwise a named person decides what becomes of the lots"
	default:
		v.Outcome, v.Why = Incomplete, WhyTooCold
		v.Says, v.Fix = fmt.Sprintf("at most %s so far: it has to be %s", is, need), "go on heating, and measure again"
	}
	return v
}

// held finds the reading by which the limit was held: readings at or over it for its time without one under it between, or one so much hotter
// that its time is as good as none.
func (h heated) held(l coollog.Log, offC float64) (at int, ok bool) {
	ran := -1
	for i, r := range l.Readings {
		switch c := r.TempC - offC; {
		case h.holdS < longHoldS && c >= h.tempC+hotterC-slackC:
			return i, true
		case c < h.tempC-slackC:
			ran = -1
			continue
		case ran < 0:
			ran = i
		}
		if r.TimeS-l.Readings[ran].TimeS >= h.holdS-1e-6 {
			return i, true
		}
	}
	return 0, false
}

// longHoldS is a time that heat does not shorten: beans are boiled for half an hour, and no pot gets hotter than that.
const longHoldS = 600

// series are the readings to be judged: of one time, the coldest.
func (h heated) series(e evidence, doubtfulToo bool) []coollog.Log {
	var all []coollog.Log
	base := e.logs[0].Readings[0].At
	for _, l := range e.logs {
		x := coollog.Log{Point: l.Where}
		for _, r := range l.Readings {
			if r.Unusable || r.Doubtful && !doubtfulToo {
				continue
			}
			n, s := len(x.Readings), float64(r.At-base)/1000
			if n > 0 && s <= x.Readings[n-1].TimeS {
				x.Readings[n-1].TempC = min(x.Readings[n-1].TempC, r.TempC)
			} else {
				x.Readings = append(x.Readings, coollog.Reading{TimeS: s, TempC: r.TempC})
			}
		}
		all = append(all, x)
	}
	return all
}

package critical

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"kettlefrost/internal/coollog"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/unit"
)

// cooled is a load on its way to being judged by the rules of cooling.
type cooled struct {
	n    need
	set  Setting
	e    evidence
	base record.Instant // that seconds are counted from
	logs []Log          // what is judged, after a reheating if there was one
	read []coollog.Log  // the same as it is judged now
	hot  record.Instant // when it was surely still hot, by what was measured while it was cooked; 0 when nobody knows
}

// cooling judges the cooling log of a load.
func (p Production) cooling(n need, set Setting) Verdict {
	e := p.evidence(n, set)
	const what = "the temperatures of the warmest spot with their times: at the start, every hour and at the end of each stage"
	if e.empty() {
		return n.nothing(e, what)
	}
	v := n.v
	v.Logs, v.Acted, v.Doubtful, v.Accuracy = e.logs, e.acts, e.doubtful(), &e.worst
	if !e.usable() {
		v.Outcome, v.Why, v.Says, v.Fix = Incomplete, WhyUnusable, nothingCounts, "enter what another thermometer read, if one was in it"
		return v
	}
	rule, ok := RuleOf(n.limit)
	if !ok {
		v.Outcome, v.Why, v.Says, v.Fix = Incomplete, WhyDisorder, "the kitchen's cooling rule "+n.limit.Rule+" is not known here", "name a rule of the table in the book: safety, cooling"
		return v
	}
	c := &cooled{n: n, set: set, e: e, base: e.logs[0].Readings[0].At, logs: slices.Clone(e.logs), hot: p.lastHot(n, e, set, rule)}
	if again := c.reheated(&v); again {
		return v
	}
	c.judge(&v, rule)
	c.grows(&v)
	return v
}

// accuracy is how far wrong the thermometers may have read, in words.
func (c *cooled) accuracy() string { return thermometers.Difference(c.e.worst.C, c.set.Units) }

func (c *cooled) instant(s float64) record.Instant {
	return c.base + record.Instant(math.Round(s*1000))
}

// reheatC is how hot food must be when it is cooled once more. FDA Food Code 3-403.11(A).
var reheatC = unit.TempF(165).C()

// reheated starts the log at a reheating. It may be done once, and must reach 165 °F; then what was read before stays to be seen and the cooling
// after it is judged. It says whether there is nothing more to judge.
func (c *cooled) reheated(v *Verdict) (ended bool) {
	var acts []Act
	for _, a := range c.e.acts {
		if a.Did == record.Reheated {
			acts = append(acts, a)
		}
	}
	switch {
	case len(acts) == 0:
		return false
	case len(acts) > 1:
		v.Outcome, v.Why, v.At = Fail, WhyReheated, acts[1].At
		v.Says, v.Fix = "it was heated again twice: food may be heated and cooled again once only", "throw it away, and write that down"
		return true
	}
	a := acts[0]
	if a.Temp == nil || a.Temp.C() < reheatC-slackC {
		v.Outcome, v.Why, v.At = Incomplete, WhyRewarmed, a.At
		v.Says, v.Fix = "it was heated again, and nothing shows that it reached 165 °F", "correct the entry if it did; otherwise a named person decides"
		return true
	}
	for i, l := range c.logs {
		after := Log{Where: l.Where, Readings: []Reading{{At: a.At, TempC: a.Temp.C(), Who: a.Who}}}
		for _, r := range l.Readings {
			if r.At > a.At {
				after.Readings = append(after.Readings, r)
			}
		}
		c.logs[i] = after
	}
	c.base = a.At
	return false
}

const slackC = 1e-9

// judge holds the readings against each rule; the kitchen's decides.
func (c *cooled) judge(v *Verdict, own coolrule.Rule) {
	for i, r := range alsoShown(own) {
		x := c.byRule(r, i == 0)
		v.Rules = append(v.Rules, x)
	}
	x := v.Rules[0]
	v.Outcome, v.Why, v.Says = x.Outcome, x.Why, x.Says
	for _, s := range x.Stages {
		if s.Outcome == x.Outcome && s.Why == x.Why && !s.Advisory {
			v.Where, v.At, v.TempC, v.MarginS = s.Where, s.At, s.TempC, s.MarginS
		}
	}
	if x.Outcome == Pass {
		v.Says = "these readings meet " + own.Title + ": " + x.Says
		for _, s := range x.Stages { // the tightest of them
			if !s.Advisory && s.MarginS != nil && *s.MarginS <= *cmp.Or(v.MarginS, s.MarginS) {
				v.Where, v.At, v.TempC, v.MarginS = s.Where, s.At, s.TempC, s.MarginS
			}
		}
	}
	v.Fix = c.fix(v)
	if len(c.logs) > 0 && len(c.logs[0].Readings) > 0 && c.logs[0].Readings[0].At != c.e.logs[0].Readings[0].At {
		v.Says = words("it was heated again to 165 °F at "+c.set.Clock(c.base)+", which is allowed once; what follows is judged from there", v.Says)
	}
}

// goesOn tells whether the food is still cooling.
func (c *cooled) goesOn() bool { return !c.n.ended || c.e.inNow }

func (c *cooled) fix(v *Verdict) string {
	switch {
	case v.Outcome == Pass:
		return ""
	case v.Outcome == Fail && c.goesOn():
		return "a limit is missed: see under Cooling now what may still be done, and do it at once; a named person decides what becomes of the lots"
	case c.goesOn():
		return "go on measuring; if it will not be in time, act now"
	case v.Outcome == Fail:
		return "a named person decides what becomes of the lots: thrown away, made again, or released with a reason"
	case v.Why == WhyRewarmed:
		return "say when the probe was taken out, if it was; correct a reading that is wrong"
	case v.Why == string(coollog.StartsCold):
		return "enter when and how hot it was when it came off the heat, if somebody measured it; otherwise a named person decides"
	}
	return "enter readings that were taken and not entered; otherwise a named person decides what becomes of the lots"
}

// byRule judges by one rule, with every reading and, where some are doubtful, without them: the worse counts.
func (c *cooled) byRule(r coolrule.Rule, decides bool) RuleVerdict {
	all := c.plainly(r, c.series(true), decides)
	if c.e.doubtful() == 0 {
		return all
	}
	sure := c.plainly(r, c.series(false), decides)
	if all.Outcome == sure.Outcome {
		return all
	}
	bad := all
	if Worse(all.Outcome, sure.Outcome) == sure.Outcome {
		bad = sure
	}
	if all.Outcome == Pass || sure.Outcome == Pass {
		bad.Outcome, bad.Why = Worse(Incomplete, bad.Outcome), WhyOdd
		bad.Says = words("some readings are doubtful, and it turns on them", bad.Says)
	}
	return bad
}

// plainly judges by one rule. What passes must stay so: food that was warm again afterwards did not come to its limit when it seems so.
func (c *cooled) plainly(r coolrule.Rule, logs []coollog.Log, decides bool) RuleVerdict {
	opt := coollog.Options{AccuracyC: c.e.worst.C}
	if c.hot != 0 {
		s := c.seconds(c.hot)
		opt.BeganS = &s
	}
	c.read = logs
	v, err := coollog.Judge(r, logs, opt)
	if err != nil {
		return RuleVerdict{Rule: r.ID, Title: r.Title, Scope: r.Scope, Source: r.Source, Decides: decides, Outcome: Incomplete, Why: WhyDisorder, Says: err.Error(), Stages: []StageVerdict{}}
	}
	x := c.told(r, v, decides)
	if at, was, warm := c.again(r, logs); warm {
		x.Outcome, x.Why = Worse(Incomplete, x.Outcome), WhyRewarmed
		x.Says = words(fmt.Sprintf("it was %s after it had been colder than %s: was the probe out, or the food warm again?", c.set.temp(at), c.set.temp(was)), x.Says)
	}
	return x
}

package critical_test

import (
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/unit"
)

// Cooling logs judged by FDA Food Code 3-501.14(A): 135 to 70 °F within 2 h and to 41 °F within 6 h in all. The logs are worked out by hand
// from the text of the rule, typed and by a probe alike.
func TestCoolingLogs(t *testing.T) {
	for _, c := range []struct {
		name string
		log  []point
		want critical.Outcome
		why  string
	}{
		{"limits are inclusive", []point{{0, 135}, {2, 70}, {6, 41}}, critical.Pass, "in-time"},
		{"five hours for the second stage, six in all", []point{{0, 135}, {1, 70}, {6, 41}}, critical.Pass, "in-time"},
		{"six minutes late at 70 °F", []point{{0, 135}, {2.1, 70}, {5, 41}}, critical.Fail, "still-warm"},
		{"six minutes late in all", []point{{0, 135}, {1.5, 70}, {6.1, 41}}, critical.Fail, "still-warm"},
		{"70 °F is passed between readings, around its deadline", []point{{0, 135}, {1, 90}, {3, 65}, {5, 41}}, critical.Incomplete, "between"},
		{"the clock starts at 135 °F", []point{{0, 150}, {0.5, 135}, {2.5, 70}, {6.5, 41}}, critical.Pass, "in-time"},
		{"nothing after 70 °F", []point{{0, 135}, {2, 70}}, critical.Incomplete, "ends-early"},
		{"begun too cold to tell", []point{{0, 128}, {2, 60}, {5, 41}}, critical.Incomplete, "starts-cold"},
		{"one reading", []point{{0, 135}}, critical.Incomplete, "ends-early"},
	} {
		t.Run(c.name, func(t *testing.T) {
			typed, probe := open(t, haccp.Produce), open(t, haccp.Produce)
			typed.typed(chill, c.log...)
			probe.probe(chill, record.StageCooling, c.log...)
			for how, k := range map[string]*kitchen{"typed": typed, "by a probe": probe} {
				v := k.verdict(critical.Cooling)
				if v.Outcome != c.want || v.Why != c.why {
					t.Errorf("%s: %s (%s), want %s (%s): %s", how, v.Outcome, v.Why, c.want, c.why, v.Says)
				}
				if v.Point != "tuesday/soup/soup-chill/1/cooling" || !v.Gates || len(v.Rules) != 3 || !v.Rules[0].Decides || v.Says == "" {
					t.Errorf("%s: %+v", how, v)
				}
				if strings.Contains(strings.ToLower(v.Says), "safe") {
					t.Errorf("a word that the figures do not carry: %s", v.Says)
				}
			}
		})
	}
}

// Each rule is judged for itself: this log meets the Food Code and misses guideline 1 of Appendix B, whose first stage is 1.5 h from 130 to 80 °F.
func TestEachRuleForItself(t *testing.T) {
	k := open(t, haccp.Produce)
	k.typed(chill, point{0, 136}, point{0.2, 130}, point{1, 100}, point{1.9, 70}, point{2.5, 60}, point{5.5, 41}, point{6, 40})
	v := k.verdict(critical.Cooling)
	got := map[string]critical.Outcome{}
	for _, r := range v.Rules {
		got[r.Rule] = r.Outcome
	}
	if v.Outcome != critical.Pass || got["fda-3-501.14-a"] != critical.Pass || got["fsis-b-1999-1"] == critical.Pass || got["fsis-b-1999-2"] != critical.Pass {
		t.Errorf("%s, %v", v.Outcome, got)
	}
}

// What lies within the error of the thermometer is no pass: 69.5 °F by one that nobody checked counts as wrong by up to 2 °F.
func TestThermometers(t *testing.T) {
	for _, c := range []struct {
		name  string
		trust thermometers.Trust
		want  critical.Outcome
		says  string
	}{
		{"right to half a degree", thermometers.Trust{AccuracyC: 0.2, Said: true}, critical.Pass, "counts as right to"},
		{"nobody said", thermometers.Trust{AccuracyC: thermometers.CodeAccuracyC}, critical.Incomplete, "nobody wrote down how right"},
		{"overdue", thermometers.Trust{AccuracyC: 0.2, Said: true, Overdue: true}, critical.Incomplete, "4-203.11"},
		{"withdrawn", thermometers.Trust{AccuracyC: 0.2, Said: true, Unusable: true}, critical.Incomplete, ""},
	} {
		k := open(t, haccp.Produce)
		k.trust = func(string, record.Instant) thermometers.Trust { return c.trust }
		k.typed(chill, point{0, 150}, point{0.5, 137}, point{2.4, 69.5}, point{6, 38})
		v := k.verdict(critical.Cooling)
		if v.Outcome != c.want || !strings.Contains(v.Accuracy.Says, c.says) {
			t.Errorf("%s: %s (%s), want %s: %s; %+v", c.name, v.Outcome, v.Why, c.want, v.Says, v.Accuracy)
		}
	}
}

// The worst of several points decides.
func TestWorstPoint(t *testing.T) {
	k := open(t, haccp.Produce)
	for _, x := range []struct {
		where string
		log   []point
	}{{"at the edge", []point{{0, 140}, {1, 70}, {4, 41}}}, {"the middle", []point{{0, 140}, {3, 90}, {6, 60}}}} {
		for _, p := range x.log {
			k.say(hours(p.h), record.Measured{Run: "tuesday", Task: chill, Point: x.where, Temp: unit.TempF(p.f), Instrument: "pen"})
		}
	}
	v := k.verdict(critical.Cooling)
	if v.Outcome != critical.Fail || v.Where != "the middle" {
		t.Errorf("%s at %s: %s", v.Outcome, v.Where, v.Says)
	}
}

// A probe that was out of the food for a moment reads cold, and that is no cooling; nor is food that got warm again.
func TestWarmAgain(t *testing.T) {
	for name, c := range map[string]struct {
		log  []point
		want critical.Outcome
	}{
		"out for a minute":         {[]point{{0, 140}, {0.5, 120}, {0.52, 68}, {0.6, 119}, {1, 110}, {2, 95}, {4, 60}, {6, 45}}, critical.Incomplete},
		"out at the end":           {[]point{{0, 140}, {1, 70}, {4, 41}, {4.5, 66}}, critical.Incomplete},
		"warmed and nobody said":   {[]point{{0, 140}, {1.9, 90}, {2.5, 170}, {3.5, 70}, {6, 41}}, critical.Incomplete},
		"stirred: a degree warmer": {[]point{{0, 140}, {1, 69}, {1.1, 71}, {1.2, 68}, {4, 41}, {4.1, 42}}, critical.Pass},
	} {
		k := open(t, haccp.Produce)
		k.probe(chill, record.StageCooling, c.log...)
		if v := k.verdict(critical.Cooling); v.Outcome != c.want {
			t.Errorf("%s: %s (%s), want %s: %s", name, v.Outcome, v.Why, c.want, v.Says)
		}
	}
}

// Food that is late may be heated to 165 °F and cooled again, once.
func TestReheatedOnce(t *testing.T) {
	hot, warm := unit.TempF(166), unit.TempF(150)
	for name, c := range map[string]struct {
		acts []record.Acted
		want critical.Outcome
		why  string
	}{
		"to 166 °F":     {[]record.Acted{{Run: "tuesday", Task: chill, Did: record.Reheated, Temp: &hot}}, critical.Pass, "in-time"},
		"to 150 °F":     {[]record.Acted{{Run: "tuesday", Task: chill, Did: record.Reheated, Temp: &warm}}, critical.Incomplete, critical.WhyRewarmed},
		"twice":         {[]record.Acted{{Run: "tuesday", Task: chill, Did: record.Reheated, Temp: &hot}, {Run: "tuesday", Task: chill, Did: record.Reheated, Temp: &hot}}, critical.Fail, critical.WhyReheated},
		"only stirred":  {[]record.Acted{{Run: "tuesday", Task: chill, Did: record.Stirred}}, critical.Incomplete, critical.WhyRewarmed},
		"nobody did it": {nil, critical.Incomplete, critical.WhyRewarmed},
	} {
		k := open(t, haccp.Produce)
		k.typed(chill, point{0, 140}, point{1.9, 90}, point{3, 120}, point{4, 70}, point{8, 41})
		if name != "to 166 °F" {
			k.typed(chill, point{2.6, 160})
		}
		for i, a := range c.acts {
			k.say(hours(2.5+float64(i)*0.1), a)
		}
		v := k.verdict(critical.Cooling)
		if v.Outcome != c.want && !(c.want == critical.Incomplete && v.Outcome == critical.Fail) || name == "to 166 °F" && v.Why != c.why {
			t.Errorf("%s: %s (%s), want %s (%s): %s", name, v.Outcome, v.Why, c.want, c.why, v.Says)
		}
		if name == "to 166 °F" && !strings.Contains(v.Says, "heated again to 165 °F at 14:30") {
			t.Errorf("%s: %s", name, v.Says)
		}
	}
}

// Doubtful readings are kept, and no verdict turns on them: it passes only if it does with and without them.
func TestDoubtfulReadings(t *testing.T) {
	log := []point{{0, 140}, {1.9, 70}, {3, 200}, {4, 50}, {6, 40}}
	k := open(t, haccp.Produce)
	e := k.probe(chill, record.StageCooling, log...)
	k.read[e.ID][2].Flags, k.read[e.ID][2].Doubtful = "jump", true
	if v := k.verdict(critical.Cooling); v.Outcome != critical.Incomplete || v.Why != critical.WhyOdd || v.Doubtful != 1 || len(v.Logs[0].Readings) != 5 {
		t.Errorf("%s (%s): %s", v.Outcome, v.Why, v.Says)
	}
	k.read[e.ID][2].TempC = unit.TempF(60).C()
	if v := k.verdict(critical.Cooling); v.Outcome != critical.Pass {
		t.Errorf("the same either way: %s (%s): %s", v.Outcome, v.Why, v.Says)
	}
}

// A reading that was taken while it cooked starts the clock where the log begins too cold.
func TestClockStartsAtTheLastHotReading(t *testing.T) {
	for _, c := range []struct {
		cooked float64 // hours before noon
		want   critical.Outcome
	}{{0.2, critical.Pass}, {3, critical.Fail}} {
		k := open(t, haccp.Produce)
		k.typed(simmer, point{-c.cooked, 195})
		k.typed(chill, point{0, 128}, point{1, 71}, point{1.5, 68}, point{5, 41})
		if v := k.verdict(critical.Cooling); v.Outcome != c.want && !(c.want == critical.Fail && v.Outcome != critical.Pass) {
			t.Errorf("%g h before: %s (%s): %s", c.cooked, v.Outcome, v.Why, v.Says)
		}
	}
}

// Growth while it cools, as the model says of straight lines: the values are worked out from the published parameters (Juneja, Marks, Huang and
// Thippareddi 2011) by hand, without an upper limit. Beef has the most, pork or chicken the least.
func TestGrowthOfACooling(t *testing.T) {
	for _, c := range []struct {
		name        string
		log         []point // °C here
		least, most float64
	}{
		{"54.4 to 27 °C in 1.5 h", []point{{0, 54.4}, {1.5, 27}}, 0.368, 1.336},
		{"54.4 to 27 °C in 3 h", []point{{0, 54.4}, {3, 27}}, 2.241, 3.820},
		{"the limits of the Food Code", []point{{0, 57}, {2, 21}, {6, 5}}, 0.689, 1.789},
		{"Appendix B, guideline 1", []point{{0, 54.4}, {1.5, 26.7}, {6.5, 4.4}}, 0.972, 2.151},
		{"50 to 15 °C in 3 h", []point{{0, 50}, {3, 15}}, 1.504, 2.760},
		{"45 °C for 1 h", []point{{0, 45}, {1, 45}}, 0.428, 1.415},
		{"30 °C for 3 h", []point{{0, 30}, {3, 30}}, 0.691, 1.765},
	} {
		k := open(t, haccp.Produce)
		var log []point
		for _, p := range c.log {
			log = append(log, point{p.h, p.f*9/5 + 32})
		}
		k.typed(chill, log...)
		g := k.verdict(critical.Cooling).Growth
		if g == nil || math.Abs(g.Least-c.least) > 0.005 || math.Abs(g.Most-c.most) > 0.005 || !strings.Contains(g.Note, "releases nothing") {
			t.Errorf("%s: %+v, want %.3f to %.3f", c.name, g, c.least, c.most)
		}
	}
}

// Every rule of cooling that a book can name is found by the limit of a plan, with the figures that the kitchen holds.
func TestRuleOf(t *testing.T) {
	for _, r := range coolrule.All() {
		if got, ok := critical.RuleOf(haccp.Limit{Rule: r.ID}); !ok || len(got.Stages) != len(r.Stages) || got.Stages[0] != r.Stages[0] {
			t.Errorf("%s: %+v", r.ID, got)
		}
	}
	l := haccp.Limit{Rule: "fda-3-501.14-a", Figures: []haccp.Figure{{Words: "135 to 70 °F within 1 h", Sense: "at-most", TempC: unit.TempF(70).C(), Seconds: 3600}, {Sense: "at-most", TempC: unit.TempF(41).C(), Seconds: 6 * 3600}}}
	if got, _ := critical.RuleOf(l); got.Stages[0].WithinS != 3600 || got.Stages[1].WithinS != 6*3600 || got.Stages[0].Name != "135 to 70 °F within 1 h" {
		t.Errorf("%+v", got)
	}
	if _, ok := critical.RuleOf(haccp.Limit{Rule: "quick"}); ok {
		t.Error("found a rule that is none")
	}
}

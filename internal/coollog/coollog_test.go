package coollog_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/coollog"
	"kettlefrost/internal/coolrule"
)

// hours are readings as a cook writes them: hours and °F.
func hours(points ...float64) []coollog.Reading {
	var r []coollog.Reading
	for i := 0; i < len(points); i += 2 {
		r = append(r, coollog.Reading{TimeS: points[i] * 3600, TempC: (points[i+1] - 32) * 5 / 9})
	}
	return r
}

func one(r []coollog.Reading) []coollog.Log {
	return []coollog.Log{{Point: "middle of the pot", Readings: r}}
}

// FDA Food Code 3-501.14(A), worked by hand: limits are inclusive, the clock starts when food falls through 135 °F, and what is not shown is
// no pass.
func TestLogsByHand(t *testing.T) {
	accurate, began := coollog.Options{}, 0.0
	thermometer := coollog.Options{AccuracyC: 1} // Food Code 4-203.11: ± 1 °C
	for _, c := range []struct {
		name   string
		at     []coollog.Reading
		opt    coollog.Options
		want   coollog.Outcome
		stages [2]coollog.Why
	}{
		{"at both limits", hours(0, 135, 2, 70, 6, 41), accurate, coollog.Pass, [2]coollog.Why{coollog.InTime, coollog.InTime}},
		{"5 h in the second stage: 6 h in all are what counts", hours(0, 135, 1, 70, 6, 41), accurate, coollog.Pass, [2]coollog.Why{coollog.InTime, coollog.InTime}},
		{"first stage late", hours(0, 135, 2.1, 70, 5, 41), accurate, coollog.Fail, [2]coollog.Why{coollog.StillWarm, coollog.InTime}},
		{"late in all", hours(0, 135, 1.5, 70, 6.1, 41), accurate, coollog.Fail, [2]coollog.Why{coollog.InTime, coollog.StillWarm}},
		{"70 °F somewhere between 1 and 3 h", hours(0, 135, 1, 90, 3, 65, 5, 41), accurate, coollog.Incomplete, [2]coollog.Why{coollog.Between, coollog.InTime}},
		{"the clock starts at 135 °F, not at 150", hours(0, 150, 0.5, 135, 2.5, 70, 6.5, 41), accurate, coollog.Pass, [2]coollog.Why{coollog.InTime, coollog.InTime}},
		{"nobody read it again", hours(0, 135, 2, 70), accurate, coollog.Incomplete, [2]coollog.Why{coollog.InTime, coollog.EndsEarly}},
		{"the first reading is cold already", hours(0, 120, 1, 68, 4, 40), accurate, coollog.Incomplete, [2]coollog.Why{coollog.StartsCold, coollog.StartsCold}},
		{"the same, and when it left the fire was written down", hours(0.5, 120, 1, 68, 4, 40), coollog.Options{BeganS: &began}, coollog.Pass, [2]coollog.Why{coollog.InTime, coollog.InTime}},
		{"still hot", hours(0, 180, 1, 150), accurate, coollog.Incomplete, [2]coollog.Why{coollog.NotBegun, coollog.NotBegun}},
		{"no readings", nil, accurate, coollog.Incomplete, [2]coollog.Why{coollog.NoReadings, coollog.NoReadings}},
		{"warm when the time was over", hours(0, 140, 2.5, 80), accurate, coollog.Fail, [2]coollog.Why{coollog.StillWarm, coollog.EndsEarly}},
		{"warmed again past 135 °F: from there anew", hours(0, 140, 1, 120, 1.5, 136, 3, 69, 7, 40), accurate, coollog.Pass, [2]coollog.Why{coollog.InTime, coollog.InTime}},
		{"at the limit, by a thermometer that may be 1 °C off", hours(0, 140, 2, 70, 5, 38), thermometer, coollog.Incomplete, [2]coollog.Why{coollog.ByItsError, coollog.InTime}},
		{"2 °F under it", hours(0, 140, 2, 68, 5, 38), thermometer, coollog.Pass, [2]coollog.Why{coollog.InTime, coollog.InTime}},
		{"fails whatever the thermometer", hours(0, 140, 2.1, 71, 5, 38), thermometer, coollog.Fail, [2]coollog.Why{coollog.StillWarm, coollog.InTime}},
	} {
		v, err := coollog.Judge(coolrule.FoodCodeCooked(), one(c.at), c.opt)
		if err != nil {
			t.Fatal(err)
		}
		if v.Outcome != c.want || v.Stages[0].Why != c.stages[0] || v.Stages[1].Why != c.stages[1] {
			t.Errorf("%s: %s, %s and %s; want %s, %v", c.name, v.Outcome, v.Stages[0].Why, v.Stages[1].Why, c.want, c.stages)
		}
	}
}

// The worst point decides, and where a line passes the limit is for drawing: 1 h at 90 and 3 h at 65 °F is 70 °F at 2.6 h.
func TestTheWorstPoint(t *testing.T) {
	v, err := coollog.Judge(coolrule.FoodCodeCooked(), []coollog.Log{{"edge", hours(0, 135, 1, 70, 4, 41)}, {"middle", hours(0, 135, 1, 90, 3, 65, 5, 41)}}, coollog.Options{})
	if err != nil || v.Outcome != coollog.Incomplete || v.Stages[0].Point != "middle" || len(v.Each) != 4 {
		t.Fatalf("%+v (%v)", v, err)
	}
	if got := v.Stages[0].CrossedS / 3600; math.Abs(got-2.6) > 1e-9 {
		t.Errorf("crosses at %g h", got)
	}
	if got := v.Stages[1].MarginS / 3600; math.Abs(got-1) > 1e-9 { // 41 °F after 5 of 6 h
		t.Errorf("%g h to spare", got)
	}
}

// FSIS Appendix B (1999), second guideline: over an hour from 120 to 80 °F is a caution and no failure.
func TestAnAdvisoryStage(t *testing.T) {
	v, err := coollog.Judge(coolrule.AppendixBSecond(), one(hours(0, 120, 2, 81, 3, 80, 6, 55)), coollog.Options{})
	if err != nil || v.Outcome != coollog.Pass || len(v.Cautions) != 1 || v.Cautions[0].Outcome != coollog.Fail {
		t.Errorf("%+v (%v)", v, err)
	}
}

func TestReadingsThatMakeNoSense(t *testing.T) {
	for name, r := range map[string][]coollog.Reading{"no number": {{0, math.NaN()}}, "twice at once": {{1, 50}, {1, 49}}, "backwards": {{2, 50}, {1, 49}}, "no time": {{math.Inf(1), 50}}, "no food": {{0, 1000}}} {
		_, err := coollog.Judge(coolrule.FoodCodeCooked(), one(r), coollog.Options{})
		if bad := (*coollog.LogError)(nil); !errors.As(err, &bad) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Whatever was read: a pass has its reading; a worse thermometer, a warmer food or a point more never makes a log better; a fail stays a fail.
func TestAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rule := rapid.SampledFrom(coolrule.All()).Draw(t, "rule")
		var at, warmer []coollog.Reading
		temp, time := 75.0, 0.0
		for range rapid.IntRange(1, 12).Draw(t, "readings") {
			at, warmer = append(at, coollog.Reading{TimeS: time, TempC: temp}), append(warmer, coollog.Reading{TimeS: time, TempC: temp})
			temp -= rapid.Float64Range(-1, 30).Draw(t, "drop")
			time += rapid.Float64Range(60, 9000).Draw(t, "wait")
		}
		last := len(warmer) - 1
		warmer[last].TempC += rapid.Float64Range(0, 20).Draw(t, "warmer at the end")
		judge := func(opt coollog.Options, logs ...coollog.Log) coollog.Verdict {
			v, err := coollog.Judge(rule, logs, opt)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		l := coollog.Log{Point: "a", Readings: at}
		plain := judge(coollog.Options{}, l)
		for _, s := range plain.Stages {
			if s.Outcome == coollog.Pass && (at[s.At].TempC > s.Stage.ToC+1e-6 || at[s.At].TimeS > s.DeadlineS+1e-3) {
				t.Errorf("%s passes by a reading of %g °C at %g s", s.Stage.Name, at[s.At].TempC, at[s.At].TimeS)
			}
		}
		if v := judge(coollog.Options{AccuracyC: 1}, l); v.Outcome < plain.Outcome || v.Outcome == coollog.Fail && plain.Outcome != coollog.Fail {
			t.Errorf("with a worse thermometer %s, else %s", v.Outcome, plain.Outcome)
		}
		if v := judge(coollog.Options{}, l, coollog.Log{Point: "b", Readings: warmer}); v.Outcome < plain.Outcome {
			t.Errorf("with a point more %s, else %s", v.Outcome, plain.Outcome)
		}
	})
}

package coolrule

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/series"
	"kettlefrost/internal/vessel"
	"pgregory.net/rapid"
)

type hoursF struct{ h, f float64 }

func marks(points ...hoursF) []Mark {
	var m []Mark
	for _, p := range points {
		m = append(m, Mark{TempC: fahrenheit(p.f), TimeS: p.h * hourS})
	}
	return m
}

// Logs as a reader of FDA Food Code 3-501.14(A) would judge them (worked from the text of the rule in states that adopted it). Here
// they are predictions, so a straight line between two points may be taken at its word.
func TestFoodCode(t *testing.T) {
	for _, c := range []struct {
		name    string
		points  []hoursF
		want    Outcome
		margins [2]float64 // hours, of both stages
	}{
		{"on both limits", []hoursF{{0, 135}, {2, 70}, {6, 41}}, WithinRule, [2]float64{0, 0}},
		{"time not used carries over", []hoursF{{0, 135}, {1, 70}, {6, 41}}, WithinRule, [2]float64{1, 0}},
		{"first stage late", []hoursF{{0, 135}, {2.1, 70}, {5, 41}}, TooSlow, [2]float64{-0.1, 1}},
		{"in all late", []hoursF{{0, 135}, {1.5, 70}, {6.1, 41}}, TooSlow, [2]float64{0.5, -0.1}},
		{"between points 70 °F comes at 2.6 h", []hoursF{{0, 135}, {1, 90}, {3, 65}, {5, 41}}, TooSlow, [2]float64{-0.6, 1}},
		{"the clock starts at 135 °F", []hoursF{{0, 150}, {0.5, 135}, {2.5, 70}, {6.5, 41}}, WithinRule, [2]float64{0, 0}},
		{"first point after the start is colder: from the start", []hoursF{{0.5, 130}, {2, 70}, {6, 41}}, WithinRule, [2]float64{0, 0}},
		{"first point after the start is at 135 °F: from there", []hoursF{{0.5, 135}, {2, 70}, {6, 41}}, WithinRule, [2]float64{0.5, 0.5}},
		{"nothing after 70 °F", []hoursF{{0, 135}, {2, 70}}, NotShown, [2]float64{0, 4}},
		{"still warm when the limit is over", []hoursF{{0, 135}, {2, 70}, {6, 42}}, TooSlow, [2]float64{0, 0}},
	} {
		t.Run(c.name, func(t *testing.T) {
			when, err := FromMarks(marks(c.points...)...)
			if err != nil {
				t.Fatal(err)
			}
			v, err := Judge(FoodCodeCooked(), when)
			if err != nil {
				t.Fatal(err)
			}
			if v.Outcome != c.want {
				t.Errorf("%v, want %v", v.Outcome, c.want)
			}
			for i, s := range v.Stages {
				if math.Abs(s.MarginS/hourS-c.margins[i]) > 1e-6 {
					t.Errorf("%s: margin %.4f h, want %.4f", s.Stage.Name, s.MarginS/hourS, c.margins[i])
				}
			}
		})
	}
}

// The limits as published, in °F and hours (FDA Food Code and FSIS Appendix B as read in copies; Maine's code as read).
func TestLimits(t *testing.T) {
	type stage struct{ from, to, hours float64 }
	for id, want := range map[string][]stage{
		"fda-3-501.14-a":     {{135, 70, 2}, {135, 41, 6}},
		"fda-3-501.14-b":     {{math.NaN(), 41, 4}},
		"fda-3-502.12-d-2-e": {{41, 34, 48}},
		"fsis-b-1999-1":      {{130, 80, 1.5}, {80, 40, 5}},
		"fsis-b-1999-2":      {{120, 55, 6}, {120, 80, 1}},
		"fsis-b-1999-3":      {{130, 80, 5}, {80, 45, 10}},
		"maine-346-3-12-a":   {{140, 70, 2}, {70, 41, 4}},
	} {
		var rule Rule
		for _, r := range All() {
			if r.ID == id {
				rule = r
			}
		}
		if len(rule.Stages) != len(want) || rule.Source == "" {
			t.Errorf("%s: %+v", id, rule)
			continue
		}
		for i, w := range want {
			s := rule.Stages[i]
			if s.Start == AtFromC && math.Abs(s.FromC*9/5+32-w.from) > 1e-9 || s.Start == AtTheStart != math.IsNaN(w.from) ||
				math.Abs(s.ToC*9/5+32-w.to) > 1e-9 || s.WithinS != w.hours*3600 {
				t.Errorf("%s: stage %+v, want %+v", id, s, w)
			}
		}
	}
	if len(All()) != 7 {
		t.Errorf("%d rules", len(All()))
	}
}

// A stage that is only advised does not fail the rule, but is told.
func TestAdvisory(t *testing.T) {
	when, err := FromMarks(marks(hoursF{0, 120}, hoursF{1.5, 80}, hoursF{5, 55})...)
	if err != nil {
		t.Fatal(err)
	}
	v, err := Judge(AppendixBSecond(), when)
	if err != nil || v.Outcome != WithinRule || len(v.Cautions) != 1 || v.Cautions[0].Stage.Name != "120 to 80 °F" {
		t.Errorf("%+v, %v", v, err)
	}
}

func TestAmbient(t *testing.T) {
	for hours, want := range map[float64]Outcome{4: WithinRule, 4.1: TooSlow} {
		when, err := FromMarks(marks(hoursF{0, 72}, hoursF{hours, 41})...)
		if err != nil {
			t.Fatal(err)
		}
		if v, err := Judge(FoodCodeAmbient(), when); err != nil || v.Outcome != want {
			t.Errorf("%g h: %v, %v", hours, v.Outcome, err)
		}
	}
}

// soupPan is a covered pan of soup in a walk-in at 3 °C, 10 and 8 W/(m²·K) (coefficients assumed).
func soupPan(inches float64) series.Sheet {
	return series.Sheet{Solid: heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59},
		ThicknessM: inches * 0.0254, BottomFilmWM2K: 8, TopFilmWM2K: 10}
}

// Olds and Sneed (2005), J. Child Nutrition & Management 29(1), measured (abstract read): chili in 2.5 and 4 in pans in a walk-in failed
// the rule. The model says the same. A formula and a curve of it agree.
func TestPansInWalkIn(t *testing.T) {
	for _, inches := range []float64{2.5, 4} {
		pan := soupPan(inches)
		byTimes := FromTimes(60, func(targetC float64) (float64, error) { return pan.CoreTimeS(60, 3, targetC) })
		byCurve := FromCurve(func(s float64) (float64, error) { return pan.CoreTempC(60, 3, s) }, 48*hourS)
		v, err := Judge(FoodCodeCooked(), byTimes)
		if err != nil || v.Outcome != TooSlow || !v.Stages[1].Reached {
			t.Fatalf("%g in: %+v, %v", inches, v, err)
		}
		w, err := Judge(FoodCodeCooked(), byCurve)
		if err != nil {
			t.Fatal(err)
		}
		for i := range v.Stages {
			if math.Abs(v.Stages[i].TookS-w.Stages[i].TookS) > 0.01 {
				t.Errorf("%g in: formula %g s, curve %g s", inches, v.Stages[i].TookS, w.Stages[i].TookS)
			}
		}
	}
}

func TestNeverCold(t *testing.T) {
	pan := soupPan(2)
	when := FromTimes(60, func(targetC float64) (float64, error) { return pan.CoreTimeS(60, 8, targetC) })
	v, err := Judge(FoodCodeCooked(), when)
	if err != nil || v.Outcome != TooSlow || !v.Stages[1].Never || v.Stages[0].Never {
		t.Errorf("8 °C walk-in: %+v, %v", v, err)
	}
	// Followed for three hours only, at 8 °C nothing is shown about 41 °F, and the first stage is already late.
	curve := FromCurve(func(s float64) (float64, error) { return pan.CoreTempC(60, 8, s) }, 3*hourS)
	v, err = Judge(FoodCodeCooked(), curve)
	if err != nil || v.Stages[0].Outcome != TooSlow || v.Stages[1].Outcome != NotShown || v.Outcome != TooSlow {
		t.Errorf("three hours: %+v, %v", v, err)
	}
	// A start at 135 °F exactly, and a start below it: the clock runs from the first second.
	for _, startC := range []float64{fahrenheit(135), 50} {
		when := FromTimes(startC, func(targetC float64) (float64, error) { return pan.CoreTimeS(startC, 3, targetC) })
		v, err := Judge(FoodCodeCooked(), when)
		want, _ := pan.CoreTimeS(startC, 3, fahrenheit(70))
		if err != nil || v.Stages[0].TookS != want {
			t.Errorf("start %g: took %g, want %g, %v", startC, v.Stages[0].TookS, want, err)
		}
	}
}

func TestNonsense(t *testing.T) {
	var bad *CurveError
	for name, m := range map[string][]Mark{
		"none": nil, "rising": {{20, 0}, {30, 10}}, "back in time": {{60, 10}, {20, 0}}, "NaN": {{math.NaN(), 0}},
		"before the start": {{60, -1}}, "for ever": {{60, math.Inf(1)}},
	} {
		if _, err := FromMarks(m...); !errors.As(err, &bad) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, when := range map[string]Crossings{
		"negative": func(float64) (Crossing, error) { return Crossing{Reached: true, TimeS: -1}, nil },
		"NaN":      func(float64) (Crossing, error) { return Crossing{TimeS: math.NaN()}, nil },
		"colder before warmer": func(c float64) (Crossing, error) {
			return Crossing{Reached: true, TimeS: c * 100}, nil
		},
		"colder but not warmer": func(c float64) (Crossing, error) { return Crossing{Reached: c < 50, TimeS: 1}, nil },
		"endless curve":         FromCurve(func(float64) (float64, error) { return 20, nil }, math.Inf(1)),
	} {
		if _, err := Judge(FoodCodeCooked(), when); !errors.As(err, &bad) {
			t.Errorf("%s: %v", name, err)
		}
	}
	failing := errors.New("probe lost")
	_, err := Judge(FoodCodeCooked(), FromCurve(func(float64) (float64, error) { return 0, failing }, 10))
	if !errors.Is(err, failing) {
		t.Errorf("error of the curve is lost: %v", err)
	}
	if v, err := Judge(Rule{}, nil); err != nil || v.Outcome != NotShown {
		t.Errorf("a rule without stages passes: %v, %v", v.Outcome, err)
	}
}

// A slower cooling never gets a better verdict, whatever the rule.
func TestSlowerIsNeverBetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tau := rapid.Float64Range(600, 20000).Draw(t, "time constant")
		slower := rapid.Float64Range(1, 3).Draw(t, "slower by")
		mediumC := rapid.Float64Range(-20, 3).Draw(t, "medium")
		rule := rapid.SampledFrom(All()).Draw(t, "rule")
		judge := func(tau float64) Verdict {
			pot := vessel.Vessel{HeatCapacityJK: tau * 100, LossWK: 100}
			v, err := Judge(rule, FromTimes(65, func(targetC float64) (float64, error) { return pot.TimeS(65, mediumC, targetC) }))
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		fast, slow := judge(tau), judge(tau*slower)
		if fast.Outcome == TooSlow && slow.Outcome == WithinRule {
			t.Errorf("%s: %g s is too slow, %g s is not", rule.ID, tau, tau*slower)
		}
		for i := range fast.Stages {
			if slow.Stages[i].MarginS > fast.Stages[i].MarginS+1e-6 {
				t.Errorf("%s: more margin when slower", rule.ID)
			}
		}
	})
}

func BenchmarkJudgePan(b *testing.B) {
	pan := soupPan(2)
	rule := FoodCodeCooked()
	for b.Loop() {
		when := FromTimes(60, func(targetC float64) (float64, error) { return pan.CoreTimeS(60, 3, targetC) })
		if _, err := Judge(rule, when); err != nil {
			b.Fatal(err)
		}
	}
}

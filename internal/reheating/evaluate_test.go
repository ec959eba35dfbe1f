package reheating

import (
	"math"
	"slices"
	"testing"
)

// trial is a complete run of a microwave, with the largest pack from the coldest freezer.
func trial(minutes float64, spotsC ...float64) Trial {
	return Trial{Appliance: "M-1", Watts: 900, MassKg: 0.7, StartC: -19, Minutes: minutes, StandMin: 2, SpotsC: spotsC, Who: "R. Vale",
		Date: "2026-11-02"}
}

func good(minutes float64) Trial { return trial(minutes, 80, 76, 84, 82, 79) }
func bad(minutes float64) Trial  { return trial(minutes, 80, 71, 84, 82, 79) }

func with(t Trial, change func(*Trial)) Trial {
	t.SpotsC = slices.Clone(t.SpotsC)
	change(&t)
	return t
}

func microwave(t *testing.T) Form { return must(ValidationForm(Microwave, 0.68, -18))(t) }

func codes(lacks []Lack) []LackCode {
	var all []LackCode
	for _, l := range lacks {
		all = append(all, l.Code)
	}
	return all
}

// Three runs, the longest and a tenth more, rounded up: 9 min and 0.9 are 10.
func TestThreeRunsGiveTheLongestAndAMargin(t *testing.T) {
	e := Evaluate(microwave(t), []Trial{good(8), good(9), good(8.5)})
	if !e.Given || e.Minutes != 10 || e.StandMin != 2 || e.Runs != 3 || e.ColdestC != 76 || e.Watts != 900 || len(e.Lacks) != 0 {
		t.Errorf("%+v", e)
	}
}

// A thermometer that shows 165 °F shows enough.
func TestExactly165FahrenheitCounts(t *testing.T) {
	at := (165.0 - 32) * 5 / 9
	if e := Evaluate(microwave(t), []Trial{trial(8, at, at, at, at, at), good(8), good(8)}); !e.Given {
		t.Errorf("lacks %v", e.Lacks)
	}
}

func TestWhatDoesNotCount(t *testing.T) {
	f := microwave(t)
	three := []Trial{good(8), good(9), good(8)}
	for name, c := range map[string]struct {
		trials []Trial
		want   []LackCode
	}{
		"nothing measured":             {nil, []LackCode{TooFewRuns}},
		"two runs":                     {three[:2], []LackCode{TooFewRuns}},
		"one of three has a cold spot": {[]Trial{good(8), good(9), bad(7)}, []LackCode{TooCold, TooFewRuns}},
		"a cold spot in a longer run than those that passed": {[]Trial{good(8), good(9), good(8), good(10), bad(8.5)},
			[]LackCode{TooCold, NotLonger, NotLonger, TooFewRuns}},
		"a corner not measured":    {[]Trial{good(8), good(9), trial(8, 80, 80, 80, 80)}, []LackCode{SpotsMissing, TooFewRuns}},
		"a spot that is no number": {[]Trial{good(8), good(9), trial(8, 80, 80, math.NaN(), 80, 80)}, []LackCode{SpotsMissing, TooFewRuns}},
		"nobody signed":            {[]Trial{good(8), good(9), with(good(8), func(t *Trial) { t.Who = " " })}, []LackCode{FieldEmpty, TooFewRuns}},
		"no watts":                 {[]Trial{good(8), good(9), with(good(8), func(t *Trial) { t.Watts = 0 })}, []LackCode{FigureMissing, TooFewRuns}},
		"a small pack":             {[]Trial{good(8), good(9), with(good(8), func(t *Trial) { t.MassKg = 0.5 })}, []LackCode{PackTooSmall, TooFewRuns}},
		"from the refrigerator":    {[]Trial{good(8), good(9), with(good(8), func(t *Trial) { t.StartC = 4 })}, []LackCode{StartTooWarm, TooFewRuns}},
		"no standing":              {[]Trial{good(8), good(9), with(good(8), func(t *Trial) { t.StandMin = 1 })}, []LackCode{StandTooShort, TooFewRuns}},
		"two kinds of oven":        {[]Trial{good(8), good(9), with(good(8), func(t *Trial) { t.Watts = 1200 })}, []LackCode{NotAlike}},
	} {
		e := Evaluate(f, c.trials)
		if e.Given || e.Minutes != 0 {
			t.Errorf("%s: gives %d min", name, e.Minutes)
		}
		if got := codes(e.Lacks); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
		if _, ok := e.Line(); ok {
			t.Errorf("%s: has a line to print", name)
		}
	}
}

// Measured in simmering water, the line says from which state.
func TestMeasuredInWater(t *testing.T) {
	for _, c := range []struct {
		startC float64
		want   Code
	}{{-18, StepFrozen}, {4, StepThawed}} {
		run := with(good(20), func(t *Trial) { t.Watts, t.SetC, t.StartC = 0, 95, c.startC })
		l, ok := Evaluate(must(ValidationForm(Simmering, 0.68, c.startC))(t), []Trial{run, run, run}).Line()
		if !ok || l.Code != c.want || l.Figures[0].Value != 25 {
			t.Errorf("from %g °C: %v", c.startC, l)
		}
	}
}

// A failed run that was shorter than all that passed shows only that less is not enough.
func TestAShorterFailureDoesNotHurt(t *testing.T) {
	e := Evaluate(microwave(t), []Trial{bad(6), good(8), good(9), good(8)})
	if !e.Given || e.Minutes != 10 || e.Runs != 3 {
		t.Errorf("%+v", e)
	}
}

// A form that somebody changed to ask for fewer runs, a smaller margin or colder spots changes nothing.
func TestTheFormCannotBeSoftened(t *testing.T) {
	f := microwave(t)
	f.LeastRuns, f.AcceptC, f.Margin, f.StandMin = 1, 60, 0, 0
	if e := Evaluate(f, []Trial{good(8), good(9)}); e.Given {
		t.Error("two runs give a time")
	}
	if e := Evaluate(f, []Trial{good(8), good(9), bad(9)}); e.Given {
		t.Error("a run with a cold spot gives a time")
	}
	if e := Evaluate(f, []Trial{good(9), good(9), good(9)}); e.Minutes != 10 {
		t.Errorf("9 min and the margin are %d", e.Minutes)
	}
	if e := Evaluate(Form{}, []Trial{good(9), good(9), good(9)}); e.Given {
		t.Error("a form for nothing gives a time")
	}
}

func TestFormHasWhatIsAsked(t *testing.T) {
	for _, m := range []Method{Microwave, Oven, Simmering} {
		f := must(ValidationForm(m, 0.68, -18))(t)
		ids := map[string]int{}
		for _, field := range f.Fields {
			ids[field.ID]++
		}
		for id, want := range map[string]int{"appliance": 1, "mass": 1, "start": 1, "minutes": 1, "stand": 1, "spot": 5, "coldest": 1, "who": 1, "date": 1} {
			if ids[id] != want {
				t.Errorf("%s: %d fields %s, want %d", m, ids[id], id, want)
			}
		}
		if ids["watts"]+ids["set"] != 1 || f.LeastRuns < 3 || len(f.Spots) != 5 {
			t.Errorf("%s: %v", m, f)
		}
	}
	for _, c := range []struct {
		m     Method
		kg, c float64
	}{{0, 0.7, -18}, {9, 0.7, -18}, {Oven, 0, -18}, {Oven, math.NaN(), -18}, {Oven, 0.7, 60}} {
		if _, err := ValidationForm(c.m, c.kg, c.c); err == nil {
			t.Errorf("%v gives a form", c)
		}
	}
}

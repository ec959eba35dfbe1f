package coolforecast_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/cooling"
	"kettlefrost/internal/coollog"
	"kettlefrost/internal/coolrule"
)

// at are readings as a cook writes them: minutes and °F.
func at(points ...float64) []coollog.Reading {
	var r []coollog.Reading
	for i := 0; i < len(points); i += 2 {
		r = append(r, coollog.Reading{TimeS: points[i] * 60, TempC: (points[i+1] - 32) / 1.8})
	}
	return r
}

// By the Food Code's cooked rule. Which readings pass is coollog's; when the next is due is by hand: half an hour after the last while it is in
// doubt, an hour while it is not, 5 minutes before a deadline, 10 after the last at the earliest.
func TestOutcomes(t *testing.T) {
	began := 0.0
	for _, c := range []struct {
		name     string
		readings []coollog.Reading
		now      float64 // minutes
		began    *float64
		want     coolforecast.Outcome
		why      coolforecast.Why
		due      float64 // minutes; NaN for never
		dueWhy   coolforecast.DueWhy
	}{
		{"nobody has read it", nil, 20, &began, coolforecast.Unsaid, coolforecast.NoReadings, 20, coolforecast.DueFirst},
		{"first read when it was under 135 °F, and nobody wrote when it began", at(0, 120, 30, 100), 30, nil, coolforecast.Unsaid, coolforecast.NoClock, 60, coolforecast.DueDoubt},
		{"the same, and it began half an hour before", at(30, 120, 60, 100), 60, &began, coolforecast.InDoubt, coolforecast.ByForecast, 90, coolforecast.DueDoubt},
		{"over the limit after 2 h", at(0, 140, 60, 100, 121, 80), 121, nil, coolforecast.Missed, coolforecast.ByLimit, math.NaN(), coolforecast.NotDue},
		{"its time went by unread", at(0, 140, 60, 95), 150, nil, coolforecast.Unsaid, coolforecast.NotRead, 120, coolforecast.DueUnread},
		{"all met", at(0, 140, 60, 70, 200, 41), 200, nil, coolforecast.Over, coolforecast.ByLimit, math.NaN(), coolforecast.NotDue},
		{"quick", at(0, 140, 20, 105, 40, 80, 55, 66), 55, nil, coolforecast.Meets, coolforecast.ByForecast, 115, coolforecast.DueHourly},
	} {
		f, err := coolforecast.Of(coolforecast.Case{Rule: coolrule.FoodCodeCooked(), MediumC: 1, NowS: c.now * 60, BeganS: c.began, Logs: []coollog.Log{{Readings: c.readings}}})
		if err != nil {
			t.Fatal(err)
		}
		if f.Outcome != c.want || f.Why != c.why {
			t.Errorf("%s: %s, %s; want %s, %s", c.name, f.Outcome, f.Why, c.want, c.why)
		}
		if d := f.Due.AtS / 60; f.Due.Why != c.dueWhy || !(math.Abs(d-c.due) < 0.1 || math.IsNaN(d) && math.IsNaN(c.due)) {
			t.Errorf("%s: due after %.1f min, %s; want %.1f, %s", c.name, d, f.Due.Why, c.due, c.dueWhy)
		}
	}
}

// The thermometer's error makes a limit harder to show, as coollog has it.
func TestAThermometerThatMayBeWrongNeedsMoreTime(t *testing.T) {
	reached := func(accuracyC float64) float64 {
		f, err := coolforecast.Of(coolforecast.Case{Rule: coolrule.FoodCodeCooked(), MediumC: 2, NowS: 3600, AccuracyC: accuracyC, Logs: []coollog.Log{{Readings: newton(62, 2, 80, 0, 30, 60)}}})
		if err != nil {
			t.Fatal(err)
		}
		return f.Limits[0].ReachedS.Usual
	}
	// By hand: from 21.1 to 20.1 °C it takes 80·ln(19.1/18.1) = 4.3 min.
	if d := (reached(1) - reached(0)) / 60; math.Abs(d-4.3) > 0.7 {
		t.Errorf("1 K takes %.1f min more, by hand 4.3", d)
	}
}

// Of several points the slowest decides, whichever was read last.
func TestTheWorstPointDecides(t *testing.T) {
	edge, middle := coollog.Log{Point: "edge", Readings: newton(60, 1, 30, 0, 20, 40)}, coollog.Log{Point: "middle", Readings: newton(61, 1, 110, 0, 15, 35)}
	for _, logs := range [][]coollog.Log{{edge, middle}, {middle, edge}, {middle, {Point: "never read"}, edge}} {
		f, err := coolforecast.Of(coolforecast.Case{Rule: coolrule.FoodCodeCooked(), MediumC: 1, NowS: 2400, Logs: logs})
		if err != nil {
			t.Fatal(err)
		}
		if got := f.Limits[f.Decides].Point; got != "middle" {
			t.Errorf("%s decides", got)
		}
	}
}

func TestRemedies(t *testing.T) {
	rule := coolrule.FoodCodeCooked()
	of := func(r []coollog.Reading) coolforecast.Forecast {
		f, err := coolforecast.Of(coolforecast.Case{Rule: rule, MediumC: 1, NowS: r[len(r)-1].TimeS, Logs: []coollog.Log{{Readings: r}}})
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	firstMissed, lastMissed, quick := of(at(0, 140, 60, 100, 121, 80)), of(at(0, 140, 60, 100, 100, 70, 361, 45)), of(at(0, 140, 10, 105, 20, 80, 30, 66))
	for _, c := range []struct {
		name    string
		rule    coolrule.Rule
		f       coolforecast.Forecast
		reheats int
		want    []coolforecast.Remedy
	}{
		{"70 °F missed", rule, firstMissed, 0, []coolforecast.Remedy{coolforecast.ReheatOnce, coolforecast.Discard}},
		{"70 °F missed again", rule, firstMissed, 1, []coolforecast.Remedy{coolforecast.Discard}},
		{"41 °F missed", rule, lastMissed, 0, []coolforecast.Remedy{coolforecast.Discard}},
		{"nothing wrong", rule, quick, 0, nil},
		{"a rule that says nothing of it", coolrule.AppendixBFirst(), firstMissed, 0, []coolforecast.Remedy{coolforecast.AskAuthority}},
	} {
		var got []coolforecast.Remedy
		for _, a := range coolforecast.Remedies(c.rule, c.f, c.reheats) {
			got = append(got, a.Remedy)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	if d := coolforecast.ReheatC - (165-32)/1.8; math.Abs(d) > 1e-9 {
		t.Errorf("heated to %g °C", coolforecast.ReheatC)
	}
}

func TestWhatMakesNoSense(t *testing.T) {
	good := coolforecast.Case{Rule: coolrule.FoodCodeCooked(), NowS: 3600, Logs: []coollog.Log{{Readings: at(0, 140, 60, 90)}}}
	late := good
	late.NowS = 60
	backwards := good
	backwards.Logs = []coollog.Log{{Readings: at(60, 140, 0, 90)}}
	short := good
	short.Model = &coolforecast.Model{Curve: []cooling.CurvePoint{{}}, StartK: 1}
	if _, err := coolforecast.Of(late); !errors.As(err, new(*coolforecast.CaseError)) {
		t.Errorf("a reading of the future: %v", err)
	}
	if _, err := coolforecast.Of(backwards); !errors.As(err, new(*coollog.LogError)) {
		t.Errorf("readings that go back: %v", err)
	}
	if _, err := coolforecast.Of(short); !errors.As(err, new(*coolforecast.CaseError)) {
		t.Errorf("a curve of one point: %v", err)
	}
}

// Whatever was read, the band is in order, and the clock may begin anywhere.
func TestForecastsKeepTheirOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var r []coollog.Reading
		for s, i := 0.0, 0; i < rapid.IntRange(1, 30).Draw(t, "readings"); i++ {
			s += rapid.Float64Range(30, 3600).Draw(t, "after")
			r = append(r, coollog.Reading{TimeS: s, TempC: rapid.Float64Range(-10, 95).Draw(t, "temp")})
		}
		of := func(shiftS float64) coolforecast.Forecast {
			var moved []coollog.Reading
			for _, x := range r {
				moved = append(moved, coollog.Reading{TimeS: x.TimeS + shiftS, TempC: x.TempC})
			}
			f, err := coolforecast.Of(coolforecast.Case{Rule: coolrule.FoodCodeCooked(), MediumC: 2, NowS: moved[len(moved)-1].TimeS, Logs: []coollog.Log{{Readings: moved}}})
			if err != nil {
				t.Fatal(err)
			}
			return f
		}
		f, later := of(0), of(1e6)
		if f.Outcome != later.Outcome {
			t.Errorf("%s, and on another clock %s", f.Outcome, later.Outcome)
		}
		for i, x := range f.Limits {
			if x.ReachedS.Good > x.ReachedS.Usual || x.ReachedS.Usual > x.ReachedS.Bad || x.MarginS.Good < x.MarginS.Bad {
				t.Errorf("limit %d: %+v, %+v", i, x.ReachedS, x.MarginS)
			}
		}
		for _, b := range f.Band {
			if !(b.LowC <= b.UsualC && b.UsualC <= b.HighC) {
				t.Errorf("band %+v", b)
			}
		}
	})
}

// BenchmarkForecast is of a probe that posts every minute for four hours.
func BenchmarkForecast(b *testing.B) {
	minutes := make([]float64, 240)
	for i := range minutes {
		minutes[i] = float64(i)
	}
	c := coolforecast.Case{Rule: coolrule.FoodCodeCooked(), MediumC: 2, NowS: 239 * 60, Logs: []coollog.Log{{Readings: newton(62, 2, 120, minutes...)}}}
	for b.Loop() {
		if _, err := coolforecast.Of(c); err != nil {
			b.Fatal(err)
		}
	}
}

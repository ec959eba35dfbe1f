package thermometers_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/unit"
)

const day = 24 * 3600 * 1000

var began record.Instant = 1_790_000_000_000

// check is one of these thermometers checked on a day: what it read in ice, in °F.
func check(readF float64, kept record.CheckResult) record.Calibrated {
	return record.Calibrated{Instrument: "pen", Method: record.IcePoint, Read: unit.TempF(readF), True: unit.TempF(32), Kept: kept}
}

func adjusted(readF, afterF float64) record.Calibrated {
	c := check(readF, record.Adjusted)
	after := unit.TempF(afterF)
	c.After = &after
	return c
}

// dated is a check on a day, counted from the beginning.
type dated struct {
	day  int
	says record.Calibrated
}

func told(t testing.TB, checks ...dated) *thermometers.State {
	t.Helper()
	s := &thermometers.State{}
	for i, c := range checks {
		e, err := record.Say(record.ID{byte(i + 1)}, began+record.Instant(c.day)*day, "ada", "tablet", c.says)
		if err != nil {
			t.Fatal(err)
		}
		if found := s.Take(e); len(found) > 0 {
			t.Fatal(found)
		}
	}
	return s
}

var pen = thermometers.Instrument{ID: "pen", Name: "the pen", Kind: "handheld", AccuracyC: 1 / 1.8, EveryDays: 30}

func boiling(readF, trueF float64) record.Calibrated {
	return record.Calibrated{Instrument: "pen", Method: record.BoilingPoint, Read: unit.TempF(readF), True: unit.TempF(trueF), Kept: record.InUse}
}

// How far wrong a reading of day 10 may be, in °F: worked out by hand.
func TestWhatAReadingIsWorth(t *testing.T) {
	for name, x := range map[string]struct {
		pen      thermometers.Instrument
		checks   []dated
		offF     float64
		unusable bool
		doubt    bool
		overdue  bool
	}{
		"nobody checked it":                               {pen, nil, 1, false, false, true},
		"nobody checked it, nor said how right it is":     {thermometers.Instrument{ID: "pen"}, nil, 2, false, false, false},
		"a good check before":                             {pen, []dated{{5, check(32.5, record.InUse)}}, 1, false, false, false},
		"a check on the very moment is before":            {pen, []dated{{10, check(32.5, record.InUse)}}, 1, false, false, false},
		"before, it was left with an error":               {pen, []dated{{5, check(35, record.InUse)}}, 3, false, false, false},
		"as cold as the other is warm":                    {pen, []dated{{5, check(29, record.InUse)}}, 3, false, false, false},
		"before, it was off and adjusted":                 {pen, []dated{{5, adjusted(36, 32.5)}}, 1, false, false, false},
		"adjusted, and still off":                         {pen, []dated{{5, adjusted(36, 33.5)}}, 1.5, false, false, false},
		"the check after found it off":                    {pen, []dated{{5, check(32, record.InUse)}, {20, check(36, record.InUse)}}, 4, false, true, false},
		"the check after found it off, and adjusted it":   {pen, []dated{{5, check(32, record.InUse)}, {20, adjusted(36, 32)}}, 4, false, true, false},
		"the check after found it off, and withdrew it":   {pen, []dated{{5, check(32, record.InUse)}, {20, check(36, record.Withdrawn)}}, 4, false, true, false},
		"a good check lies between":                       {pen, []dated{{5, check(32, record.InUse)}, {15, check(32.5, record.InUse)}, {20, check(36, record.InUse)}}, 1, false, false, false},
		"no check before, and the one after found it off": {pen, []dated{{20, check(36, record.InUse)}}, 4, false, true, true},
		"within its accuracy, and yet further than said":  {thermometers.Instrument{ID: "pen"}, []dated{{20, check(33.9, record.InUse)}}, 2, false, false, false},
		"withdrawn before":                                {pen, []dated{{5, check(36, record.Withdrawn)}}, 4, true, false, false},
		"withdrawn, and back in use":                      {pen, []dated{{5, check(36, record.Withdrawn)}, {7, check(32, record.InUse)}}, 1, false, false, false},
		"in ice it is right, in steam it is not":          {pen, []dated{{4, boiling(209, 212)}, {5, check(32, record.InUse)}}, 3, false, false, false},
		"adjusted in ice since it was wrong in steam":     {pen, []dated{{4, boiling(209, 212)}, {5, adjusted(30, 32)}}, 1, false, false, false},
		"good in ice since, and then wrong in steam":      {pen, []dated{{4, boiling(212, 212)}, {15, check(32, record.InUse)}, {20, boiling(216, 212)}}, 4, false, true, false},
		"wrong in steam after it was adjusted":            {pen, []dated{{5, check(32, record.InUse)}, {15, adjusted(32, 32)}, {20, boiling(216, 212)}}, 1, false, false, false},
		"checked too long ago":                            {pen, []dated{{-20, check(32, record.InUse)}}, 1, false, false, true},
	} {
		bench := thermometers.Look([]thermometers.Instrument{x.pen}, told(t, x.checks...))
		got := bench.Trust("pen", began+10*day)
		if math.Abs(got.AccuracyC*1.8-x.offF) > 0.001 || got.Unusable != x.unusable || got.Doubt != x.doubt || got.Overdue != x.overdue {
			t.Errorf("%s: %.2f °F, unusable %v, doubt %v, overdue %v; want %.2f %v %v %v", name, got.AccuracyC*1.8, got.Unusable, got.Doubt, got.Overdue, x.offF, x.unusable, x.doubt, x.overdue)
		}
	}
}

func TestDoubtGoesBackToTheLastGoodCheck(t *testing.T) {
	bench := thermometers.Look([]thermometers.Instrument{pen}, told(t, dated{2, check(32, record.InUse)}, dated{9, check(32.5, record.InUse)}, dated{30, check(37, record.Withdrawn)}))
	for at, want := range map[int]bool{1: false, 5: false, 9: true, 10: true, 29: true} {
		got := bench.Trust("pen", began+record.Instant(at)*day)
		if got.Doubt != want || want && (got.DoubtSince != began+9*day || got.After == nil || got.After.At != began+30*day) {
			t.Errorf("day %d: doubt %v since %d, want %v since the 9th", at, got.Doubt, got.DoubtSince, want)
		}
	}
}

func TestAThermometerThatNobodyWroteDown(t *testing.T) {
	bench := thermometers.Look(nil, told(t, dated{1, check(32, record.InUse)}))
	got := bench.Trust("pen", began+2*day)
	if got.Listed || got.Said || math.Abs(got.AccuracyC-2/1.8) > 1e-9 {
		t.Errorf("it is worth %+v", got)
	}
	if c, usable := bench.AccuracyC("another", began); !usable || math.Abs(c-2/1.8) > 1e-9 {
		t.Errorf("one never heard of: %g °C, usable %v", c, usable)
	}
}

func TestThoseDueComeFirst(t *testing.T) {
	every := func(id string, days int) thermometers.Instrument {
		return thermometers.Instrument{ID: id, EveryDays: days}
	}
	of := func(id string, day int, kept record.CheckResult) dated {
		c := check(32, kept)
		c.Instrument = id
		return dated{day, c}
	}
	s := told(t, of("a-good", 8, record.InUse), of("b-soon", 5, record.InUse), of("c-late", 1, record.InUse), of("d-later", 2, record.InUse), of("e-gone", 3, record.Withdrawn), of("g-free", 4, record.InUse))
	rows := thermometers.Look([]thermometers.Instrument{every("a-good", 30), every("b-soon", 7), every("c-late", 7), every("d-later", 7), every("e-gone", 7), every("f-never", 7), every("g-free", 0)}, s).Rows(began + 10*day)
	var got []string
	for _, r := range rows {
		got = append(got, r.ID+" "+string(r.Standing))
	}
	want := []string{"f-never never-checked", "c-late overdue", "d-later overdue", "b-soon due-soon", "a-good checked", "g-free no-interval", "e-gone withdrawn"}
	if !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

func TestFindings(t *testing.T) {
	at := record.Place("chest-1")
	for name, x := range map[string]struct {
		pen    thermometers.Instrument
		checks []dated
		want   []string
	}{
		"checked and right":        {pen, []dated{{1, check(32, record.InUse)}}, nil},
		"never checked":            {pen, nil, []string{thermometers.CodeOverdue}},
		"overdue":                  {pen, []dated{{-40, check(32, record.InUse)}}, []string{thermometers.CodeOverdue}},
		"in use with an error":     {pen, []dated{{1, check(35, record.InUse)}}, []string{thermometers.CodeOff}},
		"withdrawn from a freezer": {thermometers.Instrument{ID: "pen", At: at}, []dated{{1, check(35, record.Withdrawn)}}, []string{thermometers.CodeGone}},
		"withdrawn":                {pen, []dated{{1, check(35, record.Withdrawn)}}, nil},
		"coarse":                   {thermometers.Instrument{ID: "pen", Kind: "handheld", AccuracyC: 3 / 1.8}, nil, []string{thermometers.CodeCoarse}},
		"in no book":               {thermometers.Instrument{ID: "other"}, []dated{{1, check(32, record.InUse)}}, []string{thermometers.CodeUnlisted}},
	} {
		var got []string
		for _, f := range thermometers.Look([]thermometers.Instrument{x.pen}, told(t, x.checks...)).Findings(began+10*day, unit.US) {
			got = append(got, f.Code)
		}
		if !slices.Equal(got, x.want) {
			t.Errorf("%s: %v, want %v", name, got, x.want)
		}
	}
}

// Where water boils by the standard atmosphere (ICAO: 101.325, 95.5, 84.3 and 75.3 kPa at 0, 500, 1524 and 2438 m) and steam tables
// (100.0, 98.3, 94.9 and 91.8 °C at those): all from memory, to a tenth of a degree.
func TestTheRuleForBoilingWaterIsNearEnough(t *testing.T) {
	for _, x := range []struct{ m, tableC float64 }{{0, 100}, {500, 98.3}, {1524, 94.9}, {2438, 91.8}} {
		if got := thermometers.BoilingC(x.m); math.Abs(got-x.tableC) > 1 {
			t.Errorf("%g m: %.1f °C, and the tables say %.1f", x.m, got, x.tableC)
		}
	}
	if got := thermometers.BoilingC(500*0.3048)*1.8 + 32; math.Abs(got-211) > 1e-6 {
		t.Errorf("at 500 ft water boils at %g °F, want 211", got)
	}
}

func TestJudge(t *testing.T) {
	c := func(f float64) float64 { return (f - 32) / 1.8 }
	for readF, good := range map[float64]bool{32: true, 33: true, 31: true, 33.1: false, 30.9: false} {
		if got := pen.Judge(c(readF), 0); got.Good != good || math.Abs(got.OffC*1.8-(readF-32)) > 1e-9 {
			t.Errorf("it reads %g °F in ice: %+v, want good %v", readF, got, good)
		}
	}
}

// Whatever was checked: no reading counts as righter than its maker says, nor than the last check of its kind left it.
func TestNothingIsTrustedMoreThanItWasChecked(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var checks []dated
		at := 0
		for range rapid.IntRange(0, 8).Draw(rt, "checks") {
			at += rapid.IntRange(0, 20).Draw(rt, "days")
			read := 32 + rapid.Float64Range(-6, 6).Draw(rt, "off")
			says := []record.Calibrated{check(read, record.InUse), check(read, record.Withdrawn), adjusted(read, 32+rapid.Float64Range(-2, 2).Draw(rt, "after"))}[rapid.IntRange(0, 2).Draw(rt, "kept")]
			checks = append(checks, dated{at, says})
		}
		bench := thermometers.Look([]thermometers.Instrument{pen}, told(t, checks...))
		now := rapid.IntRange(-1, 100).Draw(rt, "day")
		got := bench.Trust("pen", began+record.Instant(now)*day)
		if got.AccuracyC < pen.AccuracyC {
			rt.Fatalf("%g °C, and its maker says %g", got.AccuracyC, pen.AccuracyC)
		}
		for i, c := range bench.Checks("pen") {
			last := c.At <= began+record.Instant(now)*day && (i+1 == len(checks) || bench.Checks("pen")[i+1].At > began+record.Instant(now)*day)
			if last && got.AccuracyC < math.Abs(c.LeftC()) || last && got.Unusable != (c.Kept == record.Withdrawn) {
				rt.Fatalf("%+v, and the last check is %+v", got, c)
			}
		}
	})
}

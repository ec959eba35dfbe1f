package web

import (
	"bytes"
	"strings"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/unit"
)

func demoFoods(t *testing.T) *foodtable.Table {
	t.Helper()
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	return foods
}

func TestHeatPageEmptyAndFull(t *testing.T) {
	rendered(t, "heat", heatTemplate, func(p *heatPage) { p.Answer = nil },
		func(p *heatPage) { change(&p.Form, func(f *heatField) { f.Yes = false }) }, func(p *heatPage) { change(&p.Form, func(f *heatField) { f.Yes, f.Options = false, nil }) })
}

// change changes every field of a form.
func change(f *heatForm, to func(*heatField)) {
	for _, list := range [][]heatField{f.Parts, f.Stands, f.More} {
		for i := range list {
			to(&list[i])
		}
	}
	to(&f.Food)
	to(&f.From)
	to(&f.To)
}

// inHours is a time reached.
func inHours(h float64) heatcase.Reach { return heatcase.Reach{Reached: true, TimeS: h * 3600} }

// madeAnswer is an answer made by hand.
func madeAnswer() heatcase.Answer {
	band := heatcase.Band{Fast: inHours(4), Usual: inHours(5), Slow: inHours(7)}
	return heatcase.Answer{Schema: heatcase.Schema, Process: heatcase.Cool, Question: "cool leek soup", FromC: 93, ToC: 5, Time: band,
		Marks:   []heatcase.Mark{{TempC: 21, Band: heatcase.Band{Fast: inHours(1), Usual: inHours(2), Slow: inHours(3)}}, {Name: "the target", TempC: 5, Band: band}},
		Verdict: &heatcase.Verdict{Rule: "a rule", Words: "as the rule says", Stages: []heatcase.StageTime{{Name: "in all", LimitS: 6 * 3600, Band: band}}},
		By:      "a series", Methods: []heatcase.Method{{Name: "Pham", Applies: true, TimeS: 4.5 * 3600, OffPct: -10, Note: "a note", Source: "a source"}, {Name: "Plank", Note: "it knows no pots"}},
		Heat: heatcase.Heat{KJKg: 340, PieceKg: 2, PieceKJ: 680, MeanW: 38, IceKg: 2.04}, Food: heatcase.FoodUsed{Name: "leek soup", FreezesAtC: -0.8},
		Sides: []heatcase.SideUsed{{Name: "all round", Medium: "walk-in-fan", Words: "walk-in", TempC: 3, LowW: 13.4, UsualW: 20, HighW: 29, Source: "a table"}},
		Runs: []heatcase.Run{{Film: "usual", Reached: true, TimeS: 5 * 3600, Cells: 12, Steps: 40, Curve: []heatcase.CurvePoint{{CoreC: 93, SurfaceC: 93, MeanC: 93, MediumC: 3}, {TimeS: 5 * 3600, CoreC: 5, SurfaceC: 4, MeanC: 4.5, MediumC: 3}},
			Profiles: []heatcase.ProfileTimes{{Places: []heatcase.PlaceAt{{DepthMm: 0, TempC: 93}, {DepthMm: 25, TempC: 93}, {DepthMm: 50, TempC: 93}}}}}},
		Findings: finding.List{{Code: heatcase.CodeTight, Severity: finding.Caution, Message: "slow at the slow end", Fix: "make it shallower"}, {Code: heatcase.CodeThermometer, Severity: finding.Note, Message: "log it"}},
	}
}

func heatPageOf(t *testing.T, a heatcase.Answer, units unit.System) string {
	t.Helper()
	v := viewHeat(a, reader{units: units})
	var out bytes.Buffer
	if err := heatTemplate.t.ExecuteTemplate(&out, "page", heatPage{Answer: &v}); err != nil {
		t.Fatal(err)
	}
	return strings.ReplaceAll(out.String(), "\u00a0", " ")
}

func TestHeatAnswerIsInTheOrderACookNeeds(t *testing.T) {
	page := heatPageOf(t, madeAnswer(), unit.US)
	inOrder(t, page, "Cool leek soup", "5 h", "until the core is at 41 °F", "▲", "CAUTION", "slow at the slow end", "4 h to 7 h", "depending on how well the air takes heat", "<svg", `id="slide"`,
		"Predicted, not measured", "make it shallower", "The limit", "a rule", "too slow at the slow end", "On the way", "70 °F", "From bottom to top", "<svg", "Handbook formulas", "10 % sooner", "does not apply", "it knows no pots", "12 cells, 40 time steps")
}

// 5 °C is 41 °F and 340 kJ/kg on 2 kg is 680 kJ (definition and product).
func TestHeatAnswerInMetric(t *testing.T) {
	page := heatPageOf(t, madeAnswer(), unit.Metric)
	for _, want := range []string{"until the core is at 5 °C", "5 °C <small>(41 °F)</small>", "2 kg: 680 kJ", "20 W/m²·K, range 13.4 to 29 W/m²·K"} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q on the page", want)
		}
	}
}

// The verdict never says more than the numbers, and says it with a sign and a word.
func TestHeatVerdicts(t *testing.T) {
	stop := madeAnswer()
	stop.Findings[0] = finding.Finding{Severity: finding.Stop, Message: "too slow: do not cool it like this"}
	within := madeAnswer()
	within.Findings = within.Findings[1:]
	freeze := within
	freeze.Verdict, freeze.Process = nil, heatcase.Freeze
	slowReheat, reheat := freeze, freeze
	slowReheat.Process, reheat.Process = heatcase.Reheat, heatcase.Reheat
	reheat.Time = heatcase.Band{Fast: inHours(0.3), Usual: inHours(0.5), Slow: inHours(2)}
	for name, c := range map[string]struct {
		a    heatcase.Answer
		want heatVerdict
	}{
		"caution":     {madeAnswer(), heatVerdict{"caution", "▲", "CAUTION", "slow at the slow end"}},
		"stop":        {stop, heatVerdict{"stop", "■", "STOP", "too slow: do not cool it like this"}},
		"within":      {within, heatVerdict{"note", "●", "PREDICTED", "as the rule says"}},
		"freeze":      {freeze, heatVerdict{"note", "●", "PREDICTED", "the core gets there; no published time limit is held against this"}},
		"slow reheat": {slowReheat, heatVerdict{"note", "●", "PREDICTED", "the core gets there; no published time limit is held against this"}},
		"reheat":      {reheat, heatVerdict{"note", "●", "PREDICTED", "within the 2 h of the code, as predicted, with every coefficient of the band"}},
	} {
		if got := verdictOf(c.a); got != c.want {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
		page := heatPageOf(t, c.a, unit.US)
		for _, word := range []string{" safe", " fine", "OK", "guaranteed"} {
			if strings.Contains(page[strings.Index(page, "<main"):], word) {
				t.Errorf("%s: the page says %q, which no figure carries", name, word)
			}
		}
	}
}

func TestStageWords(t *testing.T) {
	limit := 6.0 * 3600
	never := heatcase.Reach{TimeS: 3 * 3600}
	for name, c := range map[string]struct {
		band heatcase.Band
		want string
	}{
		"all within":   {heatcase.Band{Fast: inHours(3), Usual: inHours(4), Slow: inHours(6)}, "within, as predicted"},
		"slow is late": {heatcase.Band{Fast: inHours(3), Usual: inHours(6), Slow: inHours(6.1)}, "too slow at the slow end"},
		"usual late":   {heatcase.Band{Fast: inHours(3), Usual: inHours(6.1), Slow: inHours(9)}, "too slow"},
		"not followed": {heatcase.Band{Fast: never, Usual: never, Slow: never}, "not followed so far"},
	} {
		rows := heatStages(heatcase.Verdict{Stages: []heatcase.StageTime{{LimitS: limit, Band: c.band}}})
		if rows[0].Word != c.want {
			t.Errorf("%s: %q, want %q", name, rows[0].Word, c.want)
		}
	}
}

// -0.8 °C is 30.56 °F: a whole degree would say that soup freezes at 31 °F or at -1 °C.
func TestExactTemp(t *testing.T) {
	if got := (reader{units: unit.US}).exactTemp(-0.8); got != (figure{"30.6\u00a0°F", "-0.8\u00a0°C"}) {
		t.Errorf("%+v", got)
	}
	if got := (reader{units: unit.Metric}).exactTemp(-18); got != (figure{"-18\u00a0°C", "0\u00a0°F"}) {
		t.Errorf("%+v", got)
	}
}

package plan

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/reheating"
	"kettlefrost/internal/unit"
)

// heatMethods are the ways whose time is measured, in the order of the card.
var heatMethods = []struct {
	book   kitchen.HeatMethod
	engine reheating.Method
}{{kitchen.Microwave, reheating.Microwave}, {kitchen.HotOven, reheating.Oven}, {kitchen.SimmeringWater, reheating.Simmering}}

const (
	// warmestFrozen is how warm a pack may be at the start of a trial to count as frozen: 5 °F, as it is when it comes from a freezer at 0 °F
	// and is handled (common practice).
	warmestFrozenF = 5
	// nearlyFull is the least share of a pack's net mass that a measured one may have: packs differ.
	nearlyFull = 0.98
)

// measured evaluates the trials of a pack, method by method.
func (p *planner) measured(f PackFill) []reheating.Evaluation {
	var all []reheating.Evaluation
	trials := p.book.Packs[kitchen.PackID(f.Pack)].Trials
	for _, m := range heatMethods {
		var runs []reheating.Trial
		for _, t := range trials {
			if t.Method == m.book {
				runs = append(runs, engineTrial(t))
			}
		}
		if len(runs) == 0 {
			continue
		}
		form, err := reheating.ValidationForm(m.engine, f.filled().Kg()*nearlyFull, unit.TempF(warmestFrozenF).C())
		if err != nil {
			continue // a pack of no mass has no card either
		}
		all = append(all, reheating.Evaluate(form, runs))
	}
	return all
}

func engineTrial(t kitchen.Trial) reheating.Trial {
	run := reheating.Trial{Appliance: t.Appliance, Watts: t.Power.W(), MassKg: t.Mass.Kg(), StartC: t.Start.C(), Minutes: t.Time.S() / 60, StandMin: t.Stand.S() / 60, Who: t.Who, Date: t.Date}
	if t.Set != nil {
		run.SetC = t.Set.C()
	}
	for _, s := range t.Spots {
		run.SpotsC = append(run.SpotsC, s.C())
	}
	return run
}

// showMeasured tells an evaluation in words.
func (p *planner) showMeasured(e reheating.Evaluation) MeasuredTime {
	show := MeasuredTime{Method: e.Form.Method.String(), Minutes: e.Minutes, Runs: e.Runs, Lacks: []string{}}
	for _, l := range e.Lacks {
		show.Lacks = append(show.Lacks, p.lack(l))
	}
	return show
}

func (p *planner) lack(l reheating.Lack) string {
	temp := func(c float64) string { return unit.TempC(c).Show(p.out.Units) }
	text := map[reheating.LackCode]string{
		reheating.TooFewRuns:    fmt.Sprintf("%.0f runs count and %.0f are needed", l.Value, l.Want),
		reheating.FieldEmpty:    "who, when or with what is not written",
		reheating.FigureMissing: "a figure is missing or cannot be",
		reheating.SpotsMissing:  fmt.Sprintf("%.0f of %.0f spots were measured", l.Value, l.Want),
		reheating.PackTooSmall:  fmt.Sprintf("the pack was lighter (%s) than what is sold", mass(l.Value).Show(p.out.Units)),
		reheating.StartTooWarm:  fmt.Sprintf("it started at %s, warmer than %s", temp(l.Value), temp(l.Want)),
		reheating.StandTooShort: fmt.Sprintf("it stood %.0f min, %.0f are asked for", l.Value, l.Want),
		reheating.TooCold:       fmt.Sprintf("a spot was at %s, below %s", temp(l.Value), temp(l.Want)),
		reheating.NotLonger:     "it took no longer than a run that left a cold spot",
		reheating.NotAlike:      "the runs were not made alike",
	}[l.Code]
	if text == "" {
		text = string(l.Code)
	}
	if l.Run > 0 {
		return fmt.Sprintf("run %d: %s", l.Run, text)
	}
	return text
}

// judgeMeasured finds trials that give no time.
func (p *planner) judgeMeasured(f PackFill, times []MeasuredTime) {
	for _, m := range times {
		if m.Minutes > 0 {
			continue
		}
		p.find(finding.Finding{Code: CodeNotMeasured, Severity: finding.Note, Where: "pack " + f.Pack, Path: "packs." + f.Pack + ".trials",
			Message: "its trials give no time for " + m.Method + ": " + m.Lacks[len(m.Lacks)-1], Figures: []finding.Figure{{Name: "runs that count", Value: float64(m.Runs), Text: fmt.Sprint(m.Runs)}},
			Source: reheating.TargetSource, Fix: "measure the largest pack from the coldest freezer three times alike, 165 °F in all five spots; kettlefrost heat form prints the form"})
	}
}

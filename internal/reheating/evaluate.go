package reheating

import (
	"math"
	"strings"
)

// Lack is one reason why the runs do not give a time, or why one of them does not count.
type Lack struct {
	Code  LackCode
	Run   int     // of the runs, from 1; 0 is all of them
	Value float64 // what was found
	Want  float64 // what it would have to be
}

// LackCode names one reason.
type LackCode string

// The codes.
const (
	UnknownMethod LackCode = "unknown-method"  // the form is for none of the methods
	TooFewRuns    LackCode = "too-few-runs"    // Value runs count, Want are needed
	FieldEmpty    LackCode = "field-empty"     // appliance, who or date is not filled in
	FigureMissing LackCode = "figure-missing"  // a figure is missing or is none
	SpotsMissing  LackCode = "spots-missing"   // Value spots were measured, Want are needed
	PackTooSmall  LackCode = "pack-too-small"  // kg: lighter than the largest pack
	StartTooWarm  LackCode = "start-too-warm"  // °C: not from the coldest freezer
	StandTooShort LackCode = "stand-too-short" // min
	TooCold       LackCode = "too-cold"        // °C: a spot was below 165 °F
	NotLonger     LackCode = "not-longer"      // min: no longer than a run in which a spot was below 165 °F
	NotAlike      LackCode = "not-alike"       // runs at different power, setting or from different appliances
)

// Evaluation is what the runs say.
type Evaluation struct {
	Form     Form
	Given    bool    // there is a time
	Minutes  int     // the longest of the runs that count, and the margin, rounded up; 0 without a time
	StandMin int     // the longest that was stood
	Watts    float64 // of the microwave
	SetC     float64 // of the oven; of a bath the hottest
	Runs     int     // that count
	LongestS float64 // of them
	ColdestC float64 // coldest spot of them
	Lacks    []Lack
}

// Evaluate reads the runs of a form. A run counts if it is complete, was made with the largest pack from the coldest freezer, reached 165 °F
// in all five spots, and took longer than every run that did not. With LeastRuns that count, all made alike, there is a time: the longest
// and the margin, rounded up. With fewer there is none, whatever the form says. It never fails: what is wrong is a Lack.
func Evaluate(f Form, trials []Trial) Evaluation {
	e := Evaluation{Form: f}
	if f.Method < Microwave || f.Method > Simmering {
		e.Lacks = []Lack{{Code: UnknownMethod, Value: float64(f.Method)}}
		return e
	}
	var good []int // indexes of runs that reached it everywhere
	failedMin := 0.0
	for i, t := range trials {
		lacks := t.lacks(f)
		for _, l := range lacks {
			l.Run = i + 1
			e.Lacks = append(e.Lacks, l)
		}
		if len(lacks) == 0 {
			good = append(good, i)
		}
		if c, ok := t.ColdestC(); ok && !reached(c) && figure(t.Minutes, 0, longestTrialMin) {
			failedMin = max(failedMin, t.Minutes)
		}
	}
	e.count(trials, good, failedMin)
	return e
}

// count takes the runs that are longer than every failed one, and gives their time if there are enough of them.
func (e *Evaluation) count(trials []Trial, good []int, failedMin float64) {
	var counted []Trial
	for _, i := range good {
		if trials[i].Minutes <= failedMin {
			e.Lacks = append(e.Lacks, Lack{NotLonger, i + 1, trials[i].Minutes, failedMin})
			continue
		}
		counted = append(counted, trials[i])
	}
	e.Runs = len(counted)
	if len(counted) < LeastRuns {
		e.Lacks = append(e.Lacks, Lack{Code: TooFewRuns, Value: float64(len(counted)), Want: LeastRuns})
		return
	}
	first := counted[0]
	e.ColdestC = math.Inf(1)
	longestMin, standMin, hottestSetC := 0.0, 0.0, 0.0
	for _, t := range counted {
		if !alike(t, first, e.Form.Method) {
			e.ColdestC = 0
			e.Lacks = append(e.Lacks, Lack{Code: NotAlike})
			return
		}
		longestMin, standMin, hottestSetC = max(longestMin, t.Minutes), max(standMin, t.StandMin), max(hottestSetC, t.SetC)
		c, _ := t.ColdestC()
		e.ColdestC = min(e.ColdestC, c)
	}
	e.Given, e.LongestS, e.StandMin = true, 60*longestMin, int(math.Ceil(standMin))
	e.Minutes = PrintedMinutes(e.LongestS * (1 + measuredMargin))
	e.Watts, e.SetC = first.Watts, hottestSetC
}

// alike says whether two runs were made in the same way.
func alike(a, b Trial, m Method) bool {
	if !strings.EqualFold(strings.TrimSpace(a.Appliance), strings.TrimSpace(b.Appliance)) {
		return false
	}
	if m == Microwave {
		return a.Watts == b.Watts
	}
	return m == Simmering || a.SetC == b.SetC // the water of a pot is never quite the same twice
}

// lacks is why the run does not count, by itself.
func (t Trial) lacks(f Form) []Lack {
	var found []Lack
	add := func(bad bool, code LackCode, value, want float64) {
		if bad {
			found = append(found, Lack{Code: code, Value: finite(value), Want: finite(want)})
		}
	}
	for _, text := range []string{t.Appliance, t.Who, t.Date} {
		add(strings.TrimSpace(text) == "", FieldEmpty, 0, 0)
	}
	setting, lowest, highest := t.SetC, 50.0, 300.0
	switch f.Method {
	case Microwave:
		setting, lowest, highest = t.Watts, 100, 5000
	case Simmering:
		lowest, highest = 70, 101
	}
	add(!figure(setting, lowest, highest), FigureMissing, setting, 0)
	add(!figure(t.MassKg, 0, 2*heaviestKg) || t.MassKg == 0, FigureMissing, t.MassKg, 0)
	add(!figure(t.Minutes, 0, longestTrialMin) || t.Minutes == 0, FigureMissing, t.Minutes, 0)
	add(!figure(t.StandMin, 0, 60), FigureMissing, t.StandMin, 0)
	add(!figure(t.StartC, lowestReadingC, highestReadingC), FigureMissing, t.StartC, 0)
	add(!(t.MassKg >= f.LargestKg), PackTooSmall, t.MassKg, f.LargestKg)
	add(!(t.StartC <= f.ColdestC), StartTooWarm, t.StartC, f.ColdestC)
	leastStand := 0.0
	if f.Method == Microwave {
		leastStand = microwaveStandMin
	}
	add(!(t.StandMin >= leastStand), StandTooShort, t.StandMin, leastStand)
	coldest, ok := t.ColdestC()
	add(!ok, SpotsMissing, float64(len(t.SpotsC)), float64(len(Spots())))
	add(ok && !reached(coldest), TooCold, coldest, TargetC)
	return found
}

func figure(v, low, high float64) bool { return v >= low && v <= high }

// finite is v for showing: what is not a number is 0.
func finite(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return v
}

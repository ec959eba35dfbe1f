package web

import (
	"fmt"
	"html/template"
	"math"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/heatcase/heatshow"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/unit"
)

// heatView is an answer about heat, in the order in which a cook reads it.
type heatView struct {
	Question string
	Until    string // what the time is until
	Time     string
	Band     string
	Depends  string // what makes the band
	Verdict  heatVerdict
	Curve    heatDrawing
	Stages   []heatStage
	Rule     string
	Marks    []heatMark
	Profile  template.HTML // none for a pot of one temperature
	Depths   []heatDepth
	Findings findingsView
	Course   []heatMoment
	Methods  []heatMethod
	By       string
	Closing  string // how the energy closes
	Food     []heatFact
	Heat     []heatFact
	Sides    []heatSide
	Sources  []string
}

// heatVerdict is how it stands, in words and with a sign.
type heatVerdict struct{ Class, Sign, Word, Words string }

// heatDrawing is one picture in two widths, for a tablet and for a telephone.
type heatDrawing struct{ Wide, Narrow template.HTML }

// heatStage is one stage of a published limit.
type heatStage struct{ Name, Allowed, Usual, Range, Class, Sign, Word string }

// heatMark is a temperature that the core passes.
type heatMark struct {
	Temp                figure
	Name                string
	Usual, Soon, Latest string
}

// heatMoment is one row of the curve as a table.
type heatMoment struct{ Time, Core, Surface, Mean, Medium string }

// heatDepth is the temperatures through the food at one time.
type heatDepth struct{ Time, Low, Core, High string }

// heatMethod is a handbook formula beside the simulation.
type heatMethod struct{ Name, Time, Off, Note, Source string }

type heatFact struct{ Name, Text string }

type heatSide struct{ Name, Words, Temp, Film, Note, Source string }

func viewHeat(a heatcase.Answer, rd reader) heatView {
	v := heatView{Question: capital(a.Question), Until: "until the core is at " + rd.fig(unit.TempC(a.ToC)).First, Time: together(heatshow.Time(a.Time.Usual)), Band: bandWords(a.Time),
		Depends: depends(a), Verdict: verdictOf(a), Curve: curvePictures(a), Findings: viewFindings(a.Findings), By: a.By, Sources: a.Sources}
	if a.Verdict != nil {
		v.Rule = a.Verdict.Rule
		v.Stages = heatStages(*a.Verdict)
	}
	for _, m := range a.Marks {
		v.Marks = append(v.Marks, heatMark{Temp: rd.exactTemp(m.TempC), Name: m.Name, Usual: heatshow.Time(m.Usual), Soon: heatshow.Time(m.Fast), Latest: heatshow.Time(m.Slow)})
	}
	usual := a.Of("usual")
	if len(usual.Profiles) > 0 {
		v.Profile, v.Depths = profilePicture(a, usual), rd.depths(usual)
	}
	v.Course = rd.course(usual)
	for _, m := range a.Methods {
		v.Methods = append(v.Methods, viewMethod(m))
	}
	v.Closing = closing(usual)
	v.Food, v.Heat, v.Sides = foodFacts(a, rd), heatFacts(a.Heat, rd), heatSides(a, rd)
	return v
}

// bandWords is the band from its soonest to its latest.
func bandWords(b heatcase.Band) string {
	soon, latest := heatshow.Time(b.Fast), heatshow.Time(b.Slow)
	if soon == latest {
		return soon
	}
	return together(soon) + " to " + together(latest)
}

// depends says what makes the band.
func depends(a heatcase.Answer) string {
	verb := "takes heat"
	if a.ToC > a.FromC {
		verb = "gives heat"
	}
	what := ""
	for _, s := range a.Sides {
		if s.Medium == heatcase.Closed {
			continue
		}
		word := "the air"
		if m, ok := medium.Find(s.Medium); ok && m.Wet {
			word = "the water"
		} else if s.Medium == "cold-plate" {
			word = "the plate"
		}
		if what != "" && what != word {
			word = "what is around it"
		}
		what = word
	}
	if what == "" {
		return ""
	}
	return "depending on how well " + what + " " + verb
}

// reheatLimit is how long food may take to 165 °F (FDA Food Code 3-403.11(D)); the code counts from 41 °F, here it is from the start.
const reheatLimit = 2 * unit.Hour

// verdictOf is the gravest of what was found, or what the numbers carry when nothing grave was.
func verdictOf(a heatcase.Answer) heatVerdict {
	for _, f := range a.Findings {
		if f.Severity > finding.Note {
			return heatVerdict{Class: f.Severity.String(), Sign: signs[f.Severity], Word: strings.ToUpper(f.Severity.String()), Words: f.Message}
		}
	}
	v := heatVerdict{Class: finding.Note.String(), Sign: signs[finding.Note], Word: "PREDICTED"}
	switch {
	case a.Verdict != nil:
		v.Words = a.Verdict.Words
	case a.Process == heatcase.Reheat && a.Time.Slow.Reached && a.Time.Slow.TimeS <= reheatLimit.S():
		v.Words = "within the 2 h of the code, as predicted, with every coefficient of the band"
	case a.Time.Usual.Reached:
		v.Words = "the core gets there; no published time limit is held against this"
	}
	return v
}

func heatStages(v heatcase.Verdict) []heatStage {
	var all []heatStage
	for _, s := range v.Stages {
		row := heatStage{Name: s.Name, Allowed: unit.SpanS(s.LimitS).Show(unit.Metric), Usual: heatshow.Time(s.Usual), Range: bandWords(s.Band)}
		within := func(r heatcase.Reach) bool { return r.Reached && r.TimeS <= s.LimitS }
		severity := finding.Stop
		switch {
		case within(s.Slow):
			severity, row.Word = finding.Note, "within, as predicted"
		case within(s.Usual):
			severity, row.Word = finding.Caution, "too slow at the slow end"
		case !s.Usual.Reached && s.Usual.TimeS <= s.LimitS:
			severity, row.Word = finding.Caution, "not followed so far"
		default:
			row.Word = "too slow"
		}
		row.Class, row.Sign = severity.String(), signs[severity]
		all = append(all, row)
	}
	return all
}

// exactTemp is a temperature; where food freezes a whole degree would be too coarse.
func (r reader) exactTemp(c float64) figure {
	t := unit.TempC(c)
	if whole := math.Abs(c - math.Round(c)); c > -5 && c < 0 && whole > 0.05 {
		celsius, fahrenheit := fmt.Sprintf("%.1f\u00a0°C", c), fmt.Sprintf("%.1f\u00a0°F", t.F())
		if r.units == unit.US {
			return figure{fahrenheit, celsius}
		}
		return figure{celsius, fahrenheit}
	}
	return r.fig(t)
}

func (r reader) temp(c float64) string { return r.fig(unit.TempC(c)).First }

// courseRows is about how many rows tell a curve.
const courseRows = 12

// course is the curve as a table: rows equally far apart in time.
func (r reader) course(run heatcase.Run) []heatMoment {
	var rows []heatMoment
	next := 0.0
	for i, p := range run.Curve {
		last := i == len(run.Curve)-1
		if p.TimeS < next && !last {
			continue
		}
		next = p.TimeS + run.Curve[len(run.Curve)-1].TimeS/courseRows
		row := heatMoment{Time: "start", Core: r.temp(p.CoreC), Surface: r.temp(p.SurfaceC), Mean: r.temp(p.MeanC), Medium: r.temp(p.MediumC)}
		if p.TimeS > 0 {
			row.Time = unit.SpanS(p.TimeS).Show(r.units)
		}
		rows = append(rows, row)
	}
	return rows
}

// depths are the temperatures at the faces and where it is slowest.
func (r reader) depths(run heatcase.Run) []heatDepth {
	var rows []heatDepth
	for _, p := range run.Profiles {
		if len(p.Places) == 0 {
			continue
		}
		low, high := p.Places[0], p.Places[len(p.Places)-1]
		core := low
		for _, at := range p.Places {
			if math.Abs(at.DepthMm-(low.DepthMm+high.DepthMm)/2) < math.Abs(core.DepthMm-(low.DepthMm+high.DepthMm)/2) {
				core = at
			}
		}
		rows = append(rows, heatDepth{Time: profileName(p), Low: r.temp(low.TempC), Core: r.temp(core.TempC), High: r.temp(high.TempC)})
	}
	return rows
}

func viewMethod(m heatcase.Method) heatMethod {
	v := heatMethod{Name: m.Name, Time: "does not apply", Off: "–", Note: m.Note, Source: m.Source}
	if !m.Applies {
		return v
	}
	v.Time = heatshow.Time(heatcase.Reach{Reached: true, TimeS: m.TimeS})
	switch {
	case math.Abs(m.OffPct) < 0.5:
		v.Off = "the same within 0.5 %"
	case m.OffPct < 0:
		v.Off = fmt.Sprintf("%.0f %% sooner", -m.OffPct)
	default:
		v.Off = fmt.Sprintf("%.0f %% later", m.OffPct)
	}
	return v
}

// closing is how the energy of the simulation closes.
func closing(run heatcase.Run) string {
	if run.Cells == 0 {
		return ""
	}
	text := fmt.Sprintf("%d cells, %d time steps; ", run.Cells, run.Steps)
	if run.Closure < 1e-6 {
		return text + "the heat that left and the heat that the food lost agree to better than a millionth"
	}
	return text + fmt.Sprintf("%.2g %% of the heat is unaccounted for", 100*run.Closure)
}

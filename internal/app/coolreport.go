package app

import (
	"cmp"
	"context"
	"math"
	"slices"

	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/hazards"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// CoolingSchema names the shape of forecasts of cooling for programs.
const CoolingSchema = "kettlefrost.cooling/1"

// CoolingsReport is all that cools in a production, for programs.
type CoolingsReport struct {
	Schema   string          `json:"schema"`
	Run      string          `json:"run"`
	Now      record.Instant  `json:"now_ms"`
	Judged   bool            `json:"judged"` // the book says by what rules; else nothing is forecast
	Rule     string          `json:"rule"`
	Title    string          `json:"title"`
	Source   string          `json:"source"`
	Coolings []CoolingReport `json:"coolings"`
	Findings finding.List    `json:"findings"`
}

// CoolingReport is one load. A time that is not known, or later than two days, is left out.
type CoolingReport struct {
	Task     string                `json:"task"`
	Dish     string                `json:"dish"`
	Output   string                `json:"output"`
	Label    string                `json:"label"`
	Load     int                   `json:"load"`
	Loads    int                   `json:"loads"`
	Mass     unit.Mass             `json:"mass_g,omitempty"` // of the load
	Way      string                `json:"way,omitempty"`    // how it is cooled now
	Over     bool                  `json:"over,omitempty"`   // its work is done
	Reheats  int                   `json:"reheats,omitempty"`
	Outcome  coolforecast.Outcome  `json:"outcome"`
	Why      coolforecast.Why      `json:"why,omitempty"`
	Headline string                `json:"headline"`
	Says     string                `json:"says"`
	Problem  string                `json:"problem,omitempty"` // why nothing can be forecast
	Margin   *float64              `json:"margin_s,omitempty"`
	Limits   []CoolingLimit        `json:"limits"`
	Now      *CoolingBand          `json:"now,omitempty"` // the warmest point now
	Band     []CoolingBand         `json:"band"`
	Pace     *float64              `json:"pace,omitempty"` // of its predicted curve: 2 is twice as fast
	Read     record.Instant        `json:"read_ms,omitempty"`
	Due      record.Instant        `json:"due_ms,omitempty"` // when it must be read next
	DueWhy   coolforecast.DueWhy   `json:"due_why,omitempty"`
	Late     bool                  `json:"late,omitempty"` // a reading is missing
	Do       string                `json:"do,omitempty"`   // the one thing to do now
	DoWhy    string                `json:"do_why,omitempty"`
	Actions  []CoolingActionReport `json:"actions,omitempty"` // what can be done, the best first
	Remedies []CoolingRemedy       `json:"remedies,omitempty"`
}

// CoolingLimit is one limit of the rule.
type CoolingLimit struct {
	Name     string               `json:"name"`
	ToC      float64              `json:"to_c"`
	State    coolforecast.State   `json:"state"`
	Outcome  coolforecast.Outcome `json:"outcome"`
	Where    string               `json:"where,omitempty"` // the worst point in the food
	Started  bool                 `json:"started"`
	Start    record.Instant       `json:"start_ms,omitempty"`
	Deadline record.Instant       `json:"deadline_ms,omitempty"`
	Good     record.Instant       `json:"good_ms,omitempty"` // it is reached between these two with nine chances in ten
	Usual    record.Instant       `json:"usual_ms,omitempty"`
	Bad      record.Instant       `json:"bad_ms,omitempty"`
	Margin   *float64             `json:"margin_s,omitempty"` // at the bad end
	Says     string               `json:"says"`
}

// CoolingBand is the forecast at a time.
type CoolingBand struct {
	At     record.Instant `json:"at_ms"`
	LowC   float64        `json:"low_c"`
	UsualC float64        `json:"usual_c"`
	HighC  float64        `json:"high_c"`
}

// CoolingActionReport is something that can be done.
type CoolingActionReport struct {
	Name    string               `json:"name"`
	Did     record.Deed          `json:"did"` // to be entered when it is done, with the text
	Text    string               `json:"text"`
	Outcome coolforecast.Outcome `json:"outcome"`
	Says    string               `json:"says"`
	Latest  record.Instant       `json:"latest_ms,omitempty"` // the latest time for it
	Ice     unit.Mass            `json:"ice_g,omitempty"`
	Hands   unit.Span            `json:"hands_s"`
	Part    float64              `json:"part"` // of the load that there are vessels and ice for
}

// CoolingRemedy is what may become of food that misses a limit.
type CoolingRemedy struct {
	Remedy coolforecast.Remedy `json:"remedy"`
	Source string              `json:"source,omitempty"`
	Memory bool                `json:"from_memory,omitempty"`
}

// instant is a time that is known; 0 otherwise.
func (c Cooling) instant(s float64) record.Instant {
	if math.IsNaN(s) || math.IsInf(s, 0) {
		return 0
	}
	return c.At(s)
}

func finite(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	x = math.Round(x*1000) / 1000
	return &x
}

// CoolingReportOf is a load for programs, with what can be done about it if that was asked.
func CoolingReportOf(c Cooling, a *CoolAdvice, v CoolVoice, now record.Instant) CoolingReport {
	f := c.Forecast
	r := CoolingReport{Task: c.Log.Task, Dish: c.Log.Dish, Output: c.Log.Output, Label: c.Log.Title, Load: c.Log.Load, Loads: c.Log.Loads, Mass: c.Mass, Way: c.Way, Over: c.Over, Reheats: c.Reheats,
		Outcome: f.Outcome, Why: f.Why, Headline: v.Headline(c), Says: v.Line(c), Problem: c.Problem, Margin: finite(f.MarginS()), Limits: []CoolingLimit{}, Band: []CoolingBand{}, Pace: finite(f.Pace), Read: c.instant(f.LastS)}
	for _, l := range f.Limits {
		r.Limits = append(r.Limits, CoolingLimit{Name: l.Stage.Name, ToC: *finite(l.Stage.ToC), State: l.State, Outcome: l.Outcome, Where: l.Point, Started: l.Started, Start: c.instant(l.StartS), Deadline: c.instant(l.DeadlineS),
			Good: c.instant(l.ReachedS.Good), Usual: c.instant(l.ReachedS.Usual), Bad: c.instant(l.ReachedS.Bad), Margin: finite(l.MarginS.Bad), Says: v.Limit(c, l)})
	}
	for _, b := range f.Band {
		r.Band = append(r.Band, CoolingBand{c.At(b.TimeS), *finite(b.LowC), *finite(b.UsualC), *finite(b.HighC)})
	}
	if len(f.Band) > 0 {
		r.Now = &CoolingBand{now, *finite(f.NowC.Good), *finite(f.NowC.Usual), *finite(f.NowC.Bad)}
	}
	if at, late, any := c.Due(now); any {
		r.Due, r.DueWhy, r.Late = at, f.Due.Why, late
	}
	if a != nil {
		r.advised(c, *a, v, now)
	}
	return r
}

func (r *CoolingReport) advised(c Cooling, a CoolAdvice, v CoolVoice, now record.Instant) {
	step := v.Step(c, a, now)
	r.Do, r.DoWhy = step.Do, step.Why
	for _, x := range a.Actions {
		y := CoolingActionReport{Name: x.Name, Did: x.Did, Text: x.Text, Outcome: x.Outcome, Says: v.Comes(c, x), Latest: c.instant(x.LatestS), Ice: x.Ice, Hands: x.Hands, Part: *finite(x.Part)}
		r.Actions = append(r.Actions, y)
	}
	for _, x := range a.Allowed {
		r.Remedies = append(r.Remedies, CoolingRemedy(x))
	}
}

// Codes of findings about what cools. They are stable, for programs.
const (
	CodeCoolDoubt  = "cooling-in-doubt"
	CodeCoolLate   = "cooling-will-miss"
	CodeCoolMissed = "cooling-missed"
	CodeCoolUnread = "cooling-not-read"
	CodeCoolUnsaid = "cooling-cannot-be-said"
)

// CoolingFindings are what somebody has to look at now, the gravest first.
func CoolingFindings(run string, all []Cooling, v CoolVoice, now record.Instant) finding.List {
	found := finding.List{}
	for _, c := range all {
		if c.Over {
			continue
		}
		f := finding.Finding{Severity: finding.Caution, Where: "run " + run + ", " + c.Log.Title, Path: "runs." + run + "." + c.Log.Task, Source: c.Case.Rule.Source, Message: v.Headline(c) + ": " + v.Line(c), Fix: "look at what can be done while there is time"}
		_, late, _ := c.Due(now)
		switch o := c.Forecast.Outcome; {
		case c.Problem != "":
			f.Code, f.Message, f.Fix = CodeCoolUnsaid, c.Problem, "a named person decides"
		case o == coolforecast.Missed:
			f.Code, f.Severity, f.Fix = CodeCoolMissed, finding.Stop, "act by the hazard plan, and write down what was done"
		case o == coolforecast.Misses:
			f.Code, f.Severity = CodeCoolLate, finding.Stop
		case o == coolforecast.InDoubt:
			f.Code = CodeCoolDoubt
		case late:
			f.Code, f.Message, f.Fix = CodeCoolUnread, f.Message+"; a reading is missing since "+v.Clock(c.At(c.Forecast.Due.AtS)), "measure its warmest spot now, and enter it"
		default:
			continue
		}
		if m := c.Forecast.MarginS(); c.Problem == "" && finite(m) != nil {
			f.Figures = []finding.Figure{{Name: "margin at the bad end", Value: math.Round(m / 60), Unit: "min", Text: v.Margin(c.Forecast.Limits[c.Forecast.Decides].MarginS)}}
		}
		found = append(found, f)
	}
	slices.SortStableFunc(found, func(a, b finding.Finding) int { return cmp.Compare(b.Severity, a.Severity) })
	return found
}

// UnknownCoolingError says that nothing of a name cools in a production.
type UnknownCoolingError struct{ Run, Task string }

func (e *UnknownCoolingError) Error() string {
	return "nothing of the name " + e.Task + " cools in " + e.Run + " yet"
}

// CoolingsReport is all that cools in a production, or one load of it with what can be done about it. Errors are *UnknownCoolingError and those of
// the store.
func (b *Boards) CoolingsReport(ctx context.Context, p *Production, task string) (CoolingsReport, error) {
	all, err := b.Coolings(ctx, p)
	if err != nil {
		return CoolingsReport{}, err
	}
	now, v, rule := record.Instant(b.house.Now().UnixMilli()), VoiceOf(p), hazards.CoolRule(p.Book)
	r := CoolingsReport{Schema: CoolingSchema, Run: p.Run.Name, Now: now, Judged: p.Book.Safety.Given(), Rule: rule.ID, Title: rule.Title, Source: rule.Source, Coolings: []CoolingReport{}, Findings: CoolingFindings(p.Run.Name, all, v, now)}
	if task != "" {
		c, there := CoolingOf(all, task)
		if !there {
			return r, &UnknownCoolingError{p.Run.Name, task}
		}
		a := b.Advice(p, c)
		r.Coolings = append(r.Coolings, CoolingReportOf(c, &a, v, now))
		return r, nil
	}
	for _, c := range all {
		r.Coolings = append(r.Coolings, CoolingReportOf(c, nil, v, now))
	}
	return r, nil
}

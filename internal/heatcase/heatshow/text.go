package heatshow

import (
	"fmt"
	"math"
	"strings"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/unit"
)

// Text is an answer as text: first how long it takes, then what that rests on.
func Text(a heatcase.Answer) string {
	w := writer{a: a}
	w.head()
	w.passes()
	w.verdict()
	w.findings()
	w.sides()
	w.methods()
	w.heat()
	w.food()
	w.computed()
	w.sources()
	return w.text.String()
}

// writer builds the text.
type writer struct {
	a    heatcase.Answer
	text strings.Builder
}

// Time is a time as a cook reads it; what was not reached is longer.
func Time(r heatcase.Reach) string {
	t := heatcase.CookTime(r.TimeS).Show(unit.Metric)
	if !r.Reached {
		return "more than " + t
	}
	return t
}

// Range is a band from its soonest to its latest.
func Range(b heatcase.Band) string { return Time(b.Fast) + " to " + Time(b.Slow) }

func (w *writer) temp(c float64) string { return unit.TempC(c).Show(w.a.Units) }

// figure is a number to three figures, never with an exponent.
func figure(x float64) string {
	if x >= 1000 {
		unit := math.Pow(10, math.Floor(math.Log10(x))-2)
		return fmt.Sprintf("%.0f", math.Round(x/unit)*unit)
	}
	return fmt.Sprintf("%.3g", x)
}

func (w *writer) head() {
	w.hang("", capital(w.a.Question))
	w.hang("  ", fmt.Sprintf("%s  (%s)", Time(w.a.Time.Usual), Range(w.a.Time)))
	if w.a.Verdict != nil {
		w.hang("  ", w.a.Verdict.Words)
	}
}

func capital(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

func (w *writer) passes() {
	if len(w.a.Marks) < 2 {
		return
	}
	w.heading("the core passes")
	for _, m := range w.a.Marks {
		temp := w.temp(m.TempC)
		if m.TempC < 0 && m.Name != "the target" { // where it freezes, a degree is too coarse
			temp = fmt.Sprintf("%.3g °C", m.TempC)
		}
		w.hang("  ", row(temp, Time(m.Usual), Range(m.Band), m.Name))
	}
}

// row lays out a line of the list of marks.
func row(temp, usual, band, name string) string {
	return strings.TrimRight(fmt.Sprintf("%s %s %-32s %s", pad(temp, 9), pad(usual, 20), band, name), " ")
}

// pad counts characters, where the format verbs of fmt do so too but a cell may be too long.
func pad(text string, width int) string {
	return text + strings.Repeat(" ", max(0, width-len([]rune(text))))
}

func (w *writer) verdict() {
	v := w.a.Verdict
	if v == nil {
		return
	}
	w.heading("limit: " + v.Rule)
	for _, s := range v.Stages {
		w.hang("  ", fmt.Sprintf("%s takes %s (%s), allowed %s", s.Name, Time(s.Usual), Range(s.Band), unit.SpanS(s.LimitS).Show(unit.Metric)))
	}
}

func (w *writer) findings() {
	w.heading("know this")
	for _, f := range w.a.Findings {
		text := f.Severity.String() + ": " + f.Message
		if f.Fix != "" {
			text += "; " + f.Fix
		}
		if f.Source != "" {
			text += " [" + f.Source + "]"
		}
		w.hang("  ", text)
	}
}

func (w *writer) sides() {
	w.heading("it stands in")
	for _, s := range w.a.Sides {
		if s.Medium == heatcase.Closed {
			w.hang("  ", s.Name+": "+s.Words)
			continue
		}
		text := fmt.Sprintf("%s: %s, %s, %s W/m²·K (%s to %s)", s.Name, s.Words, w.temp(s.TempC), figure(s.UsualW), figure(s.LowW), figure(s.HighW))
		if s.Note != "" {
			text += "; " + s.Note
		}
		w.hang("  ", text)
	}
}

func (w *writer) methods() {
	if len(w.a.Methods) == 0 {
		return
	}
	w.heading("beside it, by formula")
	for _, m := range w.a.Methods {
		if !m.Applies {
			w.hang("  ", fmt.Sprintf("%s: does not apply, %s", m.Name, m.Note))
			continue
		}
		w.hang("  ", fmt.Sprintf("%s: %s, %s; %s", m.Name, Time(heatcase.Reach{Reached: true, TimeS: m.TimeS}), off(m.OffPct), m.Note))
	}
}

func off(pct float64) string {
	switch {
	case math.Abs(pct) < 0.5:
		return "the same within 0.5 %"
	case pct < 0:
		return fmt.Sprintf("%.0f %% sooner", -pct)
	}
	return fmt.Sprintf("%.0f %% later", pct)
}

func (w *writer) heat() {
	h := w.a.Heat
	verb := "to take out"
	if h.KJKg < 0 {
		verb = "to put in"
	}
	w.heading("heat " + verb)
	text := figure(math.Abs(h.KJKg)) + " kJ/kg"
	if h.PieceKg > 0 {
		text += fmt.Sprintf("; of %s %s kJ", unit.MassKg(h.PieceKg).Show(w.a.Units), figure(math.Abs(h.PieceKJ)))
		if h.MeanW != 0 {
			text += fmt.Sprintf(", %s W on the average", figure(math.Abs(h.MeanW)))
		}
	}
	if h.IceKg > 0 {
		text += fmt.Sprintf("; that melts %s of ice, and the room melts more", unit.MassKg(h.IceKg).Show(w.a.Units))
	}
	w.hang("  ", text)
}

func (w *writer) food() {
	f := w.a.Food
	w.heading("food as computed: " + f.Name)
	c := f.Composition
	w.hang("  ", fmt.Sprintf("%.3g %% water, %.2g %% protein, %.2g %% fat, %.2g %% carbohydrate, %.2g %% fibre, %.2g %% ash", 100*c.Water, 100*c.Protein, 100*c.Fat, 100*c.Carb, 100*c.Fibre, 100*c.Ash))
	w.hang("  ", fmt.Sprintf("%.0f kg/m³; unfrozen %.2f kJ/kg·K and %.2f W/m·K, frozen %.2f kJ/kg·K and %.2f W/m·K; known from %.0f to %.0f °C", f.DensityKgM3, f.UnfrozenHeatKJKgK, f.UnfrozenConductivityWMK,
		f.FrozenHeatKJKgK, f.FrozenConductivityWMK, f.ValidFromC, f.ValidToC))
	if f.IceShare > 0 {
		w.hang("  ", fmt.Sprintf("begins to freeze at %.1f °C (%s); at %s %.0f %% of it is ice; freezing takes %.0f kJ/kg", f.FreezesAtC, f.FreezesAtFrom, w.temp(min(w.a.FromC, w.a.ToC)), 100*f.IceShare, f.FreezableKJKg))
	}
}

func (w *writer) computed() {
	w.heading("computed")
	text := "by " + w.a.By
	if r := w.a.Of("usual"); r.Cells > 0 {
		text += fmt.Sprintf("; %d cells, %d steps, %s", r.Cells, r.Steps, closed(r.Closure))
	}
	w.hang("  ", text)
}

// closed says how well the energy closes; beyond a billionth nobody cares.
func closed(part float64) string {
	if part < 1e-9 {
		return "energy closed to better than a billionth"
	}
	return fmt.Sprintf("energy closed to %.0e of it", part)
}

func (w *writer) sources() {
	w.heading("from")
	for _, s := range w.a.Sources {
		w.hang("  ", s)
	}
}

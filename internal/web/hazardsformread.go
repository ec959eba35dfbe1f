package web

import (
	"cmp"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/haccp"
	"kettlefrost/internal/unit"
)

// read is the change that a form makes. What cannot be read is said at its field.
func (e *editAsked) read(form url.Values, units unit.System) (edit haccp.Edit, ok bool) {
	get := func(key string) string { return tidy(form.Get(key)) }
	for i := range e.inputs {
		e.inputs[i].again(form)
	}
	edit = haccp.Edit{Do: e.do, At: e.at, Significant: get(significantKey) == "yes", Kind: haccp.Kind(get(hazardKindKey)), What: get(dangerKey), Why: get(whyKey), Control: get(controlKey), Point: get(pointKey), Programme: get(programmeKey),
		Text: inOneLine(form.Get(textKey)), Source: get(sourceKey), Reason: inOneLine(form.Get(reasonKey))}
	if l := tidyLines(form.Get(linesKey)); l != "" {
		edit.Lines = strings.Split(l, "\n")
	}
	edit.At = cmp.Or(edit.At, get(stepKey), get(nameKey))
	if e.has(watchedKey) {
		edit.Watch = &haccp.Watch{What: inOneLine(form.Get(watchedKey)), How: get(howKey), Often: get(oftenKey), Who: get(byWhomKey)}
	}
	if e.do == haccp.AddTraining {
		edit.Training = &haccp.Training{Who: get(byWhomKey), What: get(dangerKey), When: get(oftenKey)}
	}
	return edit, e.figures(&edit, units)
}

func (e *editAsked) has(key string) bool {
	return slices.ContainsFunc(e.inputs, func(in editInput) bool { return in.Key == key })
}

// again keeps what was typed.
func (in *editInput) again(form url.Values) {
	in.Value = form.Get(in.Key)
	for i := range in.Options {
		in.Options[i].Here = in.Options[i].Value == in.Value
	}
}

// figures reads temperatures and times. A bare number is in the kitchen's usual unit.
func (e *editAsked) figures(edit *haccp.Edit, units unit.System) (ok bool) {
	ok = true
	for i := range e.inputs {
		in := &e.inputs[i]
		of, n := strings.TrimRight(in.Key, "0123456789"), len(edit.Figures)
		text := strings.TrimSpace(in.Value)
		switch {
		case in.Key == figureKey("temp", n):
			t, err := unit.ParseTemp(withUnit(text, map[unit.System]string{unit.US: " °F", unit.Metric: " °C"}[units]))
			if err != nil {
				in.Problem, ok = sentence(err), false
			}
			edit.Figures = append(edit.Figures, haccp.Figure{TempC: t.C()})
		case of == "time" && n > 0 && in.Key == figureKey("time", n-1):
			d, err := unit.ParseSpan(withUnit(text, " min"))
			if err != nil {
				in.Problem, ok = sentence(err), false
			}
			edit.Figures[n-1].Seconds = d.S()
		}
	}
	return ok
}

// withUnit is a bare number with the usual unit.
func withUnit(text, usual string) string {
	if text != "" && strings.Trim(text, "0123456789.,-−") == "" {
		return text + usual
	}
	return text
}

// oneLine is what was typed into an area, on one line.
func inOneLine(text string) string { return strings.ReplaceAll(tidyLines(text), "\n", " ") }

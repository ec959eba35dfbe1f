package sheet

import (
	"fmt"
	"strings"

	"kettlefrost/internal/finding"
)

// tally says how many findings of each severity there are.
func tally(l finding.List) string {
	counts := map[finding.Severity]int{}
	for _, f := range l {
		counts[f.Severity]++
	}
	text := fmt.Sprintf("%s, %s, %s.", many(counts[finding.Stop], "stop", "stops"),
		many(counts[finding.Caution], "caution", "cautions"), many(counts[finding.Note], "note", "notes"))
	if counts[finding.Stop] > 0 {
		return "DO NOT START LIKE THIS: " + text
	}
	return "Findings: " + text
}

func (w *writer) findings() {
	w.heading("findings", "")
	if len(w.plan.Findings) == 0 {
		w.para(0, "None.")
		return
	}
	for i, f := range w.plan.Findings {
		if i > 0 {
			w.gap()
		}
		w.finding(f)
	}
}

func (w *writer) finding(f finding.Finding) {
	const indent = 9 // as wide as the longest severity and two spaces
	where := f.Where
	if f.At != nil {
		where = list(": ", f.At.String(), where)
	}
	lead := pad(strings.ToUpper(f.Severity.String()), indent, false)
	w.hang(0, lead, list("  ", where, "["+f.Code+"]"))
	w.para(indent, f.Message)
	var figures []string
	for _, g := range f.Figures {
		figures = append(figures, g.Name+" "+g.Text)
	}
	w.hang(indent, "figures: ", strings.Join(figures, "; "))
	w.hang(indent, "rule: ", f.Source)
	w.hang(indent, "fix: ", f.Fix)
}

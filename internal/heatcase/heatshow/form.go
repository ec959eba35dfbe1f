package heatshow

import (
	"fmt"
	"strings"

	"kettlefrost/internal/reheating"
	"kettlefrost/internal/unit"
)

// Form is a form to measure a heating time with, to be printed and filled in: a line of rules, then a column for each run.
func Form(f reheating.Form, pack string, units unit.System) string {
	w := writer{}
	w.hang("", fmt.Sprintf("Heating time by measurement: %s, %s", pack, f.Method))
	w.hang("", "No time is printed before the runs are done.")
	w.heading("how")
	for _, r := range f.Rules {
		w.hang("  ", r.English(units))
	}
	w.heading("the runs")
	cells := strings.Repeat("  ______________", f.LeastRuns)
	w.text.WriteString(pad("", formLabel) + "  ")
	for i := range f.LeastRuns {
		w.text.WriteString(pad(fmt.Sprintf("run %d", i+1), 16))
	}
	w.text.WriteString("\n")
	for _, x := range f.Fields {
		w.text.WriteString("\n" + pad(FormLabel(x, units), formLabel) + cells + "\n")
	}
	w.heading("from")
	w.hang("  ", f.Source)
	return endless(w.text.String())
}

const formLabel = 44

// FormLabel is what stands before a place to fill in, with its unit: degrees as the cook reads them.
func FormLabel(x reheating.Field, units unit.System) string {
	of := x.Unit
	if units == unit.US {
		of = map[string]string{"°C": "°F", "kg": "lb, oz"}[of]
		if of == "" {
			of = x.Unit
		}
	}
	if of == "" {
		return x.Label
	}
	return x.Label + ", " + of
}

// endless has no spaces at the ends of lines.
func endless(text string) string {
	lines := strings.Split(text, "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n")
}

package sheet

import (
	"slices"

	"kettlefrost/internal/caution"
	"kettlefrost/internal/plan"
)

// careful is what those who do the tasks of a day must be told, each once.
func (w *writer) careful(tasks []plan.Task, person string) {
	var acts []caution.Act
	for _, k := range tasks {
		if person != "" && !slices.Contains(k.People, person) {
			continue
		}
		for _, c := range k.Careful {
			acts = append(acts, c.Act)
		}
	}
	if len(acts) == 0 {
		return
	}
	w.sub("careful")
	for _, c := range caution.For(acts...) {
		w.hang(0, "- ", c.Says+" ("+c.Source+")")
	}
	w.para(0, caution.Decides)
}

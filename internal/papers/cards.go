package papers

import (
	"slices"

	"kettlefrost/internal/pdf"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/reheating"
)

// cards is the heating card of each pack. One of which something must be answered first is not printed.
func (w *writer) cards() {
	for i, c := range w.plan.Cards {
		w.add(pdf.Heading{Level: 1, Text: c.Name, Page: i > 0})
		if len(c.Missing) > 0 {
			w.loud("This card may not be given to customers yet: %s.", joined("; ", c.Missing...))
		}
		w.cardLines(c)
	}
}

// sections are the parts of a card that customers read.
var sections = []struct {
	section reheating.Section
	name    string
}{{reheating.Steps, "How to heat it"}, {reheating.Check, "Check"}, {reheating.Caution, "Take care"}}

func (w *writer) cardLines(c plan.Card) {
	for _, part := range sections {
		var lines pdf.List
		for _, l := range c.Said {
			if l.Section == part.section {
				lines = append(lines, l.In(w.In, w.Units))
			}
		}
		if len(lines) > 0 {
			w.add(pdf.Heading{Level: 2, Text: w.In.Say(part.name)}, lines)
		}
	}
	if !slices.ContainsFunc(c.Said, func(l reheating.Line) bool { return l.Section == reheating.Check }) {
		w.loud("This card may not be given to customers yet: %s.", w.In.Say("it has no temperature to check"))
	}
}

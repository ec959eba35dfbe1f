package netdeclare

import (
	"strconv"

	"kettlefrost/internal/unit"
)

// EU is the statement of a nominal quantity of solid food, in grams or kilograms, of one pack or of packs in one; with the mark "e" where the
// packs were made by Directive 76/211/EEC. Rounded down. Errors are *InputError.
func EU(nominal unit.Mass, packs int, eMark bool) (Statement, error) {
	if nominal < unit.Gram/10 || packs < 1 {
		return Statement{}, &InputError{"the nominal quantity", "is " + strconv.Itoa(packs) + " of " + nominal.String(), "give what a pack is said to hold, and how many there are"}
	}
	text, declared := metricOf(nominal)
	s := Statement{Text: text, Declared: declared, Unsaid: nominal - declared, Source: "Regulation (EU) 1169/2011, article 23 and annex IX; Directive 76/211/EEC",
		Confirm: "article 23 and annex IX are from memory; that kilograms take two places is common practice"}
	if packs > 1 {
		s.Text = strconv.Itoa(packs) + " × " + text
	}
	if eMark {
		s.Text += " ℮"
	}
	return s, nil
}

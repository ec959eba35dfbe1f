package labelrule

import (
	"cmp"
	"slices"
	"strings"
)

// Run is a stretch of text, set off from the others or not.
type Run struct {
	Text       string `json:"text"`
	Emphasised bool   `json:"emphasised,omitempty"`
}

// Emphasise sets off every occurrence of the words that name the allergens of one item of a list of ingredients. An allergen that the item does
// not name is put in brackets behind it: "cream" becomes "cream (milk)". Coconut milk is no milk.
func Emphasise(item string, of []EUFound) []Run {
	type stretch struct{ from, to int }
	var marks []stretch
	var behind []string
	for _, f := range of {
		there := false
		for _, w := range f.words() {
			for _, at := range occurrences(item, w) {
				marks = append(marks, stretch{at, at + len(w)})
				there = true
			}
		}
		if !there {
			behind = append(behind, f.Name())
		}
	}
	slices.SortFunc(marks, func(a, b stretch) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(b.to, a.to)) })
	var runs []Run
	at := 0
	for _, m := range marks {
		if m.from < at {
			continue // within one that is set off already
		}
		runs = appendRun(runs, item[at:m.from], false)
		runs = appendRun(runs, item[m.from:m.to], true)
		at = m.to
	}
	runs = appendRun(runs, item[at:], false)
	for i, name := range behind {
		runs = appendRun(runs, []string{" (", ", "}[min(i, 1)], false)
		runs = appendRun(runs, name, true)
	}
	if len(behind) > 0 {
		runs = appendRun(runs, ")", false)
	}
	return runs
}

func appendRun(runs []Run, text string, emphasised bool) []Run {
	if text == "" {
		return runs
	}
	return append(runs, Run{text, emphasised})
}

// Text is the runs as plain text.
func Text(runs []Run) string {
	var b strings.Builder
	for _, r := range runs {
		b.WriteString(r.Text)
	}
	return b.String()
}

// Emphasised are the stretches that are set off.
func Emphasised(runs []Run) []string {
	var all []string
	for _, r := range runs {
		if r.Emphasised {
			all = append(all, r.Text)
		}
	}
	return all
}

package trials

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/record"
)

// Problem is what of a trial that is being laid out cannot be, in the words of its form.
type Problem struct {
	Field   string // variants, figures[2].matters, ...
	Problem string // to be read after the name of the field
	Fix     string
}

func (p Problem) Error() string { return fmt.Sprintf("trials: %s %s: %s", p.Field, p.Problem, p.Fix) }

// longestName of a variant, a figure or a taster, in bytes: it stands on a label.
const longestName = 40

// Check is everything in a trial that is being laid out that would leave nobody able to carry it out, or to tell anything from it. What there was
// of that name before is for the caller to know.
func Check(b record.TrialLaid) []Problem {
	var all []Problem
	wrong := func(field, problem, fix string) { all = append(all, Problem{field, problem, fix}) }
	if b.Dish == "" {
		wrong("dish", "is missing", "choose the dish that is made otherwise")
	}
	if strings.TrimSpace(string(b.Asks)) == "" {
		wrong("asks", "is missing", "write what the trial is to settle, in a sentence")
	}
	checkVariants(b, wrong)
	checkFigures(b, wrong)
	checkTasters(b, wrong)
	switch {
	case len(b.Weeks) == 0:
		wrong("weeks", "are missing", "write after how many weeks packs are opened, such as 1, 4, 8, 12")
	case b.Packs < 1:
		wrong("packs", "are none", "open at least one of each variant in each week")
	}
	if len(all) == 0 {
		if _, err := Lay(b); err != nil {
			wrong("weeks", "cannot be laid out", err.Error())
		}
	}
	return all
}

func checkVariants(b record.TrialLaid, wrong func(field, problem, fix string)) {
	if len(b.Variants) < 2 {
		wrong("variants", "are fewer than two", "write the dish as it is, and one other way at least")
		return
	}
	bases := 0
	for i, v := range b.Variants {
		field := fmt.Sprintf("variants[%d]", i)
		switch {
		case v.Name == "" || len(v.Name) > longestName:
			wrong(field, "has no name, or a long one", "give it one or two words")
		case strings.Contains(v.Name, "/"):
			wrong(field, "has a stroke in its name", "leave the / out")
		case slices.ContainsFunc(b.Variants[:i], func(o record.Variant) bool { return strings.EqualFold(o.Name, v.Name) }):
			wrong(field, "has the name of another", "give each its own")
		}
		if strings.TrimSpace(string(v.Change)) == "" {
			wrong(field, "does not say what is otherwise", "write it, such as 20 g of citrate in place of 12; of the base: as in the book")
		}
		if v.Base {
			bases++
		}
	}
	if bases != 1 {
		wrong("variants", "have not one base", "mark the one that is made as in the book: the others are held against it")
	}
}

func checkFigures(b record.TrialLaid, wrong func(field, problem, fix string)) {
	if len(b.Figures) == 0 {
		wrong("figures", "are missing", "choose what is measured or tasted")
	}
	for i, f := range b.Figures {
		field := fmt.Sprintf("figures[%d]", i)
		known := f.Figure == Separation && f.Unit == Share || f.Figure == Drip && (f.Unit == Grams || f.Unit == Share) || f.Unit == Points && f.Figure != Separation && f.Figure != Drip
		switch {
		case f.Figure == "" || len(f.Figure) > longestName:
			wrong(field, "has no name, or a long one", "give it a word")
		case slices.ContainsFunc(b.Figures[:i], func(o record.Figured) bool { return o.Figure == f.Figure }):
			wrong(field, "is there twice", "take one out")
		case !known:
			wrong(field, "is neither measured nor scored", "measure separation in % or drip in g or %, and score everything else in points")
		}
		if f.Matters <= 0 {
			wrong(field+".matters", "is not above zero", "write the smallest difference that would make you change the dish")
		}
		if isScored(f) && f.Matters > MostPoints*thousandths {
			wrong(field+".matters", "is more than the whole scale", fmt.Sprintf("points go from 0 to %d", MostPoints))
		}
		if f.Bound != nil && (*f.Bound < 0 || isScored(f) && *f.Bound > MostPoints*thousandths || f.Unit == Share && *f.Bound > thousandths) {
			wrong(field+".bound", "is beyond the scale", "write how far it may go before a pack is no longer good")
		}
	}
}

func checkTasters(b record.TrialLaid, wrong func(field, problem, fix string)) {
	if len(b.Tasters) == 0 {
		wrong("tasters", "are missing", "write who tastes, or who measures, one on a line")
	}
	for i, name := range b.Tasters {
		if name == "" || len(name) > longestName || slices.ContainsFunc(b.Tasters[:i], func(o string) bool { return strings.EqualFold(o, name) }) {
			wrong("tasters", fmt.Sprintf("have %q, which is empty, long or there twice", name), "write each name once")
		}
	}
}

package homemeasure

import (
	"fmt"
	"math"
	"strings"

	"kettlefrost/internal/unit"
)

const commonPractice = "common practice"

// put asks; an assumption makes the line assumed.
func (r *reader) put(a Ask) {
	r.line.Assumed = r.line.Assumed || a.Assumed != ""
	r.line.Asks = append(r.line.Asks, a)
}

// ask puts every question that the line leaves open.
func (r *reader) ask(loose bool) {
	l := r.line
	if l.Words == "" {
		r.put(Ask{Code: AskWhat, Question: "what is it?"})
	}
	if severalFoods(l.Words, r.at.low == nil || r.at.each) {
		r.put(Ask{Code: AskFoods, Question: "are these two foods? Give each a line of its own"})
	}
	r.askAmount(loose)
	r.askMeasure()
	r.askAgreement()
	if l.Other != "" {
		r.put(Ask{Code: AskWhich, Question: fmt.Sprintf("%s, or %s?", l.Words, l.Other), Assumed: l.Words, Source: "the first that is named", Memory: true})
	}
	if r.at.part != "" {
		r.put(Ask{Code: AskPart, Question: fmt.Sprintf("how much is the %s of %s %s?", r.at.part, said(l.Low), l.Words)})
		l.Best = unit.Amount{}
	}
}

// severalFoods says whether words seem to name two foods: joined with an amount for the second, or joined at all where the line gives no amount
// or one for each.
func severalFoods(words string, joined bool) bool {
	for _, by := range []string{"and", "plus", "&", "+"} {
		i := indexFold(words, by)
		if i <= 0 {
			continue
		}
		behind := reader{text: words, pos: i + len(by), line: &Line{}}
		if n, _ := behind.number(); joined || n != nil {
			return true
		}
	}
	return false
}

func (r *reader) askAmount(loose bool) {
	l, at := r.line, &r.at
	switch {
	case at.low == nil:
		r.askHowMuch()
	case loose:
		r.put(Ask{Code: AskMore, Question: "how much more?", Assumed: "the amount that is written, and no more", Source: commonPractice, Memory: true})
	}
	if l.Low != l.High {
		r.put(Ask{Code: AskRange, Question: fmt.Sprintf("how much between %s and %s?", said(l.Low), said(l.High)), Assumed: "the middle, " + said(middle(l.Low, l.High)), Source: commonPractice, Memory: true})
	}
	if at.vague != "" {
		r.put(Ask{Code: AskNumber, Question: fmt.Sprintf("how many are %q?", at.vague), Assumed: said(l.Low), Source: commonPractice, Memory: true})
	}
	if at.comma {
		r.put(Ask{Code: AskDecimal, Question: "does the comma stand for a decimal point?", Assumed: "it does: " + said(l.Low), Source: commonPractice, Memory: true})
	}
}

// askHowMuch assumes something for salt alone: a share of the finished food.
func (r *reader) askHowMuch() {
	a := Ask{Code: AskHowMuch, Question: fmt.Sprintf("how much %s?", r.line.Words)}
	if row := wordRows[strings.ToLower(r.line.Words)]; row.Kind == "taste" && r.line.Other == "" {
		r.line.BestShare = unit.ShareOf(row.Mass.Kg() / 0.1)
		a.Assumed, a.Source, a.Memory = fmt.Sprintf("%s of the finished weight, with what other ingredients bring", r.line.BestShare), row.Source, row.Memory
	}
	r.put(a)
}

func (r *reader) askMeasure() {
	l, at := r.line, &r.at
	row := at.unit.row
	switch {
	case at.low == nil:
		return
	case row.Kind == "small" && at.also.Kind == 0:
		r.put(Ask{Code: AskSmall, Question: fmt.Sprintf("how many grams are %s?", said(l.Low)), Assumed: said(l.Best), Source: row.Source, Memory: row.Memory})
	case row.Kind == "container" && l.Size.Kind == 0:
		r.put(Ask{Code: AskSize, Question: fmt.Sprintf("what does a %s hold?", row.Word), Assumed: perOne(row), Source: row.Source, Memory: row.Memory})
	case row.Kind == "counted" && row.Mass > 0 && l.Best.Kind == unit.AmountMass && l.Size.Kind == 0 && at.also.Kind == 0:
		r.put(Ask{Code: AskPiece, Question: fmt.Sprintf("what does a %s weigh?", row.Word), Assumed: perOne(row), Source: row.Source, Memory: row.Memory})
	case at.unit.exact.mass == unit.Ounce && at.plus.Kind == 0 && r.liquid() && l.Best.Kind == unit.AmountVolume:
		r.put(Ask{Code: AskOunces, Question: "ounces by weight, or fluid ounces?", Assumed: "fluid ounces, for a liquid", Source: commonPractice, Memory: true})
	}
	if at.together {
		r.put(Ask{Code: AskPiece, Question: fmt.Sprintf("is %s all together, or each?", said(at.also)), Assumed: "all together", Source: commonPractice, Memory: true})
	}
	if at.spoon != "" {
		means := map[string]string{"T": "a tablespoon", "t": "a teaspoon"}[at.spoon]
		r.put(Ask{Code: AskSpoon, Question: fmt.Sprintf("is %s a tablespoon or a teaspoon?", at.spoon), Assumed: means, Source: commonPractice, Memory: true})
	}
	if at.heaped != "" && at.heaped != packed {
		r.put(Ask{Code: AskHeaped, Question: fmt.Sprintf("how much is it, %s?", at.heaped), Assumed: "level", Source: commonPractice, Memory: true})
	}
}

// perOne is what is assumed for one; empty if nothing is.
func perOne(row word) string {
	if row.Mass == 0 {
		return ""
	}
	return row.Mass.Show(unit.Metric)
}

// farApart is how far two amounts for the same may be apart: 1 cup (240 ml) is 1.4 %, 1 lb (450 g) 0.8 %, 1 oz (30 g) 5.8 %.
const farApart = 0.07

func (r *reader) askAgreement() {
	l, also := r.line, r.at.also
	a, b := float64(l.Low.Mass), float64(also.Mass)
	if also.Kind == unit.AmountVolume {
		a, b = float64(l.Low.Volume), float64(also.Volume)
	}
	if also.Kind == l.Low.Kind && l.Low == l.High && a > 0 && math.Abs(b/a-1) > farApart {
		r.put(Ask{Code: AskAgree, Question: fmt.Sprintf("%s and %s are not the same: which is meant?", said(l.Low), said(also)), Assumed: said(l.Best), Source: "masses before volumes, then the first", Memory: true})
	}
}

// said is an amount as a cook reads it.
func said(a unit.Amount) string {
	switch {
	case a.Kind == unit.AmountMass:
		return a.Mass.Show(unit.Metric)
	case a.Kind == unit.AmountVolume:
		return a.Volume.Show(unit.US)
	case a.Kind != unit.AmountCount:
		return ""
	case a.Measure == "each":
		return a.Count.String()
	}
	measure := a.Measure
	if row := wordRows[measure]; a.Count > unit.One && len(row.spellings) > 1 && row.Kind != "size" {
		measure = row.spellings[1] // the plural stands first
	}
	return a.Count.String() + " " + measure
}

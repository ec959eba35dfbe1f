package homemeasure

import (
	"math/big"
	"slices"
	"strings"

	"kettlefrost/internal/unit"
)

// settle makes amounts of what was read.
func (r *reader) settle() string {
	at, l := &r.at, r.line
	if l.Words == "" && at.unit.row.Word != "" && at.unit.row.Kind == "counted" { // 3 cloves: the spice
		l.Words, at.unit = plainWord(r.text), measured{}
	}
	if at.low == nil {
		return ""
	}
	highUnit := at.unit
	if at.highUnit != nil {
		highUnit = *at.highUnit
	}
	l.Low, l.High = at.unit.of(at.low), highUnit.of(at.high)
	for _, a := range []*unit.Amount{&l.Low, &l.High} {
		if a.Kind == at.plus.Kind {
			a.Mass, a.Volume = a.Mass+at.plus.Mass, a.Volume+at.plus.Volume
		}
	}
	if at.heaped == packed && l.Low.Kind == unit.AmountVolume {
		l.Low.Measure, l.High.Measure = packed, packed
	}
	for _, a := range []unit.Amount{l.Low, l.High, l.Size, at.also} {
		if tooMuch(a) {
			return "has an amount larger than any kitchen's"
		}
	}
	if less(l.High, l.Low) {
		l.Low, l.High = l.High, l.Low
		r.put(Ask{Code: AskBackwards, Question: "the first amount is larger than the second: is it a range?", Assumed: "the range turned round"})
	}
	r.best()
	return ""
}

// plainWord is the last word of a text.
func plainWord(text string) string {
	fields := strings.Fields(text)
	return trimmed(fields[len(fields)-1])
}

const (
	mostMass   = 1000 * unit.Kilogram
	mostVolume = 1000 * unit.Litre
	mostCount  = 100_000 * unit.One
)

func tooMuch(a unit.Amount) bool {
	return a.Mass < 0 || a.Mass > mostMass || a.Volume < 0 || a.Volume > mostVolume || a.Count < 0 || a.Count > mostCount
}

func less(a, b unit.Amount) bool {
	return a.Mass < b.Mass || a.Volume < b.Volume || a.Count < b.Count
}

// middle of the two ends.
func middle(a, b unit.Amount) unit.Amount {
	a.Mass += (b.Mass - a.Mass) / 2
	a.Volume += (b.Volume - a.Volume) / 2
	a.Count += (b.Count - a.Count) / 2
	return a
}

// best is what to reckon with, as far as the amount alone says.
func (r *reader) best() {
	l, at := r.line, &r.at
	l.Best = middle(l.Low, l.High)
	row := at.unit.row
	n := new(big.Rat).Add(at.low, at.high)
	n.Quo(n, big.NewRat(2, 1))
	switch {
	case at.also.Kind == unit.AmountMass && l.Best.Kind != unit.AmountMass, at.also.Kind == unit.AmountVolume && l.Best.Kind == unit.AmountCount:
		l.Best = at.also
	case l.Size.Kind == unit.AmountMass:
		l.Best = unit.Amount{Kind: unit.AmountMass, Mass: massOf(n, l.Size.Mass)}
	case l.Size.Kind == unit.AmountVolume:
		l.Best = unit.Amount{Kind: unit.AmountVolume, Volume: volumeOf(n, l.Size.Volume)}
	case row.Kind == "small":
		l.Best = unit.Amount{Kind: unit.AmountVolume, Volume: volumeOf(new(big.Rat).Mul(n, row.Tsp), unit.Teaspoon)}
	case row.Mass > 0 && row.Kind != "taste" && (row.Of == "" || has(l.Words, row.Of)):
		l.Best = unit.Amount{Kind: unit.AmountMass, Mass: massOf(n, row.Mass)}
	case row.Kind == "container":
		l.Best = unit.Amount{}
	case at.unit.exact.mass == unit.Ounce && at.plus.Kind == 0 && r.liquid():
		l.Best = unit.Amount{Kind: unit.AmountVolume, Volume: volumeOf(n, unit.FluidOunce)}
	}
	if tooMuch(l.Best) {
		l.Best = unit.Amount{}
	}
}

// liquid says whether the food's last word is a liquid that is bought and measured by the fluid ounce.
func (r *reader) liquid() bool {
	words := strings.Fields(strings.ToLower(r.line.Words))
	return len(words) > 0 && wordRows[words[len(words)-1]].Kind == "liquid"
}

// has says whether a word is among words.
func has(words, word string) bool {
	return slices.Contains(strings.Fields(strings.ToLower(strings.ReplaceAll(words, ",", " "))), word)
}

package homemeasure

import (
	"math/big"
	"strings"

	"kettlefrost/internal/unit"
)

// amounts is what the front of a line says, before it is settled.
type amounts struct {
	low, high *big.Rat    // nil: no amount
	unit      measured    // of low, and of high unless highUnit is set
	highUnit  *measured   // 1 tsp to 1 tbsp
	plus      unit.Amount // 1 cup plus 2 tbsp
	also      unit.Amount // 1 cup (240 ml): the same amount again
	comma     bool        // a decimal comma was read
	vague     string      // a few
	spoon     string      // T or t, as written
	heaped    string      // heaping, scant, packed
	part      string      // juice of
	each      bool        // 1/4 tsp each salt and pepper
	together  bool        // 2 large (8 oz) onions: both, or each?
}

// measured is a unit, an inexact measure or a thing counted; the zero value is things.
type measured struct {
	exact measureUnit
	row   word
	label string // of a count: "large"
}

func (m measured) isExact() bool { return m.exact.mass > 0 || m.exact.volume > 0 }

// of is so many of it.
func (m measured) of(n *big.Rat) unit.Amount {
	switch {
	case m.exact.mass > 0:
		return unit.Amount{Kind: unit.AmountMass, Mass: massOf(n, m.exact.mass)}
	case m.exact.volume > 0:
		return unit.Amount{Kind: unit.AmountVolume, Volume: volumeOf(n, m.exact.volume)}
	}
	measure := "each"
	if m.row.Word != "" {
		measure = m.row.Word
	}
	return unit.Amount{Kind: unit.AmountCount, Count: countOf(n), Measure: measure}
}

// front reads the amount.
func (r *reader) front() (problem string) {
	r.line.About = r.about()
	r.part()
	if r.vagueNumber() {
		r.unit()
		return ""
	}
	n, problem := r.number()
	if problem != "" {
		return problem
	}
	if n == nil {
		r.bare()
		return ""
	}
	r.at.low, r.at.high = n, n
	if problem := r.upTo(); problem != "" {
		return problem
	}
	if !r.size() && !r.inches() && !r.unit() {
		r.ofA()
	}
	if r.line.Size.Kind == 0 {
		r.bracketed()
	}
	r.added()
	return r.otherEnd()
}

// ofA reads a unit of which a part is given: 3/4 of a cup.
func (r *reader) ofA() {
	back := r.pos
	if r.take("of") && r.take("a", "an") && r.unit() {
		return
	}
	r.pos = back
}

// bare reads an inexact measure without a number: Pinch of cayenne. It is one.
func (r *reader) bare() {
	back := r.pos
	if !r.unit() {
		return
	}
	if r.at.unit.row.Kind != "small" {
		r.pos, r.at.unit = back, measured{}
		return
	}
	r.at.low, r.at.high = big.NewRat(1, 1), big.NewRat(1, 1)
}

// about steps over what makes an amount rough.
func (r *reader) about() bool {
	return r.skip("~") || r.take("about", "approximately", "approx", "roughly", "around", "ca", "circa")
}

// parts are what is taken of a thing; the longer before those they end with.
var parts = []string{"juice and zest", "zest and juice", "finely grated zest", "grated zest", "grated rind", "juice", "zest", "rind"}

// part reads "juice of" and the like, if a number follows.
func (r *reader) part() {
	for _, p := range parts {
		for _, of := range []string{" of ", " from "} {
			end := r.pos + len(p+of)
			if end > len(r.text) || !strings.EqualFold(r.text[r.pos:end], p+of) {
				continue
			}
			ahead := reader{text: r.text, pos: end, line: r.line}
			if n, _ := ahead.number(); n != nil {
				r.at.part, r.pos = p, end
			}
			return
		}
	}
}

func (r *reader) vagueNumber() bool {
	back := r.pos
	r.take("a")
	w, end := r.word()
	n, ok := vagueNumbers[w]
	if !ok {
		r.pos = back
		return false
	}
	r.pos = end
	if n > 0 {
		r.at.vague = w
		r.at.low, r.at.high = big.NewRat(n, 1), big.NewRat(n, 1)
	}
	r.take("of")
	return true
}

// upTo reads the other end of a range that has one unit: 2-3, 2 to 3, 2 or 3.
func (r *reader) upTo() string {
	back := r.pos
	r.spaces()
	dash := r.skip("-")
	if !dash && !r.take("to", "or") {
		r.pos = back
		return ""
	}
	high, problem := r.number()
	if high == nil || dash && letterAt(r.text, back+1) {
		r.pos = back
		return problem
	}
	r.at.high = high
	return problem
}

// otherEnd reads the other end of a range with a unit of its own: 1 tsp to 1 tbsp.
func (r *reader) otherEnd() string {
	if !r.at.unit.isExact() || r.at.low.Cmp(r.at.high) != 0 || r.at.plus.Kind != 0 {
		return ""
	}
	back, unit := r.pos, r.at.unit
	r.spaces()
	if r.skip("-") || r.take("to") {
		high, problem := r.number()
		if problem != "" {
			return problem
		}
		if high != nil && r.unit() && sameKind(r.at.unit, unit) {
			other := r.at.unit
			r.at.high, r.at.highUnit, r.at.unit = high, &other, unit
			return ""
		}
	}
	r.pos, r.at.unit = back, unit
	return ""
}

func sameKind(a, b measured) bool {
	return a.exact.mass > 0 && b.exact.mass > 0 || a.exact.volume > 0 && b.exact.volume > 0
}

// added reads what is added in another unit: 1 lb 4 oz, 1 cup plus 2 tbsp.
func (r *reader) added() {
	if !r.at.unit.isExact() || r.at.low.Cmp(r.at.high) != 0 {
		return
	}
	back, first := r.pos, r.at.unit
	spoon, heaped := r.at.spoon, r.at.heaped
	r.spaces()
	joined := r.skip("+") || r.take("plus", "and") || r.skip("&")
	n, problem := r.number()
	if n != nil && problem == "" && r.unit() && sameKind(r.at.unit, first) && (joined || smaller(r.at.unit, first)) {
		r.at.plus, r.at.unit = r.at.unit.of(n), first
		return
	}
	r.pos, r.at.unit, r.at.spoon, r.at.heaped = back, first, spoon, heaped
}

func smaller(a, b measured) bool {
	return a.exact.mass < b.exact.mass || a.exact.volume < b.exact.volume
}

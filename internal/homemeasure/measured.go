package homemeasure

import (
	"math/big"
	"strings"

	"kettlefrost/internal/unit"
)

// fullness are words at a unit that say how it is filled. Level is what a unit is anyway; packed is a form that weights are known of.
var fullness = map[string]string{"heaping": "heaped", "heaped": "heaped", "rounded": "heaped", "generous": "heaped", "scant": "scant",
	"packed": packed, "level": "", "full": "", "good": "heaped", "big": "heaped"}

const packed = "packed"

// unit reads a unit, an inexact measure or the word for what is counted, if one comes next.
func (r *reader) unit() bool {
	back, heaped := r.pos, r.at.heaped
	r.fullness()
	r.spaces()
	r.skip("-")
	if m, ok := r.lookUp(); ok {
		r.at.unit = m
		if m.exact.volume > 0 && r.packedBehind() {
			r.at.heaped = packed
		}
		r.take("of")
		return true
	}
	r.pos, r.at.heaped = back, heaped
	return false
}

// fullness reads how a unit is filled: heaping, firmly packed.
func (r *reader) fullness() {
	r.take("firmly", "lightly", "loosely", "tightly", "very")
	w, end := r.word()
	if full, known := fullness[w]; known {
		r.pos = end
		if full != "" {
			r.at.heaped = full
		}
	}
}

// packedBehind reads "packed" behind a unit: 2 tablespoons packed brown sugar.
func (r *reader) packedBehind() bool {
	back := r.pos
	r.take("firmly", "lightly", "loosely", "tightly")
	if r.take(packed) {
		return true
	}
	r.pos = back
	return false
}

// lookUp reads the longest spelling that is known.
func (r *reader) lookUp() (measured, bool) {
	raw, end := r.word()
	if raw == "" {
		return measured{}, false
	}
	if m, ok := r.letter(end); ok {
		return m, true
	}
	two := reader{text: r.text, pos: end}
	second, twoEnd := two.word()
	for _, try := range []struct {
		text string
		end  int
	}{{raw + " " + second, twoEnd}, {raw, end}} {
		if u, ok := units[try.text]; ok {
			r.pos = try.end
			return measured{exact: u}, true
		}
		if row, ok := wordRows[try.text]; ok && (row.Kind == "small" || row.Kind == "container" || row.Kind == "counted") {
			r.pos = try.end
			return measured{row: row}, true
		}
		if row, ok := wordRows[try.text]; ok && row.Kind == "size" {
			return r.sized(row, try.end), true
		}
	}
	return measured{}, false
}

// letter reads T and t, which are a tablespoon and a teaspoon only by their size.
func (r *reader) letter(end int) (measured, bool) {
	switch strings.TrimSuffix(strings.TrimSpace(r.text[r.pos:end]), ".") {
	case "T":
		r.pos, r.at.spoon = end, "T"
		return measured{exact: measureUnit{volume: unit.Tablespoon}}, true
	case "t":
		r.pos, r.at.spoon = end, "t"
		return measured{exact: measureUnit{volume: unit.Teaspoon}}, true
	}
	return measured{}, false
}

// sized is what is counted by its size: 3 large eggs; with a word for the piece, the size is a note: 2 large cloves.
func (r *reader) sized(size word, end int) measured {
	r.pos = end
	w, after := r.word()
	if row, ok := wordRows[w]; ok && (row.Kind == "counted" || row.Kind == "container") {
		r.pos = after
		r.line.Notes = append(r.line.Notes, size.Word)
		return measured{row: row}
	}
	return measured{row: size}
}

// size reads what one container or piece holds, before the word for it: (14 oz) can, 14-oz can, x 400 g tins.
func (r *reader) size() bool {
	back, at := r.pos, r.at
	r.spaces()
	r.take("x")
	r.spaces()
	bracket := r.skip("(")
	r.about()
	n, problem := r.number()
	if n != nil && problem == "" && r.unit() && r.at.unit.isExact() && at.low.Cmp(at.high) == 0 {
		one := r.at.unit.of(n)
		r.spaces()
		r.skip(".")
		closed := !bracket || r.closeBracket()
		r.at.unit = measured{}
		if closed && r.unit() && !r.at.unit.isExact() && r.at.unit.row.Kind != "small" {
			r.line.Size, r.at.comma = one, r.at.comma || at.comma
			return true
		}
	}
	r.pos, r.at = back, at
	return false
}

// closeBracket steps over what else stands in a bracket, and its end.
func (r *reader) closeBracket() bool {
	end := strings.IndexByte(r.rest(), ')')
	if end < 0 {
		return false
	}
	r.pos += end + 1
	return true
}

// inches reads the length of a piece, which is one piece: 1-inch piece ginger, a 2-inch piece, 1 (1-inch) piece.
func (r *reader) inches() bool {
	back, at := r.pos, r.at
	length, many := at.low, big.NewRat(1, 1)
	r.spaces()
	bracket := r.skip("(")
	if n, problem := r.number(); n != nil && problem == "" {
		length, many = n, at.low
	}
	r.spaces()
	r.skip("-")
	from := r.pos
	if r.skip("\"") || r.take("inch", "inches", "in", "cm") {
		note := countOf(length).String() + " " + strings.TrimSpace(r.text[from:r.pos])
		if (!bracket || r.skip(")")) && r.unit() && r.at.unit.row.Kind == "counted" {
			r.at.low, r.at.high = many, many
			r.line.Notes = append(r.line.Notes, note)
			return true
		}
	}
	r.pos, r.at = back, at
	return false
}

// bracketed reads an amount in brackets or behind a stroke: of a unit the same amount again, of a thing its size. Of several the mass is taken,
// or else the first.
func (r *reader) bracketed() {
	back, at := r.pos, r.at
	r.spaces()
	bracket := r.skip("(")
	if !bracket && !r.skip("/") {
		r.pos = back
		return
	}
	about := r.about()
	same, hyphen, ok := r.one()
	for ok && bracket && (r.skip("/") || r.skip(";") || r.skip(",") || r.take("or")) {
		var next unit.Amount
		if next, _, ok = r.one(); ok && next.Kind == unit.AmountMass && same.Kind != unit.AmountMass {
			same = next
		}
	}
	each := r.take("each")
	r.spaces()
	r.at.unit = at.unit
	if !ok || bracket && !r.skip(")") {
		r.pos, r.at = back, at
		return
	}
	r.take("of")
	row := at.unit.row
	several := at.low.Cmp(big.NewRat(1, 1)) > 0
	switch {
	case at.unit.isExact() || row.Kind == "small":
		r.at.also = same
		r.line.About = r.line.About || about
	case row.Kind == "container" || row.Word == "" || each || hyphen || !several:
		r.line.Size = same
	default:
		r.at.also, r.at.together = same, true
	}
}

// one reads a number with an exact unit, and says whether a hyphen joins them.
func (r *reader) one() (a unit.Amount, hyphen, ok bool) {
	n, problem := r.number()
	hyphen = strings.HasPrefix(r.rest(), "-")
	if n == nil || problem != "" || !r.unit() || !r.at.unit.isExact() {
		return unit.Amount{}, false, false
	}
	r.spaces()
	return r.at.unit.of(n), hyphen, true
}

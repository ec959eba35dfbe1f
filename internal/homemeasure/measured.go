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

// inches reads the length of a piece: 1-inch piece ginger, which is one piece.
func (r *reader) inches() bool {
	back, at := r.pos, r.at
	from := back
	r.spaces()
	r.skip("-")
	if !r.skip("\"") && !r.take("inch", "inches", "in", "cm") {
		r.pos = back
		return false
	}
	note := strings.TrimSpace(r.text[from:r.pos])
	if r.unit() && r.at.unit.row.Kind == "counted" {
		length := at.low
		r.at.low, r.at.high = big.NewRat(1, 1), big.NewRat(1, 1)
		r.line.Notes = append(r.line.Notes, countOf(length).String()+" "+strings.TrimPrefix(note, "-"))
		return true
	}
	r.pos, r.at = back, at
	return false
}

// bracketed reads an amount in brackets or behind a stroke: of a unit the same amount again, of a thing its size.
func (r *reader) bracketed() {
	back, at := r.pos, r.at
	r.spaces()
	bracket := r.skip("(")
	if !bracket && !r.skip("/") {
		r.pos = back
		return
	}
	about := r.about()
	n, problem := r.number()
	if n != nil && problem == "" && r.unit() && r.at.unit.isExact() {
		same := r.at.unit.of(n)
		r.spaces()
		each := r.take("each")
		r.spaces()
		if !bracket || r.skip(")") {
			r.at.unit = at.unit
			switch row := at.unit.row; {
			case at.unit.isExact() || row.Kind == "small":
				r.at.also = same
				r.line.About = r.line.About || about
			default:
				r.line.Size = same
				r.at.together = !each && row.Kind != "container" && row.Word != "" && at.low.Cmp(big.NewRat(1, 1)) > 0
			}
			r.take("of")
			return
		}
	}
	r.pos, r.at = back, at
}

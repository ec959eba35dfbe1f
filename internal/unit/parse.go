package unit

import (
	"math"
	"math/big"
	"math/bits"
	"strconv"
	"strings"
)

// part is one number with its unit.
type part struct {
	n number
	u *unitRow
}

// reading is what a text says, before it is turned into grains.
type reading struct {
	negative bool
	parts    []part
}

// read takes text apart into numbers and units of kind k. Only buf's memory is used for the parts.
func read(k kind, text string, buf []part) (reading, *ParseError) {
	s := scanner{text: text}
	s.spaces()
	var r reading
	switch {
	case len(text) > maxText:
		return r, fail(k, text, tooLong)
	case s.done():
		return r, fail(k, text, "is empty")
	case s.accept('+'):
		return r, fail(k, text, withPlus)
	case s.accept('-'):
		r.negative = true
		if !kinds[k].signed {
			return r, fail(k, text, belowZero)
		}
	}
	for {
		n, problem := s.number()
		if problem != "" {
			return r, fail(k, text, s.blame(problem, len(buf)))
		}
		key, raw := s.unit()
		u, problem := lookUp(k, key, raw, buf)
		if problem != "" {
			return r, fail(k, text, problem)
		}
		buf = append(buf, part{n, u})
		if s.done() {
			r.parts = buf
			return r, nil
		}
	}
}

// blame says what is wrong behind the first part in words that fit there.
func (s *scanner) blame(problem string, parts int) string {
	if problem == noNumber && parts > 0 {
		return "cannot be read from " + strconv.Quote(s.text[s.pos:]) + " on"
	}
	return problem
}

// lookUp finds a unit of kind k that may follow the parts already read. It returns what is wrong, or "".
func lookUp(k kind, key []byte, raw string, before []part) (*unitRow, string) {
	if problem := ambiguous(raw); problem != "" {
		return nil, problem
	}
	u, ok := spellings[k][string(key)]
	if !ok {
		return nil, unknown(k, string(key), raw, len(before))
	}
	if len(before) == 0 {
		return u, ""
	}
	last := before[len(before)-1].u
	switch {
	case !kinds[k].compound:
		return nil, "has more than one number"
	case last.system != u.system:
		return nil, "mixes metric and US units"
	case u.num >= last.num:
		return nil, "does not go from the bigger unit to the smaller"
	case len(before) == cap(before):
		return nil, tooLong
	}
	return u, ""
}

// ambiguous warns of unit words that kitchens read in two ways.
func ambiguous(raw string) string {
	switch strings.TrimSuffix(raw, ".") {
	case "T", "t":
		return "has the unit " + raw + ", which may be a tablespoon, a teaspoon or a tonne; write tbsp, tsp or kg"
	case "Mg":
		return "has the unit Mg, which is a tonne; write mg or kg"
	}
	return ""
}

// unknown says why key is no unit of kind k.
func unknown(k kind, key, raw string, before int) string {
	if key == "" {
		if before > 0 {
			return "has a number without a unit at its end"
		}
		return "has no unit (" + kinds[k].names + ")"
	}
	other, ok := otherKind(k, key)
	switch {
	case ok && before > 0:
		return "mixes " + kinds[k].want + " and " + kinds[other].want
	case ok:
		return "is " + kinds[other].want
	case kinds[k].names == "":
		return "has " + strconv.Quote(raw) + " at its end"
	}
	return "has the unit " + strconv.Quote(raw) + ", which is not known here (" + kinds[k].names + ")"
}

// parse reads a quantity of kind k in grains: exactly, then rounded once, half away from zero.
func parse(k kind, text string) (int64, error) {
	var buf [8]part
	r, err := read(k, text, buf[:0])
	if err != nil {
		return 0, err
	}
	mag, problem := grains(r.parts)
	if problem != "" && !(problem == tooSmall && k == tempKind) { // a trace above 0 °C is 0 °C; a trace of salt is not none
		return 0, fail(k, text, problem)
	}
	v, problem := signed(mag, r.negative, r.parts[0].u.offset)
	if problem == "" && kinds[k].signed && v < kinds[k].lowest {
		problem = "is below absolute zero"
	}
	if problem != "" {
		return 0, fail(k, text, problem)
	}
	return v, nil
}

// mostGrains is a little beyond the range of every type, so that rounding and the zero of °F fit below it.
const mostGrains = 1<<63 + 1<<20

// grains adds up parts.
func grains(parts []part) (uint64, string) {
	var sum uint64
	var rest [8]struct{ num, den uint64 } // what each part has beyond whole grains
	inexact, nothing := 0, true
	for _, p := range parts {
		over, den := bits.Mul64(p.n.den, p.u.divisor())
		switch {
		case p.n.overflow:
			return 0, tooBig
		case p.n.fine || over != 0:
			return 0, tooPrecise
		}
		q, r, ok := mulDiv(p.n.num, p.u.num, den)
		total, carry := bits.Add64(sum, q, 0)
		if !ok || carry != 0 || total > mostGrains {
			return 0, tooBig
		}
		sum = total
		nothing = nothing && p.n.num == 0
		if r != 0 {
			rest[inexact].num, rest[inexact].den = r, den
			inexact++
		}
	}
	switch {
	case inexact == 1:
		sum += halfUp(rest[0].num, rest[0].den)
	case inexact > 1:
		left := new(big.Rat)
		for _, r := range rest[:inexact] {
			left.Add(left, new(big.Rat).SetFrac(new(big.Int).SetUint64(r.num), new(big.Int).SetUint64(r.den)))
		}
		sum += uint64(roundRat(left).Int64())
	}
	switch {
	case sum == 0 && !nothing:
		return 0, tooSmall
	}
	return sum, ""
}

// signed is mag with its sign, moved down by offset.
func signed(mag uint64, negative bool, offset int64) (int64, string) {
	limit := uint64(math.MaxInt64) + uint64(offset)
	if negative {
		limit = 1<<63 - uint64(offset)
	}
	if mag > limit {
		return 0, tooBig
	}
	if negative {
		mag = -mag
	}
	return int64(mag - uint64(offset)), "" // two's complement: wraps back into range
}

// parseReal reads a quantity of one of the inexact kinds in its canonical unit.
func parseReal(k kind, text string) (float64, error) {
	var buf [8]part
	r, err := read(k, text, buf[:0])
	if err != nil {
		return 0, err
	}
	p := r.parts[0]
	if (p.n.fine || p.n.overflow) && p.n.digits == "" {
		return 0, fail(k, text, tooPrecise)
	}
	x := float64(p.n.num) / float64(max(p.n.den, 1))
	if p.n.digits != "" {
		if x, _ = strconv.ParseFloat(p.n.digits, 64); math.IsInf(x, 0) { // the digits are digits: only the range can fail
			return 0, fail(k, text, tooBig)
		}
	}
	x *= p.u.factor
	switch {
	case math.IsInf(x, 0):
		return 0, fail(k, text, tooBig)
	case x == 0 && strings.ContainsAny(p.n.digits, "123456789"):
		return 0, fail(k, text, tooSmall)
	}
	return x, nil
}

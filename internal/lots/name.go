package lots

import (
	"unicode"
	"unicode/utf8"

	"kettlefrost/internal/record"
)

// named are the lots of a name: the one that is called so letter for letter, or else all whose names are alike.
func (s *State) named(name string) []*Lot {
	if l := s.lots[record.Lot(name)]; l != nil {
		return []*Lot{l}
	}
	var found []*Lot
	for _, l := range s.byName {
		if alike(string(l.ID), name) {
			found = append(found, l)
		}
	}
	return found
}

// alike says whether two names are the same when they are read out: but for case, spaces and strokes. Two numbers of a name stay apart, so
// that P-1-12 is P 1 12, and neither is P-11-2; and the number sign is as good as a letter.
func alike(a, b string) bool {
	x, y := spoken{rest: a}, spoken{rest: b}
	for n := 0; ; n++ {
		r := x.next()
		if r != y.next() {
			return false
		}
		if r == 0 {
			return n > 0
		}
	}
}

// spoken goes through a name as it is read out.
type spoken struct {
	rest string
	last rune
}

// next is the next letter or digit, - between two numbers, and 0 at the end.
func (s *spoken) next() rune {
	gap := false
	for s.rest != "" {
		r, size := utf8.DecodeRuneInString(s.rest)
		switch {
		case !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '#':
			gap = true
		case gap && unicode.IsDigit(r) && unicode.IsDigit(s.last):
			s.last = '-'
			return s.last
		default:
			s.rest, s.last = s.rest[size:], unicode.ToLower(r)
			return s.last
		}
		s.rest = s.rest[size:]
	}
	return 0
}

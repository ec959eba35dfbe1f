package unit

import (
	"math"
	"math/bits"
	"strings"
	"unicode/utf8"
)

// number is num/den, exactly. If digits is set, that is the same number as a plain decimal.
// A number that does not fit has overflow or fine set: too big, or too many decimals.
type number struct {
	num, den       uint64
	digits         string
	overflow, fine bool
}

// number reads a decimal, a fraction or a mixed number. It returns what is wrong with it, or "".
func (s *scanner) number() (n number, problem string) {
	if num, den, ok := s.vulgar(); ok {
		return number{num: num, den: den}, ""
	}
	start := s.pos
	if !s.digitAt(s.pos) && !(strings.HasPrefix(s.text[s.pos:], ".") && s.digitAt(s.pos+1)) {
		return number{}, noNumber
	}
	n, problem = s.decimal()
	plain := !strings.ContainsAny(s.text[start:s.pos], ",.")
	switch {
	case problem != "" || n.overflow:
		return n, problem
	case s.fractionStroke():
		if !plain {
			return n, "divides a decimal number"
		}
		return s.over(n.num)
	case plain:
		n, problem = s.mixed(n)
	}
	if problem == "" && !s.done() {
		problem = s.notation(start)
	}
	return n, problem
}

// decimal reads digits with thousands separators and a decimal point.
func (s *scanner) decimal() (number, string) {
	start := s.pos
	for s.digitAt(s.pos) || s.pos < len(s.text) && s.text[s.pos] == ',' && s.digitAt(s.pos+1) {
		s.pos++
	}
	whole := s.text[start:s.pos]
	if strings.Contains(whole, ",") {
		if !grouped(whole) {
			return number{}, "has a comma that could mean a decimal point; write 1.5, or 1,500 with groups of three"
		}
		whole = strings.ReplaceAll(whole, ",", "")
	}
	if s.digitAt(s.pos) || s.pos >= len(s.text) || s.text[s.pos] != '.' || !s.digitAt(s.pos+1) {
		return decimalNumber(whole, ""), ""
	}
	s.pos++
	start = s.pos
	for s.digitAt(s.pos) {
		s.pos++
	}
	return decimalNumber(whole, s.text[start:s.pos]), ""
}

// grouped reports whether the commas in whole part groups of three. 0,250 is a decimal comma, whatever its groups.
func grouped(whole string) bool {
	groups := strings.Split(whole, ",")
	for _, g := range groups[1:] {
		if len(g) != 3 {
			return false
		}
	}
	return len(groups[0]) >= 1 && len(groups[0]) <= 3 && groups[0][0] != '0'
}

// decimalNumber is whole.part. Zeros that say nothing are dropped.
func decimalNumber(whole, part string) number {
	part = strings.TrimRight(part, "0")
	n := number{den: 1, digits: whole}
	if part != "" {
		n.digits = whole + "." + part
	}
	for i := range len(whole) {
		n.num, n.overflow = pushDigit(n.num, whole[i], n.overflow)
	}
	for i := range len(part) {
		n.num, n.fine = pushDigit(n.num, part[i], n.fine)
		n.fine = n.fine || i >= 19 // 10^19 is the biggest power of ten in 64 bits
		n.den *= 10
	}
	return n
}

func pushDigit(n uint64, digit byte, over bool) (uint64, bool) {
	hi, lo := bits.Mul64(n, 10)
	sum, carry := bits.Add64(lo, uint64(digit-'0'), 0)
	return sum, over || hi != 0 || carry != 0
}

// fractionStroke steps over a stroke that has a digit behind it.
func (s *scanner) fractionStroke() bool {
	r, width := s.peek()
	if r != '/' || !s.digitAt(s.pos+width) {
		return false
	}
	s.pos += width
	return true
}

// over reads the number below the stroke.
func (s *scanner) over(num uint64) (number, string) {
	start := s.pos
	for s.digitAt(s.pos) {
		s.pos++
	}
	below := decimalNumber(s.text[start:s.pos], "")
	switch {
	case below.overflow || below.num > math.MaxUint32:
		return number{fine: true}, ""
	case below.num == 0:
		return number{}, "divides by zero"
	}
	return number{num: num, den: below.num}, ""
}

// mixed adds the fraction that may follow the whole number n: 1 1/2, 1½.
func (s *scanner) mixed(n number) (number, string) {
	back := s.pos
	s.spaces()
	part := number{}
	if num, den, ok := s.vulgar(); ok {
		part = number{num: num, den: den}
	} else {
		start := s.pos
		for s.digitAt(s.pos) {
			s.pos++
		}
		above := decimalNumber(s.text[start:s.pos], "")
		if s.pos == start || !s.fractionStroke() {
			s.pos = back
			return n, ""
		}
		var problem string
		if part, problem = s.over(above.num); problem != "" || part.fine {
			return part, problem
		}
		if above.overflow || part.num >= part.den {
			return n, "has a whole number before a fraction that is not below one"
		}
	}
	hi, lo := bits.Mul64(n.num, part.den)
	sum, carry := bits.Add64(lo, part.num, 0)
	return number{num: sum, den: part.den, overflow: hi != 0 || carry != 0}, ""
}

// vulgar reads one of the fractions that have a character of their own.
func (s *scanner) vulgar() (num, den uint64, ok bool) {
	if s.done() || s.text[s.pos] < utf8.RuneSelf {
		return 0, 0, false
	}
	r, width := s.peek()
	if num, den, ok = vulgarFraction(r); ok {
		s.pos += width
	}
	return num, den, ok
}

func vulgarFraction(r rune) (num, den uint64, ok bool) {
	switch r {
	case '½':
		return 1, 2, true
	case '¼':
		return 1, 4, true
	case '¾':
		return 3, 4, true
	case '⅓':
		return 1, 3, true
	case '⅔':
		return 2, 3, true
	case '⅛':
		return 1, 8, true
	case '⅜':
		return 3, 8, true
	case '⅝':
		return 5, 8, true
	case '⅞':
		return 7, 8, true
	}
	return 0, 0, false
}

// notation names a way of writing numbers that is not read here, if one follows the number that began at start.
func (s *scanner) notation(start int) string {
	rest := s.text[s.pos:]
	switch {
	case len(rest) > 1 && (rest[0] == 'e' || rest[0] == 'E') && (isDigit(rest[1]) || rest[1] == '+' || rest[1] == '-'):
		return "has a power of ten; write the number out"
	case (rest[0] == 'x' || rest[0] == 'X') && s.text[start:s.pos] == "0":
		return "is not a decimal number"
	case rest[0] == ',' || rest[0] == '.' || rest[0] == '\'':
		return "has a " + rest[:1] + " where it says nothing"
	case rest[0] == '-':
		return "has a dash behind a number; write one amount, and a mixed fraction with a space (1 1/2)"
	}
	return ""
}

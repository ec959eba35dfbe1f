package unit

import (
	"bytes"
	"strings"
	"unicode"
	"unicode/utf8"
)

// maxText bounds what is read. The longest float64 written without an exponent takes some 345 characters.
const maxText = 400

// scanner reads numbers and unit words off the front of a text.
type scanner struct {
	text string
	pos  int
	key  [40]byte // the unit word last read, tidied for looking up
}

// peek is the next rune, tidied, and its width; width 0 is the end.
func (s *scanner) peek() (rune, int) { return tidyRune(s.text[s.pos:]) }

// tidyRune is the first rune of text in its plainest form: every space is ' ', every fraction stroke '/', and so on.
func tidyRune(text string) (rune, int) {
	if text == "" {
		return 0, 0
	}
	if c := text[0]; c < utf8.RuneSelf {
		if c == '\t' || c == '\n' || c == '\r' {
			c = ' '
		}
		return rune(c), 1
	}
	r, width := utf8.DecodeRuneInString(text)
	switch r {
	case '\u00a0', '\u2009', '\u202f':
		r = ' '
	case '⁄', '∕':
		r = '/'
	case '−':
		r = '-'
	case '²':
		r = '2'
	case '³':
		r = '3'
	case 'º', '˚':
		r = '°'
	case 'µ', 'μ':
		r = 'u'
	case '·', '⋅':
		r = '*'
	}
	return r, width
}

func (s *scanner) spaces() {
	for {
		r, width := s.peek()
		if r != ' ' {
			return
		}
		s.pos += width
	}
}

// accept steps over r if it comes next.
func (s *scanner) accept(r rune) bool {
	got, width := s.peek()
	if width == 0 || got != r {
		return false
	}
	s.pos += width
	return true
}

func (s *scanner) done() bool { return s.pos >= len(s.text) }

func (s *scanner) digitAt(i int) bool { return i < len(s.text) && isDigit(s.text[i]) }

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

var degreeSign = []byte("°")

// unit reads on to the next number, comma or plus sign. It returns the unit word tidied for looking up, and as written.
// The key is good until the next call.
func (s *scanner) unit() (key []byte, raw string) {
	key = s.key[:0]
	rate := false
	start := s.pos
	for {
		r, width := s.peek()
		if width == 0 || r == ',' || r == '+' || s.numberAt(key, r, width) {
			break
		}
		s.pos += width
		rate = rate || r == '/'
		if r == '.' || r == ' ' && (len(key) == 0 || key[len(key)-1] == ' ' || bytes.HasSuffix(key, degreeSign)) {
			continue
		}
		if len(key)+utf8.UTFMax > len(s.key) {
			key = append(key[:0], '?') // longer than any unit; read on for raw
			continue
		}
		key = utf8.AppendRune(key, unicode.ToLower(r))
	}
	if len(key) > 0 && key[len(key)-1] == ' ' {
		key = key[:len(key)-1]
	}
	if rate {
		key = bareRate(key)
	}
	return key, strings.TrimSpace(s.text[start:s.pos])
}

// bareRate drops from a unit with a stroke what may or may not be written in it: kg/(m²·h) is kg/m2h.
func bareRate(key []byte) []byte {
	bare := key[:0]
	for _, c := range key {
		switch c {
		case ' ', '*', '(', ')', '^', 0xC2, 0xB0: // the last two are the bytes of the degree sign
		default:
			bare = append(bare, c)
		}
	}
	return bare
}

// numberAt reports whether r, the rune at the scanner, starts the next number and is not part of a unit such as m2.
func (s *scanner) numberAt(key []byte, r rune, width int) bool {
	if r == '.' {
		return s.digitAt(s.pos + 1)
	}
	if r >= utf8.RuneSelf {
		_, _, ok := vulgarFraction(r)
		return ok
	}
	if !isDigit(byte(r)) {
		return false
	}
	next, _ := tidyRune(s.text[s.pos+width:])
	power := r == '2' || r == '3'
	return !power || next < utf8.RuneSelf && isDigit(byte(next)) || next == '/' && !bytes.ContainsRune(key, '/') || !takesPower(key)
}

// takesPower reports whether the last letters of key are a length that is squared or cubed in some unit.
func takesPower(key []byte) bool {
	i := len(key)
	if i > 0 && key[i-1] == '^' {
		i--
	}
	end := i
	for i > 0 && key[i-1] >= 'a' && key[i-1] <= 'z' {
		i--
	}
	switch string(key[i:end]) {
	case "m", "cm", "ft", "in", "hft", "hm", "hrft":
		return true
	}
	return false
}

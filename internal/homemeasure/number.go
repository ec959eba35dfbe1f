package homemeasure

import (
	"math/big"
	"strings"
	"unicode"
	"unicode/utf8"
)

// reader reads a tidied line from its front.
type reader struct {
	text string
	pos  int
	line *Line
	at   amounts
}

func (r *reader) rest() string { return r.text[r.pos:] }

func (r *reader) spaces() {
	for r.pos < len(r.text) && r.text[r.pos] == ' ' {
		r.pos++
	}
}

// skip steps over a text if it comes next.
func (r *reader) skip(text string) bool {
	if strings.HasPrefix(r.rest(), text) {
		r.pos += len(text)
		return true
	}
	return false
}

// word is the next word, with inner hyphens and points at its end taken off, in small letters, and where it ends; "" if there is none.
func (r *reader) word() (lower string, end int) {
	from := r.pos
	for from < len(r.text) && r.text[from] == ' ' {
		from++
	}
	end = from
	for end < len(r.text) {
		c, width := utf8.DecodeRuneInString(r.text[end:])
		inner := (c == '-' || c == '\'') && end > from && letterAt(r.text, end+width)
		if !unicode.IsLetter(c) && !unicode.IsMark(c) && !inner {
			break
		}
		end += width
	}
	if end == from {
		return "", r.pos
	}
	lower = strings.ToLower(r.text[from:end])
	if end < len(r.text) && r.text[end] == '.' {
		end++
	}
	return lower, end
}

func letterAt(text string, i int) bool {
	c, _ := utf8.DecodeRuneInString(text[min(i, len(text)):])
	return unicode.IsLetter(c)
}

// take steps over the next word if it is one of these.
func (r *reader) take(words ...string) bool {
	w, end := r.word()
	for _, x := range words {
		if w == x {
			r.pos = end
			return true
		}
	}
	return false
}

// number reads a number: digits, a fraction, a mixed number, or a word. Nil if there is none; the problem is one that cannot be passed over.
func (r *reader) number() (n *big.Rat, problem string) {
	r.spaces()
	if v := r.vulgar(); v != nil {
		return v, ""
	}
	if r.pos < len(r.text) && (digit(r.text, r.pos) || r.text[r.pos] == '.' && digit(r.text, r.pos+1)) {
		return r.figures()
	}
	return r.written(), ""
}

// written reads a number in words: two, half a, a dozen.
func (r *reader) written() *big.Rat {
	w, end := r.word()
	n, ok := numberWords[w]
	if !ok {
		return nil
	}
	r.pos = end
	n = new(big.Rat).Set(n)
	if w == "half" || w == "quarter" || w == "third" {
		r.take("a", "an", "of")
	}
	if r.take("dozen") {
		n.Mul(n, big.NewRat(12, 1))
	} else if w == "a" && r.take("half") {
		n.Quo(n, big.NewRat(2, 1))
	} else if back := r.pos; r.take("and") && r.take("a") && r.take("half") { // one and a half
		n.Add(n, big.NewRat(1, 2))
	} else {
		r.pos = back
	}
	return n
}

// figures reads 2, 2.5, 1,000, 1/2, 2 1/2, 2-1/2, 2 and 1/2, 2 1/2 with the fraction as one character.
func (r *reader) figures() (*big.Rat, string) {
	n, plain := r.decimal()
	if n == nil {
		return nil, "has a number with too many figures"
	}
	if !plain {
		return n, ""
	}
	back := r.pos
	if r.skip("/") && digit(r.text, r.pos) {
		d, _ := r.decimal()
		if d == nil || d.Sign() == 0 {
			return nil, "divides by zero"
		}
		return n.Quo(n, d), ""
	}
	r.pos = back
	if f := r.fraction(); f != nil {
		return n.Add(n, f), ""
	}
	if r.spaces(); r.take("dozen") {
		return n.Mul(n, big.NewRat(12, 1)), ""
	}
	r.pos = back
	return n, ""
}

// fraction reads a fraction below one behind a whole number, or leaves everything as it is.
func (r *reader) fraction() *big.Rat {
	back := r.pos
	r.spaces()
	if !r.skip("-") && !r.skip("&") {
		r.take("and")
	}
	r.spaces()
	if v := r.vulgar(); v != nil {
		return v
	}
	if digit(r.text, r.pos) {
		n, plain := r.decimal()
		if n != nil && plain && r.skip("/") && digit(r.text, r.pos) {
			if d, plain := r.decimal(); d != nil && plain && d.Sign() > 0 && n.Cmp(d) < 0 {
				return n.Quo(n, d)
			}
		}
	}
	r.pos = back
	return nil
}

// mostFigures of a number; more is no recipe.
const mostFigures = 9

// decimal reads digits with a point or commas. Plain says that there were digits only. A comma before one, two or more than three digits is
// taken for a decimal point, and asked.
func (r *reader) decimal() (n *big.Rat, plain bool) {
	from := r.pos
	for digit(r.text, r.pos) || r.pos > from-1 && r.pos < len(r.text) && (r.text[r.pos] == '.' || r.text[r.pos] == ',') && digit(r.text, r.pos+1) {
		r.pos++
	}
	text := r.text[from:r.pos]
	if len(text) > mostFigures+2 {
		return nil, false
	}
	if whole, part, comma := strings.Cut(text, ","); comma {
		if len(part) == 3 && whole != "0" && len(whole) <= 3 {
			text = whole + part
		} else if !strings.ContainsAny(part, ".,") {
			text = whole + "." + part
			r.at.comma = true
		} else {
			return nil, false
		}
	}
	n, ok := new(big.Rat).SetString(text)
	if !ok {
		return nil, false
	}
	return n, !strings.Contains(text, ".")
}

func digit(text string, i int) bool { return i < len(text) && text[i] >= '0' && text[i] <= '9' }

// vulgar reads a fraction that is one character.
func (r *reader) vulgar() *big.Rat {
	c, width := utf8.DecodeRuneInString(r.rest())
	f, ok := vulgars[c]
	if !ok {
		return nil
	}
	r.pos += width
	return big.NewRat(f[0], f[1])
}

var vulgars = map[rune][2]int64{'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4}, '⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5},
	'⅙': {1, 6}, '⅚': {5, 6}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8}}

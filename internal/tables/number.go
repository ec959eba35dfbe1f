package tables

import (
	"strings"
	"unicode/utf8"
)

// sign is what stands before the decimals of a number.
type sign byte

const (
	unsaid sign = 0
	point  sign = '.'
	comma  sign = ','
)

// within says whether c can stand in a number as somebody writes it, after its first digit. Grouping by a plain space is not read: "2 1/2"
// has one too.
func within(r rune) bool {
	return r >= '0' && r <= '9' || r == '.' || r == ',' || r == '\'' || r == '\u00a0' || r == '\u202f'
}

// numbers calls each for every number in a text, from its first digit, or a point or comma right before it, to its last digit.
func numbers(text string, each func(from, to int)) {
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		if !isDigit(r) && !((r == '.' || r == ',') && i+1 < len(text) && isDigit(rune(text[i+1]))) {
			i += size
			continue
		}
		from, to := i, i
		for i < len(text) && within(r) {
			if i += size; isDigit(r) {
				to = i
			}
			r, size = utf8.DecodeRuneInString(text[i:])
		}
		each(from, to)
	}
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

// proof is which sign the decimals of a number must have, as it is written; open is a number that can be read with either.
func proof(number string) (decimal sign, open bool) {
	points, commas := strings.Count(number, "."), strings.Count(number, ",")
	switch {
	case points == 0 && commas == 0:
		return unsaid, false
	case points > 0 && commas > 0:
		return sign(number[strings.LastIndexAny(number, ".,")]), false
	case points > 1:
		return comma, false
	case commas > 1:
		return point, false
	}
	s := point
	if commas == 1 {
		s = comma
	}
	before, after, _ := strings.Cut(number, string(s))
	if len(after) == 3 && len(before) >= 1 && len(before) <= 3 && before[0] != '0' {
		return unsaid, true
	}
	return s, false
}

// plainly is a text with its numbers in plain digits and with a point, read with the sign that decimals have. The problem is "" if it can be.
func plainly(text string, decimal sign) (plain, problem string) {
	var b strings.Builder
	last := 0
	numbers(text, func(from, to int) {
		b.WriteString(text[last:from])
		number, ok := ungrouped(text[from:to], decimal)
		if !ok && problem == "" {
			problem = "has thousands that are not groups of three, or a second sign before the decimals"
		}
		b.WriteString(number)
		last = to
	})
	b.WriteString(text[last:])
	return b.String(), problem
}

// ungrouped is a number without the signs between its thousands, and with a point before its decimals.
func ungrouped(number string, decimal sign) (string, bool) {
	if decimal == unsaid {
		decimal = point
	}
	whole, decimals, fraction := strings.Cut(number, string(decimal))
	var groups []string
	for _, between := range []string{",", ".", "'", "\u00a0", "\u202f"} {
		if parts := strings.Split(whole, between); len(parts) > 1 {
			if groups != nil { // two different signs
				return number, false
			}
			groups = parts
		}
	}
	for i, g := range groups {
		if i == 0 && (g == "" || len(g) > 3) || i > 0 && len(g) != 3 || strings.Trim(g, "0123456789") != "" {
			return number, false
		}
	}
	if groups != nil {
		whole = strings.Join(groups, "")
	}
	if !fraction {
		return whole, true
	}
	return whole + "." + decimals, strings.Trim(decimals, "0123456789") == ""
}

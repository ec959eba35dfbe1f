package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
)

// ParseMoney reads a decimal, with or without a currency sign before or behind it: 18.75, $18.75, -€4, 1,250.00.
// Which currency it is, is not looked at. Errors are *ParseError.
func ParseMoney(text string) (Money, error) {
	m, rest, err := parseMoney(moneyKind, text)
	if err != nil {
		return 0, err
	}
	if rest != "" {
		return 0, fail(moneyKind, text, "has "+strconv.Quote(rest)+" at its end")
	}
	return m, nil
}

// ParseWage reads money per hour, not below zero: $19.50/h, 19.50 per hour.
func ParseWage(text string) (Wage, error) {
	m, rest, err := parseMoney(wageKind, text)
	if err != nil {
		return 0, err
	}
	switch strings.ToLower(strings.ReplaceAll(rest, " ", "")) {
	case "/h", "/hr", "/hour", "perhour", "anhour":
		return Wage(m), nil
	case "":
		return 0, fail(wageKind, text, "does not say per what; write /h behind it")
	}
	return 0, fail(wageKind, text, "has "+strconv.Quote(rest)+" at its end")
}

// parseMoney reads money off the front of text, and returns what is left.
func parseMoney(k kind, text string) (m Money, rest string, err error) {
	s := scanner{text: text}
	s.spaces()
	if s.done() {
		return 0, "", fail(k, text, "is empty")
	}
	if len(text) > maxText {
		return 0, "", fail(k, text, tooLong)
	}
	negative := s.accept('-')
	signBefore := s.currency()
	negative = negative || s.accept('-')
	if negative && !kinds[k].signed {
		return 0, "", fail(k, text, belowZero)
	}
	if s.accept('+') {
		return 0, "", fail(k, text, withPlus)
	}
	n, problem := s.number()
	if problem == "" && n.digits == "" && !n.overflow {
		problem = "is a fraction; write a decimal"
	}
	mag := uint64(0)
	if problem == "" {
		mag, problem = grains([]part{{n, &kinds[moneyKind].units[0]}})
	}
	v := int64(0)
	if problem == "" {
		v, problem = signed(mag, negative, 0)
	}
	if problem != "" {
		return 0, "", fail(k, text, problem)
	}
	if !signBefore {
		s.currency()
	}
	return Money(v), strings.TrimSpace(s.text[s.pos:]), nil
}

// currency steps over a currency sign and the spaces around it.
func (s *scanner) currency() bool {
	back := s.pos
	s.spaces()
	if r, width := s.peek(); unicode.Is(unicode.Sc, r) {
		s.pos += width
		s.spaces()
		return true
	}
	s.pos = back
	return false
}

// String is a decimal with two places, or as many as it takes: 12.50, 0.0125. It has no currency sign.
func (m Money) String() string { return string(m.decimal(2)) }

func (m Money) decimal(least int) []byte {
	var text []byte
	if m < 0 {
		text = append(text, '-')
	}
	return appendDecimal(text, magnitude(int64(m)), 6, least)
}

// MarshalText writes the decimal of String. JSON has it as a string.
func (m Money) MarshalText() ([]byte, error) { return m.decimal(2), nil }

// UnmarshalText reads what ParseMoney reads.
func (m *Money) UnmarshalText(text []byte) error { return readInto(m, ParseMoney, text) }

// String is a decimal per hour, without a currency sign: 19.50/h.
func (w Wage) String() string { return Money(w).String() + "/h" }

// MarshalText writes 19.50/h. A wage below zero is an error.
func (w Wage) MarshalText() ([]byte, error) {
	if w < 0 {
		return nil, fmt.Errorf("%s cannot be written as a wage: it is below zero", w)
	}
	return []byte(w.String()), nil
}

// UnmarshalText reads what ParseWage reads.
func (w *Wage) UnmarshalText(text []byte) error { return readInto(w, ParseWage, text) }

// MarshalJSON writes money per hour as a string: "19.50".
func (w Wage) MarshalJSON() ([]byte, error) { return []byte(`"` + Money(w).String() + `"`), nil }

// UnmarshalJSON reads money per hour as a string: "19.50".
func (w *Wage) UnmarshalJSON(data []byte) error {
	if string(data) == "null" {
		return nil
	}
	return readString((*Money)(w), ParseMoney, data)
}

// RoundCents is m rounded to whole hundredths, half away from zero: 3 min at 3.50 an hour, 0.175, is 0.18.
// Amounts within half a hundredth of the ends of the range are rounded toward zero.
func (m Money) RoundCents() Money {
	cents, rest := m/Cent, m%Cent
	switch {
	case rest >= Cent/2 && cents < math.MaxInt64/Cent:
		cents++
	case rest <= -Cent/2 && cents > math.MinInt64/Cent:
		cents--
	}
	return cents * Cent
}

// Show is m in whole hundredths, rounded half away from zero, behind symbol: $12.50, -$1,250.00.
func (m Money) Show(symbol string) string {
	cents := m.RoundCents()
	text := symbol + withCommas(string(cents.absolute()))
	if cents < 0 {
		return "-" + text
	}
	return text
}

func (m Money) absolute() []byte { return appendDecimal(nil, magnitude(int64(m)), 6, 2) }

// Show is the wage in whole hundredths an hour: $19.50/h.
func (w Wage) Show(symbol string) string { return Money(w).Show(symbol) + "/h" }

// withCommas puts a comma between groups of three digits before the decimal point.
func withCommas(digits string) string {
	whole, part, _ := strings.Cut(digits, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if part == "" {
		return whole
	}
	return whole + "." + part
}

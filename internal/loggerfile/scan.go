package loggerfile

import (
	"strings"
)

// digits takes the digits that a text begins with, at most most of them, as a number.
func digits(text string, most int) (n, count int, rest string) {
	for count < len(text) && count < most && text[count] >= '0' && text[count] <= '9' {
		n = n*10 + int(text[count]-'0')
		count++
	}
	return n, count, text[count:]
}

// dayParts are the three numbers of a date as it is written, and whether the year stands first: 2026-12-01, 12/01/2026, 1.12.26.
type dayParts struct {
	first, second, third int
	yearFirst            bool
	rest                 string // what follows, without what separates it
}

// readDay reads the three numbers that a text begins with.
func readDay(text string) (p dayParts, ok bool) {
	a, countA, rest := digits(text, 4)
	if rest == "" || !isBetween(rest[0]) || countA == 0 || countA == 3 {
		return p, false
	}
	b, countB, rest := digits(rest[1:], 2)
	if rest == "" || !isBetween(rest[0]) || countB == 0 {
		return p, false
	}
	p = dayParts{first: a, second: b, yearFirst: countA == 4}
	most := 4
	if p.yearFirst {
		most = 2
	}
	c, countC, rest := digits(rest[1:], most)
	if p.third = c; p.yearFirst && countC == 0 || !p.yearFirst && countC != 2 && countC != 4 {
		return p, false
	}
	if rest == "" {
		return p, true
	}
	after := strings.TrimLeft(rest, "T \t\r\n\f,")
	p.rest = strings.TrimSpace(after)
	return p, len(after) < len(rest)
}

func isBetween(c byte) bool { return c == '-' || c == '/' || c == '.' }

// clockParts is a time of day as it is written.
type clockParts struct {
	hour, minute, second, nanos int
	half                        byte   // a or p; 0 for neither
	offset                      string // Z, UTC, GMT, +05:00; "" for none
}

// readClock reads a time of day, all of the text.
func readClock(text string) (p clockParts, ok bool) {
	var count int
	if p.hour, count, text = digits(text, 2); count == 0 || !strings.HasPrefix(text, ":") {
		return p, false
	}
	if p.minute, count, text = digits(text[1:], 2); count != 2 {
		return p, false
	}
	if strings.HasPrefix(text, ":") {
		if p.second, count, text = digits(text[1:], 2); count != 2 {
			return p, false
		}
		if text != "" && (text[0] == '.' || text[0] == ',') {
			if p.nanos, count, text = digits(text[1:], 9); count == 0 {
				return p, false
			}
			for ; count < 9; count++ {
				p.nanos *= 10
			}
		}
	}
	p.half, text = readHalf(strings.TrimLeft(text, " \t\r\n\f"))
	p.offset = strings.TrimLeft(text, " \t\r\n\f")
	return p, p.offset == "" || isOffset(p.offset)
}

// readHalf reads am or pm, with dots or without.
func readHalf(text string) (half byte, rest string) {
	if len(text) < 2 || text[0]|0x20 != 'a' && text[0]|0x20 != 'p' {
		return 0, text
	}
	rest = strings.TrimPrefix(text[1:], ".")
	if rest == "" || rest[0]|0x20 != 'm' {
		return 0, text
	}
	return text[0] | 0x20, strings.TrimPrefix(rest[1:], ".")
}

func isOffset(text string) bool {
	switch upper := strings.ToUpper(text); upper {
	case "Z", "UTC", "GMT":
		return true
	}
	if text[0] != '+' && text[0] != '-' {
		return false
	}
	_, count, rest := digits(text[1:], 2)
	if count != 2 {
		return false
	}
	_, count, rest = digits(strings.TrimPrefix(rest, ":"), 2)
	return count == 2 && rest == ""
}

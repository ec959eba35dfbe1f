package tables

import (
	"fmt"
	"strings"
)

var months = [...]string{"january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"}

// dateFix says how a day is written so that nobody need be asked.
const dateFix = "write year, month and day as in 2026-12-01"

// readDay reads a date. Open says that it can only be read when the order of day, month and year is known; order is "dmy", "mdy", "ymd" or
// "". An ISO date and one with the name of its month need no order.
func readDay(text, order string) (day, problem string, open bool) {
	if iso, _, _ := strings.Cut(text, "T"); isDay(iso) && (iso == text || strings.HasPrefix(text[len(iso):], "T00:00")) {
		return iso, "", false
	}
	parts := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" /.-,", r) })
	if len(parts) != 3 {
		return "", "is no day", false
	}
	if year, month, date, named := namedMonth(parts); named {
		day, problem = dayOf(year, month, date)
		return day, problem, false
	}
	for _, p := range parts {
		if _, ok := number(p); !ok {
			return "", "is no day", false
		}
	}
	if len(parts[0]) == 4 && strings.Count(text, "-") == 2 { // an ISO date in all but its day
		order = "ymd"
	}
	switch order {
	case "dmy":
		day, problem = dayOf(parts[2], parts[1], parts[0])
	case "mdy":
		day, problem = dayOf(parts[2], parts[0], parts[1])
	case "ymd":
		day, problem = dayOf(parts[0], parts[1], parts[2])
	default:
		return "", "", true
	}
	return day, problem, false
}

// namedMonth finds the month of 1 Dec 2026 or December 1, 2026 by its name.
func namedMonth(parts []string) (year, month, day string, ok bool) {
	for i, p := range parts[:2] {
		for m, name := range months {
			if len(p) >= 3 && strings.HasPrefix(name, strings.ToLower(p)) {
				return parts[2], fmt.Sprint(m + 1), strings.TrimRight(parts[1-i], "stndrh"), true
			}
		}
	}
	return "", "", "", false
}

func dayOf(year, month, day string) (iso, problem string) {
	y, ok1 := number(year)
	m, ok2 := number(month)
	d, ok3 := number(day)
	switch {
	case !ok1 || !ok2 || !ok3:
		return "", "is no day"
	case len(year) != 4:
		return "", "has a year that is not of four digits in the place where the year stands"
	case daysIn(y, m) == 0:
		return "", fmt.Sprintf("has no month %d in the place where the month stands", m)
	case d < 1 || d > daysIn(y, m):
		return "", fmt.Sprintf("is no day: that month has %d", daysIn(y, m))
	}
	return fmt.Sprintf("%04d-%02d-%02d", y, m, d), ""
}

package bookform

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

var (
	clockText = regexp.MustCompile(`^([0-9]{1,2})(?:\s*[:.h]\s*([0-9]{2}))?\s*(?:h|hrs?|o'clock|uhr)?\s*(a\.?m\.?|p\.?m\.?)?$`)
	fourClock = regexp.MustCompile(`^([0-9]{1,2})([0-9]{2})$`)
	laterDay  = regexp.MustCompile(`^(.*[^+ ])\s*\+\s*([0-9]+)$`)
)

// looseClock is a time of day as the book has it: 06:30. "6.30 am", "6 pm", "0630", "noon" and "14h30" are read; behind + stand the days later.
func looseClock(text string) string {
	text = strings.ToLower(squeezed(text))
	days := ""
	if m := laterDay.FindStringSubmatch(text); m != nil {
		text, days = m[1], "+"+m[2]
	}
	switch text {
	case "noon", "midday":
		return "12:00" + days
	case "midnight":
		return "24:00" + days
	}
	hours, minutes, half := "", "", ""
	if m := clockText.FindStringSubmatch(text); m != nil {
		hours, minutes, half = m[1], m[2], strings.ReplaceAll(m[3], ".", "")
	} else if m := fourClock.FindStringSubmatch(text); m != nil {
		hours, minutes = m[1], m[2]
	} else {
		return text + days
	}
	h, _ := strconv.Atoi(hours)
	m, _ := strconv.Atoi(minutes)
	switch {
	case half != "" && (h < 1 || h > 12):
		return text + days
	case half == "am" && h == 12:
		h = 0
	case half == "pm" && h < 12:
		h += 12
	}
	return fmt.Sprintf("%02d:%02d%s", h, m, days)
}

var (
	cents    = regexp.MustCompile(`^([0-9]{1,2})\s*(?:¢|c|ct|cents?)$`)
	perHour  = regexp.MustCompile(`\s*(?:/|per|an|a)\s*(?:h|hr|hour)\.?$|\s+(?:h|hr|hour)$`)
	currency = regexp.MustCompile(`[$€£¥]|\busd\b|\beur\b|\bgbp\b|\bdollars?\b`)
)

// looseMoney is money in plain digits with a point: "$4", "4,50", "49 ¢". ok is false when it is left as it was.
func looseMoney(text string) (plain string) {
	lower := strings.ToLower(squeezed(text))
	if m := cents.FindStringSubmatch(lower); m != nil {
		return fmt.Sprintf("0.%02s", m[1])
	}
	return points(squeezed(currency.ReplaceAllString(lower, "")))
}

// looseWage is money by the hour; nothing behind the number is an hour, too.
func looseWage(text string) string {
	lower := perHour.ReplaceAllString(strings.ToLower(squeezed(text)), "")
	return looseMoney(lower) + "/h"
}

var (
	months    = []string{"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"}
	isoDay    = regexp.MustCompile(`^([0-9]{4})[-/.]([0-9]{1,2})[-/.]([0-9]{1,2})$`)
	slashDay  = regexp.MustCompile(`^([0-9]{1,2})[/.]([0-9]{1,2})[/.]([0-9]{4})$`)
	wordedDay = regexp.MustCompile(`^([0-9]{1,2})\.?(?:st|nd|rd|th)?\s+([a-z]{3,9})\.?,?\s+([0-9]{4})$`)
	monthDay  = regexp.MustCompile(`^([a-z]{3,9})\.?\s+([0-9]{1,2})(?:st|nd|rd|th)?,?\s+([0-9]{4})$`)
)

// looseDay is a date as the book has it: 2026-12-05. Two numbers that could both be the month are left for the cook to say.
func looseDay(text string) string {
	text = strings.ToLower(squeezed(text))
	if m := isoDay.FindStringSubmatch(text); m != nil {
		return day(m[1], m[2], m[3])
	}
	if m := slashDay.FindStringSubmatch(text); m != nil {
		a, _ := strconv.Atoi(m[1])
		b, _ := strconv.Atoi(m[2])
		switch {
		case a > 12:
			return day(m[3], m[2], m[1])
		case b > 12 || a == b:
			return day(m[3], m[1], m[2])
		}
		return text
	}
	if m := wordedDay.FindStringSubmatch(text); m != nil {
		if n := monthOf(m[2]); n > 0 {
			return day(m[3], strconv.Itoa(n), m[1])
		}
	}
	if m := monthDay.FindStringSubmatch(text); m != nil {
		if n := monthOf(m[1]); n > 0 {
			return day(m[3], strconv.Itoa(n), m[2])
		}
	}
	return text
}

func day(y, m, d string) string { return fmt.Sprintf("%s-%02s-%02s", y, m, d) }

var monthNames = []string{"january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"}

func monthOf(word string) int {
	for i, name := range monthNames {
		if strings.HasPrefix(name, word) || word == months[i]+"t" && months[i] == "sep" {
			return i + 1
		}
	}
	return 0
}

// perCent is one number over another as a share, where that comes out even to a ten thousandth of a per cent.
func perCent(number, over string) (string, bool) {
	a, errA := strconv.Atoi(number)
	b, errB := strconv.Atoi(over)
	if errA != nil || errB != nil || b == 0 || a > 1000 || b > 1000 || 100_0000*a%b != 0 {
		return "", false
	}
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.4f", 100*float64(a)/float64(b)), "0"), ".") + " %", true
}

package loggerfile

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// What a time looks like, as patterns: readDay and readClock read the same, faster.
var (
	yearFirst = regexp.MustCompile(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T\s,]+(.*))?$`)
	yearLast  = regexp.MustCompile(`^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2})(?:[T\s,]+(.*))?$`)
	clockText = regexp.MustCompile(`(?i)^(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?\s*([ap]\.?m\.?)?\s*(Z|UTC|GMT|[+-]\d{2}:?\d{2})?$`)
)

func number1(text string) int {
	n, _ := strconv.Atoi(text)
	return n
}

func byPattern(text string) string {
	m := yearFirst.FindStringSubmatch(text)
	first := m != nil
	if !first {
		if m = yearLast.FindStringSubmatch(text); m == nil {
			return "no day"
		}
	}
	said := fmt.Sprint(number1(m[1]), number1(m[2]), number1(m[3]), first)
	c := clockText.FindStringSubmatch(strings.TrimSpace(m[4]))
	if c == nil {
		return said + " no clock"
	}
	half := ""
	if c[5] != "" {
		half = strings.ToLower(c[5][:1])
	}
	return said + fmt.Sprintf(" %d %d %d %d %s %s", number1(c[1]), number1(c[2]), number1(c[3]), number1((c[4] + "000000000")[:9]), half, c[6])
}

func byHand(text string) string {
	d, ok := readDay(text)
	if !ok {
		return "no day"
	}
	said := fmt.Sprint(d.first, d.second, d.third, d.yearFirst)
	c, ok := readClock(d.rest)
	if !ok {
		return said + " no clock"
	}
	half := ""
	if c.half != 0 {
		half = string(c.half)
	}
	return said + fmt.Sprintf(" %d %d %d %d %s %s", c.hour, c.minute, c.second, c.nanos, half, c.offset)
}

func TestReadingByHandIsAsByPattern(t *testing.T) {
	for _, text := range []string{"2026-12-01 14:05", "12/1/26, 2:05:09.5 p.m.", "1.12.2026T02:05 AM Z", "2026-12-01", "2026-12-01 ", "2026-12-01T", "2026-12-01x", "12/01/202 1:00", "1:00", "", "2026-12-01 1:2", "2026-12-01 1:02 xm",
		"2026-12-01 10:00:00,123456789+05:30", "2026-12-01 10:00+0530", "2026-12-01 10:00 am+05:3", "2026-12-01 10:00 amUTC", "2026-12-01 10:00.5", "2026-12-01 10:00 a", "2026-12-01 10:00 gmt", "2026-12-01,\t10:00\v"} {
		if got, want := byHand(text), byPattern(text); got != want {
			t.Errorf("%q: %q, by pattern %q", text, got, want)
		}
	}
	parts := []string{"2026", "12", "1", "01", "31", "26", "202", "-", "/", ".", "-", "/", " ", "T", ", ", ":", ":", "05", "5", "59", "am", "PM", "p.m.", "a.m", "Z", "utc", "+05:00", "-0530", ".5", ",123456789", "\t", "x"}
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(parts), 0, 14).Draw(t, "parts"), "")
		if rapid.Bool().Draw(t, "dated") {
			text = "12/01/2026 " + text
		}
		if got, want := byHand(text), byPattern(text); got != want {
			t.Fatalf("%q: %q, by pattern %q", text, got, want)
		}
	})
}

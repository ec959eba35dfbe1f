package loggerfile

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// times reads what stands for times in one file.
type times struct {
	dayFirst bool
	offset   *time.Location // from the head
	last     time.Time      // of the last reading whose hour was not told apart by an offset
}

// parts are the numbers of a time as it is written, year first, before anything is known of its zone.
var (
	yearFirst = regexp.MustCompile(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T\s,]+(.*))?$`)
	yearLast  = regexp.MustCompile(`^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2})(?:[T\s,]+(.*))?$`)
	clockText = regexp.MustCompile(`(?i)^(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?\s*([ap]\.?m\.?)?\s*(Z|UTC|GMT|[+-]\d{2}:?\d{2})?$`)
	offsetRx  = regexp.MustCompile(`([+-])(\d{1,2}):?(\d{2})?$`)
)

// learn looks through all lines for what tells day and month apart, and for times without a zone.
func (t *times) learn(r *reader, lines []line, need func(Question, string)) {
	if r.head.zone != "" {
		t.offset = offsetOf(r.head.zone)
	}
	ambiguous, dayFirst, monthFirst := "", false, false
	zoneless := ""
	for _, l := range lines {
		text := r.when(l)
		if len(text) > 4 && text[4] == '-' && (zoneless != "" || r.head.epoch) {
			continue // the year stands first, as in most files: nothing to learn, and files are long
		}
		if m := yearLast.FindStringSubmatch(text); m != nil {
			a, _ := strconv.Atoi(m[1])
			b, _ := strconv.Atoi(m[2])
			dayFirst, monthFirst = dayFirst || a > 12 && b <= 12, monthFirst || b > 12 && a <= 12
			ambiguous = text
		}
		if zoneless == "" && !r.head.epoch {
			if _, rest, ok := dateOf(text, false); ok {
				if m := clockText.FindStringSubmatch(rest); m != nil && m[6] == "" {
					zoneless = text
				}
			}
		}
	}
	switch {
	case dayFirst != monthFirst:
		t.dayFirst = dayFirst
	case ambiguous == "":
	case r.opt.DayFirst == nil:
		need(WhichOrder, ambiguous)
	default:
		t.dayFirst = *r.opt.DayFirst
	}
	if zoneless != "" && t.offset == nil && r.opt.Zone == nil {
		need(WhichZone, zoneless)
	}
}

// offsetOf reads an offset such as GMT-05:00.
func offsetOf(text string) *time.Location {
	m := offsetRx.FindStringSubmatch(text)
	if m == nil {
		return time.UTC
	}
	hours, _ := strconv.Atoi(m[2])
	minutes, _ := strconv.Atoi(m[3])
	seconds := hours*3600 + minutes*60
	if m[1] == "-" {
		seconds = -seconds
	}
	return time.FixedZone(fmt.Sprintf("%s%02d:%02d", m[1], hours, minutes), seconds)
}

// dateOf reads the date that a text begins with, as year, month and day.
func dateOf(text string, dayFirst bool) (date [3]int, rest string, ok bool) {
	m := yearFirst.FindStringSubmatch(text)
	order := [3]int{1, 2, 3}
	if m == nil {
		if m = yearLast.FindStringSubmatch(text); m == nil {
			return date, "", false
		}
		order = [3]int{3, 1, 2}
		if dayFirst {
			order = [3]int{3, 2, 1}
		}
	}
	for i, at := range order {
		date[i], _ = strconv.Atoi(m[at])
	}
	if date[0] < 100 {
		date[0] += 2000
	}
	return date, strings.TrimSpace(m[4]), true
}

// read reads a time, with what is odd about it.
func (t *times) read(text string, r *reader) (time.Time, []Flag, bool) {
	if at, ok := epochOf(text); ok && (r.head.epoch || len(text) >= 10) {
		return at, nil, true
	}
	if n, plain := plainTime(text); plain {
		return t.instant(n, "", r)
	}
	date, rest, ok := dateOf(text, t.dayFirst)
	if !ok {
		return time.Time{}, nil, false
	}
	m := clockText.FindStringSubmatch(rest)
	if m == nil {
		return time.Time{}, nil, false
	}
	hour, minute, second := atoi(m[1]), atoi(m[2]), atoi(m[3])
	if half := strings.ToLower(m[5]); half != "" {
		if hour < 1 || hour > 12 {
			return time.Time{}, nil, false
		}
		if hour %= 12; half[0] == 'p' {
			hour += 12
		}
	}
	nanos := atoi((m[4] + "000000000")[:9])
	return t.instant([7]int{date[0], date[1], date[2], hour, minute, second, nanos}, m[6], r)
}

// plainTime reads the way in which most loggers write a time, 2026-12-01 14:05 with or without seconds, without the cost of a pattern: files
// are long. Anything else is left to the patterns.
func plainTime(text string) (n [7]int, ok bool) {
	const like = "2006-01-02 15:04:05"
	if len(text) != len(like) && len(text) != len(like)-3 {
		return n, false
	}
	at := 0
	for i := range len(text) {
		c := text[i]
		switch {
		case c >= '0' && c <= '9' && like[i] >= '0' && like[i] <= '9':
			n[at] = n[at]*10 + int(c-'0')
		case c == like[i] || c == 'T' && like[i] == ' ':
			at++
		default:
			return n, false
		}
	}
	return n, true
}

// instant is the time that year, month, day, hour, minute, second and nanosecond name.
func (t *times) instant(n [7]int, offset string, r *reader) (time.Time, []Flag, bool) {
	hour, minute, second, date := n[3], n[4], n[5], n[:3]
	if date[1] < 1 || date[1] > 12 || date[2] < 1 || date[2] > 31 || hour > 23 || minute > 59 || second > 60 {
		return time.Time{}, nil, false
	}
	zone := r.opt.Zone
	switch {
	case offset != "":
		zone = offsetOf(offset)
	case t.offset != nil:
		zone = t.offset
	}
	at := time.Date(date[0], time.Month(date[1]), date[2], hour, minute, second, n[6], zone)
	if at.Day() != date[2] && time.Date(date[0], time.Month(date[1]), date[2], 12, 0, 0, 0, time.UTC).Day() != date[2] {
		return time.Time{}, nil, false // the 31st of June
	}
	if offset != "" || t.offset != nil {
		return at, nil, true
	}
	return t.wall(at, hour, minute)
}

// wall is a time by a clock on a wall, which is put forward and back.
func (t *times) wall(at time.Time, hour, minute int) (time.Time, []Flag, bool) {
	if at.Hour() != hour || at.Minute() != minute {
		_, before := at.Add(-3 * time.Hour).Zone()
		y, m, d := at.Date()
		return time.Date(y, m, d, hour, minute, at.Second(), at.Nanosecond(), time.FixedZone("", before)).In(at.Location()), []Flag{NoSuchHour}, true
	}
	earlier, later := at, at
	if other := at.Add(-time.Hour); sameWall(other, at) {
		earlier = other
	}
	if other := at.Add(time.Hour); sameWall(other, at) {
		later = other
	}
	if earlier.Equal(later) {
		t.last = at
		return at, nil, true
	}
	if !t.last.IsZero() && !earlier.After(t.last) { // the readings before it have used up the first of the two hours
		t.last = later
		return later, []Flag{TwoHours}, true
	}
	t.last = earlier
	return earlier, []Flag{TwoHours}, true
}

// sameWall tells whether a clock on the wall showed the same at two times within a day.
func sameWall(a, b time.Time) bool { return a.Hour() == b.Hour() && a.Day() == b.Day() }

// epochOf reads seconds or milliseconds since 1970.
func epochOf(text string) (time.Time, bool) {
	n, err := strconv.ParseInt(text, 10, 64)
	switch {
	case err != nil || n < 0:
		return time.Time{}, false
	case len(text) == 13:
		return time.UnixMilli(n).UTC(), true
	case len(text) <= 10:
		return time.Unix(n, 0).UTC(), true
	}
	return time.Time{}, false
}

func atoi(text string) int {
	n, _ := strconv.Atoi(text)
	return n
}

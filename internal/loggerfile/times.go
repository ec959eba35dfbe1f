package loggerfile

import (
	"fmt"
	"regexp"
	"strconv"
	"time"
)

// times reads what stands for times in one file.
type times struct {
	dayFirst bool
	offset   *time.Location // from the head
	last     time.Time      // of the last reading whose hour was not told apart by an offset
	zones    map[string]*time.Location
}

// zoneOf is offsetOf, worked out once for each text: a file has few, on many lines.
func (t *times) zoneOf(text string) *time.Location {
	z, known := t.zones[text]
	if !known {
		if t.zones == nil {
			t.zones = map[string]*time.Location{}
		}
		z = offsetOf(text)
		t.zones[text] = z
	}
	return z
}

var offsetRx = regexp.MustCompile(`([+-])(\d{1,2}):?(\d{2})?$`)

// learn looks through all lines for what tells day and month apart, and for times without a zone.
func (t *times) learn(r *reader, lines []line, open map[Question]string) {
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
		day, ok := readDay(text)
		if !ok {
			continue
		}
		if a, b := day.first, day.second; !day.yearFirst {
			dayFirst, monthFirst = dayFirst || a > 12 && b <= 12, monthFirst || b > 12 && a <= 12
			ambiguous = text
		}
		if zoneless == "" && !r.head.epoch {
			if clock, ok := readClock(day.rest); ok && clock.offset == "" {
				zoneless = text
			}
		}
	}
	switch {
	case dayFirst != monthFirst:
		t.dayFirst = dayFirst
	case ambiguous != "":
		open[WhichOrder] = ambiguous
		t.dayFirst = r.opt.DayFirst != nil && *r.opt.DayFirst
	}
	if zoneless != "" && t.offset == nil {
		open[WhichZone] = zoneless
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

// read reads a time, with what is odd about it.
func (t *times) read(text string, r *reader) (time.Time, []Flag, bool) {
	if at, ok := epochOf(text); ok && (r.head.epoch || len(text) >= 10) {
		return at, nil, true
	}
	day, ok := readDay(text)
	if !ok {
		return time.Time{}, nil, false
	}
	clock, ok := readClock(day.rest)
	if !ok {
		return time.Time{}, nil, false
	}
	if clock.half != 0 {
		if clock.hour < 1 || clock.hour > 12 {
			return time.Time{}, nil, false
		}
		if clock.hour %= 12; clock.half == 'p' {
			clock.hour += 12
		}
	}
	return t.instant(day.date(t.dayFirst), clock, r)
}

// date is year, month and day.
func (p dayParts) date(dayFirst bool) [3]int {
	year, month, day := p.first, p.second, p.third
	if !p.yearFirst {
		year, month, day = p.third, p.first, p.second
		if dayFirst {
			month, day = day, month
		}
	}
	if year < 100 {
		year += 2000
	}
	return [3]int{year, month, day}
}

// instant is the time that a date and a clock name.
func (t *times) instant(date [3]int, clock clockParts, r *reader) (time.Time, []Flag, bool) {
	hour, minute, second, offset := clock.hour, clock.minute, clock.second, clock.offset
	if date[1] < 1 || date[1] > 12 || date[2] < 1 || date[2] > 31 || hour > 23 || minute > 59 || second > 60 {
		return time.Time{}, nil, false
	}
	zone := r.opt.Zone
	switch {
	case offset != "":
		zone = t.zoneOf(offset)
	case t.offset != nil:
		zone = t.offset
	}
	at := time.Date(date[0], time.Month(date[1]), date[2], hour, minute, second, clock.nanos, zone)
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

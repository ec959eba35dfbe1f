package web

import (
	"fmt"
	"net/url"
	"strconv"
	"time"

	"kettlefrost/internal/app"
)

// hourRow is an hour of the day.
type hourRow struct {
	URL, Hour        string
	Low, High        figure
	Readings, Marked string
}

// readingRow is a reading as it was received.
type readingRow struct {
	When, Raw, Flags, Line string
	Reads                  figure
	Counts                 bool
}

// hourOf is the hour in which a time lies, by the clock on the wall: where the clock is put back, an hour is there twice.
func hourOf(t time.Time) string { return t.Format("15:00 -07") }

// fillHours lists the hours of the day, and the readings of the one that is asked for.
func (s *server) fillHours(v *logDayPage, d app.ReadingDay, rd reader, query url.Values) {
	asked := query.Get("hour")
	var last *hourTally
	var all []*hourTally
	for i := range d.Readings {
		x := &d.Readings[i]
		at := s.wall(x.At)
		if last == nil || last.key != hourOf(at) {
			last = &hourTally{key: hourOf(at), at: at}
			all = append(all, last)
		}
		last.add(x)
		if last.key == asked {
			v.Hour = at.Format("15:00")
			v.Rows = append(v.Rows, s.readingRow(*x, rd))
		}
	}
	for _, t := range all {
		row := hourRow{URL: coldURL(logDayPath, query, "probe", d.Probe, "day", string(d.Day), "hour", t.key) + "#hour", Hour: t.at.Format("15:00"), Readings: strconv.Itoa(t.readings)}
		if t.low != nil {
			row.Low, row.High = rd.readTemp(*t.low), rd.readTemp(*t.high)
		}
		if t.flagged > 0 {
			row.Marked = strconv.Itoa(t.flagged) + " flagged"
		}
		v.Hours = append(v.Hours, row)
	}
	if len(v.Rows) > mostHourRows {
		v.Every = fmt.Sprintf("%s more are in the CSV file.", thousands(len(v.Rows)-mostHourRows))
		v.Rows = v.Rows[:mostHourRows]
	}
}

// mostHourRows and mostOddRows are what a page lists: the files have all.
const (
	mostHourRows = 360
	mostOddRows  = 100
)

// hourTally is what was read in an hour.
type hourTally struct {
	key               string
	at                time.Time
	low, high         *float64
	readings, flagged int
}

func (t *hourTally) add(x *app.DayReading) {
	t.readings++
	if len(x.Flags) > 0 {
		t.flagged++
	}
	if !x.Count {
		return
	}
	if t.low == nil || *x.TempC < *t.low {
		t.low = x.TempC
	}
	if t.high == nil || *x.TempC > *t.high {
		t.high = x.TempC
	}
}

// fillOdd lists the readings with flags, the first of them.
func (s *server) fillOdd(v *logDayPage, d app.ReadingDay, rd reader) {
	for _, x := range d.Readings {
		switch {
		case len(x.Flags) == 0:
		case len(v.Odd) < mostOddRows:
			v.Odd = append(v.Odd, s.readingRow(x, rd))
		}
	}
	if more := d.Summary.Flagged - len(v.Odd); more > 0 {
		v.MoreOdd = thousands(more) + " more are flagged: the CSV file has all."
	}
}

func (s *server) readingRow(x app.DayReading, rd reader) readingRow {
	row := readingRow{When: s.wall(x.At).Format("15:04:05"), Raw: x.Raw, Flags: flagsText(x.Flags), Line: strconv.Itoa(x.Line), Counts: x.Count}
	if x.TempC != nil {
		row.Reads = rd.readTemp(*x.TempC)
	}
	return row
}

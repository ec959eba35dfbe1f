package app

import (
	"cmp"
	"context"
	"slices"
	"time"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
	"kettlefrost/internal/unit"
)

// ReadingDay is what a probe read on a day by the clock on the wall, with what was measured by hand beside it.
type ReadingDay struct {
	Schema   string         `json:"schema"` // kettlefrost.readings-day/1
	Probe    string         `json:"probe"`
	Name     string         `json:"name,omitzero"` // by the book
	Listed   bool           `json:"listed"`        // the book has it
	Day      record.Day     `json:"day"`
	Zone     string         `json:"zone"`
	From     record.Instant `json:"from_ms"`
	Before   record.Instant `json:"before_ms"`
	Now      record.Instant `json:"now_ms"`
	Readings []DayReading   `json:"readings"`
	Typed    []DayTyped     `json:"typed"`
	Stays    []DayStay      `json:"stays"` // where the probe was
	Summary  DaySummary     `json:"summary"`
	Limit    *DayLimit      `json:"limit,omitempty"` // of the place that it watches for good
	Previous record.Day     `json:"previous,omitzero"`
	Next     record.Day     `json:"next,omitzero"`
}

// DayReading is one reading as it was received.
type DayReading struct {
	At    record.Instant `json:"at_ms"`
	TempC *float64       `json:"temp_c,omitempty"` // left out: there is no temperature
	Raw   string         `json:"raw"`
	Flags []string       `json:"flags,omitempty"`
	Line  int            `json:"line"` // of its file, or of what was posted at once
	Count bool           `json:"counts"`
}

// DayTyped is a temperature that somebody entered.
type DayTyped struct {
	Entry record.ID      `json:"entry"`
	At    record.Instant `json:"at_ms"`
	Who   string         `json:"who"`
	Temp  unit.Temp      `json:"temp_c"`
	Where string         `json:"where,omitzero"`
	With  string         `json:"with,omitzero"` // which instrument
}

// DayStay is where a probe was, for a time within the day or beyond it.
type DayStay struct {
	Entry record.ID      `json:"entry"`
	Stage record.Stage   `json:"stage"`
	Run   string         `json:"run,omitzero"`
	Task  string         `json:"task,omitzero"`
	Where string         `json:"where"`
	Point string         `json:"point,omitzero"`
	From  record.Instant `json:"from_ms"`
	Until record.Instant `json:"until_ms,omitzero"`
}

// DaySummary is the day in figures.
type DaySummary struct {
	Readings int         `json:"readings"`
	Counting int         `json:"counting"` // with a temperature and a time that can be
	Low      *DayReading `json:"low,omitempty"`
	High     *DayReading `json:"high,omitempty"`
	Flagged  int         `json:"flagged"`
	Flags    []LogFlag   `json:"flags"`
}

// DayLimit is what a place is held to, and when it was not met or nobody knows.
type DayLimit struct {
	Place     record.Place `json:"place"`
	Name      string       `json:"name"`
	TempC     float64      `json:"temp_c"`
	Source    string       `json:"source"`
	Stretches []DayStretch `json:"stretches"`

	Seen coldwatch.Seen `json:"-"`
}

// DayStretch is a time over the limit, or one of which nothing is known.
type DayStretch struct {
	Kind  coldwatch.Kind `json:"kind"` // too-warm, not-known
	From  record.Instant `json:"from_ms"`
	Until record.Instant `json:"until_ms"`
	PeakC *float64       `json:"peak_c,omitempty"`
	MayC  *float64       `json:"may_c,omitempty"` // by the error of the probe
	Ended bool           `json:"ended"`
}

// ReadingDaySchema is what a day of readings says it is.
const ReadingDaySchema = "kettlefrost.readings-day/1"

// ReadingDay is a probe's day, which begins at a midnight. A probe that never sent anything has an empty one.
func (r *Records) ReadingDay(ctx context.Context, book kitchen.Book, probe string, day, now time.Time) (ReadingDay, error) {
	next := day.AddDate(0, 0, 1)
	d := ReadingDay{Schema: ReadingDaySchema, Probe: probe, Day: dayOf(day), Zone: day.Location().String(), From: instantOf(day), Before: instantOf(next), Now: instantOf(now), Readings: []DayReading{}, Typed: []DayTyped{}, Stays: []DayStay{}}
	readings, err := r.Readings(ctx, probe, d.From, d.Before)
	if err != nil {
		return d, err
	}
	for _, x := range readings {
		d.Readings = append(d.Readings, dayReading(x))
	}
	d.summarize()
	if err := r.limitOf(ctx, book, &d, readings); err != nil {
		return d, err
	}
	if err := r.tellPlaces(ctx, book, &d); err != nil {
		return d, err
	}
	return d, r.besideDays(ctx, &d, day)
}

func instantOf(t time.Time) record.Instant { return record.Instant(t.UnixMilli()) }

func dayOf(t time.Time) record.Day { return record.Day(t.Format(time.DateOnly)) }

func dayReading(x store.Reading) DayReading {
	r := DayReading{At: x.At, Raw: x.Raw, Flags: FlagsOf(x), Line: x.Line, Count: ReadingCounts(x)}
	if x.Valued {
		c := float64(x.MilliC) / 1000
		r.TempC = &c
	}
	return r
}

// summarize counts, and finds the extremes of what counts.
func (d *ReadingDay) summarize() {
	s := &d.Summary
	s.Flags = []LogFlag{}
	at := map[string]int{}
	for i := range d.Readings {
		x := &d.Readings[i]
		s.Readings++
		if len(x.Flags) > 0 {
			s.Flagged++
		}
		for _, f := range x.Flags {
			n, there := at[f]
			if !there {
				n = len(s.Flags)
				at[f] = n
				s.Flags = append(s.Flags, LogFlag{Flag: f, Says: FlagWords(f), Lines: []int{}})
			}
			if s.Flags[n].Count++; len(s.Flags[n].Lines) < flagLines {
				s.Flags[n].Lines = append(s.Flags[n].Lines, x.Line)
			}
		}
		if !x.Count {
			continue
		}
		s.Counting++
		if s.Low == nil || *x.TempC < *s.Low.TempC {
			s.Low = x
		}
		if s.High == nil || *x.TempC > *s.High.TempC {
			s.High = x
		}
	}
}

// limitOf holds the day to the limit of the place that the probe watches.
func (r *Records) limitOf(ctx context.Context, book kitchen.Book, d *ReadingDay, readings []store.Reading) error {
	t, listed := book.Thermometers[kitchen.ThermometerID(d.Probe)]
	d.Name, d.Listed = t.Name, listed
	if !listed || t.At == "" {
		return nil
	}
	bench, _, err := r.Bench(ctx, book)
	if err != nil {
		return err
	}
	watches := watchesOf(book, bench)
	i := slices.IndexFunc(watches, func(w coldwatch.Watch) bool { return w.Probe == d.Probe })
	if i < 0 || d.From > d.Now {
		return nil
	}
	w := watches[i]
	limit := &DayLimit{Place: w.Place, Name: cmp.Or(w.PlaceName, string(w.Place)), TempC: w.LimitC, Source: w.LimitSource, Stretches: []DayStretch{}}
	if limit.Seen, err = w.Look(coldReadings(readings), d.From, min(d.Before, d.Now)); err != nil {
		return err
	}
	for _, s := range limit.Seen.Stretches {
		x := DayStretch{Kind: s.Kind, From: s.From, Until: s.Until, Ended: s.Ended}
		if s.Kind == coldwatch.TooWarm {
			x.PeakC, x.MayC = &s.PeakC, &s.MayC
		}
		limit.Stretches = append(limit.Stretches, x)
	}
	d.Limit = limit
	return nil
}

// tellPlaces says where the probe was, and what was measured by hand with it, or where it was.
func (r *Records) tellPlaces(ctx context.Context, book kitchen.Book, d *ReadingDay) error {
	stays, err := r.ProbeStays(ctx, d.Probe, d.From, d.Before)
	if err != nil {
		return err
	}
	place := record.Place(book.Thermometers[kitchen.ThermometerID(d.Probe)].At)
	for _, w := range stays {
		d.Stays = append(d.Stays, DayStay{Entry: w.Entry, Stage: w.Stage, Run: w.Run, Task: w.Task, Where: w.where(), Point: w.Point, From: w.From, Until: w.Until})
	}
	typed, err := r.TypedTemps(ctx, d.From, d.Before)
	for _, t := range typed {
		if t.belongs(d.Probe, place, stays) {
			d.Typed = append(d.Typed, DayTyped{Entry: t.Entry, At: t.At, Who: t.Who, Temp: t.Temp, Where: t.where(), With: t.Instrument})
		}
	}
	return err
}

// where is what a probe is in, in a few words.
func (w ProbeStay) where() string {
	return cmp.Or(w.Task, string(w.Lot), w.Output, string(w.Place))
}

func (t TypedTemp) where() string {
	return cmp.Or(t.Task, t.Output, t.Dish, string(t.Place))
}

// belongs tells whether a temperature was measured with a probe, in the place that it watches, or in what it was in then.
func (t TypedTemp) belongs(probe string, place record.Place, stays []ProbeStay) bool {
	return t.Instrument == probe || place != "" && t.Place == place || slices.ContainsFunc(stays, func(w ProbeStay) bool {
		return w.within(t.At, t.At+1) && (w.Task != "" && w.Run == t.Run && w.Task == t.Task || w.Place != "" && w.Place == t.Place)
	})
}

// besideDays are the days before and after on which there is something of the probe, as far as a month away.
func (r *Records) besideDays(ctx context.Context, d *ReadingDay, day time.Time) error {
	const far = 31
	before, err := r.Readings(ctx, d.Probe, instantOf(day.AddDate(0, 0, -1)), d.From)
	if err != nil {
		return err
	}
	after, err := r.Readings(ctx, d.Probe, d.Before, instantOf(day.AddDate(0, 0, 2)))
	if err != nil {
		return err
	}
	if len(before) == 0 {
		if before, err = r.Readings(ctx, d.Probe, instantOf(day.AddDate(0, 0, -far)), d.From); err != nil {
			return err
		}
	}
	if len(after) == 0 {
		if after, err = r.Readings(ctx, d.Probe, d.Before, instantOf(day.AddDate(0, 0, far))); err != nil {
			return err
		}
	}
	in := func(at record.Instant) record.Day {
		return dayOf(time.UnixMilli(int64(at)).In(day.Location()))
	}
	if len(before) > 0 {
		d.Previous = in(before[len(before)-1].At)
	}
	if len(after) > 0 {
		d.Next = in(after[0].At)
	}
	return nil
}

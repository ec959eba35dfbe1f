package app

import (
	"context"
	"math"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/loggerfile"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
)

// Flags that are set where readings are taken in, beside those of loggerfile.
const (
	CutShort  loggerfile.Flag = "cut-short"       // what stood in the cell was longer than is kept
	AtReceipt loggerfile.Flag = "time-of-receipt" // the probe told no time: it stands at the time at which it came
	TakenBack loggerfile.Flag = "taken-back"      // set when it is read: the entry that took its file in was taken back, or never came
)

// clockSlack is how far a probe's clock may be ahead of ours without its readings being in the future.
const clockSlack = 2 * time.Minute

var flagWords = map[loggerfile.Flag]string{
	loggerfile.OutOfOrder: "came out of order",
	loggerfile.Twice:      "the same time twice",
	loggerfile.Future:     "in the future when it came",
	loggerfile.NoNumber:   "no number",
	loggerfile.NoTime:     "no time that can be read",
	loggerfile.Impossible: "colder or hotter than any food or freezer",
	loggerfile.Jump:       "a jump: the unit may have changed",
	loggerfile.AfterGap:   "after a gap",
	loggerfile.TwoHours:   "in the hour that the clock repeats",
	loggerfile.NoSuchHour: "in the hour that the clock skips",
	loggerfile.TimeBack:   "the clock went back",
	loggerfile.NoUnit:     "no unit",
	CutShort:              "cut short",
	AtReceipt:             "no time was sent: the time of receipt",
	TakenBack:             "its file was taken back",
}

// FlagWords is what a flag of a reading says, in words.
func FlagWords(code string) string {
	if words, ok := flagWords[loggerfile.Flag(code)]; ok {
		return words
	}
	return code
}

// FlagsOf are the flags of a reading.
func FlagsOf(r store.Reading) []string { return strings.Fields(r.Flags) }

// doubts are the flags of readings that count for nothing: nobody knows when it was so, or the figure is none.
var doubts = []loggerfile.Flag{loggerfile.NoNumber, loggerfile.NoUnit, loggerfile.NoTime, loggerfile.Impossible, loggerfile.Future, TakenBack}

// ReadingCounts tells whether a reading says how warm it was: it has a temperature that can be, at a time that was.
func ReadingCounts(r store.Reading) bool {
	return r.Valued && !slices.ContainsFunc(FlagsOf(r), func(f string) bool { return slices.Contains(doubts, loggerfile.Flag(f)) })
}

// longestRaw is as much of a cell as is kept, in bytes.
const longestRaw = 180

// asKept is a reading as the store keeps it. What stood for its time is kept too where the time is odd. A reading without a time stands at
// otherwise, and counts for nothing.
func asKept(probe string, x loggerfile.Reading, otherwise time.Time) store.Reading {
	r := store.Reading{Probe: probe, Line: x.Line, Raw: x.Raw, Valued: x.Valued()}
	at := x.At
	if is(x, loggerfile.NoTime) || !canBe(at) {
		at, r.Valued = otherwise, false
		if !is(x, loggerfile.NoTime) {
			x.Flags = append(x.Flags, loggerfile.NoTime)
		}
	}
	r.At = record.Instant(at.UnixMilli())
	if slices.ContainsFunc(x.Flags, ofTime) && x.RawAt != "" {
		r.Raw = x.RawAt + " | " + x.Raw
	}
	if milli := math.Round(x.TempC * 1000); r.Valued && math.Abs(milli) < 1e12 {
		r.MilliC = int64(milli)
	} else {
		r.Valued = false
	}
	if len(r.Raw) > longestRaw {
		r.Raw = cutAt(r.Raw, longestRaw)
		x.Flags = append(x.Flags, CutShort)
	}
	r.Flags = joined(x.Flags)
	return r
}

// canBe tells whether a time can be kept: from 1970 on, before the year 10000.
func canBe(t time.Time) bool { return t.Unix() >= 0 && t.Unix() < 253_402_300_800 }

func is(x loggerfile.Reading, f loggerfile.Flag) bool { return slices.Contains(x.Flags, f) }

// ofTime tells whether a flag is about the time of a reading.
func ofTime(f loggerfile.Flag) bool {
	return f == loggerfile.NoTime || f == loggerfile.TwoHours || f == loggerfile.NoSuchHour
}

func joined(flags []loggerfile.Flag) string {
	if len(flags) == 0 {
		return ""
	}
	words := make([]string, len(flags))
	for i, f := range flags {
		words[i] = string(f)
	}
	return strings.Join(words, " ")
}

// cutAt is at most so many bytes of a text, and no half of a letter.
func cutAt(text string, most int) string {
	if len(text) <= most {
		return text
	}
	for most > 0 && !utf8.RuneStart(text[most]) {
		most--
	}
	return text[:most]
}

// Readings are those of a probe from one time to before another, in the order of their times, as they were received. Those of a file that was
// taken back are among them, and flagged.
func (r *Records) Readings(ctx context.Context, probe string, from, before record.Instant) ([]store.Reading, error) {
	all, err := r.store.Readings(ctx, probe, from, before)
	if err != nil || !slices.ContainsFunc(all, func(x store.Reading) bool { return x.File != record.ID{} }) {
		return all, err
	}
	err = lookAt(ctx, r, r.told, func(s *toldOfProbes, _ finding.List) error {
		for i, x := range all {
			if x.File != (record.ID{}) && !s.batches[x.File] {
				all[i].Flags = strings.TrimSpace(x.Flags + " " + string(TakenBack))
			}
		}
		return nil
	})
	return all, err
}

// readingsMark changes when readings of a probe come in for a time, or when a file is taken in or back.
func (r *Records) readingsMark(ctx context.Context, probe string, from, before record.Instant) (mark [2]int64, err error) {
	if mark, err = r.store.ReadingsMark(ctx, probe, from, before); err != nil {
		return mark, err
	}
	const spread = 1_000_003 // so that a file more does not look like a piece more
	err = lookAt(ctx, r, r.told, func(s *toldOfProbes, _ finding.List) error {
		mark[1] += spread * int64(len(s.batches))
		return nil
	})
	return mark, err
}

package app

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/loggerfile"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
)

// watched looks at what one probe read, and what was measured by hand where it is.
func (r *Records) watched(ctx context.Context, x coldwatch.Watch, from, now record.Instant) (coldwatch.Seen, error) {
	seen, _, err := r.watchedRead(ctx, x, from, now)
	return seen, err
}

// watchedRead is the same with the readings.
func (r *Records) watchedRead(ctx context.Context, x coldwatch.Watch, from, now record.Instant) (seen coldwatch.Seen, readings []coldwatch.Reading, err error) {
	readings, away, err := r.readAt(ctx, x, from, now)
	if err != nil {
		return seen, nil, err
	}
	seen, err = x.Look(readings, from, now)
	seen.Away = away
	return seen, readings, err
}

// readAt is what was read in a watched place from one time to another: by its probe, as long as no entry says that it was elsewhere, and by hand.
func (r *Records) readAt(ctx context.Context, x coldwatch.Watch, from, until record.Instant) (readings []coldwatch.Reading, away int, err error) {
	kept, err := r.Readings(ctx, x.Probe, from, until+1)
	if err != nil {
		return nil, 0, err
	}
	stays, err := r.ProbeStays(ctx, x.Probe, from, until+1)
	if err != nil {
		return nil, 0, err
	}
	stays = slices.DeleteFunc(stays, func(w ProbeStay) bool { return w.Place != "" && x.Covers(w.Place) })
	there := kept
	if len(stays) > 0 {
		there = slices.DeleteFunc(kept, func(k store.Reading) bool {
			return slices.ContainsFunc(stays, func(w ProbeStay) bool { return w.within(k.At, k.At+1) })
		})
		away = len(kept) - len(there)
	}
	typed, err := r.TypedTemps(ctx, from, until+1)
	if err != nil {
		return nil, 0, err
	}
	readings = coldReadings(there)
	for _, t := range typed {
		if !ofAir(x, t) {
			continue // most are of food
		}
		if trust := x.HandTrust(t.Instrument, t.At); !trust.Unusable {
			readings = append(readings, coldwatch.Reading{At: t.At, TempC: t.Temp.C(), Valued: true, Hand: cmp.Or(t.Instrument, "?"), ErrorC: trust.AccuracyC})
		}
	}
	return readings, away, nil
}

// ofAir says whether a temperature was measured by hand in a watched place, and not in food.
func ofAir(x coldwatch.Watch, t TypedTemp) bool {
	return t.Place != "" && x.Covers(t.Place) && t.Point == "" && t.Task == "" && t.Output == ""
}

// coldReadings are readings as the watch takes them.
func coldReadings(readings []store.Reading) []coldwatch.Reading {
	all := make([]coldwatch.Reading, len(readings))
	for i, x := range readings {
		all[i] = coldwatch.Reading{At: x.At, TempC: float64(x.MilliC) / 1000, Valued: ReadingCounts(x), Odd: isOdd(x.Flags), Flags: x.Flags}
	}
	return all
}

// harmless flags say nothing against the temperature or the time of the reading that has them.
var harmless = []loggerfile.Flag{loggerfile.AfterGap, loggerfile.Twice, loggerfile.OutOfOrder, AtReceipt, CutShort}

// isOdd says whether something about a reading is odd, so that it proves no cold.
func isOdd(flags string) bool {
	for flag := range strings.FieldsSeq(flags) {
		if !slices.Contains(harmless, loggerfile.Flag(flag)) {
			return true
		}
	}
	return false
}

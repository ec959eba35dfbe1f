package app

import (
	"cmp"
	"context"
	"reflect"
	"slices"
	"strings"
	"sync"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodcode"
	"kettlefrost/internal/hazards"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/loggerfile"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/unit"
)

// Watching is what the probes in freezers and walk-ins show, to be kept.
type Watching struct {
	Bench    thermometers.Bench
	Deeds    *coldwatch.Deeds
	Seen     []coldwatch.Seen // by place and probe
	Layout   coldstore.Layout
	Unlisted finding.List // about places that nothing watches, and entries that cannot be read
}

// followDeeds keeps up what was done about places that were too warm.
func followDeeds(r *Records) *follower[*coldwatch.Deeds] {
	return follow(r, fold[*coldwatch.Deeds]{empty: func() *coldwatch.Deeds { return &coldwatch.Deeds{} }, take: (*coldwatch.Deeds).Take, heeds: coldwatch.HeedsDeed})
}

// limitRules are the rules by which a place is too warm where the book does not say how warm it may be.
var limitRules = map[coldstore.Kind]string{coldstore.Frozen: "trade-0f", coldstore.Chilled: "fda-3-501.16-a-2"}

// watchesOf are the thermometers of a book that watch a cold place.
func watchesOf(book kitchen.Book, bench thermometers.Bench) []coldwatch.Watch {
	layout, rules := PlacesOf(book), hazards.Rules(book)
	var all []coldwatch.Watch
	for _, x := range ThermometersOf(book) {
		p, known := layout.Place(x.At)
		if !known || p.Kind != coldstore.Frozen && p.Kind != coldstore.Chilled {
			continue
		}
		w := coldwatch.Watch{Probe: x.ID, Name: x.Name, Place: x.At, PlaceName: layout.FullName(x.At), Kind: p.Kind, Logger: x.Kind == string(kitchen.Logger),
			Trust: func(at record.Instant) thermometers.Trust { return bench.Trust(x.ID, at) }, HandTrust: bench.Trust}
		if x.WarmestC != nil {
			w.LimitC, w.LimitSource = *x.WarmestC, "the book: warmest of "+x.Name
		} else if i := slices.IndexFunc(rules, func(h foodcode.Held) bool { return h.ID == limitRules[p.Kind] && h.TempF != nil }); i >= 0 {
			w.LimitC, w.LimitSource = (*rules[i].TempF-32)/1.8, rules[i].Source
		} else {
			continue
		}
		all = append(all, w)
	}
	slices.SortStableFunc(all, func(a, b coldwatch.Watch) int { return strings.Compare(string(a.Place), string(b.Place)) })
	return all
}

// WatchDays is how far back the watch looks.
const WatchDays = 14

const dayMs = 24 * 3600 * 1000

// Watch looks at what the probes in freezers and walk-ins read in the last days. A probe that has been there for less is looked at from its first
// reading on, and one that never sent anything from now on.
func (r *Records) Watch(ctx context.Context, book kitchen.Book, now record.Instant, days int) (Watching, error) {
	w := Watching{Layout: PlacesOf(book)}
	var err error
	if w.Bench, w.Unlisted, err = r.Bench(ctx, book); err != nil {
		return w, err
	}
	err = look(ctx, r, r.deeds, func(d *coldwatch.Deeds, unread finding.List) error {
		w.Deeds = d.Copy()
		return nil
	})
	if err != nil {
		return w, err
	}
	probes, err := r.store.Probes(ctx)
	if err != nil {
		return w, err
	}
	typed, err := r.TypedTemps(ctx, now-record.Instant(days)*dayMs, now+1)
	if err != nil {
		return w, err
	}
	watches := watchesOf(book, w.Bench)
	for _, x := range watches {
		began := now // nothing has ever come: since when it is not known nobody can say
		if i := slices.IndexFunc(probes, func(p store.ProbeSpan) bool { return p.Name == x.Probe && p.First <= now }); i >= 0 {
			began = probes[i].First
		}
		if i := slices.IndexFunc(typed, func(t TypedTemp) bool { return ofAir(x, t) }); i >= 0 {
			began = min(began, typed[i].At)
		}
		from := max(began, now-record.Instant(days)*dayMs)
		seen, err := r.watched(ctx, x, from, now)
		if err != nil {
			return w, err
		}
		w.Seen = append(w.Seen, seen)
	}
	w.Unlisted = append(w.Unlisted, coldwatch.Unwatched(w.Layout.Places(), watches)...)
	return w, nil
}

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
	kept, err := r.store.Readings(ctx, x.Probe, from, until+1)
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
		if trust := x.HandTrust(t.Instrument, t.At); ofAir(x, t) && !trust.Unusable {
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

// Alarms are what is wrong now, or was and nobody has answered: the gravest first, and of equals what is so now.
func (w Watching) Alarms(units unit.System, clock func(record.Instant) string) finding.List {
	var now, before finding.List
	for _, s := range w.Seen {
		now = append(now, s.Alarms(units, clock)...)
		before = append(before, s.Unanswered(w.Deeds, units, clock)...)
	}
	found := append(now, before...)
	found.Sort()
	return found
}

// Stretch is one of a probe's: that which began at a time, or else that which goes over it; false when there is none. Readings that came since
// may have moved its beginning.
func (w Watching) Stretch(probe string, from record.Instant) (seen coldwatch.Seen, found coldwatch.Stretch, ok bool) {
	for _, s := range w.Seen {
		if s.Probe != probe {
			continue
		}
		for _, x := range s.Stretches {
			if x.From == from {
				return s, x, true
			}
			if x.From < from && from < x.Until {
				seen, found, ok = s, x, true
			}
		}
	}
	return seen, found, ok
}

// Exposed shows what lay in a place during a stretch, or may have, the gravest first. It is lent: it is not to be changed, nor kept.
func (r *Records) Exposed(ctx context.Context, book kitchen.Book, s coldwatch.Seen, x coldwatch.Stretch, at func([]coldwatch.Exposure, *lots.State) error) error {
	return r.Lots(ctx, func(state *lots.State, _ finding.List) error {
		exposed, err := s.Exposures(state, x, keeping(book), r.lifeOf)
		if err != nil {
			return err
		}
		return at(exposed, state)
	})
}

// lifeOf is how long a lot keeps by the day that stands on it.
func (r *Records) lifeOf(l *lots.Lot) coldwatch.Life {
	born := r.dayOf(l.Born)
	days, ok := kitchen.DaysUntil(string(born), string(l.BestBefore))
	if !ok || days <= 0 {
		return coldwatch.Life{}
	}
	return coldwatch.Life{Days: float64(days), By: "from " + string(born) + " to its best-before day, " + string(l.BestBefore)}
}

// alarmMs is for how long what was found in the freezers is shown without looking again; an entry meanwhile ends that.
const alarmMs = 30_000

// alarmed is what was found in the freezers last.
type alarmed struct {
	mu    sync.Mutex
	at    record.Instant
	seen  uint64
	units unit.System
	book  kitchen.Book
	found finding.List
}

// ColdAlarms are what is wrong in freezers and walk-ins now, or was in the last days and nobody has answered. It is asked often, so that it looks
// again only after half a minute, or when an entry came.
func (r *Records) ColdAlarms(ctx context.Context, book kitchen.Book, now record.Instant, units unit.System, clock func(record.Instant) string) (finding.List, error) {
	if err := r.bring(ctx); err != nil {
		return nil, err
	}
	r.mu.RLock()
	seen := r.seen
	r.mu.RUnlock()
	a := &r.alarms
	a.mu.Lock()
	defer a.mu.Unlock()
	fresh := now >= a.at && now < a.at+alarmMs && seen == a.seen && units == a.units && reflect.DeepEqual(book.Thermometers, a.book.Thermometers) && reflect.DeepEqual(book.Safety, a.book.Safety)
	if fresh {
		return a.found, nil
	}
	w, err := r.Watch(ctx, book, now, alarmDays)
	if err != nil {
		return nil, err
	}
	a.at, a.seen, a.units, a.book, a.found = now, seen, units, book, w.Alarms(units, clock)
	return a.found, nil
}

// alarmDays is how far back what nobody answered is called to mind.
const alarmDays = 7

// WatchOne looks at what one probe read in a time, with the readings; false when it watches no cold place by the book.
func (r *Records) WatchOne(ctx context.Context, book kitchen.Book, probe string, from, until record.Instant) (seen coldwatch.Seen, readings []coldwatch.Reading, known bool, err error) {
	bench, _, err := r.Bench(ctx, book)
	if err != nil {
		return seen, nil, false, err
	}
	for _, x := range watchesOf(book, bench) {
		if x.Probe != probe {
			continue
		}
		seen, readings, err = r.watchedRead(ctx, x, from, until)
		return seen, readings, true, err
	}
	return seen, nil, false, nil
}

// TooWarm says whether a place is so warm now that somebody must act at once.
func (w Watching) TooWarm() bool {
	return w.Alarms(unit.Metric, func(record.Instant) string { return "" }).Worst() == finding.Stop
}

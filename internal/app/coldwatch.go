package app

import (
	"context"
	"slices"
	"strings"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodcode"
	"kettlefrost/internal/hazards"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
	"kettlefrost/internal/thermometers"
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
		exposed, err := s.Exposures(state, x, howCold(book), r.lifeOf)
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

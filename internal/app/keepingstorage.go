package app

import (
	"context"
	"maps"
	"math"
	"slices"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/keeping"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// StorageTaken is what the freezers took of the life of a lot's packs, in days at 0 °F (-18 °C), of the time that was read.
type StorageTaken struct {
	ReadDays   float64 `json:"read_days"`
	Days       float64 `json:"took_days"`
	Low        float64 `json:"took_days_low"`
	High       float64 `json:"took_days_high"`
	WarmDays   float64 `json:"warm_days,omitempty"` // of ReadDays: above -5 °C, in nothing else
	UnreadDays float64 `json:"unread_days,omitempty"`
}

// lifeOfAny is any life: shares of it, times it, are days at -18 °C whatever it is.
const lifeOfAny = 100

// storageOf reckons what was taken of lots, of one kind of pack or of all. Of packs of a lot that went different ways the most counts. Lots of
// which nothing was read are left out.
func (r *Records) storageOf(ctx context.Context, book kitchen.Book, now record.Instant, all []lots.Lot, pack string) (map[record.Lot]StorageTaken, error) {
	bench, _, err := r.Bench(ctx, book)
	if err != nil {
		return nil, err
	}
	air := &airRead{r: r, watches: watchesOf(book, bench), from: bornFirst(all, pack), until: now, read: map[string][]airDay{}}
	taken := map[record.Lot]StorageTaken{}
	for i := range all {
		l := &all[i]
		if pack != "" && l.What != pack {
			continue
		}
		spent, err := coldwatch.SpentBy(l, now, coldwatch.Life{Days: lifeOfAny}, func(place record.Place, in coldwatch.Span) ([]coldwatch.Warmth, bool, error) {
			return air.known(ctx, place, in)
		})
		if err != nil {
			return nil, err
		}
		here := l.OnHand().Numbers
		for _, s := range spent {
			if s.ReadMs == 0 || s.Numbers.Intersect(here).Empty() {
				continue
			}
			x := StorageTaken{ReadDays: float64(s.ReadMs) / dayMs, Days: lifeOfAny * s.Used.Share, Low: lifeOfAny * s.Used.Low, High: lifeOfAny * s.Used.High, WarmDays: float64(s.WarmMs) / dayMs, UnreadDays: float64(s.UnreadMs+s.ElsewhereMs) / dayMs}
			if was, ok := taken[l.ID]; !ok || x.High-x.ReadDays > was.High-was.ReadDays {
				taken[l.ID] = x
			}
		}
	}
	return taken, nil
}

// together is how fast life went for all lots of a kind of pack, by the days that were read of each; nil when nothing was, or for less than a day.
func together(all []lots.Lot, pack string, taken map[record.Lot]StorageTaken) *keeping.Storage {
	var s keeping.Storage
	var days, low, high, read float64
	for _, l := range all {
		x, ok := taken[l.ID]
		if l.What != pack || !ok {
			continue
		}
		s.Lots++
		days, low, high, read = days+x.Days, low+x.Low, high+x.High, read+x.ReadDays-x.WarmDays
		s.WarmDays, s.UnreadDays, s.ReadDays = s.WarmDays+x.WarmDays, s.UnreadDays+x.UnreadDays, s.ReadDays+x.ReadDays
	}
	if read < 1 {
		return nil
	}
	s.Rate, s.Low, s.High = days/read, low/read, high/read
	return &s
}

// bornFirst is when the first lot of a kind of pack, or of all, was packed.
func bornFirst(all []lots.Lot, pack string) record.Instant {
	first := record.Instant(math.MaxInt64)
	for _, l := range all {
		if pack == "" || l.What == pack {
			first = min(first, l.Born)
		}
	}
	return first
}

// airRead is what was read in the freezers over a time, each read once however many lots lay there.
type airRead struct {
	r           *Records
	watches     []coldwatch.Watch
	from, until record.Instant
	read        map[string][]airDay // by the probe
}

// airDay is what was read in a day: as it came, and by tenths of a degree, each time put to the warmer tenth, which is far fewer.
type airDay struct {
	coldwatch.Span
	raw, tenths []coldwatch.Warmth
}

// known is what was read at a place in a time; false where nothing watches. Of whole days it is by tenths of a degree.
func (a *airRead) known(ctx context.Context, place record.Place, in coldwatch.Span) ([]coldwatch.Warmth, bool, error) {
	w, watched := coldwatch.Nearest(a.watches, place)
	if !watched {
		return nil, false, nil
	}
	days, done := a.read[w.Probe]
	if !done {
		all := coldwatch.Span{From: a.from, Until: a.until}
		readings, _, err := a.r.readAt(ctx, w, all.From, all.Until)
		if err != nil {
			return nil, true, err
		}
		days = daysOf(w.Known(readings, all))
		a.read[w.Probe] = days
	}
	var known []coldwatch.Warmth
	for _, d := range days {
		switch {
		case d.Until <= in.From || in.Until <= d.From:
		case in.From <= d.From && d.Until <= in.Until:
			known = append(known, d.tenths...)
		default:
			known = append(known, d.raw...)
		}
	}
	return known, true, nil
}

// daysOf puts times in their order into days; a time that goes over midnight is of the day in which it began.
func daysOf(all []coldwatch.Warmth) []airDay {
	var days []airDay
	for _, x := range all {
		if n := len(days); n == 0 || days[n-1].raw[0].From/dayMs != x.From/dayMs {
			days = append(days, airDay{Span: x.Span})
		}
		d := &days[len(days)-1]
		d.raw, d.Until = append(d.raw, x), max(d.Until, x.Until)
	}
	for i := range days {
		days[i].tenths = byTenths(days[i].raw)
	}
	return days
}

// byTenths puts times together that are alike to the warmer tenth of a degree, one behind the other from the first on: how long each was counts, and
// not when.
func byTenths(all []coldwatch.Warmth) []coldwatch.Warmth {
	ms := map[int]int64{}
	for _, x := range all {
		ms[int(math.Ceil(10*x.TempC-1e-6))] += x.Ms()
	}
	var tenths []coldwatch.Warmth
	at := all[0].From
	for _, t := range slices.Sorted(maps.Keys(ms)) {
		until := at + record.Instant(ms[t])
		tenths = append(tenths, coldwatch.Warmth{Span: coldwatch.Span{From: at, Until: until}, TempC: float64(t) / 10})
		at = until
	}
	return tenths
}

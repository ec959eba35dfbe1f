package app

import (
	"context"

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
	watches := watchesOf(book, bench)
	taken := map[record.Lot]StorageTaken{}
	for i := range all {
		l := &all[i]
		if pack != "" && l.What != pack {
			continue
		}
		spent, err := coldwatch.SpentBy(l, now, coldwatch.Life{Days: lifeOfAny}, func(place record.Place, in coldwatch.Span) ([]coldwatch.Warmth, bool, error) {
			w, watched := coldwatch.Nearest(watches, place)
			if !watched {
				return nil, false, nil
			}
			readings, _, err := r.readAt(ctx, w, in.From, in.Until)
			return w.Known(readings, in), true, err
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

package coldwatch

import (
	"cmp"
	"slices"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/storagelife"
)

// Spent is what storage has taken so far of the life of quality of packs that lay at the same places at the same times. An estimate of quality,
// for the time that was read, and not of safety.
type Spent struct {
	Numbers     record.Numbers
	Used        storagelife.Used // of the time that was read and not above -5 °C
	ReadMs      int64
	UnreadMs    int64 // nobody knows
	WarmMs      int64 // of ReadMs, above -5 °C: it is in no share
	ElsewhereMs int64 // at places that no probe watches
}

// Known are the times of which something was read, each at the warmer of the two readings beside it.
func (w Watch) Known(readings []Reading, in Span) []Warmth {
	s := Seen{Watch: w, Span: in}
	points := s.points(readings)
	gap := usualGap(points)
	var all []Warmth
	for i := 1; i < len(points); i++ {
		if step := (Span{points[i-1].at, points[i].at}); step.Ms() <= gap {
			all = append(all, Warmth{step, max(points[i-1].tempC, points[i].tempC)})
		}
	}
	return all
}

// SpentBy adds up what storage took of the packs of a lot until now. Known says what was read at a place in a time; false where nothing watches.
// Packs that are gone count until they went. The ways of the packs, the commonest first.
func SpentBy(l *lots.Lot, now record.Instant, life Life, known func(record.Place, Span) ([]Warmth, bool, error)) ([]Spent, error) {
	stays, err := StaysOf(l, Span{l.Born, now})
	if err != nil || life.Days <= 0 {
		return nil, err
	}
	var all []Spent
	for _, stay := range stays {
		if stay.Numbers.Empty() {
			continue
		}
		warmths, watched, err := known(stay.Place, stay.Span)
		if err != nil {
			return nil, err
		}
		one := Spent{Numbers: stay.Numbers}
		if !watched {
			one.ElsewhereMs = stay.Ms()
		} else if err := one.take(stay.Span, warmths, life); err != nil {
			return nil, err
		}
		all = share(all, one)
	}
	slices.SortStableFunc(all, func(a, b Spent) int { return cmp.Compare(b.Numbers.Count(), a.Numbers.Count()) })
	return all, nil
}

// take reckons one stay.
func (s *Spent) take(in Span, warmths []Warmth, life Life) error {
	var stays []storagelife.Stay
	for _, x := range warmths {
		ms := x.clip(in).Ms()
		s.ReadMs += ms
		if x.TempC > storagelife.WarmestC {
			s.WarmMs += ms
		}
		stays = append(stays, storagelife.Stay{TempC: x.TempC, Days: float64(ms) / dayMs})
	}
	s.UnreadMs = in.Ms() - s.ReadMs
	var err error
	s.Used, err = storagelife.Assumed(life.Days).Use(stays)
	return err
}

// share adds a stay to those packs that it is about, and divides those of which only some are.
func share(all []Spent, one Spent) []Spent {
	left := one.Numbers
	var next []Spent
	for _, s := range all {
		some := s.Numbers.Intersect(one.Numbers)
		if rest := s.Numbers.Minus(some); !rest.Empty() {
			other := s
			other.Numbers = rest
			next = append(next, other)
		}
		if !some.Empty() {
			left = left.Minus(some)
			next = append(next, s.plus(one, some))
		}
	}
	if !left.Empty() {
		next = append(next, Spent{}.plus(one, left))
	}
	return next
}

func (s Spent) plus(o Spent, numbers record.Numbers) Spent {
	s.Numbers = numbers
	s.Used.Share, s.Used.Low, s.Used.High, s.Used.WarmDays = s.Used.Share+o.Used.Share, s.Used.Low+o.Used.Low, s.Used.High+o.Used.High, s.Used.WarmDays+o.Used.WarmDays
	s.ReadMs, s.UnreadMs, s.WarmMs, s.ElsewhereMs = s.ReadMs+o.ReadMs, s.UnreadMs+o.UnreadMs, s.WarmMs+o.WarmMs, s.ElsewhereMs+o.ElsewhereMs
	return s
}

// Nearest is the watch over just the place or the smallest whole that it is a part of; false where nothing watches.
func Nearest(watches []Watch, place record.Place) (nearest Watch, ok bool) {
	for _, w := range watches {
		if w.Covers(place) && (!ok || len(w.Place) > len(nearest.Place)) {
			nearest, ok = w, true
		}
	}
	return nearest, ok
}

// Covers says whether what lies at a place surely lies in the watched one.
func (w Watch) Covers(place record.Place) bool { return w.covers(place) == surely }

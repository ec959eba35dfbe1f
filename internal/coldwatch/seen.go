package coldwatch

import (
	"cmp"
	"slices"

	"kettlefrost/internal/record"
	"kettlefrost/internal/storagelife"
)

// Seen is what a probe's readings show.
type Seen struct {
	Watch
	Span                     // that was looked at, until now
	Last      *Reading       // the last that can be used
	Silent    record.Instant // since when nothing has come that can be used; 0: it is not silent
	Stretches []Stretch      // as they happened
	Read      int            // readings that count
	Away      int            // that were left out since the records say that the probe was elsewhere then
	Unread    int            // that hold no temperature, an impossible one, or one from a time when the probe was withdrawn or after now
	GapMs     int64          // longer than this without a reading is silence
}

// Usual silences.
const (
	shortestGapMs = 30 * minuteMs // a freezer that fails warms by some degrees in this time
	gaps          = 3             // times what is usual between two readings
	// againMs is how soon a place may be too warm again for it to be the same time still.
	againMs = 30 * minuteMs
	// hottestC and coldestC are what no freezer or store-room has: the probe is broken or lies in something else.
	coldestC, hottestC = -90, 60
)

// point is a reading that counts, with what its probe is known to hide added to it.
type point struct {
	at    record.Instant
	tempC float64
	odd   bool
}

// Look looks at the readings of a time, in any order, as of now.
func (w Watch) Look(readings []Reading, from, now record.Instant) (Seen, error) {
	s := Seen{Watch: w, Span: Span{from, now}}
	points := s.points(readings)
	s.GapMs = usualGap(points)
	warm, err := s.warm(points)
	if err != nil {
		return Seen{}, err
	}
	s.Stretches = append(warm, s.dark(points, warm)...)
	slices.SortStableFunc(s.Stretches, func(a, b Stretch) int { return cmp.Compare(a.From, b.From) })
	return s, nil
}

// points are the readings that count, one for each time, in their order. An odd one counts only where it is warm. Of two of one time the warmer
// counts. What a check found wrong beyond what the probe is known for is added to the readings before it; so is what a thermometer by which
// somebody measured by hand may be wrong beyond that.
func (s *Seen) points(readings []Reading) []point {
	var all []point
	for i := range readings {
		r := &readings[i]
		if r.At < s.From || r.At > s.Until || !r.Valued || r.TempC < coldestC || r.TempC > hottestC {
			s.Unread++
			continue
		}
		t := s.Trust(r.At)
		if r.Hand != "" {
			t.AccuracyC, t.Unusable = r.ErrorC, false
		}
		p := point{r.At, r.TempC + max(0, t.AccuracyC-t.StatedC), r.Odd}
		if t.Unusable || r.Odd && p.tempC <= s.LimitC {
			s.Unread++
			continue
		}
		s.Read++
		if s.Last == nil || r.At > s.Last.At || r.At == s.Last.At && r.TempC > s.Last.TempC {
			s.Last = r
		}
		all = append(all, p)
	}
	slices.SortFunc(all, func(a, b point) int { return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(b.tempC, a.tempC)) })
	return slices.CompactFunc(all, func(a, b point) bool { return a.at == b.at })
}

// usualGap is how long may pass between two readings.
func usualGap(points []point) int64 {
	var steps []record.Instant
	for i := 1; i < len(points); i++ {
		steps = append(steps, points[i].at-points[i-1].at)
	}
	if len(steps) == 0 {
		return shortestGapMs
	}
	slices.Sort(steps)
	return max(shortestGapMs, gaps*int64(steps[(len(steps)-1)/2]))
}

// warm are the times over the limit.
func (s *Seen) warm(points []point) ([]Stretch, error) {
	readings := make([]storagelife.Reading, len(points))
	for i, p := range points {
		readings[i] = storagelife.Reading{TimeS: float64(p.at-s.From) / 1000, TempC: p.tempC}
	}
	found, err := storagelife.Excursions(readings, s.LimitC)
	if err != nil {
		return nil, err
	}
	found = joined(found)
	instant := func(timeS float64) record.Instant { return s.From + record.Instant(timeS*1000+0.5) }
	var all []Stretch
	for _, e := range found {
		x := Stretch{Span: Span{instant(e.FromS), instant(e.ToS)}, Kind: TooWarm, Ended: e.Ended, PeakC: e.PeakC}
		inIt := between(points, x.Span)
		for i, p := range inIt {
			if p.odd {
				x.Odd++
			}
			if i == 0 {
				continue
			}
			if step := (Span{inIt[i-1].at, p.at}); step.Ms() > s.GapMs {
				x.Silent = append(x.Silent, step)
			} else {
				x.Stays = append(x.Stays, Warmth{step, max(inIt[i-1].tempC, p.tempC)})
			}
		}
		if !x.Ended {
			s.still(&x)
		}
		all = append(all, s.sized(x))
	}
	return all, nil
}

// joined makes one of excursions between which it was cold enough for a short time only: air at the limit goes to and fro.
func joined(found []storagelife.Excursion) []storagelife.Excursion {
	var all []storagelife.Excursion
	for _, e := range found {
		if n := len(all); n > 0 && e.FromS-all[n-1].ToS < againMs/1000 {
			all[n-1].ToS, all[n-1].Ended, all[n-1].PeakC = e.ToS, e.Ended, max(all[n-1].PeakC, e.PeakC)
			continue
		}
		all = append(all, e)
	}
	return all
}

// between are the points of a time, with those at its ends.
func between(points []point, in Span) []point {
	at := func(p point, t record.Instant) int { return cmp.Compare(p.at, t) }
	first, _ := slices.BinarySearchFunc(points, in.From, at)
	after, _ := slices.BinarySearchFunc(points, in.Until+1, at)
	return points[first:after]
}

// still is a stretch that goes on: until now, and since the last reading nobody knows.
func (s *Seen) still(x *Stretch) {
	since := Span{x.Until, s.Until}
	if since.Ms() > s.GapMs {
		x.Silent = append(x.Silent, since)
	} else if since.Ms() > 0 {
		x.Stays = append(x.Stays, Warmth{since, s.Last.TempC})
	}
	x.Until = s.Until
}

// dark are the times without a reading that are in no warm one.
func (s *Seen) dark(points []point, warm []Stretch) []Stretch {
	var all []Stretch
	add := func(silent Span, ended bool) {
		if silent.Ms() <= s.GapMs {
			return
		}
		for _, w := range warm {
			if w.clip(silent).Ms() > 0 {
				return
			}
		}
		all = append(all, s.sized(Stretch{Span: silent, Kind: NotKnown, Ended: ended, Silent: []Span{silent}, Awaited: s.Logger && !ended}))
	}
	last := s.From
	for _, p := range points {
		add(Span{last, p.at}, true)
		last = p.at
	}
	add(Span{last, s.Until}, false)
	if (Span{last, s.Until}).Ms() > s.GapMs {
		s.Silent = last
	}
	return all
}

// sized adds up a stretch.
func (s *Seen) sized(x Stretch) Stretch {
	x.LimitC, x.Accuracy = s.LimitC, s.Trust(x.From)
	x.MayC = x.PeakC + x.Accuracy.StatedC
	x.WarmMs, x.ThawedMs = x.above(storagelife.WarmestC), x.above(ThawedC)
	for _, u := range x.Silent {
		x.UnknownMs += u.Ms()
	}
	return x
}

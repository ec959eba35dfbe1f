package folder

import (
	"cmp"
	"slices"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/record"
)

// thermometers are the instruments that something was read with, each with its checks: the last before, those between and the first after.
func (m Material) thermometers() (all []Thermometer) {
	for _, id := range m.Reach.Instruments {
		x, listed := m.Bench.Instrument(id)
		u := m.Reach.found[id]
		t := Thermometer{ID: id, Name: x.Name, Listed: listed, StatedC: x.Stated(), Checks: []Check{}, From: u.from, Until: u.until}
		checks := m.Bench.Checks(id)
		for i, c := range checks {
			last := c.At <= u.from && (i+1 == len(checks) || checks[i+1].At > u.from)
			first := c.At > u.until && (i == 0 || checks[i-1].At <= u.until)
			if last || first || c.At > u.from && c.At <= u.until {
				t.Checks = append(t.Checks, Check{c.Entry, c.At, c.Who, string(c.Method), c.ReadC, c.TrueC, c.AfterC, string(c.Kept), string(c.Note)})
			}
		}
		all = append(all, t)
	}
	return all
}

// cold are the places that the lots lay in, as far as a probe watched them.
func (m Material) cold() (all []Cold) {
	for _, s := range m.Cold {
		if !slices.Contains(m.Reach.Places, Outermost(s.Place)) {
			continue
		}
		c := Cold{Place: string(s.Place), Name: s.PlaceName, Instrument: s.Probe, LimitC: s.LimitC, Limit: s.LimitSource, From: s.From, Until: s.Until, Readings: s.Read, Unusable: s.Unread, Days: s.Days}
		for _, x := range s.Stretches {
			c.OverS += over(x)
			c.UnreadS += float64(x.UnknownMs) / 1000
			e := Excursion{From: x.From, Until: x.Until, Kind: string(x.Kind), Open: !x.Ended, UnknownS: float64(x.UnknownMs) / 1000, Asks: x.Asks(), Answered: m.Answered != nil && m.Answered(s.Seen, x)}
			if x.Kind == coldwatch.TooWarm {
				e.PeakC, e.MayC, e.AboveMinus5S, e.Above41S = &x.PeakC, &x.MayC, float64(x.WarmMs)/1000, float64(x.ThawedMs)/1000
			}
			c.Excursions = append(c.Excursions, e)
		}
		all = append(all, c)
	}
	slices.SortFunc(all, func(a, b Cold) int {
		return cmp.Or(cmp.Compare(a.Place, b.Place), cmp.Compare(a.Instrument, b.Instrument))
	})
	return all
}

// over is how long a stretch was over the limit, as far as is known.
func over(x coldwatch.Stretch) float64 {
	if x.Kind != coldwatch.TooWarm {
		return 0
	}
	return float64(x.Ms()-x.UnknownMs) / 1000
}

// unwatched are the places that the lots lay in and no probe watched.
func (m Material) unwatched() (places []record.Place) {
	for _, p := range m.Reach.Places {
		if m.Watched == nil || !m.Watched(p) {
			places = append(places, p)
		}
	}
	return places
}

package freezing

import (
	"fmt"
	"strings"
)

// excess is how far what went into a place by a day is beyond the limits from that day's loading on: a core in time, and nothing frozen
// warmer than the old stock may be, or than it was called frozen at. Of what was before, only that it is beyond them counts.
func (p *planner) excess(c *course, day, place int) (float64, error) {
	if len(c.turns[place]) == 0 {
		return -1, nil
	}
	l, err := p.load(c, place)
	if err != nil {
		return 0, err
	}
	f := p.want.Freezers[p.places[place].Freezer]
	lim := p.want.Limits.in(f)
	frozenC := max(lim.StockC, lim.CoreC)
	since, worst := float64(day)*daySeconds, -1.0
	put := func(timeS, excess float64) {
		if excess > 0 || timeS >= since {
			worst = max(worst, excess)
		}
	}
	for _, s := range l.Stock {
		put(s.TimeS, lim.stock(f, s.CoreC))
	}
	for i, b := range p.batches(c, place) {
		got := l.Batches[i]
		put(b.InS+got.TimeS, lim.late(got))
		for _, at := range got.Points {
			if got.Reached && at.TimeS > got.TimeS {
				put(b.InS+at.TimeS, (at.CoreC-frozenC)/max(1, frozenC-f.SetC))
			}
		}
	}
	return worst, nil
}

// load is the simulation of all that goes into a place.
func (p *planner) load(c *course, place int) (Loaded, error) {
	key := p.key(place, c)
	if l, known := p.known[key]; known {
		return l, nil
	}
	f := p.want.Freezers[p.places[place].Freezer]
	ask := Ask{CoreC: p.want.Limits.in(f).CoreC, WithinS: p.want.Limits.WithinS, Side: p.want.Limits.Side}
	l, err := f.Load(p.batches(c, place), ask)
	if err == nil {
		p.known[key] = l
		p.courses += l.EndS / daySeconds
	}
	return l, err
}

// batches are those of one place, by day and then by kind, as in the entries.
func (p *planner) batches(c *course, place int) []Batch {
	var out []Batch
	for day := range c.counts {
		for k, n := range c.counts[day][place] {
			if n > 0 {
				in, _ := p.want.inS(day, k)
				kind := p.want.Kinds[k]
				if in-kind.ReadyS > 0 {
					kind.Pack.StartC = min(kind.Pack.StartC, p.want.HoldC)
				}
				out = append(out, Batch{Pack: kind.Pack, Placing: kind.Placing, Count: n, InS: in})
			}
		}
	}
	return out
}

// key is the same for loads that run the same course.
func (p *planner) key(place int, c *course) string {
	var b strings.Builder
	fmt.Fprint(&b, p.want.sameAs(p.places[place].Freezer))
	for day := range c.counts {
		for k, n := range c.counts[day][place] {
			if n > 0 {
				fmt.Fprint(&b, ";", day, ",", k, ",", n)
			}
		}
	}
	return b.String()
}

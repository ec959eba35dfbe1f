package freezing

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

const (
	// A cabinet that breaks a limit on a day when its whole load is simulated may have less on that day: by about what it is beyond, at
	// least and at most by these. After mostRounds of that it gets nothing at all, so that it ends.
	leastCut, mostCut = 0.015, 0.2
	mostRounds        = 30
)

// solve assigns, simulates, and takes away from what breaks a limit until nothing does.
func (p *planner) solve() (Schedule, error) {
	p.cap = make([][]float64, p.want.Days)
	for day := range p.cap {
		p.cap[day] = slices.Repeat([]float64{1}, len(p.places))
	}
	p.suits, p.least = p.suit(), p.leastDays()
	for round := 0; ; round++ {
		d := p.even()
		loads, err := p.simulate(d)
		if err != nil {
			return Schedule{}, err
		}
		confirmed := true
		for i, l := range loads {
			if l == nil {
				continue
			}
			for day, over := range p.over(i, d, *l) {
				if over <= 0 {
					continue
				}
				confirmed = false
				p.cap[day][i] = d.used[day][i] * (1 - min(max(over, leastCut), mostCut))
				if round >= mostRounds {
					p.close(i)
				}
			}
		}
		if confirmed {
			return p.schedule(d, loads), nil
		}
	}
}

func (p *planner) close(place int) {
	for day := range p.cap {
		p.cap[day][place] = 0
	}
}

// over is how far a whole load is beyond the limits on each day: a core in time, and nothing frozen warmer than the old stock may be, or
// than it was called frozen at. What becomes too warm is put down to the last batch that went in before.
func (p *planner) over(place int, d draft, l Loaded) []float64 {
	f := p.want.Freezers[p.places[place].Freezer]
	lim := p.want.Limits.in(f)
	batches := p.batches(d, place)
	out := make([]float64, p.want.Days)
	first := make([]float64, p.want.Days) // when the first batch of each day goes in
	for day := range first {
		first[day] = math.Inf(1)
	}
	for _, b := range batches {
		first[dayOf(b.InS)] = min(first[dayOf(b.InS)], b.InS)
	}
	put := func(timeS, over float64) {
		day := min(dayOf(timeS), p.want.Days-1)
		for day > 0 && first[day] > timeS {
			day--
		}
		out[day] = max(out[day], over)
	}
	for _, s := range l.Stock {
		put(s.TimeS, lim.stock(f, s.CoreC))
	}
	frozenC := max(lim.StockC, lim.CoreC)
	for i, b := range l.Batches {
		put(batches[i].InS, lim.late(b))
		for _, at := range b.Points {
			if b.Reached && at.TimeS > b.TimeS {
				put(batches[i].InS+at.TimeS, (at.CoreC-frozenC)/max(1, frozenC-f.SetC))
			}
		}
	}
	return out
}

func dayOf(timeS float64) int { return int(timeS / daySeconds) }

// simulate is each place's whole load, nil where there is none.
func (p *planner) simulate(d draft) ([]*Loaded, error) {
	out := make([]*Loaded, len(p.places))
	for i, at := range p.places {
		batches := p.batches(d, i)
		if len(batches) == 0 {
			continue
		}
		key := p.key(i, d)
		l, known := p.known[key]
		if !known {
			var err error
			f := p.want.Freezers[at.Freezer]
			ask := Ask{CoreC: p.want.Limits.in(f).CoreC, WithinS: p.want.Limits.WithinS, Side: p.want.Limits.Side}
			if l, err = f.Load(batches, ask); err != nil {
				return nil, err
			}
			p.known[key] = l
		}
		out[i] = &l
	}
	return out, nil
}

// batches are those of one place, by day and then by kind, as in the entries.
func (p *planner) batches(d draft, place int) []Batch {
	var out []Batch
	for day := range d.counts {
		for k, n := range d.counts[day][place] {
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
func (p *planner) key(place int, d draft) string {
	var b strings.Builder
	fmt.Fprint(&b, p.want.sameAs(p.places[place].Freezer))
	for day := range d.counts {
		fmt.Fprint(&b, ";", d.counts[day][place])
	}
	return b.String()
}

func (p *planner) schedule(d draft, loads []*Loaded) Schedule {
	out := Schedule{Days: d.days, LeastDays: p.least, Intakes: p.intakes()}
	next := make([]int, len(p.places))
	for day := range d.counts {
		for i, at := range p.places {
			for k, n := range d.counts[day][i] {
				if n == 0 {
					continue
				}
				b := loads[i].Batches[next[i]]
				next[i]++
				in, _ := p.want.inS(day, k)
				coreC := p.want.Limits.in(p.want.Freezers[at.Freezer]).CoreC
				e := Entry{Day: day, Kind: k, Place: at, Count: n, InS: in, CoreC: coreC, FrozenS: in + b.TimeS, RewarmedC: b.RewarmedC}
				out.Entries = append(out.Entries, e)
				out.Placed += n
				out.FrozenS = max(out.FrozenS, e.FrozenS)
			}
		}
	}
	for i, l := range loads {
		if l != nil {
			out.Cabinets = append(out.Cabinets, CabinetLoad{Place: p.places[i], Load: *l})
		}
	}
	out.Waiting = p.waiting(d)
	return out
}

func (p *planner) waiting(d draft) []Waiting {
	var out []Waiting
	for k, n := range d.left {
		if n > 0 {
			out = append(out, Waiting{Kind: k, Count: n, MassKg: float64(n) * p.want.Kinds[k].Pack.MassKg, Why: p.why(d, k)})
		}
	}
	return out
}

// why a kind was left over.
func (p *planner) why(d draft, k int) Reason {
	if p.takers(k) == 0 {
		return NoFreezer
	}
	for i, at := range p.places {
		if !math.IsInf(p.shares[at.Freezer][k], 1) && d.roomKg[i] >= p.want.Kinds[k].Pack.MassKg {
			return NoDay
		}
	}
	return NoRoom
}

func (p *planner) intakes() [][]float64 {
	out := make([][]float64, len(p.shares))
	for f := range p.shares {
		for _, s := range p.shares[f] {
			out[f] = append(out[f], 1/s)
		}
	}
	return out
}

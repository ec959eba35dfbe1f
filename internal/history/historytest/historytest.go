// Package historytest holds what was worked out of the entries of a history against its truth: where every pack is, what is held, the mass
// balance of every lot, what is in what, who got it.
package historytest

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/history"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Differences is everything in which lots and the findings about them are not what a history says; nothing when all agrees. Of the deliveries
// every n-th is traced and recalled, of the lots of packs every n-th is traced back.
func Differences(h *history.History, s *lots.State, found finding.List, n int) []string {
	c := comparison{h: h, s: s}
	c.findings(found)
	c.names()
	for _, b := range h.Bulk {
		c.bulk(b)
	}
	for _, p := range h.Packs {
		c.packs(p)
	}
	c.traces(n)
	return c.all
}

type comparison struct {
	h   *history.History
	s   *lots.State
	all []string
}

// want notes a difference.
func want[T comparable](c *comparison, of any, what string, want, have T) {
	if have != want {
		c.all = append(c.all, fmt.Sprintf("%v: %s: have %v, want %v", of, what, have, want))
	}
}

func (c *comparison) findings(found finding.List) {
	have := map[string]int{}
	for _, f := range found {
		have[f.Code]++
	}
	for code, n := range have {
		want(c, "findings", code, c.h.Findings[code], n)
	}
	for code, n := range c.h.Findings {
		if have[code] == 0 {
			want(c, "findings", code, n, 0)
		}
	}
}

// names: every lot is there, and no other.
func (c *comparison) names() {
	named := 0
	for l := range c.s.All() {
		if l.Sort != lots.Pot {
			named++
		}
	}
	want(c, "lots", "their number", len(c.h.Bulk)+len(c.h.Packs), named)
}

func (c *comparison) bulk(b *history.Bulk) {
	l := c.s.Lot(b.Lot)
	if l == nil {
		want(c, b.Lot, "is there", true, false)
		return
	}
	balance, err := c.s.Balance(b.Lot)
	want(c, b.Lot, "error of the balance", nil, err)
	want(c, b.Lot, "came", b.Came, balance.Came)
	want(c, b.Lot, "used", b.Used, balance.Used)
	want(c, b.Lot, "waste", b.Waste, balance.Waste)
	want(c, b.Lot, "dispatched", 0, balance.Dispatched)
	want(c, b.Lot, "on hand", b.Here, balance.OnHand)
	want(c, b.Lot, "on hand at "+string(b.Place), b.Here, l.Here[b.Place].Mass)
	want(c, b.Lot, "unaccounted", b.Unaccounted(), balance.Unaccounted)
	want(c, b.Lot, "held", b.Held, l.Held())
}

// packs holds every single pack against where it is, and the masses against so many packs of the mean.
func (c *comparison) packs(p *history.Packs) {
	l := c.s.Lot(p.Lot)
	if l == nil {
		want(c, p.Lot, "is there", true, false)
		return
	}
	spots, twice := spotsOf(l, len(p.At))
	want(c, p.Lot, "packs that are in two places, or were never made", 0, twice)
	here := l.OnHand().Numbers
	held := l.HeldOf(here)
	for i, at := range p.At {
		want(c, p.Lot, fmt.Sprintf("pack %d", i+1), at, spots[i])
		if at.State == history.Here {
			want(c, p.Lot, fmt.Sprintf("pack %d held", i+1), p.Held[i], held.Has(int64(i+1)))
		}
	}
	b, err := c.s.Balance(p.Lot)
	want(c, p.Lot, "error of the balance", nil, err)
	want(c, p.Lot, "came", p.Came, b.Came)
	want(c, p.Lot, "used", p.Used, b.Used)
	want(c, p.Lot, "balance", b.Came, b.Used+b.OnHand+b.Waste+b.Dispatched+b.Unaccounted)
	for _, x := range []struct {
		what  string
		state history.State
		have  unit.Mass
	}{{"on hand", history.Here, b.OnHand}, {"waste", history.Gone, b.Waste}, {"dispatched", history.With, b.Dispatched}} {
		mean := float64(p.Came) / float64(len(p.At)) * float64(p.Count(x.state))
		if !near(float64(x.have), mean, float64(1+len(l.Handed))) { // each handing is rounded to a nanogram by itself
			want(c, p.Lot, x.what, unit.Mass(mean), x.have)
		}
	}
}

// spotsOf is where each pack is by the lot, and how many packs are told of twice or have a number that was never made.
func spotsOf(l *lots.Lot, packs int) (spots []history.Spot, twice int) {
	spots = make([]history.Spot, packs)
	put := func(n record.Numbers, at history.Spot) {
		for r := range n.Ranges() {
			for k := r.First; k <= r.Last; k++ {
				if k > int64(packs) || spots[k-1].State != 0 {
					twice++
					continue
				}
				spots[k-1] = at
			}
		}
	}
	for place, a := range l.Here {
		put(a.Numbers, history.Spot{State: history.Here, Where: string(place)})
	}
	for _, h := range l.Handed {
		put(h.Numbers, history.Spot{State: history.With, Where: h.Customer})
	}
	put(l.WrittenOff.Numbers, history.Spot{State: history.Gone})
	put(l.Reopened, history.Spot{State: history.Opened})
	put(l.Missing, history.Spot{State: history.Missing})
	return spots, twice
}

// near says whether two masses in nanograms are the same but for rounding.
func near(a, b, nanograms float64) bool {
	return a-b <= nanograms+1e-9*b && b-a <= nanograms+1e-9*b
}

package allocation

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// bruteForce tries every way to give out packs and returns what each line gets in the best of them (in the order lines are served), then
// the packs of each best-before day that leave on each due day, then the fewest lots opened that these allow.
type bruteForce struct {
	s      Stock
	lines  []*line
	days   []int // due days
	dates  []int
	left   []int
	got    []int
	usage  []int // due day by best-before day, the oldest first
	opened int
	best   []int // got, then usage, then -opened
}

func brute(s Stock) *bruteForce {
	w := newWork(s, nil)
	b := &bruteForce{s: s, lines: w.lines}
	for _, l := range s.Lots {
		b.left = append(b.left, l.Packs)
		b.dates = append(b.dates, l.BestBefore)
	}
	for _, l := range w.lines {
		b.days = append(b.days, l.due)
	}
	slices.Sort(b.dates)
	slices.Sort(b.days)
	b.dates, b.days = slices.Compact(b.dates), slices.Compact(b.days)
	b.got, b.usage = make([]int, len(b.lines)), make([]int, len(b.dates)*len(b.days))
	b.try(0, 0, 0)
	return b
}

func (b *bruteForce) try(i, lot, lots int) {
	if i == len(b.lines) {
		key := slices.Concat(b.got, b.usage, []int{-b.opened})
		if b.wholes() && (b.best == nil || slices.Compare(key, b.best) > 0) {
			b.best = key
		}
		return
	}
	l := b.lines[i]
	if lot == len(b.s.Lots) {
		b.try(i+1, 0, 0)
		return
	}
	b.try(i, lot+1, lots)
	at := b.s.Lots[lot]
	if at.Held || at.Product != l.product || at.BestBefore < l.least || at.BestBefore < b.s.Today || l.mostLots > 0 && lots == l.mostLots {
		return
	}
	cell := slices.Index(b.days, l.due)*len(b.dates) + slices.Index(b.dates, at.BestBefore)
	for n := 1; n <= min(b.left[lot], l.wanted-b.got[i]); n++ {
		b.move(i, lot, cell, n)
		b.try(i, lot+1, lots+1)
		b.move(i, lot, cell, -n)
	}
}

func (b *bruteForce) move(i, lot, cell, n int) {
	b.left[lot] -= n
	b.got[i] += n
	b.usage[cell] += n
	if n > 0 {
		b.opened++
	} else {
		b.opened--
	}
}

func (b *bruteForce) wholes() bool {
	full, empty := make([]bool, len(b.s.Orders)), make([]bool, len(b.s.Orders))
	for i, l := range b.lines {
		if l.wanted > 0 {
			full[l.order] = full[l.order] || b.got[i] > 0
			empty[l.order] = empty[l.order] || b.got[i] < l.wanted
		}
	}
	for i, o := range b.s.Orders {
		if o.Whole && full[i] && empty[i] {
			return false
		}
	}
	return true
}

// key is the plan's own figures in the order of best.
func (b *bruteForce) key(p Plan) []int {
	got, usage, opened := []int{}, make([]int, len(b.usage)), 0
	for i, s := range p.Lines {
		got = append(got, s.Packs)
		for _, t := range s.Takes {
			usage[slices.Index(b.days, b.lines[i].due)*len(b.dates)+slices.Index(b.dates, b.s.Lots[t.Lot].BestBefore)] += t.Packs
			opened++
		}
	}
	return slices.Concat(got, usage, []int{-opened})
}

// small draws a freezer that can be tried out in full.
func small(rng *rand.Rand, few, whole bool) Stock {
	s := Stock{Today: 100}
	products := 1 + rng.IntN(8)/7
	for range 2 + rng.IntN(3) {
		s.Lots = append(s.Lots, Lot{Product: rng.IntN(products), BestBefore: 99 + rng.IntN(7), Packs: 1 + rng.IntN(5), Held: rng.IntN(12) == 0})
	}
	for range 2 + rng.IntN(3) {
		o := Order{Due: 99 + rng.IntN(3), LeastLife: rng.IntN(4), Lines: []Line{{rng.IntN(products), 1 + rng.IntN(5)}}}
		if whole && rng.IntN(2) == 0 {
			o.Whole = true
			o.Lines = append(o.Lines, Line{rng.IntN(products), rng.IntN(3)})
		}
		if few && rng.IntN(2) == 0 {
			o.MostLots = 1 + rng.IntN(2)
		}
		s.Orders = append(s.Orders, o)
	}
	return s
}

func TestNoOtherWayServesMore(t *testing.T) {
	for name, c := range map[string]struct{ few, whole bool }{"any lots": {}, "few lots": {few: true}, "whole orders": {whole: true}, "both": {true, true}} {
		t.Run(name, func(t *testing.T) {
			var opened, least, seen int
			for seed := range uint64(250) {
				s := small(rand.New(rand.NewPCG(seed, 6)), c.few, c.whole)
				p, err := Allocate(s)
				if err != nil {
					t.Fatal(err)
				}
				if err := Check(s, p); err != nil {
					t.Fatalf("seed %d: %v", seed, err)
				}
				b := brute(s)
				got := b.key(p)
				n := len(b.lines)
				if !slices.Equal(got[:n], b.best[:n]) || !p.Proved {
					t.Fatalf("seed %d: lines get %v, %v would be possible (proved: %v)\n%+v", seed, got[:n], b.best[:n], p.Proved, s)
				}
				if c.few {
					continue
				}
				end := len(got) - 1
				if !slices.Equal(got[n:end], b.best[n:end]) {
					t.Fatalf("seed %d: leaving by day and date %v, the oldest that may %v\n%+v", seed, got[n:end], b.best[n:end], s)
				}
				opened, least, seen = opened-got[end], least-b.best[end], seen+1
			}
			if opened > least+least/200 {
				t.Errorf("%d lots opened in %d freezers, %d would do", opened, seen, least)
			}
			t.Logf("%d lots opened in %d freezers, %d would do", opened, seen, least)
		})
	}
}

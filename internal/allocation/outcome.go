package allocation

import (
	"cmp"
	"slices"
)

func (w *work) plan() Plan {
	p := Plan{Moves: w.moves, Left: make([]int, len(w.Lots)), Proved: true}
	for i, l := range w.Lots {
		p.Left[i] = l.packs()
	}
	shorts := w.shorts()
	for _, l := range w.lines {
		s := Served{Order: l.order, Line: l.line, Wanted: l.wanted, Packs: l.got, Short: shorts[l], Proved: l.proved}
		for k, n := range l.named {
			lot := l.shelf.lots[k]
			s.Takes = append(s.Takes, Take{Lot: lot, Packs: n, Promised: min(n, w.keptOf(l, lot))})
			p.Left[lot] -= n
		}
		slices.SortFunc(s.Takes, func(a, b Take) int {
			return cmp.Or(cmp.Compare(w.Lots[a.Lot].BestBefore, w.Lots[b.Lot].BestBefore), cmp.Compare(a.Lot, b.Lot))
		})
		p.Lines = append(p.Lines, s)
		p.Proved = p.Proved && l.proved
	}
	w.passed(&p)
	w.numbers(&p)
	p.Unsold = unsold(w.Stock, p.Left)
	return p
}

func (w *work) keptOf(l *line, lot int) int {
	n := 0
	for i, p := range w.Promises {
		if p.Lot == lot && w.of[p.Order][p.Line] == l {
			n += w.kept[i]
		}
	}
	return n
}

// passed says which older lots a line was not given, and who gets their packs.
func (w *work) passed(p *Plan) {
	for i := range p.Lines {
		s := &p.Lines[i]
		if len(s.Takes) == 0 {
			continue
		}
		l := w.of[s.Order][s.Line]
		newest := w.Lots[s.Takes[len(s.Takes)-1].Lot].BestBefore
		older := func(lot int) bool {
			at := w.Lots[lot]
			return at.Product == l.product && !at.Held && at.BestBefore >= l.least && at.BestBefore < newest
		}
		for _, other := range p.Lines[i+1:] {
			for _, t := range other.Takes {
				if older(t.Lot) && other.Order != s.Order && w.of[other.Order][other.Line].due > l.due {
					s.Passed = append(s.Passed, Passed{t.Lot, other.Order, t.Packs})
				}
			}
		}
		for lot, n := range p.Left {
			if n > 0 && older(lot) {
				s.Passed = append(s.Passed, Passed{lot, -1, n})
			}
		}
	}
}

// Reserved is, of each lot, the packs that go to orders due after day: they lie there, and are not free.
func (p Plan) Reserved(s Stock, day int) []int {
	packs := make([]int, len(s.Lots))
	for _, l := range p.Lines {
		if s.Orders[l.Order].Due > day {
			for _, t := range l.Takes {
				packs[t.Lot] += t.Packs
			}
		}
	}
	return packs
}

// unsold looks at what is left, the oldest first, and at what sells of it by its day.
func unsold(s Stock, left []int) []Unsold {
	var lots []int
	for i, n := range left {
		if n > 0 {
			lots = append(lots, i)
		}
	}
	slices.SortStableFunc(lots, func(a, b int) int { return cmp.Compare(s.Lots[a].BestBefore, s.Lots[b].BestBefore) })
	sold := map[int]int{}
	var all []Unsold
	for _, i := range lots {
		l := s.Lots[i]
		days, packs := l.BestBefore-s.Today, left[i]
		if !l.Held && l.Product < len(s.Sells) && days >= 0 {
			// whole weeks and days apart, so that the product stays in range
			byThen := (days+1)/7*min(s.Sells[l.Product], limit/(days+1)) + (days+1)%7*s.Sells[l.Product]/7
			n := min(packs, max(0, byThen-sold[l.Product]))
			sold[l.Product] += n
			packs -= n
		}
		if packs > 0 && (s.WarnTo == 0 || l.BestBefore <= s.WarnTo) {
			all = append(all, Unsold{Lot: i, Packs: packs, Days: days, Held: l.Held})
		}
	}
	return all
}

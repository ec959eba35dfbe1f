package orders

import (
	"cmp"
	"maps"
	"slices"

	"kettlefrost/internal/allocation"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// tell puts the engine's plan into the words of orders and lots.
func (w *allotting) tell() {
	at := map[int]int{} // of each order of the engine, which of the allotment
	for _, l := range w.a.plan.Lines {
		i, there := at[l.Order]
		if !there {
			i = len(w.a.Orders)
			at[l.Order] = i
			o := w.orders[w.of[l.Order]]
			w.a.Orders = append(w.a.Orders, Served{Order: o, Gets: make([]Got, len(o.Lines))})
		}
		v := &w.a.Orders[i]
		g := Got{Pack: v.Lines[l.Line].Pack, Wanted: int64(l.Wanted), Packs: int64(l.Packs)}
		for _, t := range l.Takes {
			g.Pieces = append(g.Pieces, w.pieces(v.Order, t)...)
		}
		slices.SortStableFunc(g.Pieces, Piece.compare)
		for _, x := range l.Short {
			g.Short = append(g.Short, w.short(v.Order, g, x))
		}
		v.Gets[l.Line] = g
	}
	for i, left := range w.a.plan.Left[:len(w.lots)] {
		if l := w.lots[i]; lastDay(l.Lot) >= number(w.a.Today) {
			w.a.Free[l.What] += int64(left)
		}
	}
}

// pieces are the packs of one lot that a line gets, by place.
func (w *allotting) pieces(o Order, t allocation.Take) []Piece {
	l := w.lots[t.Lot]
	n := numbersOf(t.Numbers)
	var aside record.Numbers
	for _, p := range o.Aside {
		if p.Lot == l.ID {
			aside = p.Numbers
		}
	}
	var all []Piece
	for _, place := range slices.Sorted(maps.Keys(l.Here)) {
		here := l.Here[place].Numbers.Intersect(n)
		for _, x := range []Piece{{place, w.parcel(l.Lot, here.Intersect(aside)), true}, {place, w.parcel(l.Lot, here.Minus(aside)), false}} {
			if !x.Numbers.Empty() {
				all = append(all, x)
			}
		}
	}
	return all
}

func (w *allotting) parcel(l *lots.Lot, n record.Numbers) Parcel {
	return Parcel{Lot: l.ID, Pack: l.What, BestBefore: l.Last(), Numbers: n}
}

// compare puts pieces in the order in which they are fetched: by place, then lot, then number.
func (p Piece) compare(q Piece) int {
	return cmp.Or(ComparePlaces(p.Place, q.Place), natural(string(p.Lot), string(q.Lot)), cmp.Compare(p.first(), q.first()))
}

func (p Piece) first() int64 {
	for r := range p.Numbers.Ranges() {
		return r.First
	}
	return 0
}

package allocation

import "slices"

// takePromises says how much of each promise can stand by itself, and what each line was promised.
func (w *work) takePromises() {
	left := make([]int, len(w.Lots))
	for i, l := range w.Lots {
		left[i] = l.packs()
	}
	for _, i := range w.promises() {
		p := w.Promises[i]
		l := w.of[p.Order][p.Line]
		n := p.packs()
		if w.off[p.Order] {
			w.move(i, n, OrderOff)
			continue
		}
		wanted := min(n, l.wanted-l.promised)
		l.promised += wanted
		w.move(i, n-wanted, OrderLess)
		lot := w.Lots[p.Lot]
		switch {
		case lot.Held:
			w.move(i, wanted, LotHeld)
		case lot.BestBefore < l.least:
			w.move(i, wanted, LotTooOld)
		default:
			w.valid[i] = min(wanted, left[p.Lot])
			left[p.Lot] -= w.valid[i]
			w.move(i, wanted-w.valid[i], LotGone)
		}
	}
}

// promises are the promises in the order that their lines are served.
func (w *work) promises() []int {
	rank := map[*line]int{}
	for i, l := range w.lines {
		rank[l] = i
	}
	all := make([]int, len(w.Promises))
	for i := range all {
		all[i] = i
	}
	slices.SortStableFunc(all, func(a, b int) int { return rank[w.promisee(a)] - rank[w.promisee(b)] })
	return all
}

func (w *work) promisee(promise int) *line {
	p := w.Promises[promise]
	return w.of[p.Order][p.Line]
}

func (p Promise) packs() int {
	if len(p.Numbers) > 0 {
		return count(p.Numbers)
	}
	return p.Packs
}

// keepPromises names the promised lots, as far as they can stand.
func (w *work) keepPromises() {
	for _, i := range w.promises() {
		p := w.Promises[i]
		l := w.of[p.Order][p.Line]
		k := slices.Index(l.shelf.lots, p.Lot)
		if k < 0 || w.valid[i] == 0 {
			continue
		}
		if l.mostLots > 0 && l.named[k] == 0 && len(l.named) == l.mostLots {
			w.move(i, w.valid[i], LotsCapped)
			w.valid[i] = 0
			continue
		}
		if w.Keep == KeepLots {
			l.shelf.grant(l, w.valid[i])
			l.shelf.name(l, k, w.valid[i])
			w.kept[i] = w.valid[i]
			continue
		}
		w.kept[i] = l.shelf.keep(l, k, min(w.valid[i], l.unnamed()))
	}
}

// keep names up to n packs of the lot at place k for l, as many as leave everybody what they were granted.
func (sh *shelf) keep(l *line, k, n int) int {
	n = min(n, sh.avail[k], sh.nameable(l, sh.day[k]))
	if n <= 0 {
		return 0
	}
	if !sh.fewLots() {
		sh.name(l, k, n)
		return n
	}
	if sh.fits(l, k, n) {
		return n
	}
	return 0
}

func (w *work) move(promise, packs int, why MoveWhy) {
	if packs > 0 {
		w.moves = append(w.moves, Move{promise, packs, why})
	}
}

// countMoves adds the promised packs that were moved for the good of others.
func (w *work) countMoves() {
	for i := range w.Promises {
		w.move(i, w.valid[i]-w.kept[i], ServesOther)
	}
	slices.SortStableFunc(w.moves, func(a, b Move) int { return a.Promise - b.Promise })
}

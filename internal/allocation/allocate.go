package allocation

import (
	"cmp"
	"slices"
)

// Allocate says who gets what.
//
//   - Lines are served in the order of their due day and their coming in. No line can get more unless an earlier one gets less, and
//     without Order.Whole and Order.MostLots no other plan serves more packs in all.
//   - On every due day in turn the oldest packs leave that may, as far as nobody goes short for it. Who of those that are due on the
//     same day gets which packs is free, and chosen so that few lots are opened for each line.
//   - Lines of customers that want few lots choose theirs before the others, the oldest that will do.
//   - Promises come first, as Stock.Keep has it.
//
// Errors are *StockError.
func Allocate(s Stock) (Plan, error) {
	if err := checkStock(s); err != nil {
		return Plan{}, err
	}
	off := map[int]bool{} // orders whose promises cannot stand, because they cannot be filled whole
	for {
		w := newWork(s, off)
		if again := w.serve(); again >= 0 {
			off[again] = true
			continue
		}
		w.nameLots()
		return w.plan(), nil
	}
}

// work is an allocation on its way.
type work struct {
	Stock
	off     map[int]bool
	lines   []*line // in the order they are served
	of      [][]*line
	shelves []*shelf
	valid   []int // of each promise, packs that can stand if they are not moved
	kept    []int
	moves   []Move
}

func newWork(s Stock, off map[int]bool) *work {
	w := &work{Stock: s, off: off, of: make([][]*line, len(s.Orders)), valid: make([]int, len(s.Promises)), kept: make([]int, len(s.Promises))}
	for i, o := range s.Orders {
		for k, l := range o.Lines {
			due := max(o.Due, s.Today)
			w.of[i] = append(w.of[i], &line{order: i, line: k, product: l.Product, wanted: l.Packs, due: due, least: due + o.LeastLife, mostLots: o.MostLots,
				named: map[int]int{}, proved: true})
		}
		w.lines = append(w.lines, w.of[i]...)
	}
	slices.SortStableFunc(w.lines, func(a, b *line) int { return cmp.Compare(a.due, b.due) })
	w.shelves = shelves(s, w.lines)
	return w
}

// serve says how much each line gets. It returns an order that has promises and cannot be filled whole, or -1.
func (w *work) serve() int {
	w.takePromises()
	if w.Keep == KeepLots {
		w.keepPromises()
	}
	for _, l := range w.lines {
		l.shelf.more(l, l.promised-l.got)
	}
	for i := 0; i < len(w.lines); {
		order := w.of[w.lines[i].order]
		if !w.serveOrder(order) && w.hasPromise(order) {
			return order[0].order
		}
		i += len(order)
	}
	if w.Keep == KeepCounts {
		w.keepPromises()
	}
	w.countMoves()
	return -1
}

func (w *work) hasPromise(order []*line) bool {
	return slices.ContainsFunc(order, func(l *line) bool { return l.promised > 0 })
}

// serveOrder gives the lines of an order all they can get; nothing, if it is to be whole and cannot be.
func (w *work) serveOrder(order []*line) bool {
	before := make([]int, len(order))
	short := false
	for i, l := range order {
		before[i] = l.got
		l.shelf.more(l, l.wanted-l.got)
		short = short || l.got < l.wanted
	}
	if !short || !w.Orders[order[0].order].Whole {
		return true
	}
	for i, l := range slices.Backward(order) {
		l.could = l.got
		l.shelf.less(l, l.got-before[i])
	}
	return false
}

// more grants l up to n packs.
func (sh *shelf) more(l *line, n int) {
	n = min(n, sh.room(l))
	if n <= 0 {
		return
	}
	if sh.fewLots() || l.mostLots > 0 {
		n, l.proved = sh.grow(l, n)
		sh.proved = sh.proved && l.proved
	}
	sh.grant(l, n)
}

// less takes n packs back from l. What the search has found for the others still stands.
func (sh *shelf) less(l *line, n int) {
	sh.grant(l, -n)
	for k := range sh.found[l] {
		back := min(n, sh.found[l][k])
		sh.found[l][k] -= back
		n -= back
	}
}

// fewLots is whether a line with packs to be named wants few lots.
func (sh *shelf) fewLots() bool {
	return slices.ContainsFunc(sh.lines, func(l *line) bool { return l.mostLots > 0 && l.got > 0 && l.unnamed() > 0 })
}

// nameLots gives every line its lots.
func (w *work) nameLots() {
	for _, sh := range w.shelves {
		for _, l := range sh.lines {
			if l.mostLots > 0 && l.unnamed() > 0 {
				sh.choose(l)
			}
		}
		sh.oldestFirst()
	}
}

package allocation

// shorts says why packs are missing, line after line; a pack that lies there explains one missing pack only.
func (w *work) shorts() map[*line][]Short {
	left := make([]int, len(w.Lots))
	for i, l := range w.Lots {
		left[i] = l.packs()
	}
	for _, l := range w.lines {
		for k, n := range l.named {
			left[l.shelf.lots[k]] -= n
		}
	}
	all := map[*line][]Short{}
	for _, l := range w.lines {
		missing := l.wanted - l.got
		add := func(why Why, n int) {
			if n = min(n, missing); n > 0 {
				all[l] = append(all[l], Short{why, n})
				missing -= n
			}
		}
		free := func(lot Lot) bool { return !lot.Held && lot.BestBefore >= l.least }
		add(NotWhole, l.could)
		w.lying(l, left, l.could, free) // they explain these; later orders may have them
		add(TooManyLots, w.lying(l, left, missing, free))
		add(OnHold, w.lying(l, left, missing, func(lot Lot) bool { return lot.Held && lot.BestBefore >= l.least }))
		add(TooShort, w.lying(l, left, missing, func(lot Lot) bool { return !lot.Held && lot.BestBefore < l.least }))
		add(NoneLeft, missing)
	}
	return all
}

// lying takes up to n packs of such lots out of left, and says how many.
func (w *work) lying(l *line, left []int, n int, such func(Lot) bool) int {
	found := 0
	for i, lot := range w.Lots {
		if lot.Product == l.product && such(lot) {
			take := min(left[i], n-found)
			left[i] -= take
			found += take
		}
	}
	return found
}

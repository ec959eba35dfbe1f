package allocation

import "slices"

func count(ranges []Range) int {
	n := 0
	for _, r := range ranges {
		n += r.Last - r.First + 1
	}
	return n
}

// first splits off the n lowest numbers.
func first(ranges []Range, n int) (low, rest []Range) {
	for i, r := range ranges {
		size := r.Last - r.First + 1
		if n < size {
			if n > 0 {
				low = append(low, Range{r.First, r.First + n - 1})
			}
			return low, append([]Range{{r.First + n, r.Last}}, ranges[i+1:]...)
		}
		low = append(low, r)
		n -= size
	}
	return low, nil
}

// common is what both have, and what a has alone.
func common(a, b []Range) (both, rest []Range) {
	for _, r := range a {
		for _, o := range b {
			if o.Last < r.First || o.First > r.Last {
				continue
			}
			if o.First > r.First {
				rest = append(rest, Range{r.First, o.First - 1})
			}
			both = append(both, Range{max(r.First, o.First), min(r.Last, o.Last)})
			r.First = o.Last + 1
		}
		if r.First <= r.Last {
			rest = append(rest, r)
		}
	}
	return both, rest
}

// joined sorts disjoint ranges and closes up those that touch.
func joined(ranges []Range) []Range {
	ranges = slices.Clone(ranges)
	slices.SortFunc(ranges, func(a, b Range) int { return a.First - b.First })
	var all []Range
	for _, r := range ranges {
		if n := len(all); n > 0 && all[n-1].Last+1 == r.First {
			all[n-1].Last = r.Last
		} else {
			all = append(all, r)
		}
	}
	return all
}

// numbers gives out pack numbers where they are known: promised ones first, then to each line in turn the lowest.
func (w *work) numbers(p *Plan) {
	free := make([][]Range, len(w.Lots))
	for i, l := range w.Lots {
		free[i] = l.Free
	}
	for i := range p.Lines {
		for k := range p.Lines[i].Takes {
			t := &p.Lines[i].Takes[k]
			for j, pr := range w.Promises {
				if pr.Order != p.Lines[i].Order || pr.Line != p.Lines[i].Line || pr.Lot != t.Lot {
					continue
				}
				told, _ := common(free[t.Lot], pr.Numbers)
				told, _ = first(told, min(w.kept[j], t.Packs-count(t.Numbers)))
				_, free[t.Lot] = common(free[t.Lot], told)
				t.Numbers = append(t.Numbers, told...)
			}
		}
	}
	for i := range p.Lines {
		for k := range p.Lines[i].Takes {
			t := &p.Lines[i].Takes[k]
			if len(w.Lots[t.Lot].Free) == 0 {
				continue
			}
			var low []Range
			low, free[t.Lot] = first(free[t.Lot], t.Packs-count(t.Numbers))
			t.Numbers = joined(append(t.Numbers, low...))
		}
	}
}

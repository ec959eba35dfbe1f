package timetable

import "slices"

// maxTied is the largest block that is gladly placed as a whole.
const maxTied = 24

// Some lags tie half a day together though they leave much room ("all done within 12 hours of the first step"). A block of
// hundreds of tasks is slow to place and seldom placed well. So there is a second form of such a problem, in which the widest
// greatest gaps are loose: they do not make blocks, and only limit a task once the other is placed.

// looseLags picks the lags to loosen, widest gap first, until no block is larger than maxTied; nil when none is.
func (m *model) looseLags(lags int) []bool {
	var wide []arc
	for b, members := range m.members {
		if len(members) <= maxTied {
			continue
		}
		for _, i := range members {
			for _, a := range m.out[i] {
				if a.min < 0 && m.block[a.task] == b {
					wide = append(wide, a)
				}
			}
		}
	}
	slices.SortStableFunc(wide, func(a, b arc) int { return a.min - b.min })
	loose := make([]bool, lags)
	for done := 0; done < len(wide); {
		until := min(len(wide), done+1+done/4) // a few more each time: often one is enough
		for _, a := range wide[done:until] {
			loose[a.lag] = true
		}
		done = until
		largest := 0
		for _, members := range m.loosened(loose).members {
			largest = max(largest, len(members))
		}
		if largest <= maxTied || done == len(wide) {
			return loose
		}
	}
	return nil
}

// loosened is the model with some lags loose. Between tasks that other lags tie into one block nothing is loose.
func (m *model) loosened(loose []bool) *model {
	w := *m
	w.out, w.in = flagged(m.out, func(a arc, _ int) bool { return loose[a.lag] }), nil
	w.block, w.members = blocks(w.out)
	apart := func(a arc, i int) bool { return loose[a.lag] && w.block[a.task] != w.block[i] }
	w.out, w.in = flagged(m.out, apart), flagged(m.in, apart)
	w.waits = w.countWaits()
	return &w
}

func flagged(lists [][]arc, loose func(a arc, i int) bool) [][]arc {
	copied := make([][]arc, len(lists))
	for i, list := range lists {
		copied[i] = slices.Clone(list)
		for k, a := range list {
			copied[i][k].loose = loose(a, i)
		}
	}
	return copied
}

// latest is the last start of task i that its window and the loose lags to placed tasks leave.
func (d *decoder) latest(i int) int {
	last := d.m.hi[i]
	for _, a := range d.m.out[i] {
		if a.loose && d.placed[a.task] {
			last = min(last, d.start[a.task]-a.min)
		}
	}
	return last
}

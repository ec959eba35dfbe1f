package timetable

import "slices"

// Blocks: tasks that lags tie both ways ("cool within 30 minutes of the blend"). A list that starts each as early as it can
// paints itself into a corner, so a block is placed as a whole: its tasks one by one inside windows that follow from those
// placed already. When a task finds no room in its window, the placed task that closed the window is moved later by what is
// missing and everything placed from it on is placed again (unscheduling: Franck, Neumann and Schwindt 2001).

// How many moves a block gets before it counts as missed: fewer for a large one, in which each move places much again.
const (
	minMoves = 30
	maxMoves = 200
	moveWork = 6000
)

// placeTied puts a block on the profiles and returns a task that missed its window, or -1.
func (d *decoder) placeTied(b int, keys []int) (missed int) {
	order := d.inOrder(b, keys)
	d.window(b)
	for pos, moves, most := 0, 0, max(minMoves, min(maxMoves, moveWork/len(order))); pos < len(order); {
		i := order[pos]
		t := d.lo[i]
		if t <= d.hi[i] {
			t = d.fit(i, t)
		}
		if t <= d.hi[i] && d.put(i, t) {
			d.pin(i, b)
			pos++
			continue
		}
		by := d.hiBy[i]
		if moves++; moves > most {
			return i
		}
		if t == never && d.letFirst(order, pos) {
			continue
		}
		if t <= d.hi[i] || t == never || by < 0 {
			return i
		}
		d.est[by] = d.start[by] + t - d.hi[i]
		for first := slices.Index(order, by); pos > first; {
			pos--
			d.lift(order[pos])
		}
		d.window(b)
	}
	return -1
}

// letFirst brings a task that empties what is held to place pos of the order, when what it passes need not come before it.
func (d *decoder) letFirst(order []int, pos int) bool {
	for k := pos + 1; k < len(order); k++ {
		j := order[k]
		if !slices.ContainsFunc(d.m.closes[j], func(h hold) bool { return d.placed[h.a] }) || d.needsAny(j, order[pos:k]) {
			continue
		}
		copy(order[pos+1:k+1], order[pos:k])
		order[pos] = j
		return true
	}
	return false
}

// needsAny tells that task j must start after one of the given tasks.
func (d *decoder) needsAny(j int, tasks []int) bool {
	return slices.ContainsFunc(d.m.in[j], func(a arc) bool { return a.min > 0 && slices.Contains(tasks, a.task) })
}

// inOrder lists the block so that a task comes after those it must start later than, smaller keys first.
func (d *decoder) inOrder(b int, keys []int) []int {
	members := d.m.members[b]
	for _, i := range members {
		d.indeg[i] = 0
	}
	for _, i := range members {
		for _, a := range d.m.out[i] {
			if a.min > 0 && d.m.block[a.task] == b {
				d.indeg[a.task]++
			}
		}
	}
	d.order = d.order[:0]
	var next readyList
	for _, i := range members {
		if d.indeg[i] == 0 {
			next.push(readyBlock{key: keys[i], block: i})
		}
	}
	for len(next) > 0 {
		i := next.pop().block
		d.order = append(d.order, i)
		for _, a := range d.m.out[i] {
			if a.min > 0 && d.m.block[a.task] == b {
				if d.indeg[a.task]--; d.indeg[a.task] == 0 {
					next.push(readyBlock{key: keys[a.task], block: a.task})
				}
			}
		}
	}
	return d.order
}

// window computes the windows of all tasks of the block from the floors and from those placed.
func (d *decoder) window(b int) {
	d.pending = d.pending[:0]
	for _, i := range d.m.members[b] {
		d.lo[i], d.hi[i], d.hiBy[i] = d.est[i], d.latest(i), -1
		if d.placed[i] {
			d.lo[i], d.hi[i], d.hiBy[i] = d.start[i], d.start[i], i
		}
		d.pending = append(d.pending, i)
	}
	d.spread(b)
}

// pin narrows the windows of the block after task i has been placed.
func (d *decoder) pin(i, b int) {
	d.lo[i], d.hi[i], d.hiBy[i] = d.start[i], d.start[i], i
	d.pending = append(d.pending[:0], i)
	d.spread(b)
}

// spread carries changed windows along the lags inside the block. It ends because no circle of lags is positive.
func (d *decoder) spread(b int) {
	for k := 0; k < len(d.pending); k++ {
		i := d.pending[k]
		for _, a := range d.m.out[i] {
			if j := a.task; d.m.block[j] == b && !d.placed[j] && d.lo[i]+a.min > d.lo[j] {
				d.lo[j] = d.lo[i] + a.min
				d.pending = append(d.pending, j)
			}
		}
		for _, a := range d.m.in[i] {
			if j := a.task; d.m.block[j] == b && !d.placed[j] && d.hi[i]-a.min < d.hi[j] {
				d.hi[j], d.hiBy[j] = d.hi[i]-a.min, d.hiBy[i]
				d.pending = append(d.pending, j)
			}
		}
	}
}

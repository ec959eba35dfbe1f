package timetable

// decoder builds schedules of one model from priorities. It is scratch memory: one goroutine at a time.
type decoder struct {
	m       *model
	free    []profile
	start   []int // of placed tasks
	est     []int // earliest start that placed tasks and the floor leave
	lo, hi  []int // window inside the block that is being placed
	hiBy    []int // the placed task that made hi, or -1
	placed  []bool
	waits   []int // lags from blocks not yet placed, per block
	ready   readyList
	stays   [][]stay     // on each resource with changeovers: what placed tasks hold
	open    int          // holds that have begun and whose end is not placed
	closed  bool         // one has ended since the deferred blocks were looked at
	waiting []readyBlock // blocks that find no room until a hold ends
	order   []int        // of the block that is being placed
	indeg   []int
	pending []int
}

func newDecoder(m *model) *decoder {
	n := len(m.dur)
	return &decoder{m: m, free: make([]profile, len(m.caps)), start: make([]int, n), est: make([]int, n), lo: make([]int, n),
		stays: make([][]stay, len(m.caps)), hi: make([]int, n), hiBy: make([]int, n), placed: make([]bool, n), waits: make([]int, len(m.waits)), indeg: make([]int, n)}
}

// run builds one schedule: blocks in the order of their smallest key (serial), or always the one that can begin first and keys
// only between equals (parallel: no unit idles while something could use it). No task starts before its floor. It returns the
// task that missed its window, or -1; then the starts are in d.start.
//
// Serial and parallel schedule generation are those of Kelley 1963 and Kolisch 1996, over blocks instead of tasks.
func (d *decoder) run(keys, floor []int, parallel bool) (missed int) {
	for r := range d.free {
		d.free[r].set(d.m.caps[r])
		d.stays[r] = d.stays[r][:0]
	}
	d.open, d.closed, d.waiting = 0, false, d.waiting[:0]
	copy(d.est, floor)
	copy(d.waits, d.m.waits)
	clear(d.placed)
	d.ready = d.ready[:0]
	for b, n := range d.waits {
		if n == 0 {
			d.ready.push(d.entry(b, keys, parallel))
		}
	}
	for len(d.ready) > 0 {
		e := d.ready.pop()
		if parallel { // other blocks may have taken its place since
			if at := d.firstFit(e.block); at > e.at {
				e.at = at
				d.ready.push(e)
				continue
			}
		}
		if missed := d.place(e.block, keys); missed >= 0 {
			if d.open == 0 {
				return missed
			}
			d.clear(e.block)
			d.closed = false // whatever ended is held again
			d.waiting = append(d.waiting, e)
			continue
		}
		d.release(e.block, keys, parallel)
		d.retry(parallel)
	}
	if len(d.waiting) > 0 {
		return d.m.members[d.waiting[0].block][0]
	}
	return -1
}

// release lets go the blocks that waited for block b alone.
func (d *decoder) release(b int, keys []int, parallel bool) {
	for _, i := range d.m.members[b] {
		for _, a := range d.m.out[i] {
			c := d.m.block[a.task]
			if c == b {
				continue
			}
			d.est[a.task] = max(d.est[a.task], d.start[i]+a.min)
			if a.loose {
				continue
			}
			if d.waits[c]--; d.waits[c] == 0 {
				d.ready.push(d.entry(c, keys, parallel))
			}
		}
	}
}

// retry makes blocks ready again that found no room, once a hold has ended.
func (d *decoder) retry(parallel bool) {
	if !d.closed {
		return
	}
	d.closed = false
	for _, e := range d.waiting {
		if parallel {
			e.at = d.firstFit(e.block)
		}
		d.ready.push(e)
	}
	d.waiting = d.waiting[:0]
}

// clear takes off what is placed of a block.
func (d *decoder) clear(b int) {
	for _, i := range d.m.members[b] {
		if d.placed[i] {
			d.lift(i)
		}
	}
}

func (d *decoder) entry(b int, keys []int, parallel bool) readyBlock {
	e := readyBlock{block: b, key: keys[d.m.members[b][0]]}
	for _, i := range d.m.members[b] {
		e.key = min(e.key, keys[i])
	}
	if parallel {
		e.at = d.firstFit(b)
	}
	return e
}

// firstFit is when the member of the block that may start first finds room.
func (d *decoder) firstFit(b int) int {
	lead := d.m.members[b][0]
	for _, i := range d.m.members[b] {
		if d.est[i] < d.est[lead] {
			lead = i
		}
	}
	return d.fit(lead, d.est[lead])
}

// place puts a whole block on the profiles and returns a task that missed its window, or -1.
func (d *decoder) place(b int, keys []int) (missed int) {
	members := d.m.members[b]
	if len(members) > 1 {
		return d.placeTied(b, keys)
	}
	i := members[0]
	t := d.fit(i, d.est[i])
	if t > d.latest(i) || !d.put(i, t) {
		return i
	}
	return -1
}

// put places task i at minute t. It refuses, and leaves everything as it was, where what is held and what is used of one resource by
// the task itself add up to more than there is.
func (d *decoder) put(i, t int) bool {
	d.start[i], d.placed[i] = t, true
	for _, s := range d.m.segs[i] {
		d.free[s.res].take(t+s.from, t+s.to, s.amount)
		d.note(s.res, stay{i, t + s.from, t + s.to})
	}
	return d.holds(i)
}

func (d *decoder) lift(i int) {
	d.dropHolds(i)
	d.placed[i] = false
	for _, s := range d.m.segs[i] {
		d.free[s.res].take(d.start[i]+s.from, d.start[i]+s.to, -s.amount)
		d.forget(s.res, stay{i, d.start[i] + s.from, d.start[i] + s.to})
	}
}

// end is when the last task of the schedule ends.
func (d *decoder) end() int {
	end := 0
	for i, s := range d.start {
		end = max(end, s+d.m.dur[i])
	}
	return end
}

// readyBlock is a block all of whose predecessors are placed.
type readyBlock struct{ at, key, block int }

func (a readyBlock) before(b readyBlock) bool {
	if a.at != b.at {
		return a.at < b.at
	}
	if a.key != b.key {
		return a.key < b.key
	}
	return a.block < b.block
}

// readyList is a binary heap, first block on top.
type readyList []readyBlock

func (h *readyList) push(e readyBlock) {
	*h = append(*h, e)
	l := *h
	for k := len(l) - 1; k > 0 && l[k].before(l[(k-1)/2]); k = (k - 1) / 2 {
		l[k], l[(k-1)/2] = l[(k-1)/2], l[k]
	}
}

func (h *readyList) pop() readyBlock {
	l := *h
	top := l[0]
	last := len(l) - 1
	l[0] = l[last]
	l = l[:last]
	for k := 0; ; {
		c := 2*k + 1
		if c >= last {
			break
		}
		if c+1 < last && l[c+1].before(l[c]) {
			c++
		}
		if !l[c].before(l[k]) {
			break
		}
		l[k], l[c] = l[c], l[k]
		k = c
	}
	*h = l
	return top
}

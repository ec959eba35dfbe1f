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
	order   []int // of the block that is being placed
	indeg   []int
	pending []int
}

func newDecoder(m *model) *decoder {
	n := len(m.dur)
	return &decoder{m: m, free: make([]profile, len(m.caps)), start: make([]int, n), est: make([]int, n), lo: make([]int, n),
		hi: make([]int, n), hiBy: make([]int, n), placed: make([]bool, n), waits: make([]int, len(m.waits)), indeg: make([]int, n)}
}

// run builds one schedule: blocks in the order of their smallest key (serial), or always the one that can begin first and keys
// only between equals (parallel: no unit idles while something could use it). No task starts before its floor. It returns the
// task that missed its window, or -1; then the starts are in d.start.
//
// Serial and parallel schedule generation are those of Kelley 1963 and Kolisch 1996, over blocks instead of tasks.
func (d *decoder) run(keys, floor []int, parallel bool) (missed int) {
	for r := range d.free {
		d.free[r].set(d.m.caps[r])
	}
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
			return missed
		}
		for _, i := range d.m.members[e.block] {
			for _, a := range d.m.out[i] {
				b := d.m.block[a.task]
				if b == e.block {
					continue
				}
				d.est[a.task] = max(d.est[a.task], d.start[i]+a.min)
				if a.loose {
					continue
				}
				if d.waits[b]--; d.waits[b] == 0 {
					d.ready.push(d.entry(b, keys, parallel))
				}
			}
		}
	}
	return -1
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
	return d.m.fit(d.free, lead, d.est[lead])
}

// place puts a whole block on the profiles and returns a task that missed its window, or -1.
func (d *decoder) place(b int, keys []int) (missed int) {
	members := d.m.members[b]
	if len(members) > 1 {
		return d.placeTied(b, keys)
	}
	i := members[0]
	t := d.m.fit(d.free, i, d.est[i])
	if t > d.latest(i) {
		return i
	}
	d.put(i, t)
	return -1
}

func (d *decoder) put(i, t int) {
	d.start[i], d.placed[i] = t, true
	for _, s := range d.m.segs[i] {
		d.free[s.res].take(t+s.from, t+s.to, s.amount)
	}
}

func (d *decoder) lift(i int) {
	d.placed[i] = false
	for _, s := range d.m.segs[i] {
		d.free[s.res].take(d.start[i]+s.from, d.start[i]+s.to, -s.amount)
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

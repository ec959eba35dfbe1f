package allocation

import (
	"cmp"
	"slices"
)

// dayWork shares out what leaves on one due day among its lines, so that few lots are opened for each line.
type dayWork struct {
	*shelf
	lines []*line
	wants []int
	quota []int // of each best-before day, packs that leave
	room  []int // of each best-before day j: quota from j on, less what those want that need j or later
	left  []int // of each lot
}

func newDay(sh *shelf, lines []*line, quota []int) *dayWork {
	d := &dayWork{shelf: sh, lines: slices.Clone(lines), quota: quota, room: slices.Clone(quota)}
	slices.SortStableFunc(d.lines, func(a, b *line) int { return cmp.Compare(b.unnamed(), a.unnamed()) })
	for _, l := range d.lines {
		d.wants = append(d.wants, l.unnamed())
		d.room[l.from] -= l.unnamed()
	}
	for j := len(d.room) - 2; j >= 0; j-- {
		d.room[j] += d.room[j+1]
	}
	return d
}

// pick is packs of one lot for one line.
type pick struct{ line, lot, packs int }

func (d *dayWork) name() {
	d.left = slices.Clone(d.avail)
	best := d.greedy()
	if cost := d.cost(best); cost > d.bound() && len(d.lines)*len(d.shelf.lots) <= 400 {
		t := tries{dayWork: d, best: best, cost: cost, steps: 5000}
		t.try(nil, 0)
		best = t.best
	}
	for _, p := range best {
		d.shelf.name(d.lines[p.line], p.lot, p.packs)
	}
}

// greedy lets the lines choose one after another, the biggest first.
func (d *dayWork) greedy() []pick {
	var all []pick
	for i := range d.lines {
		for d.wants[i] > 0 {
			options := d.options(i)
			best := slices.MinFunc(options, d.better)
			d.take(best, 1)
			all = append(all, best)
		}
	}
	for _, p := range all {
		d.take(p, -1)
	}
	return all
}

// better is below zero if a is rather taken than b: a lot already opened for the line, then what fills the line, then what empties the
// lot, then the most packs; of lots that fill the line the one with least left.
func (d *dayWork) better(a, b pick) int {
	score := func(p pick) [4]int {
		s := [4]int{d.opens(p), 1, 1, -p.packs}
		if p.packs == d.wants[p.line] {
			s[1] = 0
			s[3] = d.left[p.lot]
		}
		if p.packs == d.left[p.lot] {
			s[2] = 0
		}
		return s
	}
	x, y := score(a), score(b)
	return slices.Compare(x[:], y[:])
}

// opens is 1 if p opens a lot for its line, 0 if the line has packs of it anyway.
func (d *dayWork) opens(p pick) int {
	if d.lines[p.line].named[p.lot] > 0 {
		return 0
	}
	return 1
}

// options are the lots that line i can have, each with as many packs as it can.
func (d *dayWork) options(i int) []pick {
	l := d.lines[i]
	var all []pick
	room, day := limit, l.from
	for k, left := range d.left {
		if d.day[k] < l.from || left == 0 {
			continue
		}
		for ; day < d.day[k]; day++ {
			room = min(room, d.room[day+1])
		}
		if n := min(d.wants[i], left, d.quota[d.day[k]], room); n > 0 {
			all = append(all, pick{i, k, n})
		}
	}
	return all
}

// take takes p, or with sign -1 puts it back.
func (d *dayWork) take(p pick, sign int) {
	n := sign * p.packs
	d.wants[p.line] -= n
	d.left[p.lot] -= n
	d.quota[d.day[p.lot]] -= n
	for j := d.lines[p.line].from + 1; j <= d.day[p.lot]; j++ {
		d.room[j] -= n
	}
}

// cost is the number of lots opened.
func (d *dayWork) cost(picks []pick) int {
	n := 0
	for _, p := range picks {
		n += d.opens(p)
	}
	return n
}

// bound is a number of lots that no sharing out goes below: what each line needs were it alone.
func (d *dayWork) bound() int {
	n := 0
	for i := range d.lines {
		n += d.alone(i)
	}
	return n
}

func (d *dayWork) alone(i int) int {
	want := d.wants[i]
	var sizes []int
	for _, p := range d.options(i) {
		if d.opens(p) == 0 {
			want -= p.packs
		} else {
			sizes = append(sizes, p.packs)
		}
	}
	slices.Sort(sizes)
	n := 0
	for _, size := range slices.Backward(sizes) {
		if want <= 0 {
			break
		}
		want -= size
		n++
	}
	return n
}

// tries takes pick after pick in any order that may open fewer lots. In a best sharing out without needless ties some lot or line is
// always settled by one pick, so that trying the biggest picks only leaves it in reach.
type tries struct {
	*dayWork
	best  []pick
	cost  int
	steps int
}

func (t *tries) try(picks []pick, cost int) {
	if t.steps--; t.steps < 0 || cost+t.bound() >= t.cost {
		return
	}
	var options []pick
	for i, want := range t.wants {
		if want > 0 {
			options = append(options, t.options(i)...)
		}
	}
	if len(options) == 0 {
		t.best, t.cost = slices.Clone(picks), cost
		return
	}
	slices.SortStableFunc(options, t.better)
	for _, p := range options {
		more := t.opens(p)
		t.take(p, 1)
		t.try(append(picks, p), cost+more)
		t.take(p, -1)
	}
}

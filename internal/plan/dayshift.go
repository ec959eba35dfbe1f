package plan

import "slices"

// shift moves every minute of task i.
func (d *day) shift(i int, to func(minute int) int) {
	t := &d.tasks[i]
	t.length = to(t.length)
	for k := range t.hands {
		t.hands[k].from, t.hands[k].to = to(t.hands[k].from), to(t.hands[k].to)
	}
	t.hands = slices.DeleteFunc(t.hands, func(h piece) bool { return h.from >= h.to })
	for k := range t.segs {
		t.segs[k].from, t.segs[k].to = to(t.segs[k].from), to(t.segs[k].to)
	}
	moved := func(e *ending) {
		if e.task == i {
			e.minute = to(e.minute)
		}
	}
	for k := range d.links {
		l := &d.links[k]
		moved(&l.after)
		if l.task == i {
			l.minute = to(l.minute)
		}
	}
	for _, f := range d.filled {
		for k := range f.emptied {
			moved(&f.emptied[k])
		}
	}
	for k := range d.waits {
		w := &d.waits[k]
		moved(&w.after)
		if w.task == i {
			w.minute = to(w.minute)
		}
	}
	for _, list := range d.ends {
		for k := range list {
			moved(&list[k])
		}
	}
}

// copied is a day that can be changed without changing this one.
func (d day) copied() day {
	d.tasks = slices.Clone(d.tasks)
	for i := range d.tasks {
		d.tasks[i].hands, d.tasks[i].segs = slices.Clone(d.tasks[i].hands), slices.Clone(d.tasks[i].segs)
	}
	d.links, d.waits, d.filled = slices.Clone(d.links), slices.Clone(d.waits), slices.Clone(d.filled)
	for i := range d.filled {
		d.filled[i].emptied = slices.Clone(d.filled[i].emptied)
	}
	ends := map[cookedStep][]ending{}
	for key, list := range d.ends {
		ends[key] = slices.Clone(list)
	}
	d.ends = ends
	return d
}

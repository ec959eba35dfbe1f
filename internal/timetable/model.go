package timetable

import "slices"

// model is a problem in the form the engine works on. Uses of a task are laid together so that on each resource they no longer
// overlap; lags are lists by task; tasks that lags tie both ways form a block.
type model struct {
	horizon  int
	dur      []int
	rel, due []int // first and last start as given
	lo, hi   []int // first and last start as the root has tightened them
	segs     [][]seg
	out, in  [][]arc
	opens    [][]hold // by the task at whose start they are counted from
	closes   [][]hold // by the task that ends them
	family   []int
	change   [][][]int // changeovers by resource, nil
	changes  bool      // there are some
	caps     []profile
	peak     []int // greatest capacity up to the horizon
	block    []int // of each task
	members  [][]int
	waits    []int // per block: lags that come in from other blocks
}

// seg is a stretch of constant demand within a task.
type seg struct{ res, from, to, amount int }

// arc is one end of a lag.
type arc struct {
	task, min, lag int
	loose          bool // see looseLags
}

// hold keeps a resource from a minute of task a until a minute of task b. Time turned round, b is the owner that changeovers go by.
type hold struct{ res, amount, a, from, b, to, owner int }

// compile reads a problem without choices; what hangs on a way that is not taken is left out.
func compile(p Problem) *model {
	n := len(p.Tasks)
	m := &model{horizon: p.Horizon, dur: make([]int, n), rel: make([]int, n), due: make([]int, n), segs: make([][]seg, n),
		out: make([][]arc, n), in: make([][]arc, n), opens: make([][]hold, n), closes: make([][]hold, n), family: make([]int, n)}
	for i, t := range p.Tasks {
		m.dur[i], m.rel[i], m.due[i] = t.Duration, t.Earliest, p.Horizon-t.Duration
		if t.Latest >= 0 {
			m.due[i] = min(m.due[i], t.Latest)
		}
		m.segs[i], m.family[i] = segments(t.Uses), t.Family
	}
	m.lo, m.hi = m.rel, m.due
	for l, lag := range p.Lags {
		if lag.If == left {
			continue
		}
		m.out[lag.From] = append(m.out[lag.From], arc{task: lag.To, min: lag.Min, lag: l})
		m.in[lag.To] = append(m.in[lag.To], arc{task: lag.From, min: lag.Min, lag: l})
	}
	for _, h := range p.Holds {
		if h.Amount > 0 && h.If != left {
			m.tie(hold{h.Resource, h.Amount, h.From.Task, h.From.Minute, h.To.Task, h.To.Minute, h.From.Task})
			m.due[h.To.Task] = min(m.due[h.To.Task], p.Horizon-h.To.Minute)
		}
	}
	for _, r := range p.Resources {
		m.change = append(m.change, r.Changeover)
		m.changes = m.changes || r.Changeover != nil
		c := newProfile(r.Capacity)
		peak := 0
		for k := range c.at {
			if c.at[k] < max(p.Horizon, 1) {
				peak = max(peak, c.free[k])
			}
		}
		m.caps, m.peak = append(m.caps, c), append(m.peak, peak)
	}
	m.block, m.members = blocks(m.out)
	m.waits = m.countWaits()
	return m
}

func (m *model) tie(h hold) {
	m.opens[h.a], m.closes[h.b] = append(m.opens[h.a], h), append(m.closes[h.b], h)
}

// segments adds up overlapping uses.
func segments(uses []Use) []seg {
	var edges []int
	for _, u := range uses {
		if u.From < u.To && u.Amount > 0 {
			edges = append(edges, u.From, u.To)
		}
	}
	slices.Sort(edges)
	edges = slices.Compact(edges)
	var segs []seg
	for k := 0; k+1 < len(edges); k++ {
		for _, u := range uses {
			if u.Amount > 0 && u.From <= edges[k] && u.To >= edges[k+1] {
				segs = addTo(segs, seg{u.Resource, edges[k], edges[k+1], u.Amount})
			}
		}
	}
	return joined(segs)
}

func addTo(segs []seg, s seg) []seg {
	for k := range segs {
		if segs[k].res == s.res && segs[k].from == s.from {
			segs[k].amount += s.amount
			return segs
		}
	}
	return append(segs, s)
}

// joined puts together neighbours of the same demand, by resource and time.
func joined(segs []seg) []seg {
	slices.SortStableFunc(segs, func(a, b seg) int {
		if a.res != b.res {
			return a.res - b.res
		}
		return a.from - b.from
	})
	kept := segs[:0]
	for _, s := range segs {
		if k := len(kept) - 1; k >= 0 && kept[k].res == s.res && kept[k].to == s.from && kept[k].amount == s.amount {
			kept[k].to = s.to
			continue
		}
		kept = append(kept, s)
	}
	return kept
}

func (m *model) countWaits() []int {
	waits := make([]int, len(m.members))
	for i, arcs := range m.out {
		for _, a := range arcs {
			if !a.loose && m.block[a.task] != m.block[i] {
				waits[m.block[a.task]]++
			}
		}
	}
	return waits
}

// mirror is the same problem with time turned round at the horizon: a task that ran from s to s+d runs from horizon-s-d on.
func (m *model) mirror() *model {
	n := len(m.dur)
	w := &model{horizon: m.horizon, dur: m.dur, rel: make([]int, n), due: make([]int, n), segs: make([][]seg, n),
		out: make([][]arc, n), in: make([][]arc, n), opens: make([][]hold, n), closes: make([][]hold, n), family: m.family, changes: m.changes,
		peak: m.peak, block: m.block, members: m.members}
	for i, d := range m.dur {
		w.rel[i], w.due[i] = m.flip(i, m.due[i]), m.flip(i, m.rel[i])
		for _, s := range m.segs[i] {
			w.segs[i] = append(w.segs[i], seg{s.res, d - s.to, d - s.from, s.amount})
		}
		slices.SortStableFunc(w.segs[i], func(a, b seg) int { return a.from - b.from })
		for _, a := range m.in[i] {
			w.out[i] = append(w.out[i], arc{task: a.task, min: a.min + d - m.dur[a.task], lag: a.lag})
		}
		for _, a := range m.out[i] {
			w.in[i] = append(w.in[i], arc{task: a.task, min: a.min + m.dur[a.task] - d, lag: a.lag})
		}
	}
	for _, holds := range m.opens {
		for _, h := range holds {
			w.tie(hold{h.res, h.amount, h.b, m.dur[h.b] - h.to, h.a, m.dur[h.a] - h.from, h.owner})
		}
	}
	for _, c := range m.change {
		w.change = append(w.change, transposed(c))
	}
	w.lo, w.hi = w.rel, w.due
	for _, c := range m.caps {
		w.caps = append(w.caps, c.mirrored(m.horizon))
	}
	w.waits = w.countWaits()
	return w
}

func transposed(c [][]int) [][]int {
	var t [][]int
	for f := range c {
		row := make([]int, len(c))
		for g := range c {
			row[g] = c[g][f]
		}
		t = append(t, row)
	}
	return t
}

// flip is the start of task i in the mirrored problem.
func (m *model) flip(i, start int) int { return m.horizon - m.dur[i] - start }

// fit is the first start of task i from t on at which the given profiles hold all of it, or never.
func (m *model) fit(free []profile, i, t int) int {
	segs := m.segs[i]
	for k, clean := 0, 0; clean < len(segs); k = (k + 1) % len(segs) {
		s := segs[k]
		at := free[s.res].fit(t+s.from, s.to-s.from, s.amount)
		if at == never {
			return never
		}
		if at > t+s.from {
			t, clean = at-s.from, 0
		}
		clean++
	}
	return t
}

// blocks finds the strongly connected parts of the lag graph (Tarjan 1972, with an explicit stack).
func blocks(out [][]arc) (block []int, members [][]int) {
	n := len(out)
	block = make([]int, n)
	index, low, next := make([]int, n), make([]int, n), make([]int, n)
	var stack, path []int
	count := 0
	for root := range n {
		if index[root] > 0 {
			continue
		}
		path = append(path, root)
		for len(path) > 0 {
			v := path[len(path)-1]
			if index[v] == 0 {
				count++
				index[v], low[v], block[v] = count, count, -1
				stack = append(stack, v)
			}
			if next[v] < len(out[v]) {
				a := out[v][next[v]]
				next[v]++
				if w := a.task; a.loose {
					continue
				} else if index[w] == 0 {
					path = append(path, w)
				} else if block[w] < 0 {
					low[v] = min(low[v], index[w])
				}
				continue
			}
			path = path[:len(path)-1]
			if len(path) > 0 {
				u := path[len(path)-1]
				low[u] = min(low[u], low[v])
			}
			if low[v] == index[v] {
				k := slices.Index(stack, v)
				part := slices.Clone(stack[k:])
				slices.Sort(part)
				for _, w := range part {
					block[w] = len(members)
				}
				members = append(members, part)
				stack = stack[:k]
			}
		}
	}
	return block, members
}

package timetable

import "slices"

// boundSamples is how many thresholds the subset bounds try at each end; any subset gives a valid bound.
const boundSamples = 128

// job is one stretch of demand on one resource with what must come before and after it.
type job struct{ task, head, tail, work, amount int }

// bound is the best of: the longest chain (lags, calendars), and for each resource the energy and k-machine bounds.
func (r root) bound() (int, BoundWhy) {
	best, last := 0, -1
	for i, s := range r.fwd.lo {
		if end := s + r.fwd.dur[i]; end > best {
			best, last = end, i
		}
	}
	why := BoundWhy{}
	if last >= 0 {
		tasks, lags := chain(r.why, last)
		why = BoundWhy{Kind: LongestChain, Tasks: tasks, Lags: lags, Held: make([]int, len(tasks))}
		for k, i := range tasks {
			why.Held[k] = r.why[i].held
		}
	}
	for res := range r.fwd.caps {
		jobs := r.jobs(res)
		for _, one := range []func(int, []job) (int, BoundWhy){r.energyBound, r.machineBound} {
			if b, w := one(res, jobs); b > best {
				best, why = b, w
			}
		}
	}
	return best, why
}

// jobs of a resource, longest tail first.
func (r root) jobs(res int) []job {
	var jobs []job
	for i, segs := range r.fwd.segs {
		for _, s := range segs {
			if s.res == res {
				jobs = append(jobs, job{i, r.fwd.lo[i] + s.from, r.tail[i] - s.to, (s.to - s.from) * s.amount, s.amount})
			}
		}
		for _, h := range r.fwd.opens[i] {
			if least := r.fwd.apart(h.a, h.b) + h.to - h.from; h.res == res && least > 0 {
				jobs = append(jobs, job{i, r.fwd.lo[i] + h.from, max(0, r.tail[h.b]-h.to), least * h.amount, h.amount})
			}
		}
	}
	slices.SortStableFunc(jobs, func(a, b job) int { return b.tail - a.tail })
	return jobs
}

// apart is how long after the start of task a that of task b comes at least, by the lags between the two; hardly ever when there is none.
func (m *model) apart(a, b int) int {
	least := -m.horizon
	if a == b {
		least = 0
	}
	for _, c := range m.out[a] {
		if c.task == b {
			least = max(least, c.min)
		}
	}
	return least
}

// heads are the distinct heads, thinned to boundSamples.
func heads(jobs []job) []int {
	all := make([]int, len(jobs))
	for k, j := range jobs {
		all[k] = j.head
	}
	slices.Sort(all)
	all = slices.Compact(all)
	if len(all) <= boundSamples {
		return all
	}
	kept := make([]int, boundSamples)
	for k := range kept {
		kept[k] = all[k*len(all)/boundSamples]
	}
	return kept
}

// energyBound: of all jobs with a head of at least h and a tail of at least q, the work cannot begin before h, takes the whole
// capacity of the calendar for a while, and q must follow.
func (r root) energyBound(res int, jobs []job) (int, BoundWhy) {
	best, from, to, tail := 0, 0, 0, 0
	for _, h := range heads(jobs) {
		work := 0
		for _, j := range jobs {
			if j.head < h {
				continue
			}
			work += j.work
			if done := r.fwd.caps[res].done(h, work); done+j.tail > best {
				best, from, to, tail = done+j.tail, h, done, j.tail
			}
		}
	}
	return best, BoundWhy{Kind: BusyResource, Tasks: tasksOf(jobs, from, tail), Resource: res, From: from, To: to}
}

// machineBound (Carlier and Pinson): with c units, each unit begins after one of the c smallest heads and ends before one of
// the c smallest tails, so c*end >= c smallest heads + work + c smallest tails. A job that holds several units counts as so many
// jobs of one unit. The capacity is taken at its greatest, which is weaker than the truth and so still a bound.
func (r root) machineBound(res int, jobs []job) (int, BoundWhy) {
	units := r.fwd.peak[res]
	best, from, to, tail := 0, 0, 0, 0
	if units == 0 || units > 64 {
		return 0, BoundWhy{}
	}
	for _, h := range heads(jobs) {
		work, first, last := 0, make([]int, 0, units), make([]int, 0, units)
		for _, j := range jobs {
			if j.head < h {
				continue
			}
			work += j.work
			for range min(j.amount, units) {
				first = keepSmallest(first, j.head, units)
				last = keepSmallest(last, j.tail, units)
			}
			before, after := sum(first), sum(last)
			if b := (before + work + after + units - 1) / units; b > best {
				best, from, to, tail = b, h, b-after/units, j.tail
			}
		}
	}
	return best, BoundWhy{Kind: BusyResource, Tasks: tasksOf(jobs, from, tail), Resource: res, From: from, To: to}
}

// keepSmallest inserts v into a sorted list that holds at most size values.
func keepSmallest(list []int, v, size int) []int {
	if len(list) == size {
		if v >= list[size-1] {
			return list
		}
		list = list[:size-1]
	}
	k, _ := slices.BinarySearch(list, v)
	return slices.Insert(list, k, v)
}

func sum(list []int) int {
	s := 0
	for _, v := range list {
		s += v
	}
	return s
}

func tasksOf(jobs []job, head, tail int) []int {
	var tasks []int
	for _, j := range jobs {
		if j.head >= head && j.tail >= tail {
			tasks = append(tasks, j.task)
		}
	}
	slices.Sort(tasks)
	return slices.Compact(tasks)
}

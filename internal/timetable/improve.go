package timetable

import "slices"

const (
	urges      = 12 // times a missed task is moved forward in one list
	population = 24
)

// plan is one schedule of the population: its tasks in the order of their starts, and the ways it goes.
type plan struct {
	order, ways []int
	end         int
}

// build looks for good schedules until the bound is met or the budget of this turn is used.
func (s *search) build() {
	if !s.ready() {
		return
	}
	rules := s.variant.root.fwd.rules(s.variant.root.tail)
	if s.plans == nil {
		s.plans = s.byRules(rules)
	}
	for !s.over() {
		for (s.res.Start == nil || len(s.plans) < population) && !s.over() {
			if s.res.Start == nil || !s.take(s.strayed(s.res.Ways)) {
				s.take(s.strayed(s.variant.ways))
			}
			s.plans = append(s.plans, s.urged(s.shaken(rules[s.rng.IntN(len(rules))]), s.rng.IntN(2) == 0)...)
		}
		if len(s.plans) > 1 && !s.over() {
			s.breed()
		}
	}
}

// byRules builds a schedule for each rule, serial and parallel, and after the first also from the end.
func (s *search) byRules(rules [][]int) (plans []plan) {
	for _, rule := range rules {
		for _, parallel := range []bool{false, true} {
			if !s.over() {
				plans = append(plans, s.urged(ranks(rule), parallel)...)
			}
		}
	}
	if s.res.Start == nil || s.over() {
		return plans
	}
	r := s.variant.root
	head := make([]int, len(r.fwd.dur))
	for i := range head {
		head[i] = r.fwd.lo[i] + r.fwd.dur[i]
	}
	for _, rule := range r.back.rules(head) {
		for _, parallel := range []bool{false, true} {
			if s.over() {
				return plans
			}
			if start := s.backward(ranks(rule), s.res.End, parallel); start != nil {
				plans = append(plans, s.urged(ranks(start), false)...)
			}
		}
	}
	return plans
}

// urged builds a schedule and justifies it. When a task misses its window, it and all that leads to it go first next time
// (squeaky wheel: Joslin and Clements 1999). The result holds one plan or none.
func (s *search) urged(keys []int, parallel bool) []plan {
	for range urges {
		start, missed := s.forward(keys, parallel)
		if start != nil {
			return []plan{s.justified(start)}
		}
		if s.over() {
			break
		}
		s.urge(keys, missed)
	}
	return nil
}

// urge lowers the keys of a task, of its block and of everything before it below all others.
func (s *search) urge(keys []int, missed int) {
	m := s.variant.root.fwd
	first, last := slices.Min(keys), slices.Max(keys)
	seen := make([]bool, len(keys))
	todo := []int{missed}
	seen[missed] = true
	for len(todo) > 0 {
		i := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		keys[i] -= last - first + 1
		for _, a := range m.in[i] {
			if !seen[a.task] {
				seen[a.task] = true
				todo = append(todo, a.task)
			}
		}
	}
}

// justified moves everything as late and then as early as it goes, as long as that helps (forward-backward improvement: Li and
// Willis 1992; Valls, Ballestín and Quintanilla 2005).
func (s *search) justified(start []int) plan {
	m := s.root.fwd
	end := m.endOf(start)
	for !s.over() && end > s.res.Bound {
		finish := make([]int, len(start))
		for i := range start {
			finish[i] = -start[i] - m.dur[i]
		}
		late := s.backward(ranks(finish), end, false)
		if late == nil {
			break
		}
		early, _ := s.forward(ranks(late), false)
		if early == nil || m.endOf(early) >= end {
			break
		}
		start, end = early, m.endOf(early)
	}
	return plan{order: inOrderOf(start), ways: s.variant.ways, end: end}
}

func (m *model) endOf(start []int) int {
	end := 0
	for i, s := range start {
		end = max(end, s+m.dur[i])
	}
	return end
}

func inOrderOf(start []int) []int {
	order := make([]int, len(start))
	for i, k := range ranks(start) {
		order[k] = i
	}
	return order
}

// shaken is a rule with noise of up to a third of its range.
func (s *search) shaken(rule []int) []int {
	spread := (slices.Max(rule)-slices.Min(rule))/3 + 2
	keys := make([]int, len(rule))
	for i, k := range rule {
		keys[i] = 4*k + s.rng.IntN(4*spread)
	}
	return ranks(keys)
}

// mostStale is how many children in a row may be in vain before most of the population makes room for fresh plans.
const mostStale = 40 * population

// breed crosses schedules of the population (activity lists, two-point crossover: Hartmann 1998) and puts a child in place of the
// worst when it is no worse and not there yet. It ends with the budget, or with few plans left when nothing new comes of them.
func (s *search) breed() {
	slices.SortStableFunc(s.plans, func(a, b plan) int { return a.end - b.end })
	s.plans = s.plans[:min(len(s.plans), population)]
	for !s.over() {
		if s.stale++; s.stale > mostStale {
			s.plans, s.stale = s.plans[:min(len(s.plans), population/6)], 0
			return
		}
		a, b := s.parent(), s.parent()
		if !s.takeChild(a.ways, b.ways) {
			continue
		}
		keys := s.child(a.order, b.order)
		start, _ := s.forward(keys, s.rng.IntN(4) == 0)
		if start == nil {
			continue
		}
		s.adopt(s.justified(start))
	}
}

func (s *search) adopt(c plan) {
	worst := len(s.plans) - 1
	if c.end > s.plans[worst].end || slices.ContainsFunc(s.plans, func(p plan) bool {
		return p.end == c.end && slices.Equal(p.order, c.order) && slices.Equal(p.ways, c.ways)
	}) {
		return
	}
	if c.end < s.plans[worst].end {
		s.stale = 0
	}
	at, _ := slices.BinarySearchFunc(s.plans[:worst], c, func(a, b plan) int { return a.end - b.end })
	copy(s.plans[at+1:], s.plans[at:worst])
	s.plans[at] = c
}

// parent is the better of two plans drawn at random.
func (s *search) parent() plan {
	return s.plans[min(s.rng.IntN(len(s.plans)), s.rng.IntN(len(s.plans)))]
}

// child takes a stretch of the list from b and the rest from a, then swaps some neighbours. It returns keys.
func (s *search) child(a, b []int) []int {
	n := len(a)
	from, to := s.rng.IntN(n+1), s.rng.IntN(n+1)
	from, to = min(from, to), max(from, to)
	keys := make([]int, n)
	for i := range keys {
		keys[i] = -1
	}
	next := 0
	fill := func(list []int, until int) {
		for _, i := range list {
			if next >= until {
				return
			}
			if keys[i] < 0 {
				keys[i] = next
				next++
			}
		}
	}
	fill(a, from)
	fill(b, to)
	fill(a, n)
	for range 1 + n/30 {
		i, j := s.rng.IntN(n), s.rng.IntN(n)
		if d := keys[i] - keys[j]; d*d <= 16 { // near neighbours only
			keys[i], keys[j] = keys[j], keys[i]
		}
	}
	return keys
}

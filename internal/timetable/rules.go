package timetable

import (
	"math/bits"
	"slices"
)

// ruleTasks is up to how many tasks all successors are counted (memory grows with the square).
const ruleTasks = 4000

// rules are priority lists, smaller first: latest finish, least slack, most successors in all, greatest rank positional weight,
// greatest resource work, first start. Kolisch 1996 compares them.
func (m *model) rules(tail []int) [][]int {
	n := len(m.dur)
	finish, slack, weight, work := make([]int, n), make([]int, n), make([]int, n), make([]int, n)
	for i := range n {
		finish[i] = m.dur[i] - tail[i]
		slack[i] = -tail[i] - m.lo[i]
		weight[i] = -m.dur[i]
		for _, a := range m.out[i] {
			if a.min > 0 {
				weight[i] -= m.dur[a.task]
			}
		}
		for _, s := range m.segs[i] {
			work[i] -= 1000 * s.amount * (s.to - s.from) / max(1, m.peak[s.res])
		}
	}
	rules := [][]int{finish, slack, weight, work, slices.Clone(m.lo), slices.Clone(m.hi)}
	if n <= ruleTasks {
		rules = append(rules, m.successors())
	}
	return rules
}

// successors is minus the number of tasks that must start later, directly or not.
func (m *model) successors() []int {
	n := len(m.dur)
	words := (n + 63) / 64
	after := make([]uint64, n*words)
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return m.lo[b] - m.lo[a] })
	count := make([]int, n)
	for _, i := range order { // a later start always has a greater lo, so its set is complete
		set := after[i*words : (i+1)*words]
		for _, a := range m.out[i] {
			if a.min <= 0 {
				continue
			}
			set[a.task/64] |= 1 << (a.task % 64)
			for w, other := range after[a.task*words : (a.task+1)*words] {
				set[w] |= other
			}
		}
		for _, w := range set {
			count[i] -= bits.OnesCount64(w)
		}
	}
	return count
}

// ranks turns sort values into priorities 0, 1, 2 ...; equals by index.
func ranks(value []int) []int {
	order := make([]int, len(value))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return value[a] - value[b] })
	rank := make([]int, len(value))
	for k, i := range order {
		rank[i] = k
	}
	return rank
}

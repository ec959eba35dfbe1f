package allocation

import "slices"

// oldestFirst names the lots of all lines that take any number of them, due day by due day.
func (sh *shelf) oldestFirst() {
	var open []*line
	for _, l := range sh.lines {
		if l.unnamed() > 0 {
			open = append(open, l)
		}
	}
	left := make([]int, len(sh.dates))
	for k, n := range sh.avail {
		left[sh.day[k]] += n
	}
	slack := slices.Clone(sh.slack)
	var days []*dayWork
	for len(open) > 0 {
		n := 1
		for n < len(open) && open[n].due == open[0].due {
			n++
		}
		days = append(days, newDay(sh, open[:n], sh.quota(open[:n], left, slack)))
		open = open[n:]
	}
	for _, d := range days {
		d.name()
	}
}

// quota is how many packs of each best-before day leave with lines due on the same day: of the oldest as many as can, then of the next.
// Which of the lines has them is of no matter to the others: what room is left in the end depends on the packs that leave alone.
func (sh *shelf) quota(lines []*line, left, slack []int) []int {
	wants := make([]int, len(lines))
	open := 0
	for i, l := range lines {
		wants[i] = l.unnamed()
		open += wants[i]
	}
	quota := make([]int, len(left))
	for d := 0; d < len(left) && open > 0; d++ {
		for i, l := range lines {
			if l.from > d || wants[i] == 0 || left[d] == 0 {
				continue
			}
			n := min(wants[i], left[d], least(slack, l.from+1, d))
			wants[i] -= n
			left[d] -= n
			quota[d] += n
			open -= n
			for j := l.from + 1; j <= d; j++ {
				slack[j] -= n
			}
		}
	}
	return quota
}

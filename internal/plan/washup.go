package plan

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/timetable"
)

// washUp adds somebody who washes between two dishes in the same piece of equipment, in the order found, and times the day again. Where
// that cannot be done the timetable stays without hands for washing, and a finding says so.
func (p *planner) washUp(crew []member, q dayProblem, r timetable.Result) (dayProblem, timetable.Result) {
	if p.was != nil {
		return q, r // the washing is part of what was planned
	}
	bare := p.day.copied()
	p.day.pieces = map[piecePlace]int{}
	for i := range p.day.places {
		if minutes := p.washing(i); minutes != nil {
			p.washBetween(i, minutes, p.usesOf(q.Problem, r, i))
		}
	}
	bare.pieces = p.day.pieces
	washes := len(p.day.tasks) - len(bare.tasks)
	if washes == 0 {
		p.day = bare
		return q, r
	}
	washed := p.problem(crew, q.Horizon)
	if again, err := p.schedule(washed.Problem); err == nil && again.Start != nil {
		return washed, boundedBy(again, r)
	}
	p.find(finding.Finding{Code: CodeNobodyWashes, Severity: finding.Caution, Where: "the day", Message: fmt.Sprintf("equipment must be washed between dishes %d times, and nobody has a free hand, or there is no time, for all of it", washes),
		Fix: "cook the dishes in another order, on other equipment, or with one more person"})
	p.day = bare
	return q, r
}

// use is a time for which a task has a piece of equipment.
type use struct {
	task     int
	from, to ending
	at, end  int
}

// usesOf are the uses of a place by their begin.
func (p *planner) usesOf(q timetable.Problem, r timetable.Result, place int) []use {
	var uses []use
	for i, t := range q.Tasks {
		for _, u := range t.Uses {
			if u.Resource == 1+place && u.From < u.To {
				uses = append(uses, use{i, ending{i, u.From}, ending{i, u.To}, r.Start[i] + u.From, r.Start[i] + u.To})
			}
		}
	}
	for _, h := range q.Holds {
		if h.Resource == 1+place {
			uses = append(uses, use{h.From.Task, ending{h.From.Task, h.From.Minute}, ending{h.To.Task, h.To.Minute}, r.Start[h.From.Task] + h.From.Minute, r.Start[h.To.Task] + h.To.Minute})
		}
	}
	slices.SortStableFunc(uses, func(a, b use) int { return cmp.Compare(a.at, b.at) })
	return uses
}

// washBetween gives each use a piece of a place, the one that is free and needs the least washing, and adds the washing.
func (p *planner) washBetween(place int, minutes [][]int, uses []use) {
	last := make([]*use, p.day.places[place].count)
	washes := 0
	for k := range uses {
		u := &uses[k]
		family := p.day.tasks[u.task].family(p.dishes)
		wash := func(piece int) int {
			if last[piece] == nil {
				return 0
			}
			return minutes[p.day.tasks[last[piece].task].family(p.dishes)][family]
		}
		best := -1
		for piece, before := range last {
			if before != nil && before.end > u.at {
				continue
			}
			if best < 0 || wash(piece) < wash(best) {
				best = piece
			}
		}
		if best < 0 {
			continue // more is in use than there is, which the checker tells
		}
		p.day.pieces[piecePlace{place, u.task}] = best
		if before := last[best]; before != nil {
			if p.washAfter(*before, *u, place, best, wash(best), washes+1) {
				washes++
			}
		}
		last[best] = u
	}
}

// washAfter lets a use follow another in the same piece of equipment, with the washing between them if there is any.
func (p *planner) washAfter(before, after use, place, piece, minutes, number int) bool {
	then := after.from
	if minutes > 0 {
		x := p.day.places[place]
		then = ending{len(p.day.tasks), 0}
		p.day.tasks = append(p.day.tasks, task{kind: Washing, key: fmt.Sprintf("wash/%s/%d", x.equipment, number), step: -1, label: "Wash " + unitName(x, piece), loads: 1, length: minutes, hands: wholly(minutes), latest: -1})
		p.day.follow(ending{then.task, minutes}, after.from.task, after.from.minute)
	}
	for _, e := range p.emptiedAt(before, place) {
		p.day.links = append(p.day.links, link{after: e, task: then.task, minute: then.minute, most: -1, piece: true})
	}
	return minutes > 0
}

// emptiedAt is the moments after which a piece of equipment is free: those of a vessel's emptying, or the end of the use.
func (p *planner) emptiedAt(u use, place int) []ending {
	for _, f := range p.day.filled {
		if f.task == u.task && f.place == place && len(f.emptied) > 0 && !p.tubs {
			return append(slices.Clone(f.emptied), ending{f.task, p.day.tasks[f.task].length})
		}
	}
	return []ending{u.to}
}

// boundedBy is a timetable in the order of another, with what was proved of that other, where any order was allowed: in another order there
// may be a better one. Of later aims nothing is known then.
func boundedBy(again, free timetable.Result) timetable.Result {
	again.Bound, again.BoundWhy = free.Bound, free.BoundWhy
	for k := range again.Goals {
		again.Goals[k].Bound = 0
		if k == 0 {
			again.Goals[k].Bound = free.Goals[k].Bound
		}
		if !again.Goals[k].Optimal() {
			again.Status = timetable.Feasible
		}
	}
	return again
}

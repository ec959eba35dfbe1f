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
func (p *planner) washUp(crew []member, q timetable.Problem, r timetable.Result) (timetable.Problem, timetable.Result) {
	if p.was != nil {
		return q, r // the washing is part of what was planned
	}
	bare := p.day.copied()
	for res, resource := range q.Resources {
		if resource.Changeover != nil {
			p.washBetween(q, r, res)
		}
	}
	if len(p.day.tasks) == len(bare.tasks) {
		return q, r
	}
	washed := p.problem(crew, q.Horizon)
	if again, err := p.schedule(washed); err == nil && again.Start != nil {
		return washed, boundedBy(again, r)
	}
	p.find(finding.Finding{Code: CodeNobodyWashes, Severity: finding.Caution, Where: "the day", Message: fmt.Sprintf("time is kept free for washing between dishes %d times, but nobody has a free hand for it", len(p.day.tasks)-len(bare.tasks)),
		Fix: "cook the dishes in another order, on other equipment, or with one more person"})
	p.day = bare
	return q, r
}

// use is a time for which a task has a piece of equipment.
type use struct {
	from ending
	to   ending
	at   int
}

// washBetween adds the washing of one piece of equipment.
func (p *planner) washBetween(q timetable.Problem, r timetable.Result, res int) {
	var uses []use
	for i, t := range q.Tasks {
		for _, u := range t.Uses {
			if u.Resource == res && u.From < u.To {
				uses = append(uses, use{ending{i, u.From}, ending{i, u.To}, r.Start[i] + u.From})
			}
		}
	}
	for _, h := range q.Holds {
		if h.Resource == res {
			uses = append(uses, use{ending{h.From.Task, h.From.Minute}, ending{h.To.Task, h.To.Minute}, r.Start[h.From.Task] + h.From.Minute})
		}
	}
	slices.SortFunc(uses, func(a, b use) int { return cmp.Compare(a.at, b.at) })
	for k := 1; k < len(uses); k++ {
		before, after := uses[k-1], uses[k]
		minutes := q.Resources[res].Changeover[q.Tasks[before.from.task].Family][q.Tasks[after.from.task].Family]
		if minutes == 0 {
			continue
		}
		name := q.Resources[res].Name
		t := task{kind: Washing, key: fmt.Sprintf("wash/%s/%d", p.day.places[res-1].equipment, k), step: -1, label: "Wash " + name, loads: 1, length: minutes, hands: wholly(minutes), latest: -1}
		for _, e := range p.emptiedAt(before, res-1) {
			p.day.follow(e, len(p.day.tasks), 0)
		}
		p.day.follow(ending{len(p.day.tasks), minutes}, after.from.task, after.from.minute)
		p.day.tasks = append(p.day.tasks, t)
	}
}

// emptiedAt is the moments after which a piece of equipment is free: those of a vessel's emptying, or the end of the use.
func (p *planner) emptiedAt(u use, place int) []ending {
	for _, f := range p.day.filled {
		if f.task == u.from.task && f.place == place && len(f.emptied) > 0 && !p.tubs {
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

package plan

import (
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/loads"
	"kettlefrost/internal/massflow"
	"kettlefrost/internal/timetable"
)

// A load may be cooked in any equipment that its first step names, where that changes nothing but the time: it fits, it loses as much, and it
// is not chilled in what it was cooked in. Which of them it is, is chosen with the timetable.

// setting is where a chain of steps is cooked, and how long each of its steps heats up and reduces there, in seconds.
type setting struct {
	in      kitchen.EquipmentID
	heatS   []float64
	reduceS []float64
}

// chosen is where the mass flow puts a chain of steps: where it takes the fewest loads.
func (p *planner) chosen(d *cooked, chain []int) setting {
	s := setting{in: d.vesselOf(d.headOf(chain[0]))}
	for _, i := range chain {
		seconds, err := p.heatUpS(d, i, s.in)
		if err != nil {
			p.findHeatUp(d, i, err)
		}
		s.heatS, s.reduceS = append(s.heatS, seconds), append(s.reduceS, d.flow.Steps[i].ReduceS)
	}
	return s
}

// leastFull is how full a vessel, or its floor, must be at least for a load to go there instead: what is spread thin scorches (common
// practice).
const leastFull = 0.2

// elsewhere is where else a chain of steps can be cooked.
func (p *planner) elsewhere(d *cooked, chain []int) []setting {
	vessels := d.vessels[d.headOf(chain[0])]
	base := d.vesselOf(d.headOf(chain[0]))
	if base == "" || p.chillsWhereCooked(d, chain, base) {
		return nil
	}
	var found []setting
	for _, o := range d.graph.Alternatives(d.flow, chain) {
		in := vessels[o.Vessel]
		if (p.book.Equipment[in].Kind == kitchen.Vessel) != (p.book.Equipment[base].Kind == kitchen.Vessel) || p.thinlySpread(d, chain, in) {
			continue
		}
		if s, ok := p.heatsUp(d, chain, in, o); ok {
			found = append(found, s)
		}
	}
	return found
}

// thinlySpread tells whether a load of a chain is too little for a vessel.
func (p *planner) thinlySpread(d *cooked, chain []int, in kitchen.EquipmentID) bool {
	full, limited := 0.0, false
	for _, i := range chain {
		s := d.dish.Steps[i]
		s.Load.AtMost = 0 // says nothing of the vessel
		limit := p.vessel(s, in).Limit
		full, limited = max(full, d.flow.Steps[i].Split.FullIn(limit)), limited || limit != (loads.Limit{})
	}
	return limited && full < leastFull
}

// heatsUp tells how long each step heats up in another vessel; ok is false where that is not known or never happens.
func (p *planner) heatsUp(d *cooked, chain []int, in kitchen.EquipmentID, o massflow.Alternative) (s setting, ok bool) {
	s = setting{in: in, reduceS: o.ReduceS}
	for _, i := range chain {
		seconds, err := p.heatUpS(d, i, in)
		if err != nil {
			return s, false
		}
		s.heatS = append(s.heatS, seconds)
	}
	return s, true
}

// chillsWhereCooked tells whether something that a chain gives is chilled in the vessel that it is cooked in.
func (p *planner) chillsWhereCooked(d *cooked, chain []int, in kitchen.EquipmentID) bool {
	for _, c := range p.day.chilled {
		if c.dish == d && len(c.stages) > 0 && d.headOf(c.step) == d.headOf(chain[0]) && c.stages[0].vessels == 1 && p.chillsInPot(c.stages[0].by, in) {
			return true
		}
	}
	return false
}

// ways are the same task in all the equipment that it may be done in, as planned first; nil when there is nothing to choose.
func (p *planner) ways(i int) []task {
	t := p.day.tasks[i]
	if len(t.others) == 0 || p.settled || t.fixed || p.was != nil && !p.fails(t) {
		return nil
	}
	return append([]task{t}, t.others...)
}

// fails tells whether something that a task is done in, or stands on, is out of order at some time.
func (p *planner) fails(t task) bool {
	for _, h := range t.holds {
		if len(p.outages(p.day.places[h.place])) > 0 {
			return true
		}
	}
	return t.fills > 0 && len(p.outages(p.day.places[t.fills-1])) > 0
}

// boundary is the minute of a task at which the same step begins or ends as at a minute of another task that differs in its times only.
func (t task) boundary(of task, minute int) int {
	for k, s := range of.segs {
		if minute == s.from {
			return t.segs[k].from
		}
		if minute == s.to {
			return t.segs[k].to
		}
	}
	return minute
}

// moment is the place of a moment of the day in the problem. Where it depends on the way a task without length stands for it.
func (q *dayProblem) moment(p *planner, e ending) timetable.Moment {
	ways := p.ways(e.task)
	same := true
	for _, w := range ways {
		same = same && w.boundary(ways[0], e.minute) == e.minute
	}
	if same {
		return timetable.Moment{Task: e.task, Minute: e.minute}
	}
	if at, ok := q.marks[e]; ok {
		return timetable.Moment{Task: at}
	}
	at := len(q.Tasks)
	q.marks[e] = at
	q.Tasks = append(q.Tasks, timetable.Task{Name: q.Tasks[e.task].Name, Latest: -1})
	for k, w := range ways {
		behind, way := w.boundary(ways[0], e.minute), timetable.If{Choice: q.choice[e.task], Way: 1 + k}
		q.Lags = append(q.Lags, timetable.Lag{From: e.task, To: at, Min: behind, If: way}, timetable.Lag{From: at, To: e.task, Min: -behind, If: way})
	}
	return timetable.Moment{Task: at}
}

// choose writes down a task that may be done in several ways: what it uses in each of them, and when it ends.
func (q *dayProblem) choose(p *planner, i int, groups []group) {
	ways := p.ways(i)
	q.choice[i] = len(q.Choices)
	q.Choices = append(q.Choices, len(ways))
	for k, w := range ways {
		way := timetable.If{Choice: q.choice[i], Way: 1 + k}
		for _, u := range p.uses(w, groups) {
			q.Holds = append(q.Holds, timetable.Hold{Resource: u.Resource, Amount: u.Amount, From: timetable.Moment{Task: i, Minute: u.From}, To: timetable.Moment{Task: i, Minute: u.To}, If: way})
		}
	}
	q.moment(p, ending{i, ways[0].length})
}

// settle puts each task where the answer has it, so that nothing is left to choose, and returns the day as a problem and its answer.
func (p *planner) settle(crew []member, q dayProblem, r timetable.Result) (dayProblem, timetable.Result) {
	for i := range p.day.tasks {
		k, chooses := q.choice[i]
		if ways := p.ways(i); chooses && r.Ways[k] > 1 {
			p.goTo(i, ways, r.Ways[k]-1)
		}
	}
	p.settled = true
	plain := p.problem(crew, q.Horizon)
	of := map[int]int{} // the task that a mark belongs to
	for e, at := range q.marks {
		of[at] = e.task
	}
	var start []int
	place := make([]int, len(r.Start))
	for at, minute := range r.Start {
		if task, mark := of[at]; mark {
			place[at] = task
			continue
		}
		place[at], start = len(start), append(start, minute)
	}
	r.Start, r.Ways, r.BoundWhy.Tasks = start, nil, slices.Clone(r.BoundWhy.Tasks)
	for k, at := range r.BoundWhy.Tasks {
		r.BoundWhy.Tasks[k] = place[at]
	}
	return plain, r
}

// goTo puts a task into the other equipment.
func (p *planner) goTo(i int, ways []task, to int) {
	there, base := ways[to], ways[0]
	base.hands, base.segs = slices.Clone(base.hands), slices.Clone(base.segs)
	p.day.shift(i, func(minute int) int { return there.boundary(base, minute) })
	ways[0] = base
	there.others = nil
	for k, w := range ways {
		if w.others = nil; k != to {
			there.others = append(there.others, w)
		}
	}
	there.earliest, there.latest, there.state = p.day.tasks[i].earliest, p.day.tasks[i].latest, p.day.tasks[i].state
	p.day.tasks[i] = there
	p.day.links = slices.DeleteFunc(p.day.links, func(l link) bool { return l.piece && (l.task == i || l.after.task == i) })
	for k := range p.day.filled {
		if p.day.filled[k].task == i {
			p.day.filled[k].place = there.fills - 1
		}
	}
}

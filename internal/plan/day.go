package plan

import (
	"fmt"
	"math"
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// day is the run as tasks, before and after they have their times.
type day struct {
	chilled []chilled
	tasks   []task
	links   []link
	filled  []filled
	waits   []wait
	places  []place
	ends    map[cookedStep][]ending // of each load of a step: which task, and the minute in it at which the step is done
	pieces  map[piecePlace]int      // which piece of a place a task has, counted from 0, where that was settled
}

type piecePlace struct{ place, task int }

type cookedStep struct {
	dish *cooked
	step int
}

// ending is a moment in a task.
type ending struct{ task, minute int }

// link lets a minute of a task come after a moment, or at most so many minutes after it.
type link struct {
	after        ending
	task, minute int
	most         int  // below 0: any time after
	safety       bool // of most: not to be loosened to make a day possible
	piece        bool // only because both have the same piece of equipment
}

// wait is cooked food that stands from a moment until a minute of the task that takes it.
type wait struct {
	after        ending
	task, minute int
}

// task is one load of a chain of steps that share a vessel, one load being chilled, or some packs being filled.
type task struct {
	kind   TaskKind
	key    string
	dish   *cooked // nil for what belongs to no dish
	step   int     // the first of its steps; -1 when it has none
	label  string
	load   int // from 0
	loads  int
	length int // minutes
	hands  []piece
	holds  []hold
	segs   []segment
	skill  kitchen.Skill // of who puts hands to it
	chills kitchen.OutputID

	in     kitchen.EquipmentID // what it is cooked in; empty for what is not cooked in anything
	fills  int                 // the place of the vessel that it fills, counted from 1; 0 for none
	others []task              // the same in other equipment

	earliest, latest int  // start; latest below 0: any
	fixed            bool // begun or done: it stays where it is
	state            TaskState
}

// piece is a time during which people are needed, in minutes from the start of its task.
type piece struct{ from, to, people int }

// hold is a place that a task holds from beginning to end.
type hold struct{ place, amount int }

// segment is one step's part of a task, with its minutes of heating up, of work after that, and of hands as they were planned.
type segment struct {
	step, from, to      int
	heat, work, handsOn int
	hotS                float64 // seconds that it is kept hot
}

// place is equipment or a way of chilling, with how many there are.
type place struct {
	key       string
	name      string
	count     int
	equipment kitchen.EquipmentID // empty for a way of chilling
}

// place is the index of a resource; it is added at its first use.
func (p *planner) place(key, name string, count int) int {
	if i := slices.IndexFunc(p.day.places, func(x place) bool { return x.key == key }); i >= 0 {
		return i
	}
	p.day.places = append(p.day.places, place{key: key, name: name, count: max(1, count)})
	return len(p.day.places) - 1
}

func (p *planner) equipment(id kitchen.EquipmentID) int {
	e := p.book.Equipment[id]
	at := p.place("equipment."+string(id), e.Name, e.Count*max(1, e.Places))
	p.day.places[at].equipment = id
	return at
}

// buildDay turns flows, coolings and fills into tasks and the gaps between them.
func (p *planner) buildDay() {
	p.day.ends = map[cookedStep][]ending{}
	for _, d := range p.dishes {
		for _, chain := range d.chains() {
			p.chainTasks(d, chain)
		}
	}
	for _, d := range p.dishes {
		for i := range d.dish.Steps {
			p.linkStep(d, i)
		}
	}
	ready := map[string][]int{} // what must be done before an output can be filled
	for _, c := range p.day.chilled {
		ready[string(c.dish.id)+"."+string(c.output)] = p.coolTasks(c)
	}
	for _, f := range p.out.Fill {
		p.fillTasks(f, ready)
	}
	p.appointments()
}

// chains is the dish's steps grouped by the vessel they share, each group in the order of cooking, without steps that are not cooked.
func (d *cooked) chains() [][]int {
	var chains [][]int
	at := map[int]int{}
	for _, i := range d.flow.Order {
		if d.flow.Steps[i].InKg <= 0 {
			continue
		}
		head := d.headOf(i)
		if _, ok := at[head]; !ok {
			at[head] = len(chains)
			chains = append(chains, nil)
		}
		chains[at[head]] = append(chains[at[head]], i)
	}
	return chains
}

func (p *planner) chainTasks(d *cooked, chain []int) {
	loads := max(1, d.flow.Steps[chain[0]].Split.N)
	model := p.chainIn(d, chain, p.chosen(d, chain))
	for _, place := range p.elsewhere(d, chain) {
		other := p.chainIn(d, chain, place)
		model.earliest = max(model.earliest, other.earliest)
		model.others = append(model.others, other)
	}
	for load := range loads {
		t := model.ofLoad(load)
		t.others = nil
		for _, o := range model.others {
			t.others = append(t.others, o.ofLoad(load))
		}
		if t.fills > 0 {
			p.fillVessel(len(p.day.tasks), t.fills-1)
		}
		for _, s := range t.segs {
			p.day.ends[cookedStep{d, s.step}] = append(p.day.ends[cookedStep{d, s.step}], ending{len(p.day.tasks), s.to})
		}
		p.day.tasks = append(p.day.tasks, t)
	}
}

func (t task) ofLoad(load int) task {
	t.load, t.key = load, taskKey(string(t.dish.id), t.dish.dish.Steps[t.step].ID, load)
	t.hands, t.segs = slices.Clone(t.hands), slices.Clone(t.segs)
	return t
}

// chainIn is a load of a chain of steps in one piece of equipment.
func (p *planner) chainIn(d *cooked, chain []int, at setting) task {
	t := task{kind: Cook, dish: d, step: chain[0], loads: max(1, d.flow.Steps[chain[0]].Split.N), label: d.dish.Steps[chain[0]].Do, latest: -1, in: at.in}
	for k, i := range chain {
		heat, work, hands := p.stepMinutes(d, i, at.heatS[k], at.reduceS[k])
		if t.skill == "" {
			t.skill = d.dish.Steps[i].Skill
		}
		for _, u := range d.dish.Steps[i].Use {
			t.earliest = max(t.earliest, p.comes(u.Of)-t.length)
		}
		s := segment{step: i, from: t.length, to: t.length + heat + work, heat: heat, work: work, hotS: d.dish.Steps[i].Time.S() + at.reduceS[k]}
		for _, h := range hands {
			s.handsOn += h.to - h.from
			t.hands = append(t.hands, piece{h.from + t.length, h.to + t.length, h.people})
		}
		t.segs = append(t.segs, s)
		t.length = s.to
	}
	if at.in == "" {
		return t
	}
	if e := p.book.Equipment[at.in]; e.Kind == kitchen.Vessel {
		t.fills = 1 + p.equipment(at.in)
	} else {
		t.holds = append(t.holds, hold{p.equipment(at.in), 1})
	}
	for _, n := range p.book.Equipment[at.in].Needs {
		t.holds = append(t.holds, hold{p.equipment(n), 1})
	}
	return t
}

// stepMinutes is how long one load of a step takes, heating and after, and when it needs hands, all in whole minutes.
func (p *planner) stepMinutes(d *cooked, i int, heatS, reduceS float64) (heat, work int, hands []piece) {
	s, f := d.dish.Steps[i], d.flow.Steps[i]
	heat = wholeMinutes(heatS)
	cut := wholeMinutes(float64(s.Pace) * f.Split.EachKg)
	work = cut + wholeMinutes(s.Time.S()+reduceS)
	total := heat + work
	h := s.Hands
	switch {
	case h.Throughout || h == (kitchen.Hands{}) && s.Pace == 0 && s.HeatTo == nil && reduceS == 0:
		return heat, work, wholly(total)
	case cut > 0:
		hands = append(hands, piece{0, cut, 1})
	}
	at := func(from, length int) {
		if length = min(length, total-from); length > 0 && from >= 0 {
			hands = append(hands, piece{from, from + length, 1})
		}
	}
	start, end := wholeMinutes(h.Start.S()), wholeMinutes(h.End.S())
	at(0, start)
	if every, each := wholeMinutes(h.Every.S()), wholeMinutes(h.For.S()); every > 0 && each > 0 {
		for t := start + every; t+each <= total-end; t += every {
			at(t, each)
		}
	}
	at(max(0, total-end), end)
	return heat, work, merge(hands)
}

func wholly(total int) []piece {
	if total == 0 {
		return nil
	}
	return []piece{{0, total, 1}}
}

// merge joins pieces that touch or overlap: one person does them.
func merge(hands []piece) []piece {
	slices.SortFunc(hands, func(a, b piece) int { return a.from - b.from })
	var merged []piece
	for _, h := range hands {
		if n := len(merged); n > 0 && h.from <= merged[n-1].to {
			merged[n-1].to = max(merged[n-1].to, h.to)
		} else {
			merged = append(merged, h)
		}
	}
	return merged
}

func wholeMinutes(s float64) int { return int(math.Ceil(s/60 - 1e-9)) }

// linkStep makes each load of a step wait for the loads of earlier steps that it needs, and not too long where the dish says so.
func (p *planner) linkStep(d *cooked, i int) {
	loads := p.day.ends[cookedStep{d, i}]
	for _, u := range d.graph.Steps[i].Uses {
		if u.Ingredient >= 0 || d.headOf(u.From.Step) == d.headOf(i) {
			continue
		}
		from := p.day.ends[cookedStep{d, u.From.Step}]
		for j, to := range loads {
			begin := p.beginOf(to.task, i)
			last := (j+1)*len(from) + len(loads) - 1
			for k := range min(len(from), last/len(loads)) {
				p.day.follow(from[k], to.task, begin)
			}
			if k := min(len(from), last/len(loads)) - 1; k >= 0 && (d.dish.Steps[i].Within > 0 || d.dish.Steps[i].AtOnce) {
				p.day.atMost(from[k], to.task, begin, d.dish.Steps[i].Within)
			}
		}
		for k, e := range from {
			if len(loads) > 0 {
				by := loads[((k+1)*len(loads)-1)/len(from)] // takes the last of it
				begin := p.beginOf(by.task, i)
				if len(from) <= len(loads) {
					p.takes(e, ending{by.task, begin})
				}
				if p.standsCooked(d, u.From.Step) {
					p.day.waits = append(p.day.waits, wait{e, by.task, begin})
				}
			}
		}
	}
}

// taskKey names a task for good.
func taskKey(of, what string, load int) string { return fmt.Sprintf("%s/%s/%d", of, what, load+1) }

// follow lets a minute of a task come after a moment of another.
func (d *day) follow(after ending, task, minute int) {
	d.links = append(d.links, link{after: after, task: task, minute: minute, most: -1})
}

// atMost lets a minute of a task come at most so long after a moment of another.
func (d *day) atMost(after ending, task, minute int, gap unit.Span) {
	d.links = append(d.links, link{after: after, task: task, minute: minute, most: wholeMinutes(gap.S())})
}

func (p *planner) beginOf(task, step int) int {
	for _, s := range p.day.tasks[task].segs {
		if s.step == step {
			return s.from
		}
	}
	return 0
}

// taskName is what a task is called in findings.
func (p *planner) taskName(i int) string {
	t := p.day.tasks[i]
	if t.dish == nil {
		return t.label
	}
	if t.loads > 1 {
		return fmt.Sprintf("%s (%s, load %d of %d)", t.label, t.dish.dish.Name, t.load+1, t.loads)
	}
	return fmt.Sprintf("%s (%s)", t.label, t.dish.dish.Name)
}

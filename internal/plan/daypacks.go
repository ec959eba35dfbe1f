package plan

import (
	"math"
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/timetable"
	"kettlefrost/internal/unit"
)

// chillWithin is how soon after cooking the chilling begins: common practice, well before the food can fall through 135 °F by itself.
const chillWithin = 30 * unit.Minute

// coolTasks adds the chilling of each load, and returns the tasks.
func (p *planner) coolTasks(c cooling) []int {
	loads := p.day.ends[cookedStep{c.dish, c.step}]
	if c.by == "" { // no safe way: the finding says so, and the timetable goes on without
		var tasks []int
		for _, l := range loads {
			tasks = append(tasks, l.task)
		}
		return tasks
	}
	way := p.book.Chilling[c.by]
	at := p.place("chilling."+string(c.by), way.Name, way.Count)
	var tasks []int
	for i, l := range loads {
		set := wholeMinutes(way.Set.S() * float64(c.each))
		t := task{kind: Cool, dish: c.dish, step: c.step, load: i, loads: len(loads), label: "Chill the " + p.outLine(c.dish, c.output, 0).Name,
			length: set + wholeMinutes(c.timeS), hands: []piece{{0, set, 1}}, holds: []hold{{at, c.each}}}
		t.hands = append(t.hands, tending(set, t.length, way.Tend)...)
		t.hands = merge(slices.DeleteFunc(t.hands, func(h piece) bool { return h.to <= h.from }))
		p.day.lags = append(p.day.lags, timetable.Lag{From: l.task, To: len(p.day.tasks), Min: l.minute})
		p.atMost(l, len(p.day.tasks), 0, chillWithin)
		tasks = append(tasks, len(p.day.tasks))
		p.day.tasks = append(p.day.tasks, t)
	}
	return tasks
}

// stirEvery is how often somebody goes to a bath that wants tending.
const stirEvery = 20

func tending(from, to int, share unit.Share) []piece {
	each := int(math.Ceil(share.F()*stirEvery - 1e-9))
	if each <= 0 {
		return nil
	}
	var hands []piece
	for t := from; t < to; t += stirEvery {
		hands = append(hands, piece{t, min(t+each, to), 1})
	}
	return hands
}

// fillBatch is how long packs are filled at a stretch: short enough to fit between breaks.
const fillBatch = 30

// fillTasks adds the filling of one kind of pack, in stretches, after all of its outputs are ready.
func (p *planner) fillTasks(f PackFill, ready map[string][]int) {
	pack := p.book.Packs[kitchen.PackID(f.Pack)]
	total := wholeMinutes(f.Time.S())
	if f.Count == 0 || total == 0 {
		return
	}
	crew := max(1, pack.Crew)
	d := p.dishOf(f.Dish)
	stretches := (total + fillBatch - 1) / fillBatch
	for i := range stretches {
		length := total*(i+1)/stretches - total*i/stretches
		t := task{kind: Filling, dish: d, step: -1, label: "Fill " + pack.Name, load: i, loads: stretches, length: length, hands: []piece{{0, length, crew}}}
		if id := p.firstOf(kitchen.Sealer); id != "" {
			t.holds = append(t.holds, hold{p.equipment(id), 1})
		}
		for _, e := range f.Each {
			after, chilled := ready[f.Dish+"."+e.ID]
			if !chilled {
				for _, l := range p.day.ends[cookedStep{d, d.outputs[kitchen.OutputID(e.ID)].Step}] {
					p.day.lags = append(p.day.lags, timetable.Lag{From: l.task, To: len(p.day.tasks), Min: l.minute})
				}
			}
			for _, a := range after {
				p.day.lags = append(p.day.lags, timetable.Lag{From: a, To: len(p.day.tasks), Min: p.day.tasks[a].length})
			}
		}
		p.day.tasks = append(p.day.tasks, t)
	}
}

func (p *planner) dishOf(id string) *cooked {
	for _, d := range p.dishes {
		if string(d.id) == id {
			return d
		}
	}
	return nil
}

// firstOf is the equipment of a kind that comes first by its id; empty when there is none.
func (p *planner) firstOf(kind kitchen.Kind) kitchen.EquipmentID {
	var first kitchen.EquipmentID
	for id, e := range p.book.Equipment {
		if e.Kind == kind && (first == "" || id < first) {
			first = id
		}
	}
	return first
}

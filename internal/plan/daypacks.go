package plan

import (
	"math"
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// chillWithin is how soon after cooking the chilling begins: common practice, well before the food can fall through 135 °F by itself.
const chillWithin = 30 * unit.Minute

// stageGap is the longest that food waits between two stages of its chilling.
const stageGap = 10 * unit.Minute

// coolTasks adds the chilling of each load, stage by stage, and returns the tasks after which it is cold.
func (p *planner) coolTasks(c chilled) []int {
	var last []int
	for i, l := range p.day.ends[cookedStep{c.dish, c.step}] {
		end, within := l, chillWithin // with no way in time the finding says so, and the timetable goes on without
		inPot := true
		for _, s := range c.stages {
			t := p.coolTask(c, s, i)
			t.key = taskKey(string(c.dish.id), string(c.output)+"-chill", len(last))
			if len(c.stages) > 1 {
				t.key += "/" + string(s.by)
			}
			if inPot = inPot && s.vessels == 1 && p.chillsInPot(s.by, c.dish.vesselOf(c.dish.headOf(c.step))); !inPot {
				p.takes(l, ending{len(p.day.tasks), wholeMinutes(s.set.S())})
			} else {
				p.takes(l, ending{len(p.day.tasks), t.length})
			}
			p.day.waits = append(p.day.waits, wait{end, len(p.day.tasks), 0})
			p.day.follow(end, len(p.day.tasks), 0)
			p.day.links = append(p.day.links, link{after: end, task: len(p.day.tasks), most: wholeMinutes(within.S()), safety: true})
			end, within = ending{len(p.day.tasks), t.length}, stageGap
			p.day.tasks = append(p.day.tasks, t)
		}
		last = append(last, end.task)
	}
	return last
}

// coolTask is one stage of one load.
func (p *planner) coolTask(c chilled, s chilledStage, load int) task {
	set := wholeMinutes(s.set.S())
	t := task{kind: Cool, dish: c.dish, step: c.step, load: load, loads: len(p.day.ends[cookedStep{c.dish, c.step}]), label: "Chill the " + p.outLine(c.dish, c.output, 0).Name,
		length: max(1, set+wholeMinutes(s.timeS)), hands: []piece{{0, set, 1}}, latest: -1, chills: c.output}
	if s.by != "" {
		way := p.book.Chilling[s.by]
		t.holds = []hold{{p.place("chilling."+string(s.by), way.Name, way.Count), s.vessels}}
	}
	t.hands = append(t.hands, tending(set, t.length, s.tend)...)
	t.hands = merge(slices.DeleteFunc(t.hands, func(h piece) bool { return h.to <= h.from }))
	return t
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
		t := task{kind: Filling, dish: d, step: -1, label: "Fill " + pack.Name, load: i, loads: stretches, length: length, hands: []piece{{0, length, crew}},
			key: taskKey(f.Pack, "fill", i), skill: pack.Skill, latest: p.goes(kitchen.PackID(f.Pack), length)}
		if id := p.firstOf(kitchen.Sealer); id != "" {
			t.holds = append(t.holds, hold{p.equipment(id), 1})
		}
		for _, e := range f.Each {
			after, chilled := ready[f.Dish+"."+e.ID]
			if !chilled {
				for _, l := range p.day.ends[cookedStep{d, d.outputs[kitchen.OutputID(e.ID)].Step}] {
					p.day.follow(l, len(p.day.tasks), 0)
					if i == stretches-1 {
						p.takes(l, ending{len(p.day.tasks), length})
					}
				}
			}
			for _, a := range after {
				p.day.follow(ending{a, p.day.tasks[a].length}, len(p.day.tasks), 0)
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

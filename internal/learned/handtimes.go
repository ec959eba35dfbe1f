package learned

import (
	"fmt"

	"kettlefrost/internal/board"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// stepTimes observes the pace or the time of a step that is a task of its own.
func (g *gathering) stepTimes(d *day, dish plan.ExpectedDish) {
	count := map[string]int{}
	for _, s := range dish.Steps {
		count[s.Head]++
	}
	id := kitchen.DishID(dish.ID)
	for _, s := range dish.Steps {
		step, ok := stepOf(g.book, id, s.ID)
		if !ok || s.InKg <= 0 {
			continue
		}
		k := Pace
		switch {
		case step.Pace > 0 && step.Time == 0 && step.HeatTo == nil:
		case step.Pace == 0 && step.Time > 0 && step.HeatTo == nil && step.Loses.ReduceTo == 0:
			k = Time
		default:
			g.noTime(id, s, step, count[s.Head])
			continue
		}
		at := place{k, id, s.ID, ""}
		if count[s.Head] > 1 {
			g.noTime(id, s, step, count[s.Head])
			continue
		}
		g.figure(at)
		if why := d.made.otherwise(g.book, id, s.ID, k); why != "" {
			g.exclude(at, d.made, why)
			continue
		}
		g.loads(d, at, s)
	}
}

// noTime says why a step's time cannot be learned from its task.
func (g *gathering) noTime(id kitchen.DishID, s plan.ExpectedStep, step kitchen.Step, together int) {
	if step.Time == 0 && step.Pace == 0 {
		return
	}
	at := place{Time, id, s.ID, ""}
	why := "it gets hot first, and how long that took is not entered apart from its time"
	if together > 1 {
		why = fmt.Sprintf("%d steps in one vessel are one task: which of them took longer is not entered", together)
	}
	if step.Pace > 0 && step.Time > 0 {
		why = "it has a time and a pace, and they are one task"
	}
	g.figure(at).WhyNot = why
}

// loads observes one task for each load.
func (g *gathering) loads(d *day, at place, s plan.ExpectedStep) {
	minutes, hands, n := 0.0, 0.0, 0
	for load, key := range s.Tasks {
		t := d.took(key, float64(s.HeatMin+s.WorkMin))
		if t.why != "" {
			why := t.why
			if len(s.Tasks) > 1 {
				why = fmt.Sprintf("load %d of %d: %s", load+1, len(s.Tasks), why)
			}
			g.exclude(at, d.made, why)
			continue
		}
		n++
		minutes += t.minutes
		hands += t.minutes * float64(t.people)
	}
	if n == 0 {
		return
	}
	x := Seen{Run: d.made.Run.Name, Day: d.made.Day, Value: minutes * 60 / float64(n), Of: fmt.Sprintf("%s of %.0f min in all", loadsWord(n), minutes)}
	if at.kind == Pace {
		kg := s.InKg / float64(len(s.Tasks)) * float64(n)
		x.Value, x.Of = hands*60/kg, fmt.Sprintf("%s, %.0f min of hands for %s", loadsWord(n), hands, unit.MassKg(kg).Show(g.book.Kitchen.Units))
	}
	g.see(at, d.made, x)
}

func loadsWord(n int) string {
	if n == 1 {
		return "1 load"
	}
	return fmt.Sprintf("%d loads", n)
}

// packTimes observes the pace of filling: all stretches of it together, with as many hands as the book has at the table, or as began it if
// those were more.
func (g *gathering) packTimes(d *day) {
	for _, p := range d.made.Expected.Packs {
		now, there := g.book.Packs[p.ID]
		if !there || len(p.Tasks) == 0 {
			continue
		}
		at := place{kind: PackPace, dish: now.Dish, part: string(p.ID)}
		g.figure(at)
		count := packedOf(d.made.Run, string(p.ID))
		notes := []string(nil)
		if count == 0 {
			count, notes = p.Count, []string{"how many were packed was not entered: as planned"}
		}
		hands, why := 0.0, ""
		for _, key := range p.Tasks {
			t := d.took(key, 3)
			if t.why != "" {
				why = key + ": " + t.why
				break
			}
			hands += t.minutes * float64(max(p.Crew, t.people))
		}
		if why != "" || count == 0 {
			g.exclude(at, d.made, why)
			continue
		}
		g.see(at, d.made, Seen{Run: d.made.Run.Name, Day: d.made.Day, Value: hands * 60 / float64(count), Of: fmt.Sprintf("%d packs, %.0f min of hands", count, hands), Notes: notes})
	}
}

// packedOf is how many packs of a kind were packed in a run.
func packedOf(r *board.Run, pack string) int {
	n := int64(0)
	for _, x := range board.Of[record.Packed](r) {
		if x.Pack == pack {
			n += x.Numbers.Count()
		}
	}
	return int(n)
}

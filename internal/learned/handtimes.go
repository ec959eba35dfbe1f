package learned

import (
	"fmt"

	"kettlefrost/internal/board"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// stepTimes observes the pace or the time of each step that is a task of its own, and how long the others take together.
func (g *gathering) stepTimes(d *day, dish plan.ExpectedDish) {
	count, length := map[string]int{}, map[string]int{}
	for _, s := range dish.Steps {
		count[s.Head]++
		length[s.Head] += s.HeatMin + s.WorkMin
	}
	id := kitchen.DishID(dish.ID)
	for _, s := range dish.Steps {
		step, ok := stepOf(g.book, id, s.ID)
		if !ok || s.InKg <= 0 || s.ID != s.Head {
			continue
		}
		at := place{Pot, id, s.ID, ""}
		switch alone := count[s.Head] == 1 && step.HeatTo == nil; {
		case alone && step.Pace > 0 && step.Time == 0:
			at.kind = Pace
		case alone && step.Pace == 0 && step.Time > 0 && step.Loses.ReduceTo == 0:
			at.kind = Time
		case length[s.Head] == 0:
			continue
		default:
			g.figure(at).WhyNot = notOneTime(count[s.Head])
		}
		g.figure(at)
		if why := d.made.otherwise(g.book, id, s.ID, at.kind); why != "" {
			g.exclude(at, d.made, why)
			continue
		}
		g.loads(d, at, s, float64(length[s.Head]))
	}
}

// notOneTime is why how long a task took is no figure of the book.
func notOneTime(steps int) string {
	if steps > 1 {
		return fmt.Sprintf("%d steps in one vessel are one task: which of them took longer nobody entered. If you know it, change the time of that step in the book", steps)
	}
	return "it gets hot first, and how long that took nobody entered apart from its time. If you know which took longer, change its time or the burner in the book"
}

// loads observes one task for each load.
func (g *gathering) loads(d *day, at place, s plan.ExpectedStep, planned float64) {
	minutes, hands, n := 0.0, 0.0, 0
	for load, key := range s.Tasks {
		t := d.took(key, planned)
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
	switch at.kind {
	case Pot:
		x.Value, x.Of = minutes/(planned*float64(n)), fmt.Sprintf("%s of %.0f min in all, planned %.0f", loadsWord(n), minutes, planned*float64(n))
	case Pace:
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

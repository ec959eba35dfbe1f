package plan

import (
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/timetable"
)

// mostSkills is up to how many skills of a run are counted together: 255 groups.
const mostSkills = 8

// dayProblem is the day as the engine's numbers. People are resource 0, then the places, then groups of people by what they can. Tasks
// beyond those of the day stand for moments that have no task of their own.
type dayProblem struct {
	timetable.Problem
	choice map[int]int    // of a task that can be done in several ways: which choice that is
	marks  map[ending]int // the task that stands for a moment that depends on the way
}

func (p *planner) problem(crew []member, until int) dayProblem {
	q := dayProblem{Problem: timetable.Problem{Horizon: until, Resources: []timetable.Resource{{Name: "people", Capacity: capacity(crew)}}},
		choice: map[int]int{}, marks: map[ending]int{}}
	for i, x := range p.day.places {
		q.Resources = append(q.Resources, timetable.Resource{Name: x.name, Capacity: p.there(x), Changeover: p.changeover(i)})
	}
	groups := p.groups(crew)
	for _, g := range groups {
		q.Resources = append(q.Resources, timetable.Resource{Name: g.name, Capacity: capacity(g.people)})
	}
	first := min(until, opens(crew))
	for i, t := range p.day.tasks {
		task := timetable.Task{Name: p.taskName(i), Duration: t.length, Earliest: max(first, t.earliest), Latest: t.latest, Family: t.family(p.dishes)}
		if p.yields && !t.fixed {
			task.Latest = -1
		}
		if t.fixed || t.kind == Visit {
			task.Earliest = t.earliest
		}
		if ways := p.ways(i); ways == nil {
			task.Uses = p.uses(t, groups)
		} else {
			for _, w := range ways {
				task.Duration = min(task.Duration, w.length)
			}
		}
		q.Tasks = append(q.Tasks, task)
	}
	for i := range p.day.tasks {
		if p.ways(i) != nil {
			q.choose(p, i, groups)
		}
	}
	for _, l := range p.day.links {
		after, then := q.moment(p, l.after), q.moment(p, ending{l.task, l.minute})
		switch {
		case p.elastic && p.isInput(l) || p.isPast(l):
		case l.most < 0:
			q.Lags = append(q.Lags, timetable.Lag{From: after.Task, To: then.Task, Min: after.Minute - then.Minute})
		case !p.yields:
			q.Lags = append(q.Lags, timetable.Lag{From: then.Task, To: after.Task, Min: then.Minute - after.Minute - l.most})
		}
	}
	p.empty(&q)
	p.aims(&q)
	return q
}

// uses are the people and places that a task takes; vessels are held otherwise.
func (p *planner) uses(t task, groups []group) (uses []timetable.Use) {
	for _, h := range t.hands {
		uses = append(uses, timetable.Use{Resource: 0, From: h.from, To: h.to, Amount: h.people})
		for k, g := range groups {
			if t.skill != "" && slices.Contains(g.skills, t.skill) {
				uses = append(uses, timetable.Use{Resource: 1 + len(p.day.places) + k, From: h.from, To: h.to, Amount: h.people})
			}
		}
	}
	for _, h := range t.holds {
		uses = append(uses, timetable.Use{Resource: 1 + h.place, From: 0, To: t.length, Amount: h.amount})
	}
	return uses
}

// family is the place of the dish among those of the run; what belongs to none comes after them.
func (t task) family(dishes []*cooked) int {
	if i := slices.Index(dishes, t.dish); i >= 0 {
		return i
	}
	return len(dishes)
}

// there is how many of a place can be used, as it changes.
func (p *planner) there(x place) []timetable.Step {
	out := p.outages(x)
	if len(out) == 0 {
		return timetable.Constant(x.count)
	}
	marks, held := []int{0}, p.heldUnderWay(x)
	for _, h := range held {
		marks = append(marks, h.from, h.to)
	}
	for _, o := range out {
		marks = append(marks, o.from, o.to)
	}
	slices.Sort(marks)
	var steps []timetable.Step
	for _, at := range slices.Compact(marks) {
		n := x.count
		for _, o := range out {
			if o.from <= at && at < o.to {
				n -= o.count
			}
		}
		inUse := 0
		for _, h := range held {
			if h.from <= at && at < h.to {
				inUse++
			}
		}
		if n = max(0, n, inUse); len(steps) == 0 || steps[len(steps)-1].Amount != n {
			steps = append(steps, timetable.Step{From: at, Amount: n})
		}
	}
	return steps
}

// group is the people who can do at least one of some skills.
type group struct {
	name   string
	skills []kitchen.Skill
	people []member
}

// groups are, for each set of the skills that the day asks for, the people who can do any of them. When no such group ever has more to do
// than people, the work can be shared out (Hall's theorem). Of sets with the same people the largest is enough.
func (p *planner) groups(crew []member) []group {
	var skills []kitchen.Skill
	for _, t := range p.day.tasks {
		if t.skill != "" && len(t.hands) > 0 && !slices.Contains(skills, t.skill) {
			skills = append(skills, t.skill)
		}
	}
	slices.Sort(skills)
	skills = skills[:min(len(skills), mostSkills)]
	var groups []group
	for set := uint(1); set < 1<<len(skills); set++ {
		g := group{name: "people who can"}
		for k, skill := range skills {
			if set>>k&1 == 1 {
				if len(g.skills) > 0 {
					g.name += " or"
				}
				g.skills, g.name = append(g.skills, skill), g.name+" "+string(skill)
			}
		}
		for _, m := range crew {
			if slices.ContainsFunc(g.skills, m.has) {
				g.people = append(g.people, m)
			}
		}
		groups = append(groups, g)
	}
	return slices.DeleteFunc(groups, func(g group) bool {
		return slices.ContainsFunc(groups, func(h group) bool {
			return len(h.skills) > len(g.skills) && containsAll(h.skills, g.skills) && sameMembers(g.people, h.people)
		})
	})
}

func containsAll(all, some []kitchen.Skill) bool {
	return !slices.ContainsFunc(some, func(s kitchen.Skill) bool { return !slices.Contains(all, s) })
}

func sameMembers(a, b []member) bool {
	return slices.EqualFunc(a, b, func(m, n member) bool { return m.id == n.id })
}

// changeover is how many minutes must lie between dishes in a place of which there is one, nil when none need. Where there are more it
// depends on which piece is taken: see washUp.
func (p *planner) changeover(i int) [][]int {
	if p.day.places[i].count != 1 {
		return nil
	}
	return p.washing(i)
}

// washing is how many minutes a piece of equipment must be washed between dishes, nil when it need not: the long way when the dish before
// has an allergen that the next has not. The families of dishes are their places in the run.
func (p *planner) washing(i int) [][]int {
	x := p.day.places[i]
	e := p.book.Equipment[x.equipment]
	if x.equipment == "" || e.Places > 1 || e.Wash == 0 && e.WashDown == 0 {
		return nil
	}
	n := len(p.dishes) + 1
	minutes := make([][]int, n)
	for f := range minutes {
		minutes[f] = make([]int, n)
		for g := range minutes[f] {
			if f == g || f == n-1 || g == n-1 {
				continue
			}
			minutes[f][g] = wholeMinutes(e.Wash.S())
			if p.carriesOver(p.dishes[f], p.dishes[g]) {
				minutes[f][g] = max(minutes[f][g], wholeMinutes(e.WashDown.S()))
			}
		}
	}
	return minutes
}

// carriesOver tells whether one dish has an allergen, or may have, that another has not.
func (p *planner) carriesOver(from, to *cooked) bool {
	has, known := p.allergensOf(from)
	others, othersKnown := p.allergensOf(to)
	return !known || !othersKnown || slices.ContainsFunc(has, func(a string) bool { return !slices.Contains(others, a) })
}

// allergensOf is the allergens of all ingredients of a dish; known is false when one has not been checked.
func (p *planner) allergensOf(d *cooked) (names []string, known bool) {
	known = true
	for _, id := range d.ingredients {
		in := p.book.Ingredients[id]
		known = known && (in.Allergens.Answered || in.Free)
		names = append(names, in.Allergens.Names...)
		for _, sub := range in.Contains {
			names = append(names, sub.Allergens.Names...)
		}
	}
	return names, known
}

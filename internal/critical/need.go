package critical

import (
	"cmp"
	"maps"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/haccp"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/unit"
)

// Setting is what a kitchen's records are judged by.
type Setting struct {
	Units unit.System
	Clock func(record.Instant) string                                   // how a time is written here
	Plans map[string]Plan                                               // of each pack of the book
	Trust func(instrument string, at record.Instant) thermometers.Trust // what a thermometer was worth at a time
	Class func(dish string) []haccp.Class                               // of what goes into a dish
	Keep  func(ingredient string) string                                // dry, chilled or frozen; "" when nobody has said
	Read  map[record.ID][]Reading                                       // what probes read, by the entry that says where they were
}

// Plan is the control points of a pack, and what it is filled from.
type Plan struct {
	Dish      string
	Outputs   []string
	Points    []haccp.Point
	Allergens []string
	Problem   string // why there are no points; "" when there are
}

// need is a critical record that must be kept.
type need struct {
	v     Verdict
	limit haccp.Limit
	gives []string // outputs of the step
	from  string   // the task that this load was cooked by, of a cooling
	ended bool     // the work that it is about is done, or will not be
	begun bool
	skip  string // why it was not done
}

// needs are the records of a run, in the order of its work: cooking, cooling, then labels.
func (p Production) needs(work []plan.Handled, set Setting) []need {
	var all []need
	for _, h := range work {
		packs, limit, ok := set.limitOf(h)
		if !ok {
			continue
		}
		tasks := p.loads(h)
		var mine []need
		for i, task := range tasks {
			n := need{limit: limit, gives: h.Gives}
			if i < len(h.From) {
				n.from = h.From[i]
			}
			n.v = Verdict{What: Cooking, Run: p.Name, Dish: h.Dish, Step: h.Step, Output: h.Output, Task: task, Load: i + 1, Loads: len(tasks), Packs: packs, Title: h.Label,
				Point: p.Name + "/" + task + "/" + string(Cooking) + "." + h.Step}
			if h.Kind == plan.Cool {
				n.v.What, n.v.Point = Cooling, p.Name+"/"+task+"/"+string(Cooling)
			}
			n.states(limit)
			p.progress(&n)
			mine = append(mine, n)
		}
		all = append(all, p.done(mine, h)...)
	}
	slices.SortStableFunc(all, func(a, b need) int {
		return cmp.Or(cmp.Compare(a.v.Dish, b.v.Dish), strings.Compare(string(a.v.What), string(b.v.What)))
	})
	return all
}

// states writes a limit into the verdict. A figure from memory holds nothing; a limit without figures is no figure.
func (n *need) states(l haccp.Limit) {
	n.v.Limit, n.v.Source, n.v.Confirm, n.v.Reason, n.v.Laxer = l.Text, l.Source, l.Confirm, l.Reason, l.Laxer
	n.v.Gates = l.Gate() || len(l.Figures) == 0
}

// limitOf is in whose plans a step, or the cooling of an output, is a control point, and the strictest limit of those.
func (set Setting) limitOf(h plan.Handled) (packs []string, limit haccp.Limit, ok bool) {
	for _, id := range slices.Sorted(maps.Keys(set.Plans)) {
		x := set.Plans[id]
		if x.Dish != h.Dish || h.Kind == plan.Cool && !slices.Contains(x.Outputs, h.Output) {
			continue
		}
		for _, point := range x.Points {
			mine := point.Stage == haccp.CoolingStage && h.Kind == plan.Cool || point.Stage == haccp.CookingStage && h.Kind == plan.Cook && point.Step == h.Step
			if !mine {
				continue
			}
			packs = append(packs, id)
			if !ok || stricter(point.Limit, limit) {
				limit, ok = point.Limit, true
			}
		}
	}
	return packs, limit, ok
}

// stricter compares limits of cooking: those of cooling are one for a kitchen. A limit that holds nothing is not put in the place of one that does.
func stricter(a, b haccp.Limit) bool {
	aC, aS, hot := a.Hot()
	bC, bS, _ := b.Hot()
	switch {
	case !hot || a.Gate() != b.Gate():
		return hot && a.Gate()
	case aC != bC:
		return aC > bC
	}
	return aS > bS
}

// loads are the tasks of the loads: as planned, and those that entries name besides.
func (p Production) loads(h plan.Handled) []string {
	loads := slices.Clone(h.Loads)
	if len(loads) == 0 {
		return nil
	}
	stem := loads[0][:strings.LastIndexByte(loads[0], '/')+1]
	var more []int
	for _, t := range p.told {
		if rest, mine := strings.CutPrefix(taskOf(t.Says), stem); mine {
			no, _, _ := strings.Cut(rest, "/")
			if n, err := strconv.Atoi(no); err == nil && n > len(loads) && n <= mostLoads && !slices.Contains(more, n) {
				more = append(more, n)
			}
		}
	}
	slices.Sort(more)
	for _, n := range more {
		loads = append(loads, stem+strconv.Itoa(n))
	}
	return loads
}

// mostLoads is more loads than any step has: a higher number is a slip.
const mostLoads = 200

// taskOf is the task that a body names; "" for none.
func taskOf(body record.Body) string {
	switch b := body.(type) {
	case record.Started:
		return b.Task
	case record.Finished:
		return b.Task
	case record.Measured:
		return b.Task
	case record.Watched:
		return b.Task
	}
	return ""
}

// under says whether a task of the timetable is a load, or a stage of its cooling.
func under(task, load string) bool {
	return task == load || strings.HasPrefix(task, load+"/")
}

// progress finds how far the work is: every stage of a cooling that has begun must be over.
func (p Production) progress(n *need) {
	open, over := map[string]bool{}, false
	for _, t := range p.told {
		switch b := t.Says.(type) {
		case record.Started:
			if under(b.Task, n.v.Task) {
				n.begun, open[b.Task] = true, true
			}
		case record.Finished:
			if under(b.Task, n.v.Task) {
				n.begun, over, n.v.Due = true, true, max(n.v.Due, t.Happened)
				delete(open, b.Task)
			}
		case record.Skipped:
			if under(b.Task, n.v.Task) {
				n.skip = b.Why
			}
		}
	}
	if n.begun {
		n.skip = ""
	}
	n.ended = over && len(open) == 0 || n.skip != "" || p.Closed() || !n.begun && p.filled(n.v)
}

// filled says whether packs that a record is about were filled: then its work is done, also where nobody said so.
func (p Production) filled(v Verdict) bool {
	packed := p.Packed()
	return slices.ContainsFunc(v.Packs, func(pack string) bool { return packed[pack] > 0 })
}

// done leaves out loads that were skipped because there were fewer of them. One load is always left; a load is cooled if it was cooked.
func (p Production) done(loads []need, h plan.Handled) []need {
	var kept []need
	for i, n := range loads {
		none := n.skip != "" && !p.anyTold(n.v.Task)
		if h.Kind == plan.Cool {
			none = none && i < len(h.From) && p.skipped(h.From[i])
		}
		if !none {
			kept = append(kept, n)
		}
	}
	if len(kept) == 0 && len(loads) > 0 {
		return loads[:1]
	}
	return kept
}

// skipped says whether somebody said that a task will not be done, and nobody began it.
func (p Production) skipped(task string) bool {
	is := false
	for _, t := range p.told {
		switch b := t.Says.(type) {
		case record.Skipped:
			is = is || b.Task == task
		case record.Started, record.Finished:
			if taskOf(b) == task {
				return false
			}
		}
	}
	return is
}

// anyTold says whether a temperature was taken in a load.
func (p Production) anyTold(load string) bool {
	return slices.ContainsFunc(p.told, func(t Told) bool {
		switch t.Says.(type) {
		case record.Measured, record.Watched:
			return under(taskOf(t.Says), load)
		}
		return false
	})
}

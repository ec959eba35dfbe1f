package plan

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/timetable"
	"kettlefrost/internal/timetable/check"
	"kettlefrost/internal/unit"
)

// seed makes the search of a timetable the same on every machine.
const seed = 1

// timetable places the tasks of the day in time.
func (p *planner) timetable() {
	if p.was == nil {
		p.buildDay()
	} else {
		p.underWay()
	}
	p.out.Timetable = Timetable{Status: "empty", Tasks: []Task{}, Rows: []Row{}, Aims: []AimResult{}}
	if len(p.day.tasks) == 0 {
		return
	}
	if len(p.book.People) == 0 {
		p.find(finding.Finding{Code: CodeNobody, Severity: finding.Stop, Where: "people", Path: "people", Message: "nobody works in this kitchen, so nothing can be timed", Fix: "write who works, and when, into the book"})
		return
	}
	p.judgeOutage()
	if p.changes.Told {
		p.placed(p.timedTold())
		return
	}
	crew := p.crew(false)
	problem, result, err := p.timed(crew, p.deadline())
	for round := 0; round < mostWaits && err == nil && result.Start == nil && p.was != nil && p.letWait(); round++ {
		problem, result, err = p.timed(crew, p.deadline())
	}
	strict := problem
	if err == nil && result.Start == nil && len(p.day.filled) > 0 && !p.tubs {
		p.tubs = true
		problem, result, err = p.timed(crew, p.deadline())
	}
	if err == nil && result.Start == nil {
		p.wanting = p.remedies(strict)
		crew, p.yields = p.crew(true), p.was != nil
		problem, result, err = p.timed(crew, p.horizon())
	}
	p.placed(crew, problem, result, err)
}

// placed checks and shows the answer of the engine.
func (p *planner) placed(crew []member, problem dayProblem, result timetable.Result, err error) {
	if err == nil && result.Start != nil {
		if p.tubs {
			p.findTubs(result)
		}
		problem, result = p.washUp(crew, problem, result)
		err = check.Check(p.toDo(problem.Problem), result.Start, nil)
	}
	if err != nil || result.Start == nil {
		p.noTimetable(problem.Problem, result, err)
		return
	}
	p.starts = result.Start[:len(p.day.tasks)]
	p.showTimetable(crew, problem, result)
	p.judgeDay(crew, result)
}

// turns is how long the engine works: on a day to be planned long enough to prove most of them, on one under way, when somebody waits
// for it, or on one of many tries, a quarter of that.
func (p *planner) turns() int {
	if p.trial || p.was != nil {
		return 1
	}
	return 4
}

// timed is the day as a problem, and the answer to it.
func (p *planner) timed(crew []member, until int) (dayProblem, timetable.Result, error) {
	problem := p.problem(crew, until)
	result, err := p.schedule(p.toDo(problem.Problem))
	if result.Start != nil && len(problem.Choices) > 0 {
		problem, result = p.settle(crew, problem, result)
	}
	return problem, result, err
}

// deadline is when the run must be done: as asked for, on its last day, or by the end of the last shift.
func (p *planner) deadline() int {
	if p.req.Finish > 0 {
		return min(p.horizon(), int(p.req.Finish)+(p.days()-1)*dayMinutes)
	}
	return min(p.horizon(), closes(p.crew(false)))
}

// schedule asks the engine for starts. What it has when time is up counts.
func (p *planner) schedule(q timetable.Problem) (timetable.Result, error) {
	result, err := timetable.Solve(p.ctx, q, timetable.Options{Seed: seed, Near: p.near(q), Turns: p.turns()})
	if errors.Is(err, p.ctx.Err()) && result.Start != nil {
		err = nil
	}
	return result, err
}

func (p *planner) showTimetable(crew []member, problem dayProblem, r timetable.Result) {
	tt := &p.out.Timetable
	first, end := p.horizon(), 0
	for i, s := range p.starts {
		first, end = min(first, s), max(end, s+p.day.tasks[i].length)
	}
	opens := min(opens(crew), first)
	tt.Status, tt.Start, tt.End = r.Status.String(), unit.Moment(first), unit.Moment(end)
	tt.Length, tt.Bound = unit.Span(end-opens)*unit.Minute, unit.Span(max(0, r.Bound-opens))*unit.Minute
	if end == r.Bound { // whatever is still open of the other aims, they tell themselves
		tt.Status = timetable.Optimal.String()
	}
	tt.BoundWhy = p.boundWhy(problem.Problem, r)
	p.showAims(problem, r, opens)
	shown := p.showTasks(p.starts, timetable.Slack(p.toDo(problem.Problem), r.Start))
	p.showMoves(shown)
	for _, d := range assign(crew, p.day.tasks, p.starts) {
		p.duty(tt, crew, shown, d)
	}
	p.showRows(crew, problem.Problem, r, shown)
	for i, t := range p.day.tasks {
		for _, s := range t.segs {
			p.showStart(t, s, r.Start[i])
		}
	}
	for _, d := range p.out.Dishes {
		for i := range d.Steps {
			d.Steps[i].EnergyKWh = math.Round(100*d.Steps[i].EnergyKWh) / 100
		}
	}
}

// showTasks lists the tasks by start and returns where each one stands in the list.
func (p *planner) showTasks(start, slack []int) []int {
	order := make([]int, len(start))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(start[a], start[b]) })
	shown := make([]int, len(start))
	for place, i := range order {
		t := p.day.tasks[i]
		shown[i] = place
		task := Task{Key: t.key, Label: t.label, Slack: unit.Span(slack[i]) * unit.Minute, State: t.state, Load: t.load + 1, Loads: t.loads, Kind: t.kind, Start: unit.Moment(start[i]), End: unit.Moment(start[i] + t.length), People: []string{}, On: []string{}, Careful: p.careful(t)}
		if t.dish != nil {
			task.Dish = string(t.dish.id)
		}
		if t.step >= 0 {
			task.Step = t.dish.dish.Steps[t.step].ID
		}
		p.out.Timetable.Tasks = append(p.out.Timetable.Tasks, task)
	}
	return shown
}

// duty puts a person's time at a task into the task and into the person's row.
func (p *planner) duty(tt *Timetable, crew []member, shown []int, d duty) {
	if len(tt.Rows) == 0 {
		for _, m := range crew {
			tt.Rows = append(tt.Rows, Row{Name: m.name, Person: true, Bars: []Bar{}})
		}
	}
	task := &tt.Tasks[shown[d.task]]
	if name := crew[d.member].name; !slices.Contains(task.People, name) {
		task.People = append(task.People, name)
	}
	row := &tt.Rows[d.member]
	row.Bars = append(row.Bars, Bar{Task: shown[d.task], From: unit.Moment(d.from), To: unit.Moment(d.to)})
}

// mostUnits is up to how many equal pieces get a row each; a rack of pans is one row.
const mostUnits = 8

// showRows adds when people are away, and a row for each piece of equipment that is used.
func (p *planner) showRows(crew []member, problem timetable.Problem, r timetable.Result, shown []int) {
	tt := &p.out.Timetable
	for m := range tt.Rows {
		tt.Rows[m].Away = awayWithin(crew[m], int(tt.Start), int(tt.End))
	}
	for i, x := range p.day.places {
		units := p.pieces(problem, r, i)
		rows := make([]Row, 1)
		if units != nil {
			rows = make([]Row, x.count)
		}
		for t := range p.day.tasks {
			for _, h := range p.day.tasks[t].holds {
				if h.place == i && units == nil {
					rows[0].Bars = append(rows[0].Bars, p.bar(t, shown, r))
					tt.Tasks[shown[t]].On = append(tt.Tasks[shown[t]].On, amountOf(h.amount, x))
				}
			}
		}
		for h, hold := range problem.Holds {
			if hold.Resource == 1+i && units == nil {
				p.heldBar(&rows[0], hold, shown, r)
				tt.Tasks[shown[hold.From.Task]].On = append(tt.Tasks[shown[hold.From.Task]].On, amountOf(1, x))
			}
			for _, a := range units {
				if a.Hold == h && a.Task < 0 {
					p.heldBar(&rows[a.Units[0]], hold, shown, r)
					tt.Tasks[shown[hold.From.Task]].On = append(tt.Tasks[shown[hold.From.Task]].On, unitName(x, a.Units[0]))
				}
			}
		}
		for _, a := range units {
			if a.Task < 0 {
				continue
			}
			for _, u := range a.Units {
				rows[u].Bars = append(rows[u].Bars, p.bar(a.Task, shown, r))
				tt.Tasks[shown[a.Task]].On = append(tt.Tasks[shown[a.Task]].On, unitName(x, u))
			}
		}
		for u := range rows {
			rows[u].Name = x.name
			if units != nil {
				rows[u].Name = unitName(x, u)
			}
			if len(rows[u].Bars) > 0 {
				slices.SortFunc(rows[u].Bars, func(a, b Bar) int { return cmp.Compare(a.From, b.From) })
				tt.Rows = append(tt.Rows, rows[u])
			}
		}
	}
}

// pieces tells who has which piece of a place; nil when nobody can say, or when there are too many to draw.
func (p *planner) pieces(q timetable.Problem, r timetable.Result, place int) []timetable.Assignment {
	if p.day.places[place].count > mostUnits {
		return nil
	}
	units, err := timetable.AssignUnits(q, r, 1+place)
	if err != nil {
		return nil
	}
	settled := slices.Clone(units)
	for k, a := range units {
		task := a.Task
		if task < 0 {
			task = q.Holds[a.Hold].From.Task
		}
		piece, ok := p.day.pieces[piecePlace{place, task}]
		if !ok {
			return units
		}
		settled[k].Units = []int{piece}
	}
	return settled
}

func (p *planner) bar(task int, shown []int, r timetable.Result) Bar {
	return Bar{Task: shown[task], From: unit.Moment(r.Start[task]), To: unit.Moment(r.Start[task] + p.day.tasks[task].length)}
}

// heldBar adds the time for which a vessel is held, as a bar of the task that filled it.
func (p *planner) heldBar(row *Row, h timetable.Hold, shown []int, r timetable.Result) {
	row.Bars = append(row.Bars, Bar{Task: shown[h.From.Task], From: unit.Moment(r.Start[h.From.Task] + h.From.Minute), To: unit.Moment(r.Start[h.To.Task] + h.To.Minute)})
}

func unitName(x place, u int) string {
	if x.count == 1 {
		return x.name
	}
	return fmt.Sprintf("%s no. %d", x.name, u+1)
}

func amountOf(n int, x place) string {
	if n == 1 {
		return x.name
	}
	return fmt.Sprintf("%d × %s", n, x.name)
}

// awayWithin is when a member is not there between two minutes.
func awayWithin(m member, from, to int) []Bar {
	var bars []Bar
	at := from
	for _, s := range append(slices.Clone(m.present), stretch{to, to}) {
		if f := min(s.from, to); at < f {
			bars = append(bars, Bar{Task: -1, From: unit.Moment(at), To: unit.Moment(f)})
		}
		at = max(at, s.to)
	}
	return bars
}

// showStart puts a load's start and times into the step that it belongs to.
func (p *planner) showStart(t task, s segment, start int) {
	for di := range p.out.Dishes {
		if p.out.Dishes[di].ID != string(t.dish.id) {
			continue
		}
		for si := range p.out.Dishes[di].Steps {
			step := &p.out.Dishes[di].Steps[si]
			if step.ID != t.dish.dish.Steps[s.step].ID {
				continue
			}
			p.showLoad(step, t, s, start)
		}
	}
}

// showLoad adds one load to a step. Where loads go into different vessels the longest time is told.
func (p *planner) showLoad(step *Step, t task, s segment, start int) {
	step.Starts = append(step.Starts, unit.Moment(start+s.from))
	slices.Sort(step.Starts)
	step.HeatUp, step.Time = max(step.HeatUp, unit.Span(s.heat)*unit.Minute), max(step.Time, unit.Span(s.work)*unit.Minute)
	step.HandsOn = max(step.HandsOn, unit.Span(s.handsOn)*unit.Minute)
	if name := p.book.Equipment[t.in].Name; t.in != t.dish.vesselOf(s.step) && !slices.Contains(strings.Split(step.Equipment, andIn), name) {
		step.Equipment += andIn + name
	}
	_, joules := p.loadEnergyJ(t, s)
	step.EnergyKWh += joules / 3.6e6
}

// andIn stands between the vessels of a step whose loads go into several.
const andIn = " and "

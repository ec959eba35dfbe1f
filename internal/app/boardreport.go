package app

import (
	"kettlefrost/internal/board"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// BoardSchema names the shape of a board's JSON; its number goes up when a reader of the old one could be misled.
const BoardSchema = "kettlefrost.board/1"

// Report is a board as a value for programs.
type Report struct {
	Schema   string         `json:"schema"`
	Run      string         `json:"run"`
	Request  string         `json:"request"`
	Day      record.Day     `json:"day"`
	Open     bool           `json:"open"`
	Now      unit.Moment    `json:"now"`
	Fresh    bool           `json:"fresh"` // the times are those of everything that was entered
	End      unit.Moment    `json:"end"`
	Planned  unit.Moment    `json:"planned_end"`
	Columns  []ReportColumn `json:"columns"`
	Over     []ReportTask   `json:"over"` // the last first
	Moves    []ReportMove   `json:"moves"`
	Findings finding.List   `json:"findings"`
}

// ReportColumn is what there is to do for one person; without a name for anybody.
type ReportColumn struct {
	Person   string       `json:"person"`
	UnderWay []ReportTask `json:"under_way"`
	Now      []ReportTask `json:"now"`
	Next     []ReportTask `json:"next"`
	Waiting  []ReportTask `json:"waiting"`
}

// ReportTask is one task. Times that are not known are left out.
type ReportTask struct {
	Task  string         `json:"task"`
	Label string         `json:"label"`
	Load  int            `json:"load,omitzero"`
	Loads int            `json:"loads,omitzero"`
	On    []string       `json:"on,omitempty"`
	Start unit.Moment    `json:"start"` // as timed now, or as it was
	End   unit.Moment    `json:"end"`
	Due   *unit.Moment   `json:"due,omitempty"` // of what is under way
	Is    board.Progress `json:"is,omitempty"`
	Who   []string       `json:"who,omitempty"`
	Waits []string       `json:"waits_for,omitempty"`
	Why   string         `json:"why,omitempty"`
}

// ReportMove is a task that begins at another time than planned.
type ReportMove struct {
	Task string      `json:"task"`
	Was  unit.Moment `json:"was"`
	Now  unit.Moment `json:"now"`
	Why  string      `json:"why"`
}

// BoardReport is a production as a value for programs.
func BoardReport(p *Production) Report {
	now, planned := p.Ends()
	r := Report{Schema: BoardSchema, Run: p.Run.Name, Request: p.Opened.Request, Day: p.Opened.Day, Open: p.Open, Now: p.Now, Fresh: p.Fresh, End: now, Planned: planned,
		Columns: []ReportColumn{}, Over: []ReportTask{}, Moves: []ReportMove{}, Findings: append(finding.List{}, p.AllFound()...)}
	for _, c := range p.Columns() {
		r.Columns = append(r.Columns, ReportColumn{c.Person, p.reported(c.UnderWay), p.reported(c.Now), p.reported(c.Next), p.reported(c.Waiting)})
	}
	labels := map[string]plan.Task{}
	for _, t := range p.First.Timetable.Tasks {
		labels[t.Key] = t
	}
	for _, t := range p.Board.Over() {
		k := labels[t.Key]
		r.Over = append(r.Over, ReportTask{Task: t.Key, Label: k.Label, Load: k.Load, Loads: k.Loads, Start: p.Clock(t.Began), End: p.Clock(t.Ended), Is: t.Is, Who: who(t), Why: t.Why})
	}
	for _, m := range p.Timed.Timetable.Moves {
		t := p.Timed.Timetable.Tasks[m.Task]
		r.Moves = append(r.Moves, ReportMove{t.Key, m.Was, t.Start, m.Why})
	}
	return r
}

func (p *Production) reported(items []board.Item) []ReportTask {
	tasks := []ReportTask{}
	for _, x := range items {
		t := ReportTask{Task: x.Task.Key, Label: x.Task.Label, Load: x.Task.Load, Loads: x.Task.Loads, On: x.Task.On, Start: x.Task.Start, End: x.Task.End, Is: x.Went.Is, Who: x.Went.Who, Waits: x.Waits}
		if x.Due != 0 {
			due := p.Clock(x.Due)
			t.Start, t.Due = p.Clock(x.Went.Began), &due
		}
		tasks = append(tasks, t)
	}
	return tasks
}

// who are all who had a hand in a task.
func who(t *board.Task) []string {
	for _, name := range t.Who {
		if name == t.EndedBy {
			return t.Who
		}
	}
	return append(t.Who[:len(t.Who):len(t.Who)], t.EndedBy)
}

// AllFound are the findings about the production and about its entries, the gravest first.
func (p *Production) AllFound() finding.List {
	all := append(p.Found[:len(p.Found):len(p.Found)], p.Board.Found...)
	all.Sort()
	return all
}

package app

import (
	"context"
	"fmt"
	"reflect"
	"strings"

	"kettlefrost/internal/board"
	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Cooling is one load of food that cools in a production, and what is to be expected of it.
type Cooling struct {
	Log      critical.Verdict // as it is judged now
	Way      string           // how it is cooled, in the book's words; "" when nobody knows
	Moved    string           // what was done last to cool it otherwise, and when; "" for nothing
	Mass     unit.Mass        // of the load; 0 when the plan has none
	Reheats  int
	Over     bool           // its work is done, or the production is closed
	Zero     record.Instant // 0 s of the case and its forecast
	Case     coolforecast.Case
	Forecast coolforecast.Forecast
	Problem  string // why nothing can be forecast; "" when it can
	way      cooledBy
	went     string // how far its stages are
}

// Ref is what names a load in addresses and commands: its task.
func (c Cooling) Ref() string { return c.Log.Task }

// At is the time of a moment of the forecast.
func (c Cooling) At(s float64) record.Instant { return c.Zero + record.Instant(s*1000) }

// Due is when it must be read next, and whether that is past; false when it need not be.
func (c Cooling) Due(now record.Instant) (at record.Instant, late, any bool) {
	if c.Problem != "" || c.Over || c.Forecast.Due.Why == coolforecast.NotDue {
		return 0, false, false
	}
	at = c.At(c.Forecast.Due.AtS)
	return at, now > at+graceMs, true
}

// graceMs is how late a reading may be without an alarm.
const graceMs = 5 * 60 * 1000

// Grave says whether somebody has to do something about it now.
func (c Cooling) Grave(now record.Instant) bool {
	if c.Over {
		return false
	}
	_, late, _ := c.Due(now)
	switch c.Forecast.Outcome {
	case coolforecast.InDoubt, coolforecast.Misses, coolforecast.Missed:
		return true
	}
	return late || c.Problem != ""
}

// coolingsKept are the forecasts of a production as they were worked out last.
type coolingsKept struct {
	version int
	at      int64 // minutes since 1970
	all     []Cooling
}

// same is a load of this minute of which nothing was entered since.
func (k coolingsKept) same(v critical.Verdict, stages []*board.Task, open bool, minute int64) (Cooling, bool) {
	c, there := CoolingOf(k.all, v.Task)
	same := there && k.at == minute && c.went == wentOf(stages, open) && reflect.DeepEqual(c.Log, v)
	return c, same
}

// wentOf is how far the stages of a load are.
func wentOf(stages []*board.Task, open bool) string {
	text := fmt.Sprint(open)
	for _, t := range stages {
		text += fmt.Sprint(" ", t.Is, t.Began, t.Unmarked)
	}
	return text
}

// Coolings are the loads of a production that are cooled, or were, in the order of its work. What is forecast is as of this minute.
func (b *Boards) Coolings(ctx context.Context, p *Production) ([]Cooling, error) {
	now := record.Instant(b.house.Now().UnixMilli())
	minute := int64(now) / 60_000
	b.mu.Lock()
	kept := b.coolings[p.Run.Name]
	b.mu.Unlock()
	if kept.all != nil && kept.version == p.Run.Version && kept.at == minute {
		return kept.all, nil
	}
	logs, err := b.coolLogs(ctx, p)
	if err != nil {
		return nil, err
	}
	all := []Cooling{}
	for _, v := range logs {
		stages := coolStages(p, v.Task)
		if was, same := kept.same(v, stages, p.Open, minute); same {
			all = append(all, was)
		} else if c, begun := b.cooling(p, v, stages, now); begun {
			all = append(all, c)
		}
	}
	b.mu.Lock()
	b.coolings[p.Run.Name] = coolingsKept{p.Run.Version, minute, all}
	b.mu.Unlock()
	return all, nil
}

// CoolingOf is the load that a task of a timetable cools, whichever of its stages that is; false when there is none.
func CoolingOf(all []Cooling, task string) (Cooling, bool) {
	for _, c := range all {
		if task == c.Log.Task || strings.HasPrefix(task, c.Log.Task+"/") {
			return c, true
		}
	}
	return Cooling{}, false
}

// cooling is one load; false when neither its work has begun nor anything was read of it.
func (b *Boards) cooling(p *Production, v critical.Verdict, stages []*board.Task, now record.Instant) (Cooling, bool) {
	c := Cooling{Log: v, went: wentOf(stages, p.Open)}
	begun, open := len(v.Logs) > 0, false
	for _, t := range stages {
		begun = begun || t.Is == board.Begun || t.Is == board.Done
		open = open || t.Is == board.ToDo || t.Is == board.Begun
	}
	if !begun {
		return c, false
	}
	c.Over = !open || !p.Open
	c.settle(b, p, stages, now)
	return c, true
}

// coolStages are the tasks of the stages of a load, in their order.
func coolStages(p *Production, load string) []*board.Task {
	var all []*board.Task
	for _, t := range p.First.Timetable.Tasks {
		if t.Key == load || strings.HasPrefix(t.Key, load+"/") {
			all = append(all, p.Board.Tasks[t.Key])
		}
	}
	return all
}

// coolLogs are the cooling logs of a production as they are judged; none where the book says by no rules.
func (b *Boards) coolLogs(ctx context.Context, p *Production) ([]critical.Verdict, error) {
	j := b.records.judging
	if j == nil {
		return nil, nil
	}
	if err := b.records.bring(ctx); err != nil {
		return nil, err
	}
	if err := j.bring(ctx); err != nil {
		return nil, err
	}
	b.records.mu.RLock()
	defer b.records.mu.RUnlock()
	var logs []critical.Verdict
	for _, v := range j.all.Runs[p.Run.Name] {
		if v.What == critical.Cooling {
			logs = append(logs, v)
		}
	}
	return logs, nil
}

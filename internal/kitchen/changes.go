package kitchen

import (
	"slices"
	"strings"

	"kettlefrost/internal/unit"
)

// Changes is what has turned out otherwise than planned, while a run is under way. The zero value is that nothing has.
type Changes struct {
	Now  unit.Moment // the time: what was to begin before has begun, unless Late says otherwise or it is Told
	Late []Late
	Gone []Gone
	Out  []Outage
	Told bool // what has begun is what Real says and nothing else, but for appointments, which come by the clock
	Real []Real
}

// Real is a task that somebody has begun, with its times as they really were.
type Real struct {
	Task    string // its key
	Begin   unit.Moment
	End     unit.Moment // when it was over
	Over    bool        // it is; otherwise it is under way
	Skipped bool        // it was not done: it took nothing, and nothing waits for it. It is over
}

// Late is a task that takes longer when it is under way, or begins later when it has not begun. By less than 0 it is early.
type Late struct {
	Task string // the key of a task of the plan, or the beginning of several: see TasksOf
	By   unit.Span
}

// Is tells whether it is a task that is late.
func (l Late) Is(key string) bool {
	return l.Task != "" && (key == l.Task || strings.HasPrefix(key, l.Task+"/"))
}

// Gone is somebody who is not there from a moment on, 0 being now; Until is when they are back, 0 when they do not come back.
type Gone struct {
	Person      PersonID
	From, Until unit.Moment
}

// Outage is equipment that cannot be used: Count pieces of it (0: one), from a moment on (0: now), until it works again (0: not on this
// run).
type Outage struct {
	Equipment   EquipmentID
	Count       int
	From, Until unit.Moment
}

// FromNow is the changes with what was left open filled in: what begins at 0 begins now, and an outage of 0 pieces is of one.
func (c Changes) FromNow() Changes {
	c.Gone, c.Out = slices.Clone(c.Gone), slices.Clone(c.Out)
	for i := range c.Gone {
		if g := &c.Gone[i]; g.From == 0 {
			g.From = c.Now
		}
	}
	for i := range c.Out {
		o := &c.Out[i]
		if o.From == 0 {
			o.From = c.Now
		}
		if o.Count == 0 {
			o.Count = 1
		}
	}
	return c
}

// TasksOf is the keys of tasks that a name covers: the key itself, or all that begin with it, as bean-pot/simmer covers all loads of
// that step and bean-pot the whole dish.
func TasksOf(name string, tasks []string) []string {
	return slices.DeleteFunc(slices.Clone(tasks), func(key string) bool { return !(Late{Task: name}).Is(key) })
}

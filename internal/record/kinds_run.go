package record

import "kettlefrost/internal/unit"

// Opened begins a production: from here on its board can be worked with.
type Opened struct {
	Run     string `json:"run"`     // its name for good: tuesday-2026-12-01
	Request string `json:"request"` // the run of the book that it makes
	Day     Day    `json:"day"`
	Plan    Hash   `json:"plan"` // of the book and the request that the plan was made from
}

// Closed ends a production.
type Closed struct {
	Run  string `json:"run"`
	Note Text   `json:"note,omitzero"`
}

// Started is a task of the timetable that somebody has begun. Tasks are named as in the plan: dish/step/load.
type Started struct {
	Run  string `json:"run"`
	Task string `json:"task"`
}

// Finished is a task that is done.
type Finished struct {
	Run  string `json:"run"`
	Task string `json:"task"`
}

// Skipped is a task that will not be done.
type Skipped struct {
	Run  string `json:"run"`
	Task string `json:"task"`
	Why  string `json:"why"`
}

// Weighed is what came out of a step and was weighed.
type Weighed struct {
	Run        string    `json:"run"`
	Dish       string    `json:"dish"`
	Output     string    `json:"output"`
	Gross      unit.Mass `json:"gross_g,omitzero"`
	Tare       unit.Mass `json:"tare_g,omitzero"`
	Net        unit.Mass `json:"net_g"`
	Instrument string    `json:"instrument,omitzero"`
}

// Wasted is what was thrown away of a run before it had a lot: burnt, spilt, left in the pot. What has a lot is WrittenOff.
type Wasted struct {
	Run    string    `json:"run"`
	Dish   string    `json:"dish"`
	Output string    `json:"output,omitzero"` // of which step; left out when nobody can tell
	Mass   unit.Mass `json:"mass_g"`
	Why    string    `json:"why"`
}

// Measured is a temperature, of food in a run or of a place.
type Measured struct {
	Run        string    `json:"run,omitzero"`
	Dish       string    `json:"dish,omitzero"`
	Output     string    `json:"output,omitzero"`
	Task       string    `json:"task,omitzero"`  // which load, when there are several: as in Started
	Place      Place     `json:"place,omitzero"` // a freezer, a walk-in, or where in the pot
	Point      string    `json:"point,omitzero"` // where in the food: the middle of the deepest pan
	Temp       unit.Temp `json:"temp_c"`
	Instrument string    `json:"instrument,omitzero"`
}

// CheckWeighed is check-weights of a filling, in the order of filling.
type CheckWeighed struct {
	Run   string      `json:"run,omitzero"`
	Pack  string      `json:"pack"`
	Tares []unit.Mass `json:"tares_g"`
	Gross []unit.Mass `json:"gross_g"`
}

// Changed is what turned out otherwise than planned on the day: the rest is timed again.
type Changed struct {
	Run  string       `json:"run"`
	Late []LateTask   `json:"late,omitzero"`
	Gone []GonePerson `json:"gone,omitzero"`
	Out  []Outage     `json:"out,omitzero"`
}

// LateTask is a task that begins or ends later, or earlier, than planned.
type LateTask struct {
	Task    string `json:"task"`
	Minutes int64  `json:"minutes"`
	Early   bool   `json:"early,omitzero"`
}

// GonePerson is somebody who is not there.
type GonePerson struct {
	Person string  `json:"person"`
	From   Instant `json:"from_ms,omitzero"`
	Until  Instant `json:"until_ms,omitzero"`
}

// Outage is equipment that cannot be used.
type Outage struct {
	Equipment string  `json:"equipment"`
	Count     int64   `json:"count"`
	From      Instant `json:"from_ms,omitzero"`
	Until     Instant `json:"until_ms,omitzero"`
}

func (Opened) Kind() Kind       { return "opened" }
func (Closed) Kind() Kind       { return "closed" }
func (Started) Kind() Kind      { return "started" }
func (Finished) Kind() Kind     { return "finished" }
func (Skipped) Kind() Kind      { return "skipped" }
func (Weighed) Kind() Kind      { return "weighed" }
func (Wasted) Kind() Kind       { return "wasted" }
func (Measured) Kind() Kind     { return "measured" }
func (CheckWeighed) Kind() Kind { return "check-weighed" }
func (Changed) Kind() Kind      { return "changed" }

func (w Weighed) agree(c *checker) {
	gross, tare := given{"gross_g", w.Gross != 0}, given{"tare_g", w.Tare != 0}
	c.needs(gross, tare)
	c.needs(tare, gross)
	if gross.there && tare.there && w.Gross-w.Tare != w.Net {
		c.at("net_g", "is "+w.Net.String()+", but gross less tare is "+(w.Gross-w.Tare).String(), "weigh again, or leave gross_g and tare_g out")
	}
}

func (m Measured) agree(c *checker) {
	c.atLeastOne(given{"place", m.Place != ""}, given{"output", m.Output != ""}, given{"task", m.Task != ""})
	c.needs(given{"output", m.Output != ""}, given{"dish", m.Dish != ""})
	c.needs(given{"task", m.Task != ""}, given{"run", m.Run != ""})
}

func (x Changed) agree(c *checker) {
	c.atLeastOne(given{"late", len(x.Late) > 0}, given{"gone", len(x.Gone) > 0}, given{"out", len(x.Out) > 0})
}

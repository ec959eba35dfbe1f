// Package thermometers says how far wrong a thermometer may have read at a time, by what is written on it and by how it was checked before and
// after: folded from the entries of its checks. What a reading proves is judged at the bad end of that.
//
// A check tells of the time before it too: one that fails casts doubt on every reading since the last that was good.
package thermometers

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// Instrument is a thermometer, probe or logger as the book has it.
type Instrument struct {
	ID        string
	Name      string
	Kind      string       // probe, handheld, logger
	At        record.Place // the place it watches; "" where it goes from pot to pot
	AccuracyC float64      // how far wrong it may read, as its maker says; 0 is that nobody said
	EveryDays int          // days from one check to the next; 0 is that nobody said
	WarmestC  *float64     // limit of the place it watches; nil is that of the rules
}

// How far wrong a thermometer may be in a food business. The figures are read in California's text of the same wording; the number of the
// section is from memory.
const (
	CodeAccuracyC = 2 / 1.8 // ±2 °F; one that shows °C, ±1 °C: the wider of the two, since nobody knows which it is
	CodeSource    = "FDA Food Code 4-203.11: a food thermometer is right to ±2 °F, or ±1 °C where it shows °C (number of the section from memory)"
)

// Stated is how far wrong it may read by what is known without any check: as the book says, or as the code allows.
func (x Instrument) Stated() float64 { return cmp.Or(x.AccuracyC, CodeAccuracyC) }

// Check is one check as it was entered.
type Check struct {
	Entry  record.ID
	At     record.Instant
	Who    string
	Method record.CheckMethod
	ReadC  float64
	TrueC  float64
	AfterC *float64 // after it was adjusted
	Kept   record.CheckResult
	Note   record.Text
}

// FoundC is how far off it was when it was checked: above 0, it read too warm.
func (c Check) FoundC() float64 { return c.ReadC - c.TrueC }

// LeftC is how far off it was when it went back into use.
func (c Check) LeftC() float64 {
	if c.AfterC != nil {
		return *c.AfterC - c.TrueC
	}
	return c.FoundC()
}

// State is all checks, by thermometer. The zero State has none.
type State struct{ checks map[string][]Check }

// Heeds says whether entries of a kind tell of checks.
func Heeds(k record.Kind) bool { return k == record.Calibrated{}.Kind() }

// Take folds in the next entry, in the order in which things happened.
func (s *State) Take(e record.Entry) finding.List {
	if !Heeds(e.Kind) {
		return nil
	}
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return finding.List{{Code: CodeUnreadable, Severity: finding.Caution, Where: fmt.Sprintf("entry %d (%s)", e.Seq, e.Kind), Path: "entries." + e.ID.String(), Message: "what it says cannot be read: " + err.Error(), Fix: "enter the check again"}}
	}
	b := body.(record.Calibrated) // what this kind decodes to
	c := Check{Entry: e.ID, At: e.Happened, Who: e.Who, Method: b.Method, ReadC: b.Read.C(), TrueC: b.True.C(), Kept: b.Kept, Note: b.Note}
	if b.After != nil {
		after := b.After.C()
		c.AfterC = &after
	}
	if s.checks == nil {
		s.checks = map[string][]Check{}
	}
	s.checks[b.Instrument] = append(s.checks[b.Instrument], c)
	return nil
}

// Bench is all thermometers of a kitchen with their checks. It lends from the state.
type Bench struct {
	listed map[string]Instrument
	state  *State
}

// Look puts the thermometers of the book and their checks together.
func Look(listed []Instrument, state *State) Bench {
	b := Bench{listed: map[string]Instrument{}, state: state}
	for _, x := range listed {
		x.Name = cmp.Or(x.Name, x.ID)
		b.listed[x.ID] = x
	}
	return b
}

// Instrument is one by its ID, and whether the book has it.
func (b Bench) Instrument(id string) (Instrument, bool) {
	x, listed := b.listed[id]
	if !listed {
		return Instrument{ID: id, Name: id}, false
	}
	return x, true
}

// Checks are those of one thermometer, the earliest first. They are lent.
func (b Bench) Checks(id string) []Check { return b.state.checks[id] }

// All are the thermometers of the book and those that only a check names, by ID.
func (b Bench) All() []Instrument {
	ids := map[string]bool{}
	for id := range b.listed {
		ids[id] = true
	}
	for id := range b.state.checks {
		ids[id] = true
	}
	var all []Instrument
	for _, id := range slices.Sorted(maps.Keys(ids)) {
		x, _ := b.Instrument(id)
		all = append(all, x)
	}
	return all
}

// slackC forgives the rounding of °F in °C: limits are inclusive.
const slackC = 1e-9

// good says whether a check found a thermometer as right as it should be.
func (x Instrument) good(foundC float64) bool { return math.Abs(foundC) <= x.Stated()+slackC }

// Copy is a state of its own that is the same.
func (s *State) Copy() *State {
	c := &State{checks: map[string][]Check{}}
	for id, checks := range s.checks {
		c.checks[id] = slices.Clip(checks)
	}
	return c
}

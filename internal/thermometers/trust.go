package thermometers

import (
	"math"

	"kettlefrost/internal/record"
)

// Trust is what a reading of a thermometer at a time is worth.
type Trust struct {
	AccuracyC  float64 // it may have read so far wrong, either way: the worst of what is known
	StatedC    float64 // by the book or, where that says nothing, by the code
	Listed     bool    // the book has it
	Said       bool    // the book says how right it is: otherwise the code's figure is taken
	Unusable   bool    // it was withdrawn: what it read proves nothing
	Doubt      bool    // a check after it failed, and no good one of the kind lies between: AccuracyC is what that check found, or more
	DoubtSince record.Instant
	Overdue    bool   // it should have been checked before
	Before     *Check // the last one
	After      *Check // the one that casts doubt, else the next
}

// AccuracyC is how far wrong a thermometer may have read at a time, and whether what it read proves anything.
func (b Bench) AccuracyC(id string, at record.Instant) (c float64, usable bool) {
	t := b.Trust(id, at)
	return t.AccuracyC, !t.Unusable
}

// Trust is what a reading of a thermometer at a time is worth: the worst of what its maker says, what the last check of each kind before left
// and what the next of each kind found. A thermometer that the book does not have is taken as right as the code asks for, until a check says
// otherwise.
func (b Bench) Trust(id string, at record.Instant) Trust {
	x, listed := b.Instrument(id)
	t := Trust{AccuracyC: x.Stated(), StatedC: x.Stated(), Listed: listed, Said: x.AccuracyC > 0}
	checks := b.Checks(id)
	n := 0 // checks until then
	for n < len(checks) && checks[n].At <= at {
		n++
	}
	lastGood := t.before(x, checks[:n])
	t.after(x, checks[n:], lastGood)
	t.Overdue = x.EveryDays > 0 && !t.Unusable && (t.Before == nil || at >= x.dueAfter(*t.Before))
	return t
}

// before takes what checks until then left, the last of each kind. What was found before it was adjusted or withdrawn does not hold any more.
// It says when the last good one of each kind was.
func (t *Trust) before(x Instrument, checks []Check) map[record.CheckMethod]record.Instant {
	lastGood, seen, holds := map[record.CheckMethod]record.Instant{}, map[record.CheckMethod]bool{}, true
	for i := len(checks) - 1; i >= 0; i-- {
		c := &checks[i]
		if t.Before == nil {
			t.Before, t.Unusable = c, c.Kept == record.Withdrawn
		}
		if holds && !seen[c.Method] {
			t.AccuracyC = max(t.AccuracyC, math.Abs(c.LeftC()))
		}
		if _, known := lastGood[c.Method]; !known && x.good(c.LeftC()) {
			lastGood[c.Method] = c.At
		}
		seen[c.Method] = true
		holds = holds && c.Kept == record.InUse
	}
	return lastGood
}

// after takes what the next check of each kind found. Those after it was adjusted or withdrawn tell nothing of the time before.
func (t *Trust) after(x Instrument, checks []Check, lastGood map[record.CheckMethod]record.Instant) {
	seen := map[record.CheckMethod]bool{}
	for i := range checks {
		c := &checks[i]
		if seen[c.Method] {
			continue
		}
		seen[c.Method] = true
		if t.After == nil {
			t.After = c
		}
		t.AccuracyC = max(t.AccuracyC, math.Abs(c.FoundC()))
		if !x.good(c.FoundC()) && !t.Doubt {
			t.Doubt, t.DoubtSince, t.After = true, lastGood[c.Method], c
		}
		if c.Kept != record.InUse {
			return
		}
	}
}

const dayMs = 24 * 3600 * 1000

// dueAfter is when the next check is due after one.
func (x Instrument) dueAfter(c Check) record.Instant {
	return c.At + record.Instant(x.EveryDays)*dayMs
}

package netcontents

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Aim is what a filling is set to.
type Aim struct {
	Terms      Terms
	Confidence unit.Share // of passing the plan: at least this
	Step       unit.Mass  // the target is rounded up to a whole multiple of this; 0: to a nanogram
	Parts      []Part     // what goes into a pack; their masses add up to the label
}

// Part is one component of a pack, weighed in by itself.
type Part struct {
	Name       string
	Mass       unit.Mass // of the label
	SpreadG    float64   // standard deviation of what lands in a pack; Spread.UpperG is the careful choice
	PricePerKg unit.Money
	Free       bool      // may be overfilled
	Room       unit.Mass // at most by so much; 0: as much as it takes
	// TopsUp says that it goes in last, until the pack is at its total: what the others are off is made good, and only its own spread stays.
	TopsUp bool
}

// Bind is what holds a target up.
type Bind int

const (
	BindLabel    Bind = iota + 1 // the mean may not lie under the label, however many would pass
	BindAverage                  // the test of the average
	BindPacks                    // the count of short packs
	BindTwice                    // packs short twice over
	BindFortieth                 // the packer's duty that at most one pack in forty is short by more than the TNE
)

var bindNames = [...]string{BindLabel: "the label", BindAverage: "the average", BindPacks: "short packs", BindTwice: "packs short twice over", BindFortieth: "one short pack in forty"}

// String is what holds the target up, in words.
func (b Bind) String() string {
	if b < BindLabel || b > BindFortieth {
		return fmt.Sprintf("bind(%d)", int(b))
	}
	return bindNames[b]
}

// Target is how full to fill.
type Target struct {
	Plan     Plan
	SpreadG  float64   // of a whole pack
	Mean     unit.Mass // fill to this mean net weight
	NotUnder unit.Mass // no mean under this can do: the test or duty in Bind asks for it alone. What Mean is above it is caution, and Step
	Bind     Bind
	Chance   Chance // at Mean
	// UnderLabel is the share of packs under the label at Mean.
	UnderLabel float64

	Over  unit.Mass  // given away in each pack on average: Mean less the label
	Cost  unit.Money // of that
	Lot   unit.Money // of that, in the whole lot
	Parts []PartTarget
}

// PartTarget is how much of one component goes into a pack.
type PartTarget struct {
	Mean unit.Mass
	Over unit.Mass // of it more than its share of the label
	Cost unit.Money
}

// TargetOf is the least mean fill, not under the label, at which a lot passes its plan with the confidence asked for, and the cheapest way
// to bring the overfill about: all onto the free part of the lowest price, as far as it has room, then onto the next; of equal ones onto the
// one listed first. The chance is Chance.AtLeast, which errs on the safe side. Parts scatter apart from each other, so their variances
// add up. The spread is taken as known, and the filling as being on its target. Errors are *InputError, *TableError and *RoomError.
func TargetOf(a Aim) (Target, error) {
	plan, err := a.Terms.Plan()
	if err != nil {
		return Target{}, err
	}
	if err := a.check(); err != nil {
		return Target{}, err
	}
	t := Target{Plan: plan, SpreadG: spreadOf(a.Parts)}
	t.aim(a)
	t.Over = t.Mean - a.Terms.Label
	if t.Parts, err = split(a.Parts, t.Over); err != nil {
		return Target{}, err
	}
	for _, p := range t.Parts {
		t.Cost += p.Cost
	}
	t.Lot = t.Cost.Times(int64(a.Terms.Lot), 1)
	return t, nil
}

// aim finds the mean.
func (t *Target) aim(a Aim) {
	o, allowed := oddsOf(t.Plan), 1-a.Confidence.F()
	floors := [...]float64{ // what each test or duty asks for by itself
		BindLabel:    0,
		BindAverage:  least(func(overG float64) bool { return o.average(overG, t.SpreadG) <= allowed }),
		BindPacks:    least(func(overG float64) bool { return o.packs(overG, t.SpreadG) <= allowed }),
		BindTwice:    least(func(overG float64) bool { return o.twice(overG, t.SpreadG) <= allowed }),
		BindFortieth: 0,
	}
	if t.Plan.Twice {
		floors[BindFortieth] = max(0, quantile(39.0/40)*t.SpreadG-grams(t.Plan.Shortfall))
	}
	t.Bind = BindLabel
	for b := BindAverage; b <= BindFortieth; b++ {
		if floors[b] > floors[t.Bind] {
			t.Bind = b
		}
	}
	floor := floors[t.Bind]
	overG := least(func(overG float64) bool { return overG >= floor && o.fails(overG, t.SpreadG) <= allowed })
	label := a.Terms.Label
	t.NotUnder = label + massUp(floor)
	t.Mean = upTo(label+massUp(overG), max(1, a.Step))
	overG = grams(t.Mean - label)
	t.Chance = o.chance(overG, t.SpreadG)
	t.UnderLabel = o.shortBy(0, overG, t.SpreadG)
}

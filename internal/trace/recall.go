package trace

import (
	"fmt"
	"slices"

	"kettlefrost/internal/unit"
)

// State is where packs are.
type State int

const (
	Unknown    State = iota // nobody can tell
	OnHand                  // at a place of ours
	Handed                  // to a recipient
	WrittenOff              // thrown away, taken as samples
	Reused                  // opened and put into another lot, which is traced as well
)

var stateNames = [...]string{"unknown", "on hand", "handed over", "written off", "reused"}

// String is the state in words.
func (s State) String() string {
	if s < Unknown || s > Reused {
		return fmt.Sprintf("state(%d)", int(s))
	}
	return stateNames[s]
}

// Stretch is packs of one lot with numbers that follow each other, and where they are. Packs of a lot are numbered from 1.
type Stretch struct {
	Lot         int
	First, Last int64
	State       State
	Where       int // the place or recipient, by the caller's numbers
}

// Count is how many packs a stretch is.
func (s Stretch) Count() int64 { return s.Last - s.First + 1 }

// String is the stretch in words.
func (s Stretch) String() string { return fmt.Sprintf("packs %d-%d of lot %d", s.First, s.Last, s.Lot) }

// Numbers is packs that follow each other, both ends included.
type Numbers struct{ First, Last int64 }

// Recall is what has to be fetched back, and whether it can all be told where it is.
type Recall struct {
	Lines []Line    // one for each state and place or recipient
	Packs []PackLot // one for each lot in packs, in the order of the reach
	Bulk  []Balance // one for each lot in bulk, in the order of the reach
	Made  Tally     // all packs of those lots
	Found Tally     // those of them that are in a known place, each counted once
	Told  Tally     // all that was told to be in a known place: the same packs twice count twice, and packs never made count too
	Open  unit.Mass // of the lots in bulk, what is unaccounted, taken without its sign
	Came  unit.Mass // of the lots in bulk, what came
}

// Tally is packs by count and by mass.
type Tally struct {
	Count int64
	Mass  unit.Mass
}

// Line is packs in one place, or with one recipient.
type Line struct {
	State State
	Where int
	Tally
	Packs []Stretch // by lot and number
}

// PackLot is the packs of one lot.
type PackLot struct {
	Lot               int
	Made, Found, Told Tally
	Missing           []Numbers // packs that were made and are in no known place
	Twice             []Numbers // packs that are in two known places at once
	Beyond            []Numbers // packs that are somewhere and were never made
}

// Complete says that every pack was made once and is in one known place.
func (p PackLot) Complete() bool {
	return len(p.Missing) == 0 && len(p.Twice) == 0 && len(p.Beyond) == 0
}

// Complete says that every pack is in one known place and that nothing in bulk is unaccounted. Above 100 % is not complete either.
func (r Recall) Complete() bool {
	return r.Open == 0 && !slices.ContainsFunc(r.Packs, func(p PackLot) bool { return !p.Complete() })
}

// CountRatio is the effectiveness of a recall: (on hand + delivered + accounted losses) over made, here as a fraction of one
// (NC State Extension, recall checklist); 1 if nothing was made.
func (r Recall) CountRatio() float64 { return ratio(r.Told.Count, r.Made.Count) }

// MassRatio is the same by mass.
func (r Recall) MassRatio() float64 { return ratio(r.Told.Mass, r.Made.Mass) }

func ratio[T ~int64](told, made T) float64 {
	if made == 0 && told == 0 {
		return 1
	}
	return float64(told) / float64(made)
}

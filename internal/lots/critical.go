package lots

import (
	"iter"
	"slices"

	"kettlefrost/internal/record"
)

// Decision is what a named person decided on critical records of a lot.
type Decision struct {
	Entry       record.ID
	Points      []string
	Numbers     record.Numbers // none: all of it
	Disposition record.Disposition
	Why         string
	Who         string
	At          record.Instant
}

// Keep puts the holds that follow from critical records in place of those that were put before. They are no entries: whoever judges the records
// puts them again whenever a lot or a record has changed, before anybody looks.
func (s *State) Keep(holds map[record.Lot][]Hold) {
	for l := range s.All() {
		if h := holds[l.ID]; len(h) > 0 || len(l.byRecords) > 0 {
			l.byRecords = h
			l.gather()
		}
	}
}

// ByHand says whether somebody holds any of it.
func (l *Lot) ByHand() bool { return len(l.byHand) > 0 }

// ByRecords says whether any of it is held for its critical records.
func (l *Lot) ByRecords() bool { return len(l.byRecords) > 0 }

// gather puts the holds of both kinds together.
func (l *Lot) gather() { l.Holds = slices.Concat(l.byHand, l.byRecords) }

// decided notes a decision on critical records. Whether it ends a hold is for whoever judges them.
func (t *taking) decided(l *Lot, b record.Released) {
	l.Decisions = append(l.Decisions, Decision{t.e.ID, b.Points, b.Numbers, b.Disposition, b.Why, t.e.Who, t.e.Happened})
}

// Parents are the lots that went into one, by one step; a pot is among them.
func (s *State) Parents(l *Lot) iter.Seq[*Lot] {
	return func(yield func(*Lot) bool) {
		for _, i := range s.graph.Inputs(l.node) {
			if !yield(s.byNode[s.graph.Flow(i).From]) {
				return
			}
		}
	}
}

// Children are the lots that one went into, by one step; a pot is among them.
func (s *State) Children(l *Lot) iter.Seq[*Lot] {
	return func(yield func(*Lot) bool) {
		for _, i := range s.graph.Outputs(l.node) {
			if !yield(s.byNode[s.graph.Flow(i).To]) {
				return
			}
		}
	}
}

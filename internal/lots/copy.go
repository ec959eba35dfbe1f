package lots

import (
	"maps"
	"slices"

	"kettlefrost/internal/record"
)

// Copy is the state as it is now. What is taken by one of the two does not change the other.
func (s *State) Copy() *State {
	c := &State{
		lots: make(map[record.Lot]*Lot, len(s.lots)), byNode: make([]*Lot, len(s.byNode)), graph: s.graph.Copy(),
		customers: maps.Clone(s.customers), drills: slices.Clone(s.drills), touched: maps.Clone(s.touched),
	}
	c.byName = make([]*Lot, len(s.byName))
	all := make([]Lot, len(s.byNode))
	for i, l := range s.byNode {
		all[i] = *l
		l = &all[i]
		l.Here, l.Handed, l.Doubted, l.byHand = maps.Clone(l.Here), slices.Clone(l.Handed), slices.Clone(l.Doubted), slices.Clone(l.byHand)
		l.Events, l.Decisions = slices.Clip(l.Events), slices.Clip(l.Decisions) // what was told is never changed
		l.gather()
		c.lots[l.ID], c.byNode[i] = l, l
	}
	for i, l := range s.byName {
		c.byName[i] = c.lots[l.ID]
	}
	return c
}

package lots

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/record"
	"kettlefrost/internal/trace"
)

// UnknownError says that no entry names a lot.
type UnknownError struct{ Lot record.Lot }

func (e *UnknownError) Error() string {
	return fmt.Sprintf("lots: no entry names a lot %q: check how it is written on the tub", e.Lot)
}

// Reached is a lot that a trace leads to.
type Reached struct {
	*Lot
	Layer   int           // steps away, at most, from what was asked for
	Asked   bool          // it is what was asked for
	Content trace.Content // forward: of what was asked for in it; backward: of it in what was asked for
}

// Forward is everything that contains any of these lots: nearer ones first, by name. Errors are *UnknownError.
func (s *State) Forward(ids ...record.Lot) ([]Reached, error) {
	reach, err := s.follow(s.graph.Forward, ids)
	return s.reached(reach), err
}

// Backward is everything that went into these lots: nearer ones first, by name. Errors are *UnknownError.
func (s *State) Backward(ids ...record.Lot) ([]Reached, error) {
	reach, err := s.follow(s.graph.Backward, ids)
	return s.reached(reach), err
}

func (s *State) follow(way func(...int) (trace.Reach, error), ids []record.Lot) (trace.Reach, error) {
	var nodes []int
	for _, id := range ids {
		l := s.lots[id]
		if l == nil {
			return trace.Reach{}, &UnknownError{id}
		}
		nodes = append(nodes, l.node)
	}
	return way(nodes...)
}

// reached puts lots in an order that does not depend on which entry came first. Every flow leads to a higher layer.
func (s *State) reached(r trace.Reach) []Reached {
	var all []Reached
	for _, x := range r.Lots {
		all = append(all, Reached{Lot: s.byNode[x.Lot], Layer: x.Layer, Asked: x.Asked, Content: x.Content})
	}
	slices.SortFunc(all, func(a, b Reached) int { return cmp.Or(cmp.Compare(a.Layer, b.Layer), cmp.Compare(a.ID, b.ID)) })
	return all
}

// Born is every lot that came at or after one time and before another.
func (s *State) Born(from, before record.Instant) []record.Lot {
	var ids []record.Lot
	for l := range s.All() {
		if l.Sort != Pot && from <= l.Born && l.Born < before {
			ids = append(ids, l.ID)
		}
	}
	return ids
}

// Balance is where a lot went: Came = Used + OnHand + Waste + Dispatched + Unaccounted, to the nanogram. Packs count as their mean. Of a pot
// Came is what was used for it, Used what was made of it, and Unaccounted what boiled away or nobody wrote down, below 0 if it was
// stretched, with water say. Errors are *UnknownError and *trace.InputError.
func (s *State) Balance(id record.Lot) (trace.Balance, error) {
	l := s.lots[id]
	if l == nil {
		return trace.Balance{}, &UnknownError{id}
	}
	return s.graph.Balance(s.holding(l))
}

// holding is what is known of a lot beside what went into others.
func (s *State) holding(l *Lot) trace.Holding {
	here := l.OnHand()
	h := trace.Holding{Lot: l.node, OnHand: here.Mass + s.MassOf(l, here.Numbers), Waste: l.WrittenOff.Mass + s.MassOf(l, l.WrittenOff.Numbers)}
	for _, x := range l.Handed {
		h.Dispatched += s.MassOf(l, x.Numbers)
	}
	return h
}

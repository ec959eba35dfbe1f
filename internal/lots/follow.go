package lots

import (
	"fmt"

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

// Forward is everything that contains any of these lots, what was asked for first. Errors are *UnknownError.
func (s *State) Forward(ids ...record.Lot) ([]Reached, error) {
	reach, err := s.follow(s.graph.Forward, ids)
	return s.reached(reach), err
}

// Backward is everything that went into these lots, what was asked for first. Errors are *UnknownError.
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

func (s *State) reached(r trace.Reach) []Reached {
	var all []Reached
	for _, x := range r.Lots {
		all = append(all, Reached{Lot: s.byNode[x.Lot], Layer: x.Layer, Asked: x.Asked, Content: x.Content})
	}
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

// Balance is where a lot went: Came = Used + OnHand + Waste + Dispatched + Unaccounted, to the nanogram. Packs count as their mean.
// Errors are *UnknownError.
func (s *State) Balance(id record.Lot) (trace.Balance, error) {
	l := s.lots[id]
	if l == nil {
		return trace.Balance{}, &UnknownError{id}
	}
	return s.graph.Balance(l.holding())
}

// holding is what is known of a lot beside what went into others.
func (l *Lot) holding() trace.Holding {
	here := l.OnHand()
	h := trace.Holding{Lot: l.node, OnHand: here.Mass + l.MassOf(here.Numbers.Count()), Waste: l.WrittenOff.Mass + l.MassOf(l.WrittenOff.Numbers.Count())}
	for _, x := range l.Handed {
		h.Dispatched += l.MassOf(x.Numbers.Count())
	}
	return h
}

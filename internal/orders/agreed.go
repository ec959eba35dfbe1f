package orders

import (
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Agreed is the price of one pack of a kind that was agreed with an order, with a delivery of a standing order on its day, or with a standing order as
// it is today; 0 when none was.
func (s *State) Agreed(id, pack string, today record.Day) unit.Money {
	for _, l := range s.linesOf(id, today) {
		if l.Pack == pack {
			return l.Each
		}
	}
	return 0
}

// linesOf is what was ordered under a number; none when nobody gave it.
func (s *State) linesOf(id string, today record.Day) []record.OrderLine {
	if s.isStanding(id) {
		return s.told[id].asOf(today).Lines
	}
	if t := s.told[id]; t != nil {
		return t.terms[0].Lines
	}
	if base, day, ok := splitDelivery(id); ok && s.isStanding(base) {
		if x, on := s.told[base].on(day); on {
			return x.Lines
		}
	}
	return nil
}

// asOf is the terms as they are on a day; before the first, those of the first.
func (t told) asOf(day record.Day) term {
	now := t.terms[0]
	for _, x := range t.terms {
		if x.Due <= day {
			now = x
		}
	}
	return now
}

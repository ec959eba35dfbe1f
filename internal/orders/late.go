package orders

import (
	"cmp"

	"kettlefrost/internal/record"
)

// mark is an entry's place in the order in which things happened.
type mark struct {
	at  record.Instant
	seq uint64
}

func markOf(e record.Entry) mark { return mark{e.Happened, e.Seq} }

func (m mark) compare(o mark) int { return cmp.Or(cmp.Compare(m.at, o.at), cmp.Compare(m.seq, o.seq)) }

// touch is something that an entry reads or changes.
type touch struct{ kind, name string }

// touched is everything that an entry reads or changes, as far as it is known now.
func (s *State) touched(body record.Body) []touch {
	var all []touch
	order := func(id string) {
		all = append(all, touch{"order", id})
		if base := deliveryOf(id); base != "" {
			all = append(all, touch{"order", base})
		}
	}
	switch b := body.(type) {
	case record.Customer:
		all = append(all, touch{"customer", b.Customer})
	case record.Ordered:
		order(b.Order)
	case record.Cancelled:
		order(b.Order)
		ids := []string{b.Order}
		for id := range s.begun[b.Order] {
			ids = append(ids, id)
		}
		for _, id := range ids {
			order(id)
			for _, lot := range s.lotsOf[id] {
				all = append(all, touch{"lot", string(lot)})
			}
		}
	case record.Packed:
		all = append(all, touch{"lot", string(b.Lot)})
	case record.Picked:
		order(b.Order)
		all = append(all, touch{"lot", string(b.Lot)})
	case record.HandedOver:
		order(b.Order)
		all = append(all, touch{"lot", string(b.Lot)})
	case record.Returned:
		all = append(all, touch{"lot", string(b.Lot)})
	case record.Routed:
		all = append(all, touch{"route", string(b.Day)})
	}
	return all
}

// Commutes says whether an entry that happened before some that were taken can be taken now all the same: none of those has to do with the
// same order, the same lot, the same customer or the same day's route. Then the state is what it would be if the entries had been taken in
// their order; only the findings may stand in another.
func (s *State) Commutes(e record.Entry) bool {
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return true // it changes nothing, and is found all the same
	}
	for _, t := range s.touched(body) {
		if s.last[t].compare(markOf(e)) > 0 {
			return false
		}
	}
	return true
}

// leave notes that an entry was taken.
func (s *State) leave(e record.Entry, body record.Body) {
	now := markOf(e)
	for _, t := range s.touched(body) {
		if now.compare(s.last[t]) > 0 {
			s.last[t] = now
		}
	}
}

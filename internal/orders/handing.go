package orders

import (
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// handedOver has packs leave the house. Whoever they were set aside for, they are no more.
func (t *taking) handedOver(b record.HandedOver) {
	n := b.Numbers
	if twice := n.Intersect(t.s.outside[b.Lot]); !twice.Empty() {
		t.find(CodeGoneTwice, finding.Caution, b.Order, "packs "+twice.String()+" of "+string(b.Lot)+" had left the house before", fixLookAtPack, count("twice", twice.Count()))
		n = n.Minus(twice)
	}
	t.handedWrongly(b)
	for _, id := range slices.Sorted(maps.Keys(t.s.aside[b.Lot])) {
		both := n.Intersect(t.s.aside[b.Lot][id])
		if !both.Empty() && id != b.Order {
			t.find(CodeTakenFrom, finding.Caution, b.Order, "packs "+both.String()+" of "+string(b.Lot)+" were set aside for order "+id+", which lacks them now", "pick order "+id+" again", count("taken", both.Count()))
		}
		if !both.Empty() {
			t.robbed = append(t.robbed, id)
		}
		t.s.dropAside(b.Lot, id, both)
	}
	if n.Empty() {
		return
	}
	h := &Handing{Entry: t.e.ID, Order: b.Order, Customer: b.Customer, Lot: b.Lot, Numbers: n, Address: b.Address, TakenBy: b.TakenBy, At: t.e.Happened, Who: t.e.Who}
	t.s.outside[b.Lot] = t.s.outside[b.Lot].Union(n)
	t.s.gone[b.Order] = append(t.s.gone[b.Order], h)
	t.s.byLot[b.Lot] = append(t.s.byLot[b.Lot], h)
	t.s.names(b.Order, b.Lot)
}

// handedWrongly finds packs that went to an order that is not there, is off, or is somebody else's.
func (t *taking) handedWrongly(b record.HandedOver) {
	if b.Order == "" {
		return
	}
	if !t.s.known(b.Order) {
		t.find(CodeOrderUnknown, finding.Caution, b.Order, "packs went to an order that nobody gave", fixEnterOrder, count("packs", b.Numbers.Count()))
		return
	}
	t.whichDelivery(b.Order)
	if whose := t.s.whose(b.Order); whose != b.Customer {
		t.find(CodeWrongCustomer, finding.Caution, b.Order, "it is of "+whose+", and packs of it went to "+b.Customer, fixTellWhoGot, count("packs", b.Numbers.Count()))
	}
	if c, off := t.s.offOf(b.Order); off {
		t.find(CodeOrderOff, finding.Caution, b.Order, "it was cancelled ("+c.Why+"), and packs were handed over for it", fixTakeBackCancel, count("packs", b.Numbers.Count()))
	}
}

// whose is the customer of an order that is known.
func (s *State) whose(id string) string {
	if x := s.told[id]; x != nil {
		return x.last().Customer
	}
	return s.told[deliveryOf(id)].last().Customer
}

func (s *State) dropAside(lot record.Lot, order string, n record.Numbers) {
	left := s.aside[lot][order].Minus(n)
	if left.Empty() {
		delete(s.aside[lot], order)
		return
	}
	s.aside[lot][order] = left
}

// returned takes packs back from whoever got them. That they never got them is for package lots to find.
func (s *State) returned(b record.Returned) {
	n := b.Numbers
	for _, h := range s.byLot[b.Lot] {
		if h.Customer != b.Customer {
			continue
		}
		back := h.Numbers.Minus(h.Back).Intersect(n)
		h.Back, n = h.Back.Union(back), n.Minus(back)
		s.outside[b.Lot] = s.outside[b.Lot].Minus(back)
	}
}

package orders

import (
	"iter"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// Take folds in the next entry, in the order in which things happened. Entries of kinds that Heeds does not name change nothing.
func (s *State) Take(e record.Entry) finding.List {
	if !heeds[e.Kind] {
		return nil
	}
	s.begin()
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return finding.List{report(e, CodeUnreadable, finding.Caution, "?", "what it says cannot be read: "+err.Error(), fixWithNewEntry)}
	}
	t := taking{s: s, e: e}
	switch b := body.(type) {
	case record.Customer:
		s.tellCustomer(e, b)
	case record.Ordered:
		t.ordered(b)
	case record.Cancelled:
		t.cancelled(b)
	case record.Packed:
		if _, told := s.bags[b.Lot]; !told { // that a lot is packed twice is for package lots to find
			s.bags[b.Lot] = Bag{b.Pack, b.BestBefore}
		}
	case record.Picked:
		t.picked(b)
	case record.HandedOver:
		t.handedOver(b)
	case record.Returned:
		s.returned(b)
	case record.Routed:
		s.routes[b.Day] = b.Orders
	}
	s.leave(e, body)
	for _, id := range append(s.about(body), t.robbed...) {
		s.settle(id)
	}
	return t.found
}

// begin makes the maps of a zero State.
func (s *State) begin() {
	if s.told != nil {
		return
	}
	s.told, s.customers, s.off, s.bags, s.routes = map[string]*told{}, map[string]*Customer{}, map[string]Cancelling{}, map[record.Lot]Bag{}, map[record.Day][]string{}
	s.aside, s.lotsOf, s.picks = map[record.Lot]map[string]record.Numbers{}, map[string][]record.Lot{}, map[string][]Pick{}
	s.gone, s.byLot, s.last = map[string][]*Handing{}, map[record.Lot][]*Handing{}, map[touch]mark{}
	s.outside, s.begun, s.done = map[record.Lot]record.Numbers{}, map[string]map[string]bool{}, map[string]bool{}
}

// taking is one entry on its way into the state.
type taking struct {
	s      *State
	e      record.Entry
	found  finding.List
	robbed []string // orders that lost what was set aside for them
}

func (t *taking) find(code string, severity finding.Severity, order, message, fix string, figures ...finding.Figure) {
	t.found = append(t.found, report(t.e, code, severity, order, message, fix, figures...))
}

// ordered takes an order, or the later terms of a standing one. A number that another order has already is found, and the first keeps it.
func (t *taking) ordered(b record.Ordered) {
	if base, _, ok := splitDelivery(b.Order); ok && b.Weeks > 0 && t.s.isStanding(base) {
		t.find(CodeDeliveryEvery, finding.Caution, b.Order, "it takes the place of one delivery, and cannot stand itself", fixOneDelivery)
		b.Weeks, b.Until = 0, ""
	}
	t.s.touchDelivery(b.Order)
	is := term{b, t.e.ID, t.e.Happened}
	x := t.s.told[b.Order]
	switch {
	case x == nil:
		t.s.told[b.Order] = &told{markOf(t.e), []term{is}}
	case x.standing() && b.Weeks > 0 && b.Customer == x.last().Customer && b.Due > x.last().Due:
		x.terms = append(x.terms, is)
	default:
		t.find(CodeOrderTwice, finding.Stop, b.Order, "an order of this number was entered before, for "+x.last().Customer+": this one, for "+b.Customer+" on "+string(b.Due)+", is on no list", fixNumberAnew)
	}
}

func (s *State) isStanding(id string) bool { return s.told[id] != nil && s.told[id].standing() }

// cancelled calls an order off, and frees what was set aside for it.
func (t *taking) cancelled(b record.Cancelled) {
	if !t.s.known(b.Order) {
		t.find(CodeOrderUnknown, finding.Caution, b.Order, "nobody gave such an order, and it was cancelled", fixEnterOrder)
	}
	t.s.off[b.Order] = Cancelling{b.Why, t.e.Happened, t.e.Who, t.e.ID}
	for id := range t.s.withDeliveries(b.Order) {
		for _, lot := range t.s.lotsOf[id] {
			delete(t.s.aside[lot], id)
		}
	}
}

// picked sets packs aside. One that is set aside already, or gone, is found and stays as it is.
func (t *taking) picked(b record.Picked) {
	n := b.Numbers
	if !t.s.known(b.Order) {
		t.find(CodeOrderUnknown, finding.Caution, b.Order, "packs were set aside for an order that nobody gave", fixEnterOrder, count("packs", n.Count()))
	}
	t.whichDelivery(b.Order)
	if _, off := t.s.offOf(b.Order); off {
		t.find(CodeOrderOff, finding.Caution, b.Order, "packs were set aside for an order that is cancelled: they stay free", fixTakeBackCancel, count("packs", n.Count()))
		return
	}
	if gone := n.Intersect(t.s.outside[b.Lot]); !gone.Empty() {
		t.find(CodePickedGone, finding.Caution, b.Order, "packs "+gone.String()+" of "+string(b.Lot)+" had left the house", fixLookAtPack, count("gone", gone.Count()))
		n = n.Minus(gone)
	}
	for _, id := range slices.Sorted(maps.Keys(t.s.aside[b.Lot])) {
		both := n.Intersect(t.s.aside[b.Lot][id])
		switch {
		case both.Empty():
		case id == b.Order:
			t.find(CodePickedAgain, finding.Note, b.Order, "packs "+both.String()+" of "+string(b.Lot)+" were set aside for it before", fixLookAtPack, count("again", both.Count()))
		default:
			t.find(CodePickedTwice, finding.Caution, b.Order, "packs "+both.String()+" of "+string(b.Lot)+" are set aside for order "+id+" already", fixLookAtPack, count("twice", both.Count()))
		}
		n = n.Minus(both)
	}
	if n.Empty() {
		return
	}
	t.s.setAside(b.Lot, b.Order, n)
	t.s.picks[b.Order] = append(t.s.picks[b.Order], Pick{t.e.ID, b.Lot, n, t.e.Happened, t.e.Who})
}

// whichDelivery finds that packs are for a standing order, and not for one of its deliveries.
func (t *taking) whichDelivery(order string) {
	if t.s.isStanding(order) {
		t.find(CodeWhichDelivery, finding.Caution, order, "it is a standing order, and nobody said for which of its deliveries the packs are", "correct the entry with the number of the delivery, such as "+DeliveryID(order, t.s.told[order].last().Due))
	}
}

func (s *State) setAside(lot record.Lot, order string, n record.Numbers) {
	if s.aside[lot] == nil {
		s.aside[lot] = map[string]record.Numbers{}
	}
	s.aside[lot][order] = s.aside[lot][order].Union(n)
	s.names(order, lot)
}

// withDeliveries is the number of an order and, of a standing one, those of its deliveries that were begun.
func (s *State) withDeliveries(id string) iter.Seq[string] {
	return func(yield func(string) bool) {
		if !yield(id) || !s.isStanding(id) {
			return
		}
		for delivery := range s.begun[id] {
			if !yield(delivery) {
				return
			}
		}
	}
}

// about are the orders that an entry changes.
func (s *State) about(body record.Body) []string {
	switch b := body.(type) {
	case record.Ordered:
		return slices.Collect(s.withDeliveries(b.Order))
	case record.Cancelled:
		return slices.Collect(s.withDeliveries(b.Order))
	case record.Picked:
		return []string{b.Order}
	case record.HandedOver:
		return []string{b.Order}
	case record.Packed: // what was set aside or handed over before is of a kind now
		ids := slices.Collect(maps.Keys(s.aside[b.Lot]))
		for _, h := range s.byLot[b.Lot] {
			ids = append(ids, h.Order)
		}
		return ids
	}
	return nil
}

// touchDelivery notes that an entry has to do with one delivery of a standing order.
func (s *State) touchDelivery(order string) {
	base := deliveryOf(order)
	if base == "" {
		return
	}
	if s.begun[base] == nil {
		s.begun[base] = map[string]bool{}
	}
	s.begun[base][order] = true
}

// names notes that packs of a lot have to do with an order.
func (s *State) names(order string, lot record.Lot) {
	s.touchDelivery(order)
	if !slices.Contains(s.lotsOf[order], lot) {
		s.lotsOf[order] = append(s.lotsOf[order], lot)
	}
}

// known says whether somebody gave an order of that number, or a standing order whose delivery it is.
func (s *State) known(id string) bool {
	if s.told[id] != nil {
		return true
	}
	base, day, ok := splitDelivery(id)
	return ok && s.isStanding(base) && s.told[base].occursOn(day)
}

// offOf is how an order, or the standing order whose delivery it is, was called off.
func (s *State) offOf(id string) (Cancelling, bool) {
	if c, off := s.off[id]; off {
		return c, true
	}
	if base := deliveryOf(id); base != "" && s.isStanding(base) {
		c, off := s.off[base]
		return c, off
	}
	return Cancelling{}, false
}

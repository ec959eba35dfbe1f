package orders

import (
	"cmp"
	"maps"
	"slices"

	"kettlefrost/internal/record"
)

// Dated are all orders that have a day: every single one, and the deliveries of standing ones up to a last day; those that are cancelled or
// were handed over among them. They stand in the order in which they are served: by the day they are due, then by when they came in.
//
// A delivery of a standing order for which nothing was done lapses when the next one is due, or would be: nobody expects two at once.
func (s *State) Dated(today, until record.Day) []Order {
	all := s.those(today, "", until, func(term) bool { return true })
	all = append(all, s.stray(all)...)
	inTurn(all)
	return all
}

// On are the orders of Dated that are due on a day.
func (s *State) On(day, today record.Day) []Order {
	return s.those(today, day, day, func(x term) bool { return x.Weeks > 0 || x.Due == day })
}

// OfCustomer are the orders of Dated of one customer.
func (s *State) OfCustomer(customer string, today, until record.Day) []Order {
	return s.those(today, "", until, func(x term) bool { return x.Customer == customer })
}

// those are the single orders, and the deliveries from a day to a last one of the standing ones, whose terms are wanted.
func (s *State) those(today, from, until record.Day, wanted func(term) bool) []Order {
	var all []Order
	for id, t := range s.told {
		if !t.standing() {
			if wanted(t.terms[0]) {
				all = append(all, s.single(id))
			}
			continue
		}
		for day, x := range t.dates(from, until) {
			if wanted(x) && s.told[DeliveryID(id, day)] == nil {
				all = append(all, s.delivery(id, day, x, today))
			}
		}
	}
	inTurn(all)
	return all
}

// Live are the orders of Dated for which something is still to be done, or for which packs are set aside. Those of years that are done are
// not looked at.
func (s *State) Live(today, until record.Day) []Order {
	var all []Order
	for id, t := range s.told {
		switch {
		case t.standing():
			all = append(all, s.liveDeliveries(id, t, today, until)...)
		case !s.done[id]:
			all = append(all, s.single(id))
		}
	}
	all = append(all, s.stray(all)...)
	inTurn(all)
	return all
}

// liveDeliveries are those of a standing order that are not done and have not lapsed: the last one before today and those that follow, and
// earlier ones for which something was done.
func (s *State) liveDeliveries(id string, t *told, today, until record.Day) []Order {
	var all []Order
	add := func(day record.Day, x term) {
		delivery := DeliveryID(id, day)
		if s.told[delivery] != nil || s.done[delivery] {
			return
		}
		if o := s.delivery(id, day, x, today); o.Live() {
			all = append(all, o)
		}
	}
	from := Plus(today, -t.longest())
	for day, x := range t.dates(from, until) {
		add(day, x)
	}
	for delivery := range s.begun[id] {
		_, day, _ := splitDelivery(delivery)
		if x, on := t.on(day); on && day <= until && !slices.ContainsFunc(all, func(o Order) bool { return o.ID == delivery }) {
			add(day, x)
		}
	}
	return all
}

// inTurn puts orders in the order in which they are served.
func inTurn(all []Order) {
	slices.SortFunc(all, func(a, b Order) int {
		return cmp.Or(cmp.Compare(a.Due, b.Due), a.came.compare(b.came), cmp.Compare(a.ID, b.ID))
	})
}

// settle notes whether something is still to be done for an order, after an entry that has to do with it.
func (s *State) settle(id string) {
	if s.isStanding(id) {
		return // its deliveries are done, or not
	}
	if o, ok := s.Order(id, ""); ok {
		s.done[id] = !o.Live() && len(o.Aside) == 0
	}
}

// single is an order that somebody told by its own number.
func (s *State) single(id string) Order {
	t := s.told[id]
	o := s.view(id, t.terms[0], false)
	o.came = t.came
	if base, day, ok := splitDelivery(id); ok && s.isStanding(base) {
		o.Standing, o.Rule, o.came = base, day, s.told[base].came
	}
	return o
}

// delivery is one of a standing order, as its rule has it.
func (s *State) delivery(standing string, day record.Day, x term, today record.Day) Order {
	id := DeliveryID(standing, day)
	x.Due, x.entry = day, record.ID{}
	o := s.view(id, x, false)
	if o.Status == Open && len(o.Aside)+len(o.Handed) == 0 && Plus(day, x.step()) <= today {
		o = s.view(id, x, true)
	}
	o.Standing, o.Rule, o.came = standing, day, s.told[standing].came
	return o
}

// stray are the numbers for which packs are set aside and which are none of these: nobody gave them, or the rule no longer has their day.
func (s *State) stray(but []Order) []Order {
	there := map[string]bool{}
	for _, o := range but {
		there[o.ID] = true
	}
	ids := map[string]bool{}
	for _, mine := range s.aside {
		for id := range mine {
			if !there[id] {
				ids[id] = true
			}
		}
	}
	var all []Order
	for _, id := range slices.Sorted(maps.Keys(ids)) {
		if o, ok := s.Order(id, ""); ok {
			all = append(all, o)
		}
	}
	return all
}

// Order is one order by its number, also one delivery of a standing order; false when nobody told of it.
func (s *State) Order(id string, today record.Day) (Order, bool) {
	if t := s.told[id]; t != nil {
		if !t.standing() {
			return s.single(id), true
		}
	}
	base, day, ok := splitDelivery(id)
	if ok && s.isStanding(base) {
		if x, on := s.told[base].on(day); on {
			return s.delivery(base, day, x, today), true
		}
	}
	if len(s.lotsOf[id]) == 0 {
		return Order{}, false
	}
	o := s.view(id, term{}, false)
	o.Status = NotGiven
	if s.isStanding(id) {
		o.Customer = s.whose(id)
	}
	if len(o.Handed) > 0 {
		o.Customer = o.Handed[0].Customer
	}
	return o, true
}

// Route are the deliveries of a day that are not cancelled, in the order in which they are to be driven: as somebody set it, and those that
// nobody set at the end.
func (s *State) Route(day, today record.Day) []Order {
	var all []Order
	for _, o := range s.On(day, today) {
		if o.Way == record.Deliver && o.Status != Off && o.Status != Lapsed {
			all = append(all, o)
		}
	}
	place := map[string]int{}
	for i, id := range s.routes[day] {
		place[id] = i + 1
	}
	slices.SortStableFunc(all, func(a, b Order) int {
		return cmp.Compare(cmp.Or(place[a.ID], len(place)+1), cmp.Or(place[b.ID], len(place)+1))
	})
	return all
}

// StandingIDs are the numbers of all standing orders, in the order in which they came in.
func (s *State) StandingIDs() []string {
	var ids []string
	for id, t := range s.told {
		if t.standing() {
			ids = append(ids, id)
		}
	}
	slices.SortFunc(ids, func(a, b string) int { return s.told[a].came.compare(s.told[b].came) })
	return ids
}

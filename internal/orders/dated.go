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
// A delivery of a standing order for which nothing was done lapses when the next one is due: nobody expects two at once.
func (s *State) Dated(today, until record.Day) []Order {
	var all []Order
	for id, t := range s.told {
		if !t.standing() {
			all = append(all, s.single(id))
			continue
		}
		for day, x := range t.dates(until) {
			delivery := DeliveryID(id, day)
			if s.told[delivery] == nil {
				all = append(all, s.delivery(id, day, x, today))
			}
		}
	}
	all = append(all, s.stray(all)...)
	slices.SortFunc(all, func(a, b Order) int {
		return cmp.Or(cmp.Compare(a.Due, b.Due), a.came.compare(b.came), cmp.Compare(a.ID, b.ID))
	})
	return all
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
	if o.Status == Open {
		if next := Plus(day, 7*int(min(x.Weeks, mostWeeks))); next <= today && s.told[standing].occursOn(next) {
			o = s.view(id, x, true)
		}
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
	for _, o := range s.Dated(today, day) {
		if o.Due == day && o.Way == record.Deliver && o.Status != Off && o.Status != Lapsed {
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

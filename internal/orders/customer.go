package orders

import (
	"maps"
	"slices"

	"kettlefrost/internal/record"
)

// Customer is a customer as known now, and as known before.
type Customer struct {
	record.Customer
	Known  bool // somebody said who it is
	Entry  record.ID
	Since  record.Instant
	Who    string    // who said so
	Before []Version // the oldest first
}

// Version is what was known of a customer from a time on.
type Version struct {
	record.Customer
	Entry record.ID
	Since record.Instant
	Who   string
}

func (s *State) tellCustomer(e record.Entry, b record.Customer) {
	c := s.customers[b.Customer]
	if c == nil {
		c = &Customer{}
		s.customers[b.Customer] = c
	} else {
		c.Before = append(c.Before, Version{c.Customer, c.Entry, c.Since, c.Who})
	}
	c.Customer, c.Known, c.Entry, c.Since, c.Who = b, true, e.ID, e.Happened, e.Who
}

// Customer is what is known of a customer, who is called by the ID alone if nobody has said more.
func (s *State) Customer(id string) Customer {
	if c := s.customers[id]; c != nil {
		return *c
	}
	return Customer{Customer: record.Customer{Customer: id, Name: id}}
}

// Customers are all that somebody told of, in the order of their names.
func (s *State) Customers() []Customer {
	var all []Customer
	for _, id := range slices.Sorted(maps.Keys(s.customers)) {
		all = append(all, *s.customers[id])
	}
	slices.SortStableFunc(all, func(a, b Customer) int { return natural(a.Name, b.Name) })
	return all
}

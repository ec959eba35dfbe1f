// Package orders folds records into what customers want and what they got: customers, orders, standing orders with their deliveries, what
// was set aside and what left the house; and works out which packs go to whom. Nothing here is stored as truth; it is worked out from the
// entries, in the order in which things happened, and can be worked out again.
//
// What does not fit (a pack set aside twice, packs for an order that nobody gave) is never dropped in silence: a finding names the entry, so
// that somebody can correct it with a later one.
package orders

import (
	"iter"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// State is all orders and customers. The zero State is a kitchen that nobody ordered from.
type State struct {
	told      map[string]*told // by the number of the order
	customers map[string]*Customer
	off       map[string]Cancelling // by the number of an order, a standing order or one delivery of it
	bags      map[record.Lot]Bag
	aside     map[record.Lot]map[string]record.Numbers // packs that are set aside, by lot and order
	lotsOf    map[string][]record.Lot                  // that packs were ever set aside or handed over from, by order
	picks     map[string][]Pick                        // by order
	gone      map[string][]*Handing                    // by order; "" is without one
	byLot     map[record.Lot][]*Handing
	routes    map[record.Day][]string
	last      map[touch]mark                // the entry that touched it and happened last
	outside   map[record.Lot]record.Numbers // packs that are out of the house
	begun     map[string]map[string]bool    // deliveries that an entry has to do with, by their standing order
	done      map[string]bool               // orders for which nothing is to be done any more
}

// told is all that was said of one order: its terms, the earliest first. A single order has one; a standing one has those that came later, too.
type told struct {
	came  mark // orders of one day are served in the order in which they came in
	terms []term
}

// term is what an order is from its due day on.
type term struct {
	record.Ordered
	entry record.ID
	at    record.Instant
}

func (t told) last() term     { return t.terms[len(t.terms)-1] }
func (t told) standing() bool { return t.terms[0].Weeks > 0 }

// Cancelling is how an order came to be called off.
type Cancelling struct {
	Why   string         `json:"why"`
	At    record.Instant `json:"at_ms"`
	Who   string         `json:"who"`
	Entry record.ID      `json:"entry"`
}

// Bag is what the packs of a lot are.
type Bag struct {
	Pack       string     `json:"pack"`
	BestBefore record.Day `json:"best_before"`
}

// Pick is packs that were set aside for an order, as an entry said.
type Pick struct {
	Entry   record.ID      `json:"entry"`
	Lot     record.Lot     `json:"lot"`
	Numbers record.Numbers `json:"numbers"` // of them: those that are still set aside
	At      record.Instant `json:"at_ms"`
	Who     string         `json:"who"`
}

// Handing is packs that somebody got.
type Handing struct {
	Entry      record.ID      `json:"entry"`
	Order      string         `json:"order,omitempty"`
	Customer   string         `json:"customer"`
	Lot        record.Lot     `json:"lot"`
	Pack       string         `json:"pack"` // "" when nobody said what the lot is
	BestBefore record.Day     `json:"best_before,omitempty"`
	Numbers    record.Numbers `json:"numbers"`
	Back       record.Numbers `json:"back,omitzero"` // of them: those that came back
	Address    record.Text    `json:"address,omitempty"`
	TakenBy    string         `json:"taken_by,omitempty"`
	At         record.Instant `json:"at_ms"`
	Who        string         `json:"who"`
}

// Of folds all entries that stand. Findings are about entries, in the order in which things happened.
func Of(entries iter.Seq[record.Entry]) (*State, finding.List) {
	s := &State{}
	var found finding.List
	for e := range entries {
		found = append(found, s.Take(e)...)
	}
	return s, found
}

// heeds are the kinds of entries that tell of orders, or what the packs of a lot are.
var heeds = map[record.Kind]bool{
	record.Customer{}.Kind(): true, record.Ordered{}.Kind(): true, record.Cancelled{}.Kind(): true, record.Packed{}.Kind(): true, record.Picked{}.Kind(): true,
	record.HandedOver{}.Kind(): true, record.Returned{}.Kind(): true, record.Routed{}.Kind(): true,
}

// Heeds says whether entries of a kind change anything here.
func Heeds(k record.Kind) bool { return heeds[k] }

// Bag is what the packs of a lot are; false when nobody said.
func (s *State) Bag(lot record.Lot) (Bag, bool) {
	b, ok := s.bags[lot]
	return b, ok
}

// HandedWithout are packs that customers got without an order, in the order in which they got them.
func (s *State) HandedWithout() []Handing { return s.handings("") }

func (s *State) handings(order string) []Handing {
	var all []Handing
	for _, h := range s.gone[order] {
		x := *h
		x.Pack, x.BestBefore = s.bags[h.Lot].Pack, s.bags[h.Lot].BestBefore
		all = append(all, x)
	}
	return all
}

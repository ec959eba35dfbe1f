// Package lots folds records into what the kitchen has: every lot with where it came from, where it is, what was held, and who got it.
// Nothing here is stored as truth; it is worked out from the entries, in the order in which things happened, and can be worked out again.
//
// A State is grown by Take, entry by entry; devices differ by seconds, and an entry that comes a little late can be taken if it Commutes with
// those after it. What asks it changes nothing, so that many may ask at once, as long as none takes an entry meanwhile.
//
// What does not fit (a pack that is nowhere, a lot used before it was received, more used than there is) is never dropped and never put
// right: the entry is taken as far as it goes, and a finding names it, so that somebody can correct it with a later entry.
package lots

import (
	"cmp"
	"iter"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trace"
	"kettlefrost/internal/unit"
)

// Sort says what a lot is.
type Sort string

const (
	Goods   Sort = "goods"   // received
	Batch   Sort = "batch"   // made, in bulk
	Packs   Sort = "packs"   // sealed and numbered
	Pot     Sort = "pot"     // all that was cooked of a dish in a run: what was used for it, and what came of it
	Unknown Sort = "unknown" // named by an entry, and nobody said where it came from
)

// Lot is one lot as it stands.
type Lot struct {
	ID          record.Lot
	Sort        Sort
	What        string // ingredient, output, pack or dish
	Dish, Run   string
	Supplier    string
	SupplierLot string
	Born        record.Instant
	Entry       record.ID  // that it was born by
	Came        unit.Mass  // in all
	Paid        unit.Money // for goods
	Label       unit.Mass  // net, of each pack
	Numbers     record.Numbers
	UseBy       record.Day // the last day, for food that must be used
	BestBefore  record.Day

	Here       map[record.Place]Amount // what is on hand, by place; "" is a place that nobody told
	Used       unit.Mass               // into other lots
	WrittenOff Amount
	Handed     []Handing
	Doubted    []Handing      // told to be handed over when they were not on hand: sold twice, or never made
	Reopened   record.Numbers // packs that were opened and used again
	Missing    record.Numbers // packs that taking stock did not find
	ForTasting record.Numbers // packs that are kept to be opened and tasted one day, and not sold; those that are gone among them
	Tasted     record.Numbers // packs that were opened and tasted: they are among those written off
	Holds      []Hold         // those that stand: by hand, then those of its critical records
	Decisions  []Decision     // on critical records, in the order in which they were made
	Events     []Event        // everything that was told of it, in the order in which it happened

	node      int    // in the graph
	byHand    []Hold // of Holds
	byRecords []Hold // of Holds; see State.Keep
}

// Amount is packs by their numbers, or mass in bulk.
type Amount struct {
	Numbers record.Numbers
	Mass    unit.Mass
}

func (a Amount) empty() bool { return a.Numbers.Empty() && a.Mass == 0 }

// Handing is packs that somebody got.
type Handing struct {
	Customer, Order string
	Address         record.Text // where the packs went, if it was told with them
	TakenBy         string
	At              record.Instant
	Numbers         record.Numbers
}

// Event is something that was told of a lot.
type Event struct {
	Entry       record.ID
	Seq         uint64
	At          record.Instant
	Who, Device string
	Body        record.Body
}

// Hold keeps packs, or the whole lot, from being used or sold.
type Hold struct {
	Numbers record.Numbers // none: all of it
	Why     string
	Since   record.Instant
	Who     string
	// Decided is what is to become of it; empty until somebody has decided.
	Decided record.Disposition
	// Points are the critical records that are not as they must be; none for a hold by hand.
	Points []string
}

// State is all lots. The zero State is an empty kitchen.
type State struct {
	lots   map[record.Lot]*Lot
	byNode []*Lot
	byName []*Lot // in the order of their names
	graph  trace.Graph

	customers map[string]customer
	drills    []Drill
	touched   map[record.Lot]mark // by which entry, of those that name a lot the one that happened last
}

// customer is what is known of one, and since when.
type customer struct {
	record.Customer
	since mark
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

// Lot is a lot by its name; nil if no entry has named it.
func (s *State) Lot(id record.Lot) *Lot { return s.lots[id] }

// Customer is what is known of a customer, who is called by the ID alone if nobody has said more.
func (s *State) Customer(id string) record.Customer {
	if c, ok := s.customers[id]; ok {
		return c.Customer
	}
	return record.Customer{Customer: id, Name: id}
}

// All are the lots in the order of their names.
func (s *State) All() iter.Seq[*Lot] {
	return func(yield func(*Lot) bool) {
		for _, l := range s.byName {
			if !yield(l) {
				return
			}
		}
	}
}

// lot finds or begins a lot. What is only named is unknown.
func (s *State) lot(id record.Lot, at record.Instant) *Lot {
	if l := s.lots[id]; l != nil {
		return l
	}
	if s.lots == nil {
		s.lots = map[record.Lot]*Lot{}
	}
	l := &Lot{ID: id, Sort: Unknown, Born: at, Here: map[record.Place]Amount{}}
	l.node, _ = s.graph.AddLot(trace.Lot{Unweighed: true, AtMs: int64(at)}) // an unweighed lot is always taken
	s.lots[id] = l
	s.byNode = append(s.byNode, l)
	place, _ := slices.BinarySearchFunc(s.byName, id, func(l *Lot, id record.Lot) int { return cmp.Compare(l.ID, id) })
	s.byName = slices.Insert(s.byName, place, l)
	return l
}

// OnHand is all of it that is on hand.
func (l *Lot) OnHand() Amount {
	var all Amount
	for _, a := range l.Here {
		all.Numbers, all.Mass = all.Numbers.Union(a.Numbers), all.Mass+a.Mass
	}
	return all
}

// places are where it is on hand, in the order of their names.
func (l *Lot) places() iter.Seq2[record.Place, Amount] {
	return func(yield func(record.Place, Amount) bool) {
		for _, place := range slices.Sorted(maps.Keys(l.Here)) {
			if a := l.Here[place]; !a.empty() && !yield(place, a) {
				return
			}
		}
	}
}

// HeldOf is those packs that a hold keeps back.
func (l *Lot) HeldOf(n record.Numbers) record.Numbers {
	var held record.Numbers
	for _, h := range l.Holds {
		if h.Numbers.Empty() {
			return n
		}
		held = held.Union(h.Numbers.Intersect(n))
	}
	return held
}

// Kept is those packs that are kept to be tasted and were not opened yet.
func (l *Lot) Kept(n record.Numbers) record.Numbers { return n.Intersect(l.ForTasting).Minus(l.Tasted) }

// Held says whether anything of it is held.
func (l *Lot) Held() bool { return len(l.Holds) > 0 }

// MassOf is the mass of packs of a lot. Each counts the same but for a nanogram, so that those of all packs add up to what came.
func (s *State) MassOf(l *Lot, packs record.Numbers) (sum unit.Mass) {
	if l.Numbers.Empty() {
		return 0 // no mass was told
	}
	for _, r := range numberingOf(l.Numbers, record.Numbers{}).ranks(packs) {
		sum += s.graph.Tally(l.node, r.First, r.Last).Mass
	}
	return sum
}

// Stock is so much of a lot at one place.
type Stock struct {
	Lot   *Lot
	Place record.Place
	Amount
	Held record.Numbers // of the packs
}

// Stock is everything on hand, the oldest first: by the last day it is good, then by when it was born.
func (s *State) Stock() []Stock {
	var all []Stock
	for l := range s.All() {
		for _, place := range slices.Sorted(maps.Keys(l.Here)) {
			if a := l.Here[place]; !a.empty() {
				all = append(all, Stock{Lot: l, Place: place, Amount: a, Held: l.HeldOf(a.Numbers)})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b Stock) int {
		return cmp.Or(cmp.Compare(cmp.Or(a.Lot.Last(), late), cmp.Or(b.Lot.Last(), late)), cmp.Compare(a.Lot.Born, b.Lot.Born))
	})
	return all
}

// late is after every day, for what nobody told a last day of.
const late record.Day = "9999"

// Last is the last day it is good, empty when nobody told.
func (l *Lot) Last() record.Day { return cmp.Or(l.UseBy, l.BestBefore) }

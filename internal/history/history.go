// Package history invents what happened in a kitchen over years, entry by entry, so that everything that is worked out of entries can be
// held to something. It serves tests and benchmarks alone.
//
// A history is told the way a kitchen tells it: goods come, dishes are cooked from them, packed, moved, counted, ordered, handed over, brought
// back, held and written off; left-overs and packs go into later dishes. Some entries are wrong and are corrected or taken back later, some
// come twice, and many arrive hours after they happened, from a phone that was out of reach.
//
// Beside the entries the generator keeps the truth, and keeps it naively: every pack by itself with where it is, every lot with the fraction
// of each delivery in it, every mass added up. Nothing of packages lots and trace is used for it. The same size and seed always give
// the same history, byte for byte.
package history

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Size is how much happens.
type Size struct {
	Runs  int // productions of three dishes each; three a week
	Packs int // of each dish in a production, about
}

// ThreeYears is 470 productions and a million packs.
var ThreeYears = Size{Runs: 470, Packs: 710}

// History is entries and what is true at their end.
type History struct {
	// Entries are in the order in which they arrive, Entered with them; they are not sealed (Sealed does that).
	Entries []record.Entry
	// Bulk is every delivery and every batch, Sealed every lot of packs, in the order in which they came.
	Bulk  []*Bulk
	Packs []*Packs
	// Findings is how often something does not fit and was never put right, by the code under which package lots should tell it.
	Findings map[string]int
	// Runs are the names of the productions.
	Runs []string
	// End is after everything.
	End record.Instant
}

// Content is what fraction of each delivery is in something, by mass, if everything is mixed well: deliveries of which none is in it are missing.
type Content map[record.Lot]float64

// Bulk is a delivery or a batch, and what became of it.
type Bulk struct {
	Lot      record.Lot
	What     string // ingredient or dish
	Received bool   // a delivery, not a batch
	Came     unit.Mass
	Used     unit.Mass // into batches and packs
	Waste    unit.Mass
	Place    record.Place // all that is left of it
	Here     unit.Mass
	Held     bool
	Of       Content
}

// Unaccounted is what nobody told the whereabouts of; below zero more was found than came.
func (b *Bulk) Unaccounted() unit.Mass { return b.Came - b.Used - b.Waste - b.Here }

// State is what became of a pack.
type State uint8

const (
	Here    State = iota + 1
	With          // a customer
	Gone          // written off
	Opened        // and used in a dish
	Missing       // not found when stock was taken
)

// Spot is where a pack is: the place, or the customer.
type Spot struct {
	State State
	Where string
}

// Packs is numbered packs that were sealed together.
type Packs struct {
	Lot  record.Lot
	Pack string
	Born record.Instant
	Came unit.Mass
	Used unit.Mass // of those that were opened, as weighed
	At   []Spot    // of pack 1, 2, …
	Held []bool
	Of   Content
	// Doubted is how many packs a customer is told to have got that another has got: a slip that nobody put right.
	Doubted map[string]int64

	label unit.Mass
	dish  string
}

// Count is how many packs are somewhere.
func (p *Packs) Count(s State) int64 {
	var n int64
	for _, at := range p.At {
		if at.State == s {
			n++
		}
	}
	return n
}

// Make tells a history. The same size and seed give the same.
func Make(size Size, seed uint64) (*History, error) {
	m := &maker{size: size, random: rand.New(rand.NewPCG(seed, 0x6b66)), waiting: map[int][]order{}, later: map[int][]func(){}, rest: map[string]*Bulk{}, shelf: map[string][]*Bulk{}}
	m.Findings = map[string]int{}
	m.opening()
	for day := 0; len(m.Runs) < size.Runs; day++ {
		m.live(day)
	}
	slices.SortStableFunc(m.Entries, func(a, b record.Entry) int { return cmp.Compare(a.Entered, b.Entered) })
	m.End = max(m.now, m.Entries[len(m.Entries)-1].Entered) + 1
	return &m.History, m.err
}

// Sealed is the entries as a chain, each with its place and hashes. Errors are *record.FieldError.
func (h *History) Sealed() ([]record.Entry, error) {
	var head record.Head
	sealed := make([]record.Entry, len(h.Entries))
	for i, e := range h.Entries {
		var err error
		if sealed[i], err = record.Seal(head, e); err != nil {
			return nil, err
		}
		head = sealed[i].Head()
	}
	return sealed, nil
}

// Lines is the history as the store exports it: sealed, one entry a line.
func (h *History) Lines() ([]byte, error) {
	sealed, err := h.Sealed()
	if err != nil {
		return nil, err
	}
	var lines []byte
	for _, e := range sealed {
		line, err := e.Line()
		if err != nil {
			return nil, err
		}
		lines = append(append(lines, line...), '\n')
	}
	return lines, nil
}

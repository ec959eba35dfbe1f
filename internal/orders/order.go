package orders

import (
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Order is what a customer wants on one day, and what became of it: a single order, or one delivery of a standing one.
type Order struct {
	ID        string         `json:"id"`
	Standing  string         `json:"standing,omitempty"` // the standing order that it is a delivery of
	Rule      record.Day     `json:"rule,omitempty"`     // of a delivery: the day by the rule; Due may be another
	Customer  string         `json:"customer"`
	Due       record.Day     `json:"due"`
	Way       record.Way     `json:"way"`
	Lines     []Line         `json:"lines"`
	Extra     []Parcel       `json:"extra,omitempty"` // packs of a kind that was not ordered
	Whole     bool           `json:"whole,omitempty"` // all or nothing
	Note      record.Text    `json:"note,omitempty"`
	Came      record.Instant `json:"came_ms"` // when it was ordered
	Entry     record.ID      `json:"entry"`   // what a correction of it names; zero for a delivery that nobody changed
	Cancelled *Cancelling    `json:"cancelled,omitempty"`
	Status    Status         `json:"status"`
	Aside     []Parcel       `json:"aside,omitempty"`  // set aside and still here
	Picks     []Pick         `json:"picks,omitempty"`  // the same, by who did it when
	Handed    []Handing      `json:"handed,omitempty"` // what left the house

	came mark
}

// Line is packs of one kind. Count = Aside + Gone + Open + Off, always.
type Line struct {
	Pack  string     `json:"pack"`
	Count int64      `json:"count"`          // ordered
	Each  unit.Money `json:"each,omitempty"` // agreed; the price list's when 0
	Aside int64      `json:"aside"`          // set aside
	Gone  int64      `json:"gone"`           // handed over
	Open  int64      `json:"open"`           // to be set aside
	Off   int64      `json:"off"`            // cancelled
	Over  int64      `json:"over,omitempty"` // set aside or handed over beyond what was ordered
	Back  int64      `json:"back,omitempty"` // of Gone: came back
}

// Parcel is packs of one lot.
type Parcel struct {
	Lot        record.Lot     `json:"lot"`
	Pack       string         `json:"pack"` // "" when nobody said what the lot is
	BestBefore record.Day     `json:"best_before,omitempty"`
	Numbers    record.Numbers `json:"numbers"`
}

// Status is how far an order is.
type Status string

const (
	Open     Status = "open"        // nothing was done for it
	Picking  Status = "picking"     // some of it is set aside
	Ready    Status = "ready"       // all that is still to go is set aside
	PartGone Status = "part gone"   // some of it was handed over, and nothing of the rest is set aside
	Gone     Status = "handed over" // all of it, or all but what was cancelled
	Off      Status = "cancelled"
	Lapsed   Status = "lapsed"    // a delivery that nobody made, and the next one is due
	NotGiven Status = "not given" // packs are set aside for a number that nobody gave
)

// Live says whether something is still to be done for it.
func (o Order) Live() bool {
	return o.Status != Gone && o.Status != Off && o.Status != Lapsed
}

// Wants says whether packs are still to be handed over: those that are set aside, and those that are not yet.
func (o Order) Wants() bool {
	for _, l := range o.Lines {
		if l.Open+l.Aside > 0 {
			return true
		}
	}
	return false
}

// sums are packs by their kind.
type sums map[string]int64

func (s sums) take(kind string, most int64) int64 {
	n := min(s[kind], most)
	s[kind] -= n
	return n
}

// view is an order of these terms under a number.
func (s *State) view(id string, x term, lapsed bool) Order {
	o := Order{ID: id, Customer: x.Customer, Due: x.Due, Way: x.Way, Whole: x.Whole, Note: x.Note, Came: x.at, Entry: x.entry, Handed: s.handings(id), Aside: s.parcels(id), Picks: s.picksOf(id)}
	if c, off := s.offOf(id); off {
		o.Cancelled = &c
	}
	s.fill(&o, x.Lines, lapsed)
	o.Status = o.status(lapsed)
	return o
}

// fill gives what was set aside and handed over to the lines, in their order.
func (s *State) fill(o *Order, lines []record.OrderLine, lapsed bool) {
	aside, gone, back := sums{}, sums{}, sums{}
	for _, p := range o.Aside {
		aside[p.Pack] += p.Numbers.Count()
	}
	for _, p := range handedParcels(o.Handed) {
		gone[p.Pack] += p.Numbers.Count()
	}
	for _, h := range o.Handed {
		back[h.Pack] += h.Back.Count()
	}
	last := map[string]int{}
	for i, l := range lines {
		v := Line{Pack: l.Pack, Count: l.Count, Each: l.Each, Gone: gone.take(l.Pack, l.Count)}
		v.Aside = aside.take(l.Pack, l.Count-v.Gone)
		v.Back = back.take(l.Pack, v.Gone)
		if v.Open = l.Count - v.Gone - v.Aside; o.Cancelled != nil || lapsed {
			v.Open, v.Off = 0, v.Open
		}
		o.Lines = append(o.Lines, v)
		last[l.Pack] = i
	}
	for kind, i := range last {
		o.Lines[i].Over = aside[kind] + gone[kind]
	}
	for _, p := range append(handedParcels(o.Handed), o.Aside...) {
		if _, wanted := last[p.Pack]; !wanted {
			o.Extra = append(o.Extra, p)
		}
	}
}

// handedParcels are the packs of some handings by their lot, each once also when it came back and went again.
func handedParcels(all []Handing) []Parcel {
	var parcels []Parcel
	at := map[record.Lot]int{}
	for _, h := range all {
		i, there := at[h.Lot]
		if !there {
			i = len(parcels)
			at[h.Lot] = i
			parcels = append(parcels, Parcel{Lot: h.Lot, Pack: h.Pack, BestBefore: h.BestBefore})
		}
		parcels[i].Numbers = parcels[i].Numbers.Union(h.Numbers)
	}
	return parcels
}

// parcels are the packs that are set aside for an order, by lot.
func (s *State) parcels(id string) []Parcel {
	var all []Parcel
	for _, lot := range s.lotsOf[id] {
		if n := s.aside[lot][id]; !n.Empty() {
			all = append(all, Parcel{lot, s.bags[lot].Pack, s.bags[lot].BestBefore, n})
		}
	}
	return all
}

func (s *State) picksOf(id string) []Pick {
	var all []Pick
	for _, p := range s.picks[id] {
		if p.Numbers = p.Numbers.Intersect(s.aside[p.Lot][id]); !p.Numbers.Empty() {
			all = append(all, p)
		}
	}
	return all
}

func (o Order) status(lapsed bool) Status {
	var aside, gone, open int64
	for _, l := range o.Lines {
		aside, gone, open = aside+l.Aside, gone+l.Gone, open+l.Open
	}
	switch {
	case lapsed:
		return Lapsed
	case o.Cancelled != nil && gone == 0:
		return Off
	case open == 0 && aside == 0:
		return Gone
	case open == 0:
		return Ready
	case aside > 0:
		return Picking
	case gone > 0:
		return PartGone
	}
	return Open
}

// Packs is how many packs are ordered.
func (o Order) Packs() int64 {
	var n int64
	for _, l := range o.Lines {
		n += l.Count
	}
	return n
}

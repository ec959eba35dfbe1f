package critical

import (
	"iter"

	"kettlefrost/internal/record"
)

// Delivery is goods by their lot; false when there are none.
func (s *State) Delivery(lot record.Lot) (Delivery, bool) {
	g := s.goods[lot]
	if g == nil {
		return Delivery{}, false
	}
	return Delivery{lot, g.Version, g.told[0]}, true
}

// Delivery is goods that came in by one entry.
type Delivery struct {
	Lot     record.Lot
	Version int
	Told    Told
}

// FromSupplier is who brought them.
func (d Delivery) FromSupplier() string { return d.Told.Says.(record.Received).Supplier }

// Production is what was entered of one production, as it stood.
type Production struct {
	Name    string
	Version int
	told    []Told
	signed  map[string][]Told
}

// of are all entries of a kind of body, as they happened, each with what it says.
func of[B record.Body](p Production) iter.Seq2[Told, B] {
	return func(yield func(Told, B) bool) {
		for _, t := range p.told {
			if says, ok := t.Says.(B); ok && !yield(t, says) {
				return
			}
		}
	}
}

// Opened is what opened it last; false when nobody has.
func (p Production) Opened() (says record.Opened, ok bool) {
	for _, o := range of[record.Opened](p) {
		says, ok = o, true
	}
	return says, ok
}

// Closed says whether it was closed since it was opened.
func (p Production) Closed() bool {
	closed := false
	for _, t := range p.told {
		switch t.Says.(type) {
		case record.Opened:
			closed = false
		case record.Closed:
			closed = true
		}
	}
	return closed
}

// Began is when the first of it was entered to happen.
func (p Production) Began() record.Instant { return p.told[0].Happened }

// Packed are the packs that were filled, how many of each.
func (p Production) Packed() map[string]int64 {
	packed := map[string]int64{}
	for _, b := range of[record.Packed](p) {
		packed[b.Pack] += b.Numbers.Count()
	}
	return packed
}

// Made are the dishes of which something was made.
func (p Production) Made() map[string]bool {
	made := map[string]bool{}
	for _, b := range of[record.Made](p) {
		made[b.Dish] = true
	}
	return made
}

// Watches are the probes that were in its food, by the entry that says so.
func (p Production) Watches() map[record.ID]record.Watched {
	all := map[record.ID]record.Watched{}
	for t, b := range of[record.Watched](p) {
		all[t.ID] = b
	}
	return all
}

// Instruments are the thermometers and probes that it was measured with.
func (p Production) Instruments() map[string]bool {
	all := map[string]bool{}
	for _, t := range p.told {
		switch b := t.Says.(type) {
		case record.Measured:
			all[b.Instrument] = true
		case record.Watched:
			all[b.Probe] = true
		}
	}
	return all
}

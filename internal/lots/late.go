package lots

import (
	"cmp"
	"slices"

	"kettlefrost/internal/record"
)

// mark is an entry's place in the order in which things happened.
type mark struct {
	at  record.Instant
	seq uint64
}

func markOf(e record.Entry) mark { return mark{e.Happened, e.Seq} }

func (m mark) compare(o mark) int { return cmp.Or(cmp.Compare(m.at, o.at), cmp.Compare(m.seq, o.seq)) }

func (m mark) after(o mark) bool { return m.compare(o) > 0 }

// footprint is what an entry reads or changes.
type footprint struct {
	lots     []record.Lot // pots by the name that they have among lots
	customer string
	flows    [][2]record.Lot // from one into another
}

// footprintOf is the footprint of what an entry says.
func footprintOf(body record.Body) footprint {
	switch b := body.(type) {
	case record.Received:
		return footprint{lots: []record.Lot{b.Lot}}
	case record.Made:
		if len(b.From) > 0 {
			return cameOf(b.Lot, b.From)
		}
		pot := potName(b.Run, b.Dish)
		return footprint{lots: []record.Lot{b.Lot, pot}, flows: [][2]record.Lot{{pot, b.Lot}}}
	case record.Packed:
		return cameOf(b.Lot, b.From)
	case record.Used:
		pot := potName(b.Run, b.Dish)
		return footprint{lots: []record.Lot{b.Lot, pot}, flows: [][2]record.Lot{{b.Lot, pot}}}
	case record.Wasted:
		return footprint{lots: []record.Lot{potName(b.Run, b.Dish)}}
	case record.Moved:
		return footprint{lots: []record.Lot{b.Lot}}
	case record.Counted:
		return footprint{lots: []record.Lot{b.Lot}}
	case record.WrittenOff:
		return footprint{lots: []record.Lot{b.Lot}}
	case record.Held:
		return footprint{lots: []record.Lot{b.Lot}}
	case record.Released:
		return footprint{lots: []record.Lot{b.Lot}}
	case record.HandedOver:
		return footprint{lots: []record.Lot{b.Lot}}
	case record.Returned:
		return footprint{lots: []record.Lot{b.Lot}}
	case record.SetAside:
		return footprint{lots: []record.Lot{b.Lot}}
	case record.Tasted:
		return footprint{lots: []record.Lot{b.Lot}}
	case record.Customer:
		return footprint{customer: b.Customer}
	}
	return footprint{}
}

// cameOf is the footprint of a lot that is made of parts.
func cameOf(lot record.Lot, from []record.Part) footprint {
	f := footprint{lots: []record.Lot{lot}}
	for _, p := range from {
		f.lots = append(f.lots, p.Lot)
		f.flows = append(f.flows, [2]record.Lot{p.Lot, lot})
	}
	return f
}

// Commutes says whether an entry that happened before some that were taken can be taken now all the same: none of those has touched the same
// lots, the same dish of the same run, or what is known of the same customer, and what went from lot to lot by it closes no loop with what
// went since. Then the state is what it would be if the entries had been taken in their order; only the findings may stand in another.
func (s *State) Commutes(e record.Entry) bool {
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return true // it changes nothing, and is found all the same
	}
	now, f := markOf(e), footprintOf(body)
	if f.customer != "" && s.customers[f.customer].since.after(now) {
		return false
	}
	for _, id := range f.lots {
		if s.touched[id].after(now) {
			return false
		}
	}
	for _, x := range f.flows {
		if s.leads(x[1], x[0]) {
			return false
		}
	}
	return true
}

// leads says whether anything of one lot is in another, or whether they are the same.
func (s *State) leads(from, to record.Lot) bool {
	a, b := s.lots[from], s.lots[to]
	if a == nil || b == nil {
		return from == to
	}
	path, err := s.graph.Path(a.node, b.node)
	return a == b || err != nil || len(path) > 0
}

// leave notes that an entry was taken, and tells it in the story of each lot that it touched.
func (s *State) leave(e record.Entry, body record.Body) {
	if s.touched == nil {
		s.touched = map[record.Lot]mark{}
	}
	told := Event{Entry: e.ID, Seq: e.Seq, At: e.Happened, Who: e.Who, Device: e.Device, Body: body}
	touched := footprintOf(body).lots
	for i, id := range touched {
		if slices.Index(touched, id) < i {
			continue // it is named twice
		}
		if now := markOf(e); now.after(s.touched[id]) {
			s.touched[id] = now
		}
		if l := s.lots[id]; l != nil {
			l.Events = append(l.Events, told)
		}
	}
}

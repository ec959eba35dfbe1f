package orders

import "slices"

// SlipLine is packs of one kind on a packing slip.
type SlipLine struct {
	Pack    string   `json:"pack"`
	Count   int64    `json:"count"` // ordered; 0 for what was not
	Open    int64    `json:"open"`  // still to come
	Parcels []Parcel `json:"parcels,omitempty"`
}

// Goes is how many packs go.
func (l SlipLine) Goes() int64 {
	var n int64
	for _, p := range l.Parcels {
		n += p.Numbers.Count()
	}
	return n
}

// Slip is what goes to the customer, by kind: what is set aside and what was handed over, lot by lot, and what is still to come.
func (o Order) Slip() []SlipLine {
	var all []SlipLine
	line := func(pack string) *SlipLine {
		i := slices.IndexFunc(all, func(l SlipLine) bool { return l.Pack == pack })
		if i < 0 {
			i = len(all)
			all = append(all, SlipLine{Pack: pack})
		}
		return &all[i]
	}
	for _, l := range o.Lines {
		x := line(l.Pack)
		x.Count, x.Open = x.Count+l.Count, x.Open+l.Open
	}
	for _, p := range o.parcels() {
		x := line(p.Pack)
		x.Parcels = append(x.Parcels, p)
	}
	return all
}

// parcels are the packs that go to the customer, by lot: those that were handed over and those that are set aside.
func (o Order) parcels() []Parcel {
	all := handedParcels(o.Handed)
	for _, p := range o.Aside {
		i := slices.IndexFunc(all, func(x Parcel) bool { return x.Lot == p.Lot })
		if i < 0 {
			all = append(all, p)
			continue
		}
		all[i].Numbers = all[i].Numbers.Union(p.Numbers)
	}
	return all
}

package history

import (
	"fmt"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// fill weighs a batch, makes it a lot, and fills and seals its packs.
func (m *maker) fill(b *batch) []*Packs {
	old := m.rest[b.name]
	made := &Bulk{Lot: record.Lot("M-" + b.name + "-" + b.run), What: b.name, Came: b.over, Place: "walk-in", Of: b.of.content()}
	for _, mass := range b.masses {
		made.Came += mass
	}
	made.Here = made.Came
	m.Bulk = append(m.Bulk, made)
	m.rest[b.name] = made
	tare := 2 * kg
	m.put(tablet, record.Weighed{Run: b.run, Dish: b.name, Output: b.name, Gross: made.Came + tare, Tare: tare, Net: made.Came, Instrument: "scale-1"}, record.ID{}, 0)
	m.say(tablet, record.Made{Run: b.run, Dish: b.name, Output: b.name, Lot: made.Lot, Mass: made.Came, UseBy: date(m.day + 5), Place: made.Place})
	var sealed []*Packs
	for i, kind := range b.packs {
		parts := []part{made.take(b.masses[i])}
		if old != nil && old.Here > kg && m.one(6) { // some of these are filled from what was left over before
			put := min(old.Here, b.masses[i]/3/unit.Gram*unit.Gram)
			made.Here += put
			made.Used -= put
			parts = []part{{made, b.masses[i] - put}, old.take(put)}
		}
		sealed = append(sealed, m.seal(b, kind, b.counts[i], parts))
	}
	if old != nil {
		m.in(1, func() { m.discard(old, "too old") })
	}
	return sealed
}

// seal is one filling of packs.
func (m *maker) seal(b *batch, kind pack, count int64, parts []part) *Packs {
	m.checkWeigh(b.run, kind)
	p := &Packs{Lot: record.Lot("P-" + kind.name + "-" + b.run), Pack: kind.name, At: make([]Spot, count), Held: make([]bool, count), Doubted: map[string]int64{}, label: kind.label, dish: b.name}
	var x mixture
	var from []record.Part
	for _, part := range parts {
		x.add(part.mass, part.of.Of)
		from = append(from, record.Part{Lot: part.of.Lot, Mass: part.mass})
	}
	p.Came, p.Of = x.all, x.content()
	p.move(p.where(func(Spot) bool { return true }), Spot{Here, "blast freezer"})
	m.Packs = append(m.Packs, p)
	m.say(tablet, record.Packed{Run: b.run, Pack: kind.name, Lot: p.Lot, Numbers: numbers(p.where(isHere)), Label: kind.label, Mass: p.Came, From: from,
		BagLot: fmt.Sprintf("BAG-%d", m.day/30), BestBefore: date(m.day + 270), Place: "blast freezer"})
	p.Born = m.now
	return p
}

func (m *maker) checkWeigh(run string, kind pack) {
	c := record.CheckWeighed{Run: run, Pack: kind.name}
	for range 2 {
		c.Tares = append(c.Tares, 9*unit.Gram+unit.Mass(m.random.IntN(10))*100*unit.Milligram)
	}
	for range 8 {
		c.Gross = append(c.Gross, kind.label+unit.Mass(9+m.random.IntN(12))*unit.Gram)
	}
	m.put(tablet, c, record.ID{}, 0)
}

// shelve takes frozen packs to where they are kept: to one to three places.
func (m *maker) shelve(p *Packs) {
	all := p.where(isHere)
	for n := 1 + m.random.IntN(3); len(all) > 0; n-- {
		some := all
		if n > 1 {
			some = all[:1+m.random.IntN(len(all))]
		}
		m.places++
		to := fmt.Sprintf("%s/shelf %d", freezers[m.places%len(freezers)], 1+m.random.IntN(3))
		p.move(some, Spot{Here, to})
		m.say(store, record.Moved{Lot: p.Lot, Numbers: numbers(some), To: record.Place(to)})
		all = all[len(some):]
	}
}

// where is the numbers of the packs that are in such a spot.
func (p *Packs) where(is func(Spot) bool) []int64 {
	var found []int64
	for i, at := range p.At {
		if is(at) {
			found = append(found, int64(i+1))
		}
	}
	return found
}

func isHere(at Spot) bool { return at.State == Here }

// move puts packs somewhere.
func (p *Packs) move(packs []int64, to Spot) {
	for _, n := range packs {
		p.At[n-1] = to
	}
}

// hold holds packs or lets them go.
func (p *Packs) hold(packs []int64, held bool) {
	for _, n := range packs {
		p.Held[n-1] = held
	}
}

// free is up to so many packs that can be taken: the lowest numbers, and sometimes some from the middle.
func (m *maker) free(p *Packs, atMost int) []int64 {
	var all []int64
	for i, at := range p.At {
		if at.State == Here && at.Where != "blast freezer" && !p.Held[i] {
			all = append(all, int64(i+1))
		}
	}
	if len(all) > atMost && m.one(5) {
		all = all[m.random.IntN(len(all)-atMost):]
	}
	return all[:min(atMost, len(all))]
}

// numbers is the set of some ascending numbers.
func numbers(packs []int64) record.Numbers {
	var ranges []record.Range
	for _, n := range packs {
		if k := len(ranges); k > 0 && ranges[k-1].Last == n-1 {
			ranges[k-1].Last = n
		} else {
			ranges = append(ranges, record.Range{First: n, Last: n})
		}
	}
	set, _ := record.NumbersOf(ranges...) // they are from 1 up and ascend
	return set
}

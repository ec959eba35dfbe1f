package history

import (
	"slices"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// takeStock counts the packs in one freezer a week, and weighs goods every fourth week.
func (m *maker) takeStock() {
	m.at(5, 30)
	week := m.day / 7
	freezer := freezers[week%len(freezers)]
	for _, p := range m.Packs[m.sold:] {
		for _, place := range p.places() {
			if strings.HasPrefix(place, freezer+"/") {
				m.count(p, place)
			}
		}
	}
	if week%4 != 3 {
		return
	}
	for _, b := range m.Bulk {
		if b.Received && b.Here > 0 {
			m.weigh(b)
		}
	}
}

// places are where packs of a lot are, in the order of their names.
func (p *Packs) places() []string {
	var all []string
	for _, at := range p.At {
		if at.State == Here && !slices.Contains(all, at.Where) {
			all = append(all, at.Where)
		}
	}
	slices.Sort(all)
	return all
}

// count takes stock of a lot at a place. Sometimes a pack is not there, and sometimes one that was missed is found behind the others.
func (m *maker) count(p *Packs, place string) {
	there := p.where(func(at Spot) bool { return at == Spot{Here, place} })
	missed := p.where(func(at Spot) bool { return at.State == Missing })
	switch {
	case m.one(15):
		lost := []int64{there[m.random.IntN(len(there))]}
		p.move(lost, Spot{State: Missing})
		m.Findings["stock-differs"]++
	case len(missed) > 1 && m.one(3):
		p.move(missed[:1], Spot{Here, place})
	}
	found := p.where(func(at Spot) bool { return at == Spot{Here, place} })
	m.say(store, record.Counted{Lot: p.Lot, Place: record.Place(place), Numbers: numbers(found), Nothing: len(found) == 0})
}

// mishaps are what goes wrong on a day.
func (m *maker) mishaps() {
	for _, d := range menu {
		m.tidy(m.rest[d.name])
	}
	young := m.Packs[m.sold:]
	if len(young) == 0 {
		return
	}
	p := young[m.random.IntN(len(young))]
	if m.one(4) {
		m.tear(p)
	}
	if m.one(20) {
		m.hold(p)
	}
	if m.one(30) {
		if b := m.Bulk[len(m.Bulk)-1-m.random.IntN(min(len(m.Bulk), 40))]; b.Received && b.Here > 0 && !b.Held {
			m.isolate(b)
		}
	}
	for len(young) > 0 && m.now-young[0].Born > 250*aDay {
		m.clear(young[0], "past its best")
		young = young[1:]
	}
	if m.day%180 == 100 {
		m.put(office, record.Drilled{Lots: []record.Lot{m.Bulk[len(m.Bulk)/2].Lot}, Practice: true, Began: m.now, Ended: m.now + 20*minute, Packs: 1000, Found: 1000, Share: unit.Share(1_000_000_000)}, record.ID{}, 0)
	}
}

// tear writes off one pack.
func (m *maker) tear(p *Packs) {
	if torn := m.free(p, 1); len(torn) > 0 {
		p.move(torn, Spot{State: Gone})
		m.say(store, record.WrittenOff{Lot: p.Lot, Numbers: numbers(torn), Why: "torn"})
	}
}

// clear writes off everything of a lot that is here.
func (m *maker) clear(p *Packs, why string) {
	if here := p.where(isHere); len(here) > 0 {
		p.move(here, Spot{State: Gone})
		m.say(store, record.WrittenOff{Lot: p.Lot, Numbers: numbers(here), Why: why})
	}
}

// hold keeps a lot of packs, or some of it, until it is decided some days later.
func (m *maker) hold(p *Packs) {
	if slices.Contains(p.Held, true) {
		return
	}
	packs, said := p.where(func(Spot) bool { return true }), record.Numbers{}
	if here := p.where(isHere); m.one(2) && len(here) > 2 {
		packs = here[:len(here)/2]
		said = numbers(packs)
	}
	p.hold(packs, true)
	m.say(store, record.Held{Lot: p.Lot, Numbers: said, Why: "the logger was off for an hour"})
	m.in(2+m.random.IntN(4), func() {
		if m.one(4) {
			m.say(office, record.Released{Lot: p.Lot, Numbers: said, Disposition: record.Destroy, Why: "too warm for too long"})
			here := slices.DeleteFunc(p.where(isHere), func(n int64) bool { return !slices.Contains(packs, n) })
			if len(here) > 0 {
				p.move(here, Spot{State: Gone})
				m.say(store, record.WrittenOff{Lot: p.Lot, Numbers: numbers(here), Why: "held and destroyed"})
			}
			return
		}
		p.hold(packs, false)
		m.say(office, record.Released{Lot: p.Lot, Numbers: said, Disposition: record.ReleaseForUse, Why: "the core stayed cold"})
	})
}

package history

import (
	"fmt"
	"slices"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// get sets goods aside from the oldest deliveries that are not held, and has more delivered when they do not suffice.
func (m *maker) get(ingredient string, mass unit.Mass) []part {
	var parts []part
	for mass > 0 {
		m.shelf[ingredient] = slices.DeleteFunc(m.shelf[ingredient], func(b *Bulk) bool { return b.Here == 0 })
		i := slices.IndexFunc(m.shelf[ingredient], func(b *Bulk) bool { return !b.Held })
		if i < 0 {
			m.receive(ingredient, mass)
			continue
		}
		from := m.shelf[ingredient][i]
		parts = append(parts, from.take(min(from.Here, mass)))
		mass -= parts[len(parts)-1].mass
	}
	return parts
}

// part is mass of a lot.
type part struct {
	of   *Bulk
	mass unit.Mass
}

// take takes mass off a lot that goes into another.
func (b *Bulk) take(mass unit.Mass) part {
	b.Here -= mass
	b.Used += mass
	return part{b, mass}
}

// receive takes in a delivery that lasts for two or three productions.
func (m *maker) receive(ingredient string, atLeast unit.Mass) {
	g := market[ingredient]
	m.deliveries++
	packs := int64(atLeast*unit.Mass(2+m.random.IntN(2))/g.mass) + 1
	mass := (g.mass*unit.Mass(packs) - unit.Mass(m.random.IntN(50))*unit.Gram) / unit.Gram * unit.Gram
	b := &Bulk{Lot: record.Lot(fmt.Sprintf("R-%s-%d", ingredient, m.deliveries)), What: ingredient, Received: true, Came: mass, Here: mass, Place: record.Place(g.place)}
	b.Of = Content{b.Lot: 1}
	m.Bulk = append(m.Bulk, b)
	m.shelf[ingredient] = append(m.shelf[ingredient], b)
	r := record.Received{Lot: b.Lot, Ingredient: ingredient, Supplier: g.supplier, SupplierLot: fmt.Sprintf("L%d%03d", m.day, m.random.IntN(1000)), Pack: g.pack, Count: packs, Mass: mass,
		Paid: g.price * unit.Money(packs), UseBy: date(m.day + g.keeps), Place: b.Place}
	if g.place == "walk-in" {
		door := unit.TempC(float64(20+m.random.IntN(25)) / 10)
		r.Door = &door
	}
	m.say(store, r)
	m.in(g.keeps, func() {
		if !b.Held {
			m.discard(b, "past its day")
		}
	})
}

// tidy takes bulk that is left over off the books when it is old, and moves or weighs some of what is there.
func (m *maker) tidy(b *Bulk) {
	switch {
	case b == nil || b.Here == 0:
	case !b.Received && m.one(3):
		m.discard(b, "too old")
	case m.one(40) && !b.Held:
		b.Place = "rack by the kettle"
		m.say(store, record.Moved{Lot: b.Lot, Mass: b.Here, To: b.Place})
	}
}

// discard writes off all that is left.
func (m *maker) discard(b *Bulk, why string) {
	if b.Here == 0 {
		return
	}
	b.Waste += b.Here
	m.say(store, record.WrittenOff{Lot: b.Lot, Mass: b.Here, Why: why})
	b.Here = 0
}

// weigh takes stock of one lot in bulk. What is found is often a little less than what the records say, and sometimes more.
func (m *maker) weigh(b *Bulk) {
	found := b.Here
	if m.one(2) {
		found = b.Here * unit.Mass(985+m.random.IntN(20)) / 1000 / unit.Gram * unit.Gram
	}
	if found != b.Here {
		m.Findings["stock-differs"]++
	}
	b.Here = found
	m.say(store, record.Counted{Lot: b.Lot, Place: b.Place, Mass: found, Nothing: found == 0})
}

// isolate holds a delivery until it is decided a day or so later. Held goods are not used.
func (m *maker) isolate(b *Bulk) {
	b.Held = true
	m.say(store, record.Held{Lot: b.Lot, Why: "the supplier rang"})
	m.in(1+m.random.IntN(3), func() {
		what, why := record.ReleaseForUse, "the supplier rang again: it is another lot"
		if m.one(3) {
			what, why = record.Destroy, "the supplier wants it gone"
		}
		m.say(office, record.Released{Lot: b.Lot, Disposition: what, Why: why})
		if what == record.Destroy {
			m.discard(b, "recalled by the supplier")
		} else {
			b.Held = false
		}
	})
}

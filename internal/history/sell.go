package history

import (
	"fmt"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// order is what a customer is to get on a day.
type order struct {
	name, customer string
	lines          []record.OrderLine
}

// subscribe begins a dozen standing orders, which go on to the end.
func (m *maker) subscribe() {
	for i := range 12 {
		o := order{name: fmt.Sprintf("standing-%02d", i), customer: m.guests[i], lines: m.lines(1 + i%3)}
		m.regular = append(m.regular, o)
		m.put(office, record.Ordered{Order: o.name, Customer: o.customer, Lines: o.lines, Due: date(21 + i%5), Way: record.Deliver, Weeks: 1, Until: "2030-12-31"}, record.ID{}, 0)
	}
}

// lines is what is asked for of so many kinds of packs.
func (m *maker) lines(kinds int) []record.OrderLine {
	var lines []record.OrderLine
	first := m.random.IntN(len(menu))
	for i := range kinds {
		p := menu[(first+i)%len(menu)].packs
		kind := p[m.random.IntN(len(p))]
		lines = append(lines, record.OrderLine{Pack: kind.name, Count: int64(2 + m.random.IntN(2+m.size.Packs/7)), Each: kind.price})
	}
	return lines
}

// takeOrders takes orders for the day after tomorrow, for about a twelfth of what there is.
func (m *maker) takeOrders() {
	due := m.day + 2
	if due%7 == 6 {
		due++
	}
	var stock int64
	for _, p := range m.Packs[m.sold:] {
		stock += p.Count(Here)
	}
	for want := stock / 12; want > 0; {
		m.orders++
		o := order{name: fmt.Sprintf("order-%05d", m.orders), customer: m.guests[m.random.IntN(len(m.guests))], lines: m.lines(1 + m.random.IntN(3))}
		way := record.Deliver
		if m.one(3) {
			way = record.Collect
		}
		m.say(office, record.Ordered{Order: o.name, Customer: o.customer, Lines: o.lines, Due: date(due), Way: way})
		for _, l := range o.lines {
			want -= l.Count
		}
		if m.one(40) {
			m.put(office, record.Cancelled{Order: o.name, Why: "closed that week"}, record.ID{}, 0)
			continue
		}
		m.waiting[due] = append(m.waiting[due], o)
	}
}

// deliver picks what is due in the morning, and hands it over on the tour.
func (m *maker) deliver() {
	m.at(7, 30)
	due := m.waiting[m.day]
	delete(m.waiting, m.day)
	for i, o := range m.regular {
		if m.day >= 21 && m.day%7 == i%5 {
			o.name += "/" + string(date(m.day)) // each delivery has a number of its own
			due = append(due, o)
		}
	}
	type picked struct {
		p     *Packs
		packs []int64
		each  unit.Money
	}
	all, short := make([][]picked, len(due)), make([]bool, len(due))
	for m.sold < len(m.Packs) && m.Packs[m.sold].Count(Here) == 0 {
		m.sold++
	}
	for i, o := range due {
		for _, l := range o.lines {
			left := int(l.Count)
			for _, p := range m.Packs[m.sold:] {
				if p.Pack != l.Pack || left == 0 {
					continue
				}
				if packs := m.free(p, left); len(packs) > 0 {
					left -= len(packs)
					p.move(packs, Spot{With, o.customer})
					all[i] = append(all[i], picked{p, packs, l.Each})
					m.put(store, record.Picked{Order: o.name, Lot: p.Lot, Numbers: numbers(packs)}, record.ID{}, 0)
				}
			}
			short[i] = short[i] || left > 0
		}
	}
	m.at(10, 0)
	for i, o := range due {
		var lines []record.InvoiceLine
		for _, x := range all[i] {
			m.handOver(o, x.p, x.packs)
			n := int64(len(x.packs))
			lines = append(lines, record.InvoiceLine{Says: x.p.Pack, Count: n, Each: x.each, Net: x.each * unit.Money(n)})
		}
		m.invoice(o, lines)
		if short[i] { // what is not there is not sent later
			m.put(office, record.Cancelled{Order: o.name, Why: "sold out"}, record.ID{}, 0)
		}
	}
}

// handOver says that packs left the house. Now and then some come back, and now and then they are told of a second time by mistake.
func (m *maker) handOver(o order, p *Packs, packs []int64) {
	h := record.HandedOver{Order: o.name, Customer: o.customer, Lot: p.Lot, Numbers: numbers(packs)}
	m.say(phone, h)
	if m.one(400) {
		other := m.random.IntN(len(m.guests))
		if m.guests[other] == o.customer {
			other = (other + 1) % len(m.guests)
		}
		h.Customer = m.guests[other]
		m.put(phone, h, record.ID{}, 0)
		p.Doubted[h.Customer] += int64(len(packs))
		m.Findings["pack-not-here"]++
	}
	if m.one(80) {
		back := packs[:1+m.random.IntN(len(packs))]
		m.in(1+m.random.IntN(9), func() { m.takeBack(o.customer, p, back) })
	}
}

// takeBack is packs that come back. What was out of the cold is held until it is decided.
func (m *maker) takeBack(customer string, p *Packs, packs []int64) {
	sound := m.one(2)
	p.move(packs, Spot{Here, "returns"})
	n := numbers(packs)
	m.say(phone, record.Returned{Customer: customer, Lot: p.Lot, Numbers: n, Why: "too many", Sound: sound, Place: "returns"})
	if sound {
		return
	}
	p.hold(packs, true)
	m.in(1, func() {
		if p.Held[packs[0]-1] { // a release of the whole lot would have let them go too
			m.say(office, record.Released{Lot: p.Lot, Numbers: n, Disposition: record.Destroy, Why: "nobody knows how warm it was"})
		}
		m.say(store, record.WrittenOff{Lot: p.Lot, Numbers: n, Why: "thawed"})
		p.move(packs, Spot{State: Gone})
	})
}

// invoice bills what was handed over, and most of it is paid.
func (m *maker) invoice(o order, lines []record.InvoiceLine) {
	if len(lines) == 0 {
		return
	}
	m.invoices++
	v := record.Invoiced{Invoice: fmt.Sprintf("%d", 10_000+m.invoices), Order: o.name, Customer: o.customer, Day: date(m.day), Due: date(m.day + 14), Lines: lines}
	for _, l := range lines {
		v.Total += l.Net
	}
	m.put(office, v, record.ID{}, 0)
	if m.one(100) {
		return
	}
	m.in(3+m.random.IntN(25), func() {
		m.put(office, record.Paid{Invoice: v.Invoice, Amount: v.Total, By: "transfer"}, record.ID{}, 0)
	})
}

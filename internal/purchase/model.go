package purchase

import (
	"math"
	"math/bits"

	"kettlefrost/internal/unit"
)

// terms are those of a supplier in plain numbers.
type terms struct{ minOrder, delivery, freeFrom, handling int64 }

// want is a need in plain numbers.
type want struct {
	need, keep, perKg int64
	packs             []pack
	sellers           uint64 // suppliers that have something of it
}

// model is a basket in plain numbers. Only usable suppliers count.
type model struct {
	basket  Basket
	terms   []terms
	wants   []want
	usable  uint64
	leftOut []LeftOut
	atMost  int
	scale   int64 // what a unit of money counts for where orders have a price of their own
	grain   int64 // every cost is a multiple of it
	total   int64 // no purchase costs more
}

// newModel wants a basket without mistakes. Excluded suppliers are left out.
func newModel(b Basket, excluded uint64) *model {
	m := &model{basket: b, terms: make([]terms, len(b.Suppliers)), wants: make([]want, len(b.Needs)), atMost: b.AtMost}
	for j, s := range b.Suppliers {
		m.terms[j] = terms{int64(s.MinOrder), int64(s.Delivery), int64(s.FreeFrom), int64(s.Handling)}
	}
	total := int64(0)
	reach := make([]int64, len(b.Suppliers))
	listed := make([]bool, len(b.Suppliers))
	for i, n := range b.Needs {
		w := want{need: int64(n.Mass), keep: int64(n.Keep.UpTo), perKg: int64(n.Keep.PerKg)}
		if w.perKg == 0 {
			w.keep = 0
		}
		total += worth(w.keep, w.keep, w.perKg)
		for k, o := range n.Offers {
			p := newPack(b, n, o, k)
			w.packs = append(w.packs, p)
			dearest := p.dearest()
			reach[o.Supplier] += dearest
			total += dearest
			listed[o.Supplier] = listed[o.Supplier] || p.most > 0
		}
		m.wants[i] = w
	}
	if m.atMost == 0 {
		m.atMost = len(b.Suppliers)
	}
	m.leaveOut(reach, listed, excluded)
	m.scales(total)
	return m
}

func newPack(b Basket, n Need, o Listing, listed int) pack {
	most, _ := mostListed(b, n, o)
	p := pack{mass: int64(o.Pack), min: int64(max(1, o.Min)), most: int64(most), tiers: []tier{{price: int64(o.Price)}}, supplier: o.Supplier, listed: listed}
	for _, t := range o.Breaks {
		p.tiers = append(p.tiers, tier{int64(t.From), int64(t.Price)})
	}
	p.low = lowest(p.tiers, p.most)
	return p
}

// mostListed is the most packs of an offer that can make sense. With more than enough to cover the need and what is worth keeping,
// to be sold at all, to reach the lowest price, and to reach both order values alone, one pack less costs less or leaves less. It
// reports false if that cannot be counted.
func mostListed(b Basket, n Need, o Listing) (uint64, bool) {
	s := b.Suppliers[o.Supplier]
	most, low := max(uint64(o.Min), 1), uint64(o.Price)
	if len(o.Breaks) > 0 {
		last := o.Breaks[len(o.Breaks)-1]
		most, low = max(most, uint64(last.From)), uint64(last.Price)
	}
	all := uint64(n.Mass) + uint64(n.Keep.UpTo)
	most = max(most, all/uint64(o.Pack)+1)
	if low > 0 {
		most = max(most, uint64(max(s.MinOrder, s.FreeFrom))/low+1)
	}
	if o.Max >= 0 {
		most = min(most, uint64(o.Max))
	}
	return most, most <= math.MaxInt32
}

// dearest is the most that can be paid for packs of this offer.
func (p *pack) dearest() int64 {
	dear := int64(0)
	for k, t := range p.tiers {
		last := p.most
		if k+1 < len(p.tiers) {
			last = min(last, p.tiers[k+1].from-1)
		}
		if last >= max(t.from, p.min) {
			dear = max(dear, last*t.price)
		}
	}
	return dear
}

// leaveOut decides whom nothing can be ordered from.
func (m *model) leaveOut(reach []int64, listed []bool, excluded uint64) {
	b := m.basket
	for j, s := range b.Suppliers {
		l := LeftOut{Supplier: j}
		switch {
		case excluded>>j&1 == 1:
			l.Why = Excluded
		case s.LastOrder > 0 && b.Today > s.LastOrder:
			l.Why, l.Day, l.By = OrdersClosed, s.LastOrder, b.Today
		case b.NeededBy > 0 && b.Today+s.LeadDays > b.NeededBy:
			l.Why, l.Day, l.By = TooLate, b.Today+s.LeadDays, b.NeededBy
		case !listed[j]:
			l.Why = SellsNothing
		case reach[j] < m.terms[j].minOrder:
			l.Why, l.Reach = BelowMinimum, unit.Money(reach[j])
		default:
			m.usable |= 1 << j
			continue
		}
		m.leftOut = append(m.leftOut, l)
	}
	for i := range m.wants {
		for _, p := range m.wants[i].packs {
			if p.most > 0 && m.usable>>p.supplier&1 == 1 {
				m.wants[i].sellers |= 1 << p.supplier
			}
		}
	}
}

// scales finds the grain of money, and as fine a scale as fits.
func (m *model) scales(total int64) {
	for _, t := range m.terms {
		total += t.minOrder + t.delivery + t.freeFrom + t.handling
		m.grain = gcd(t.handling, gcd(t.delivery, m.grain))
	}
	for _, w := range m.wants {
		for _, p := range w.packs {
			for _, t := range p.tiers {
				m.grain = gcd(t.price, m.grain)
			}
		}
	}
	for _, w := range m.wants {
		if w.keep > 0 {
			m.grain = gcd(w.grain(), m.grain)
		}
	}
	m.grain = max(m.grain, 1)
	m.total = total
	m.scale = 1 << min(20, max(0, 60-bits.Len64(uint64(total))))
}

// grain is what the worth of any left-over is a multiple of.
func (w want) grain() int64 {
	step := gcd(w.keep, w.need)
	for _, p := range w.packs {
		step = gcd(p.mass, step)
	}
	if hi, lo := bits.Mul64(uint64(w.perKg), uint64(step)); hi == 0 && lo%kilogram == 0 {
		return int64(lo / kilogram)
	}
	return 1
}

// up is the lowest cost from cost on that a purchase can have.
func (m *model) up(cost int64) int64 {
	if cost >= never {
		return never
	}
	return ceilDiv(cost, m.grain) * m.grain
}

// unmet are the needs that all usable suppliers together do not cover.
func (m *model) unmet() []Unmet {
	var all []Unmet
	for i, w := range m.wants {
		have := int64(0)
		var without uint64
		for _, p := range w.packs {
			if m.usable>>p.supplier&1 == 1 {
				have += p.most * p.mass
			} else {
				without |= 1 << p.supplier
			}
		}
		if have >= w.need {
			continue
		}
		u := Unmet{Need: i, Name: m.basket.Needs[i].Name, Mass: unit.Mass(w.need), Have: unit.Mass(have), NoOffers: len(w.packs) == 0}
		for ; without != 0; without &= without - 1 {
			u.Without = append(u.Without, bits.TrailingZeros64(without))
		}
		all = append(all, u)
	}
	return all
}

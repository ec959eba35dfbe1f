package coldstore

import (
	"math/big"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Basis says how it is known what something is worth.
type Basis string

const (
	AsPaid    Basis = "as paid for it"
	Inherited Basis = "as paid for what went into it"
	AsSold    Basis = "as it is sold"
	NotKnown  Basis = "not known"
)

// Worth is what something is worth, and how that is known.
type Worth struct {
	Money unit.Money
	By    Basis
	Sold  unit.Money // what packs of it are sold for; 0 where nobody knows
}

// Pricer says what lots are worth. It is for one look at a state.
type Pricer struct {
	state *lots.State
	price func(*lots.Lot) unit.Money
	pots  map[pot]*lots.Lot
	known map[*lots.Lot]*big.Rat // millionths of money for a nanogram; nil is not known, or being worked out
}

type pot struct{ run, dish string }

// NewPricer begins a look. Price is what a pack of a lot is sold for, 0 where nobody knows; it may be nil.
func NewPricer(s *lots.State, price func(*lots.Lot) unit.Money) *Pricer {
	p := &Pricer{state: s, price: price, pots: map[pot]*lots.Lot{}, known: map[*lots.Lot]*big.Rat{}}
	for l := range s.All() {
		if l.Sort == lots.Pot {
			p.pots[pot{l.Run, l.Dish}] = l
		}
	}
	return p
}

// Worth is what a mass of a lot is worth, so many packs if it is of packs: its share of what was paid for it, else of what was paid for all that
// went into it (what boils away takes no money with it; only if every lot that went in was paid for), else what the packs are sold for. It is
// to the nearest millionth, halves up.
func (p *Pricer) Worth(l *lots.Lot, m unit.Mass, packs int64) Worth {
	if m == 0 {
		return Worth{}
	}
	w := Worth{By: NotKnown}
	if p.price != nil && packs > 0 {
		w.Sold = p.price(l) * unit.Money(packs)
	}
	switch each := p.each(l); {
	case each != nil:
		w.Money, w.By = nearest(new(big.Rat).Mul(each, whole64(int64(m)))), Inherited
		if l.Paid > 0 {
			w.By = AsPaid
		}
	case w.Sold > 0:
		w.Money, w.By = w.Sold, AsSold
	}
	return w
}

// each is what a nanogram of a lot cost, nil when it is not known.
func (p *Pricer) each(l *lots.Lot) *big.Rat {
	if each, done := p.known[l]; done {
		return each
	}
	p.known[l] = nil // a lot that is in itself, by a mistake in the records, is not known
	p.known[l] = p.work(l)
	return p.known[l]
}

func (p *Pricer) work(l *lots.Lot) *big.Rat {
	switch {
	case l.Paid > 0 && l.Came > 0:
		return new(big.Rat).Quo(whole64(int64(l.Paid)), whole64(int64(l.Came)))
	case l.Sort == lots.Pot:
		return p.ofPot(l)
	}
	for _, e := range l.Events {
		if e.Entry != l.Entry {
			continue
		}
		switch b := e.Body.(type) {
		case record.Packed:
			return p.of(b.From, b.Mass)
		case record.Made:
			if len(b.From) > 0 {
				return p.of(b.From, b.Mass)
			}
			if in := p.pots[pot{b.Run, b.Dish}]; in != nil {
				return p.each(in)
			}
		}
	}
	return nil
}

// ofPot is what was used for a dish over what was made of it.
func (p *Pricer) ofPot(l *lots.Lot) *big.Rat {
	var parts []record.Part
	var made unit.Mass
	for _, e := range l.Events {
		switch b := e.Body.(type) {
		case record.Used:
			parts = append(parts, record.Part{Lot: b.Lot, Mass: b.Mass})
		case record.Made:
			made += b.Mass
		}
	}
	return p.of(parts, made)
}

func (p *Pricer) of(parts []record.Part, comes unit.Mass) *big.Rat {
	if len(parts) == 0 || comes <= 0 {
		return nil
	}
	sum := new(big.Rat)
	for _, part := range parts {
		l := p.state.Lot(part.Lot)
		if l == nil {
			return nil
		}
		each := p.each(l)
		if each == nil {
			return nil
		}
		sum.Add(sum, new(big.Rat).Mul(each, whole64(int64(part.Mass))))
	}
	return sum.Quo(sum, whole64(int64(comes)))
}

func whole64(n int64) *big.Rat { return new(big.Rat).SetInt64(n) }

// nearest is an amount that is not below 0 to the nearest millionth.
func nearest(r *big.Rat) unit.Money {
	twice := new(big.Int).Mul(r.Num(), big.NewInt(2))
	twice.Add(twice, r.Denom())
	return unit.Money(twice.Div(twice, new(big.Int).Mul(r.Denom(), big.NewInt(2))).Int64())
}

package purchase

import (
	"fmt"
	"math"
	"math/rand/v2"

	"kettlefrost/internal/unit"
)

// drawn is how a random basket is made: sizes, and what share of the terms bites.
type drawn struct {
	name             string
	needs, suppliers int
	carries          float64 // share of the needs that a supplier sells
	keeps, breaks    float64 // share of the needs and offers with such terms
	tight            float64 // lowest order and free delivery as a share of what one of the suppliers would sell
	atMost           int     // most suppliers; 0: no limit
}

// basket draws prices in cents and masses in steps of 100 g, so that a general solver can work in whole cents.
func (d drawn) basket(seed uint64) Basket {
	r := rand.New(rand.NewPCG(seed, uint64(d.needs)))
	b := Basket{AtMost: d.atMost}
	steady := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	worth := 0.0
	for i := range d.needs {
		perKg := math.Exp(steady(math.Log(0.8), math.Log(14)))
		n := Need{Name: fmt.Sprintf("need %d", i+1), Mass: unit.Mass(5+r.IntN(300)) * 100 * unit.Gram}
		worth += perKg * n.Mass.Kg()
		if r.Float64() < d.keeps {
			n.Keep = Keep{PerKg: unit.Money(perKg*steady(0.2, 0.8)*10) * 10 * unit.Cent, UpTo: unit.Mass(1+r.IntN(80)) * 100 * unit.Gram}
			if n.Keep.PerKg == 0 {
				n.Keep = Keep{}
			}
		}
		for j := range d.suppliers {
			if r.Float64() < d.carries {
				n.Offers = append(n.Offers, d.listings(r, j, perKg*steady(0.85, 1.2))...)
			}
		}
		if len(n.Offers) == 0 {
			n.Offers = d.listings(r, r.IntN(d.suppliers), perKg)
		}
		n.Offers[len(n.Offers)-1].Max = -1 // everything can be had
		b.Needs = append(b.Needs, n)
	}
	share := worth / float64(d.suppliers) * d.tight
	for j := range d.suppliers {
		s := Supplier{Name: fmt.Sprintf("supplier %d", j+1), Handling: unit.Money(r.IntN(30)) * unit.MoneyUnit}
		s.MinOrder = unit.Money(share*steady(0.2, 1.2)) * unit.MoneyUnit
		if r.IntN(4) > 0 {
			s.Delivery = unit.Money(5+r.IntN(40)) * unit.MoneyUnit
			if r.IntN(3) > 0 {
				s.FreeFrom = unit.Money(share*steady(0.6, 2.2)) * unit.MoneyUnit
			}
		}
		b.Suppliers = append(b.Suppliers, s)
	}
	return b
}

// listings are one to three sizes of pack of a supplier, the larger mostly cheaper per mass.
func (d drawn) listings(r *rand.Rand, supplier int, perKg float64) []Listing {
	sizes := []float64{0.5, 1, 2, 2.5, 5, 10, 12.5, 25}
	var all []Listing
	at := r.IntN(5)
	for range 1 + r.IntN(3) {
		kg := sizes[at]
		cents := max(1, int(100*perKg*kg*(1.1-0.03*float64(at))*(0.97+0.06*r.Float64())))
		o := Listing{Name: fmt.Sprintf("%g kg", kg), Supplier: supplier, Pack: unit.Mass(kg*10) * 100 * unit.Gram, Price: unit.Money(cents) * unit.Cent, Max: -1}
		if r.IntN(10) == 0 {
			o.Min = 2
		}
		if r.IntN(8) == 0 {
			o.Max = 2 + r.IntN(6)
		}
		if r.Float64() < d.breaks && cents > 20 {
			from := 3 + r.IntN(4)
			o.Breaks = []Break{{from, unit.Money(cents*93/100) * unit.Cent}, {2 * from, unit.Money(cents*88/100) * unit.Cent}}
		}
		all = append(all, o)
		if at += 1 + r.IntN(2); at >= len(sizes) {
			break
		}
	}
	return all
}

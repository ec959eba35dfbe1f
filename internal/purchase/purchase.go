// Package purchase chooses which supplier packs to buy: whole packs that cover what is needed at the least cost. Cover does it for one
// need; Best for a whole basket of needs, with the terms of the suppliers: lowest orders, deliveries, price breaks, days.
//
// Cover compares choices by cost, then by what is bought too much, then by the number of packs; of equals the one with more of the
// offer that is cheaper per mass, then larger, then listed earlier.
// Everything is whole numbers. The method is branch and bound over the offers, the cheapest per mass first: the rest of the need
// can't cost less than at the price per mass of the cheapest offer that is still open, nor be covered more closely than to the
// next multiple of the greatest common divisor of the packs still open.
package purchase

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Offer is one size of pack at one supplier.
type Offer struct {
	Name     string
	Supplier string
	Pack     unit.Mass // what one pack holds, above 0
	Price    unit.Money
	Free     bool // a pack that costs nothing says so; a price of 0 alone is a price that was forgotten
	Min      int  // fewest packs the supplier sells if any are bought; 0 and 1 mean the same
	Max      int  // most packs that can be had; negative means no limit
}

// Choice is how many packs of each offer to buy.
type Choice struct {
	Counts  []int // of each offer
	Packs   int   // all of them
	Total   unit.Money
	Bought  unit.Mass
	Over    unit.Mass  // Bought less the need
	Optimal bool       // no other choice is preferred
	AtLeast unit.Money // no choice that covers the need costs less; Total when Optimal
}

// NoOfferError says that there is a need and nothing is known to buy.
type NoOfferError struct{ Need unit.Mass }

func (e *NoOfferError) Error() string {
	return fmt.Sprintf("purchase: no pack is known for a need of %.6g kg", e.Need.Kg())
}

// ShortError says that all that can be had does not cover the need.
type ShortError struct{ Need, Have, By unit.Mass }

func (e *ShortError) Error() string {
	return fmt.Sprintf("purchase: the need is %.6g kg, all packs together are %.6g kg: short by %.6g kg", e.Need.Kg(), e.Have.Kg(), e.By.Kg())
}

// OfferError says which offer makes no sense, and why. Offer is -1 when it is the need that makes none.
type OfferError struct {
	Offer  int
	Name   string
	Reason string
}

func (e *OfferError) Error() string {
	if e.Offer < 0 {
		return "purchase: " + e.Reason
	}
	return fmt.Sprintf("purchase: offer %d (%s): %s", e.Offer+1, e.Name, e.Reason)
}

// Cover chooses the packs for a need. A need of 0 buys nothing. It returns *NoOfferError, *ShortError or *OfferError.
func Cover(need unit.Mass, offers []Offer) (Choice, error) {
	if need < 0 {
		return Choice{}, &OfferError{Offer: -1, Reason: "the need is negative"}
	}
	if err := check(need, offers); err != nil {
		return Choice{}, err
	}
	if need == 0 {
		return Choice{Counts: make([]int, len(offers)), Optimal: true}, nil
	}
	if len(offers) == 0 {
		return Choice{}, &NoOfferError{Need: need}
	}
	s := newShelf(int64(need), 0, 0, 1, packsOf(need, offers))
	if have := s.reach[0]; have < int64(need) {
		return Choice{}, &ShortError{Need: need, Have: unit.Mass(have), By: need - unit.Mass(have)}
	}
	return s.choice(mostSteps), nil
}

// mostSteps is where the search stops and says that the choice is not proven. Kitchens with a dozen offers stay far below it.
const mostSteps = 2_000_000

func (s *shelf) choice(most int64) Choice {
	least := s.cheapest(most)
	c := Choice{Counts: make([]int, len(s.packs)), Packs: int(s.bestScore.packs), Total: unit.Money(s.bestScore.cost), Over: unit.Mass(s.bestScore.over),
		Bought: unit.Mass(s.need + s.bestScore.over), Optimal: least == s.bestScore, AtLeast: unit.Money(least.cost)}
	for k, p := range s.packs {
		c.Counts[p.listed] = int(s.best[k])
	}
	return c
}

func packsOf(need unit.Mass, offers []Offer) []pack {
	packs := make([]pack, len(offers))
	for i, o := range offers {
		packs[i] = pack{mass: int64(o.Pack), min: int64(max(1, o.Min)), most: mostPacks(need, o), tiers: []tier{{price: int64(o.Price)}}, low: int64(o.Price),
			weight: 1, listed: i}
	}
	return packs
}

// mostPacks is the most packs of an offer that can make sense: enough to cover the need alone, or the fewest that are sold.
func mostPacks(need unit.Mass, o Offer) int64 {
	most := max(ceilDiv(int64(need), int64(o.Pack)), int64(o.Min))
	if o.Max >= 0 {
		most = min(most, int64(o.Max))
	}
	return most
}

func check(need unit.Mass, offers []Offer) error {
	for i, o := range offers {
		reason := ""
		switch {
		case o.Pack <= 0:
			reason = "the pack holds nothing"
		case o.Price < 0:
			reason = "the price is negative"
		case o.Price == 0 && !o.Free:
			reason = "the price is 0: say that it is free, or give its price"
		case o.Price > 0 && o.Free:
			reason = "it is free and has a price"
		case o.Min < 0:
			reason = "the fewest packs are negative"
		case o.Max >= 0 && o.Max < o.Min:
			reason = "the most packs are fewer than the fewest"
		case tooMany(mostPacks(need, o), int64(o.Pack), int64(o.Price), int64(len(offers))):
			reason = "its amounts are too large to add up"
		}
		if reason != "" {
			return &OfferError{Offer: i, Name: o.Name, Reason: reason}
		}
	}
	return nil
}

package purchase

import (
	"fmt"
	"math/bits"

	"kettlefrost/internal/unit"
)

const (
	mostSuppliers = 64               // they fit into the bits of a word
	mostMoney     = int64(1)<<52 - 1 // about 4,500 million units of money
	mostMass      = int64(never) / 2 // about 2,300 tonnes
)

// checkBasket reports the first thing that makes no sense.
func checkBasket(b Basket) *InputError {
	if len(b.Suppliers) > mostSuppliers {
		return &InputError{"basket", fmt.Sprintf("%d suppliers", len(b.Suppliers)), fmt.Sprintf("name at most %d", mostSuppliers)}
	}
	if e := checkDays(b); e != nil {
		return e
	}
	for j, s := range b.Suppliers {
		if e := checkSupplier(s, supplierPlace(b, j)); e != nil {
			return e
		}
	}
	for i, n := range b.Needs {
		if e := checkNeed(n, needPlace(b, i)); e != nil {
			return e
		}
		for k, o := range n.Offers {
			if e := checkListing(o, len(b.Suppliers), offerPlace(b, i, k)); e != nil {
				return e
			}
		}
	}
	return checkSizes(b)
}

func supplierPlace(b Basket, j int) string {
	return fmt.Sprintf("supplier %d (%s)", j+1, b.Suppliers[j].Name)
}

func needPlace(b Basket, i int) string { return fmt.Sprintf("need %d (%s)", i+1, b.Needs[i].Name) }

func offerPlace(b Basket, i, k int) string {
	return fmt.Sprintf("%s, offer %d (%s)", needPlace(b, i), k+1, b.Needs[i].Offers[k].Name)
}

func checkDays(b Basket) *InputError {
	switch {
	case b.AtMost < 0:
		return &InputError{"basket", "the most suppliers are negative", "give a number above 0, or 0 for no limit"}
	case b.Today < 0 || b.NeededBy < 0:
		return &InputError{"basket", "a day is negative", "count days from one before the run"}
	case b.Today == 0 && b.NeededBy > 0:
		return &InputError{"basket", "it says when the goods are needed and not when they are ordered", "state the day of the order"}
	case b.Today > 1<<31 || b.NeededBy > 1<<31:
		return &InputError{"basket", "a day is absurd", "count days from one shortly before the run"}
	}
	return nil
}

func checkSupplier(s Supplier, place string) *InputError {
	for _, m := range []struct {
		what string
		of   unit.Money
	}{{"lowest order value", s.MinOrder}, {"delivery charge", s.Delivery}, {"order value for free delivery", s.FreeFrom}, {"cost of an order", s.Handling}} {
		if m.of < 0 {
			return &InputError{place, "the " + m.what + " is negative", "give it as 0 or above"}
		}
		if int64(m.of) > mostMoney {
			return &InputError{place, "the " + m.what + " is too large to add up", "check its unit"}
		}
	}
	switch {
	case s.LeadDays < 0 || s.LastOrder < 0:
		return &InputError{place, "a number of days is negative", "give it as 0 or above"}
	case s.LeadDays > 1<<31 || s.LastOrder > 1<<31:
		return &InputError{place, "a number of days is absurd", "count days from one shortly before the run"}
	}
	return nil
}

func checkNeed(n Need, place string) *InputError {
	switch {
	case n.Mass < 0:
		return &InputError{place, "the need is negative", "give it as 0 or above"}
	case n.Keep.PerKg < 0 || n.Keep.UpTo < 0:
		return &InputError{place, "what is left is worth less than nothing", "give its worth and the most that keeps as 0 or above"}
	case n.Keep.PerKg > 0 && n.Keep.UpTo == 0:
		return &InputError{place, "what is left is worth something up to no mass", "say up to what mass"}
	}
	return nil
}

func checkListing(o Listing, suppliers int, place string) *InputError {
	switch {
	case o.Supplier < 0 || o.Supplier >= suppliers:
		return &InputError{place, fmt.Sprintf("there is no supplier %d", o.Supplier+1), "name one of the suppliers of the basket"}
	case o.Pack <= 0:
		return &InputError{place, "the pack holds nothing", "give the mass of what it holds"}
	case o.Price < 0:
		return &InputError{place, "the price is negative", "give it as 0 or above"}
	case o.Price == 0 && !o.Free:
		return &InputError{place, "the price is 0", "say that it is free, or give its price"}
	case o.Free && (o.Price > 0 || len(o.Breaks) > 0):
		return &InputError{place, "it is free and has a price", "keep one of the two"}
	case o.Min < 0:
		return &InputError{place, "the fewest packs are negative", "give them as 0 or above"}
	case o.Max >= 0 && o.Max < o.Min:
		return &InputError{place, "the most packs are fewer than the fewest", "check both"}
	}
	return checkBreaks(o, place)
}

func checkBreaks(o Listing, place string) *InputError {
	from, price := 1, o.Price
	for k, t := range o.Breaks {
		place := fmt.Sprintf("%s, price break %d", place, k+1)
		switch {
		case t.From <= from:
			return &InputError{place, fmt.Sprintf("it begins at %d packs, not above the %d before", t.From, from), "list breaks by packs, the fewest first, from 2 on"}
		case t.Price <= 0:
			return &InputError{place, "its price is not above 0", "give its price"}
		case t.Price >= price:
			return &InputError{place, fmt.Sprintf("its price %s is not below the %s before", t.Price, price), "give a lower price, or take it out"}
		}
		from, price = t.From, t.Price
	}
	return nil
}

// checkSizes holds all that could be bought together to what can be added up exactly.
func checkSizes(b Basket) *InputError {
	var money, mass uint64
	for _, s := range b.Suppliers {
		money += uint64(s.Delivery) + uint64(s.Handling)
	}
	for i, n := range b.Needs {
		mass += uint64(n.Mass) + uint64(n.Keep.UpTo)
		money += uint64(floorMulDiv(int64(n.Keep.PerKg), int64(n.Keep.UpTo), kilogram))
		for k, o := range n.Offers {
			most, ok := mostListed(b, n, o)
			moreMoney, moreMass := product(most, uint64(o.Price)), product(most, uint64(o.Pack))
			if !ok || moreMoney > uint64(mostMoney) || moreMass > uint64(mostMass) {
				return &InputError{offerPlace(b, i, k), "its amounts are too large to add up", "check the units of pack, price, need and lowest order value, and the numbers of packs"}
			}
			money, mass = money+moreMoney, mass+moreMass
		}
		if money > uint64(mostMoney) || mass > uint64(mostMass) {
			return &InputError{needPlace(b, i), "with it, amounts are too large to add up", "check the units of need, left-over, packs and prices"}
		}
	}
	return nil
}

// product is a*b, held at the end of the range.
func product(a, b uint64) uint64 {
	if over, low := bits.Mul64(a, b); over == 0 {
		return low
	}
	return ^uint64(0)
}

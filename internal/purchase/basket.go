// Package purchase chooses which supplier packs to buy for a whole basket of needs: whole packs, from whom it costs least with what
// the suppliers ask for: lowest orders, deliveries, price breaks, days. Everything is whole numbers.
package purchase

import "kettlefrost/internal/unit"

// Basket is all that a run needs, and who sells it on what terms.
//
// Days are whole numbers counted from any day before the run, and above 0; a day of 0 is not stated.
type Basket struct {
	Needs     []Need
	Suppliers []Supplier
	Today     int // the day the orders go out
	NeededBy  int // the last day a delivery may come; 0: any day
	AtMost    int // most suppliers to order from; 0 means no limit
}

// Need is how much of one ingredient has to be bought, and where it can be had.
type Need struct {
	Name   string
	Mass   unit.Mass // 0 or above; 0 is bought only for what its left-over is worth, or to reach an order value
	Offers []Listing
	Keep   Keep
}

// Listing is one size of pack of one ingredient at one supplier.
type Listing struct {
	Name     string
	Supplier int        // which of Basket.Suppliers
	Pack     unit.Mass  // what one pack holds, above 0
	Price    unit.Money // of a pack
	Free     bool       // a pack that costs nothing says so; a price of 0 alone is a price that was forgotten
	Min      int        // fewest packs the supplier sells if any are bought; 0 and 1 mean the same
	Max      int        // most packs that can be had; negative means no limit
	Breaks   []Break    // lower prices for more packs, the fewest packs first
}

// Break is a price that holds for every pack, from the first on, once From packs are bought.
type Break struct {
	From  int
	Price unit.Money
}

// Keep is what is bought too much is worth: it keeps until the next run. The zero value is worth nothing.
type Keep struct {
	PerKg unit.Money // rounded down to a millionth of a unit of money for the mass that is left
	UpTo  unit.Mass  // what is left beyond it is worth nothing
}

// Worth is what a surplus is worth.
func (k Keep) Worth(surplus unit.Mass) unit.Money {
	return unit.Money(worth(int64(surplus), int64(k.UpTo), int64(k.PerKg)))
}

// Supplier is the terms of one supplier. An order value is what the packs cost, without delivery.
type Supplier struct {
	Name      string
	MinOrder  unit.Money // lowest order value that is taken
	Delivery  unit.Money // charge for an order
	FreeFrom  unit.Money // order value from which nothing is charged; 0: the charge is always due
	Handling  unit.Money // what one more order costs us: the telephone, the door, the invoice
	LeadDays  int        // days from the order to the delivery
	LastOrder int        // last day on which an order is taken; 0: any day
}

// Options bounds the search.
type Options struct {
	Steps int64 // 0: 13.5 million, under a second; a tenth of it is enough for most baskets
}

// Purchase is what to buy. Counts, Surplus and Orders follow the order of the basket.
type Purchase struct {
	Counts  [][]int     // of each need, packs of each offer
	Surplus []unit.Mass // of each need, what is bought beyond it
	Orders  []Order     // one for each supplier that is ordered from
	LeftOut []LeftOut   // every other supplier, with the reason
	Split   Split
	Total   unit.Money // what the split comes to; below 0 if what is left is worth more
	Over    unit.Mass  // all surplus
	Packs   int
	Proof   Proof
}

// Split is what a purchase is made of.
type Split struct {
	Goods, Delivery, Handling unit.Money
	LeftOver                  unit.Money // what the surplus is worth, to be taken off
}

// Total is goods, delivery and handling less what is left over.
func (s Split) Total() unit.Money { return s.Goods + s.Delivery + s.Handling - s.LeftOver }

// Order is what one supplier gets.
type Order struct {
	Supplier int
	Goods    unit.Money
	Delivery unit.Money
	Handling unit.Money
	ToFree   unit.Money // what is missing to free delivery; 0 if it is free or never is
	Mass     unit.Mass
	Packs    int
	Arrives  int // day; 0 if Today is not stated
}

// Proof is how far the search came.
type Proof struct {
	Optimal bool       // nothing costs less
	Settled bool       // and of all that cost the same nothing comes first by suppliers, surplus and packs
	AtLeast unit.Money // nothing costs less than this; Total when Optimal
	Steps   int64
}

// Gap is how much less a better purchase could cost.
func (p Purchase) Gap() unit.Money { return p.Total - p.Proof.AtLeast }

// Why says why nothing is ordered from a supplier.
type Why int

const (
	Dearer       Why = iota + 1 // it can deliver; with it the purchase is no better
	TooLate                     // it delivers after the day the goods are needed
	OrdersClosed                // its last day for orders is over
	SellsNothing                // it has none of the ingredients, or no pack is to be had
	BelowMinimum                // all it sells does not come to its lowest order value
	Excluded                    // the caller asked for the best purchase without it
)

// String is a reason in a few words.
func (w Why) String() string {
	return [...]string{"no reason", "no better with it", "too late", "orders closed", "sells nothing of this", "below its minimum order", "left out on request"}[w]
}

// LeftOut is a supplier that nothing is ordered from. Day is when it would deliver (TooLate) or took its last order (OrdersClosed);
// By is the day that it should have been; Reach is the most that can be ordered from it (BelowMinimum).
type LeftOut struct {
	Supplier int
	Why      Why
	Day, By  int
	Reach    unit.Money
}

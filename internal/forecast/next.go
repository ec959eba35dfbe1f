package forecast

import (
	"fmt"
	"math"
)

// Stock is what there is of a product, and what is wanted. Counts are whole packs.
type Stock struct {
	// Demand is what will be sold until what is made next can be sold, beside the orders that are open: the total of a forecast, or the
	// high end of its range. It counts up to the next whole pack.
	Demand  float64
	Open    int64 // ordered and not handed over
	Keep    int64 // what should remain
	OnHand  int64
	Planned int64 // made by runs that are planned already
	Batch   int64 // packs are made in multiples of this; 0: 1
}

// Next is what to make, and the sum that it comes from: Need = Demand + Open + Keep - OnHand - Planned.
type Next struct {
	Demand  int64 // up to a whole pack
	Need    int64 // below 0: there is more than enough
	Make    int64 // the least multiple of Batch that covers Need; 0 if nothing is needed
	Batches int64
	Over    int64 // Make - Need
}

// mostPacks keeps sums of five counts in range.
const mostPacks = int64(most)

// ToMake works out what to make next. Errors are *InputError.
func ToMake(s Stock) (Next, error) {
	if s.Batch == 0 {
		s.Batch = 1
	}
	for _, c := range []struct {
		name string
		n    int64
		low  int64
	}{{"open orders", s.Open, 0}, {"minimum stock", s.Keep, 0}, {"on hand", s.OnHand, 0}, {"planned", s.Planned, 0}, {"batch", s.Batch, 1}} {
		if c.n < c.low || c.n > mostPacks {
			return Next{}, &InputError{c.name, fmt.Sprintf("%d packs can't be", c.n), fmt.Sprintf("give %d to %d", c.low, mostPacks)}
		}
	}
	if !(s.Demand >= 0 && s.Demand <= most) {
		return Next{}, &InputError{"demand", fmt.Sprintf("%g packs can't be", s.Demand), fmt.Sprintf("give 0 to %g", most)}
	}
	n := Next{Demand: int64(math.Ceil(s.Demand * (1 - 1e-12)))} // what rounding added to a sum is no pack
	n.Need = n.Demand + s.Open + s.Keep - s.OnHand - s.Planned
	n.Batches = (max(0, n.Need) + s.Batch - 1) / s.Batch
	n.Make = n.Batches * s.Batch
	n.Over = n.Make - n.Need
	return n, nil
}

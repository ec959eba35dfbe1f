// Package pricing is the arithmetic between a cost and a price: margin, mark-up, food-cost share, contribution and break-even; prices
// for a target, rounded up to the endings a shop likes; and which input moves a cost the most.
//
// Money is whole millionths and every figure is rounded once: shares to the nearest billionth, a half up; prices and break-even
// sales up, so that the target is met. The formulas are those of any text on cost, volume and profit. Errors are
// *costing.RangeError, which name the figure and what puts it right.
package pricing

import (
	"kettlefrost/internal/costing"
	"kettlefrost/internal/unit"
)

// Sale is one pack sold.
type Sale struct {
	Price unit.Money
	Cost  unit.Money // with the variable cost the figures are those of contribution, with the full cost those of profit
	Food  unit.Money // the part of Cost that is food
	// AtLeast says that a price was missing, so that Cost and Food are lower bounds.
	AtLeast bool
}

// Figures is what a sale leaves.
type Figures struct {
	Contribution unit.Money // price less cost; below 0 when it loses money
	Margin       unit.Share // of the price
	MarkUp       unit.Share // of the cost; 0 and without meaning unless HasMarkUp
	HasMarkUp    bool       // there is a cost to mark up
	FoodShare    unit.Share // of the price
	// AtMost says that the cost was a lower bound: contribution, margin and mark-up are at most this, the food share at least.
	AtMost bool
}

// Of works a sale's figures out.
func Of(s Sale) (Figures, error) {
	if s.Price <= 0 {
		return Figures{}, noPrice()
	}
	if s.Cost < 0 || s.Food < 0 || s.Food > s.Cost {
		return Figures{}, &costing.RangeError{What: "cost", Reason: "is negative, or less than the food in it", Fix: "give a cost of 0 or more, and of it the food"}
	}
	f := Figures{Contribution: s.Price - s.Cost, HasMarkUp: s.Cost > 0, AtMost: s.AtLeast}
	var err error
	if f.Margin, err = costing.Ratio(f.Contribution, s.Price); err != nil {
		return Figures{}, err
	}
	if f.HasMarkUp {
		if f.MarkUp, err = costing.Ratio(f.Contribution, s.Cost); err != nil {
			return Figures{}, err
		}
	}
	f.FoodShare, err = costing.Ratio(s.Food, s.Price)
	return f, err
}

func noPrice() error {
	return &costing.RangeError{What: "price", Reason: "is not above 0", Fix: "give what a pack sells for"}
}

package pricing

import (
	"fmt"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/unit"
)

// Selling is one product of a range that is sold in fixed proportions.
type Selling struct {
	Name     string
	Price    unit.Money
	Variable unit.Money // of one
	Parts    int64      // how many of it go with the parts of the others; 1 for a product alone
}

// Point is where what is sold has paid for the fixed cost and the profit asked for.
type Point struct {
	Sets  int64      // whole sets, of Parts of every product
	Packs []int64    // of each product, at so many sets
	Sales unit.Money // what so many sets sell for
	Over  unit.Money // what they leave above what was asked for, because sets are whole
	Exact unit.Money // the sales that would just do if packs could be cut, up to the millionth
}

// ToEarn is how much must be sold for the fixed cost and a profit; a profit of 0 is the break-even. Sets needed are
// (fixed + profit) / contribution of a set, up; sales needed (fixed + profit) / (contribution / price).
func ToEarn(fixed, profit unit.Money, products []Selling) (Point, error) {
	if fixed < 0 || profit < 0 {
		return Point{}, &costing.RangeError{What: "fixed cost and profit", Reason: "one is negative", Fix: "give both as 0 or more"}
	}
	price, left, err := set(products)
	if err != nil {
		return Point{}, err
	}
	need, err := costing.Sum(fixed, profit)
	if err != nil {
		return Point{}, err
	}
	p := Point{Sets: int64(need / left)}
	if need%left > 0 {
		p.Sets++
	}
	p.Over = unit.Money(p.Sets-1)*left - need + left // in this order it stays inside the range
	for _, s := range products {
		packs, err := costing.Scaled(unit.Money(s.Parts), p.Sets, 1)
		if err != nil {
			return Point{}, err
		}
		p.Packs = append(p.Packs, int64(packs))
	}
	if p.Sales, err = costing.Scaled(price, p.Sets, 1); err != nil {
		return Point{}, err
	}
	p.Exact, err = costing.ScaledUp(need, int64(price), int64(left))
	return p, err
}

// set is what one set of all products sells for and contributes.
func set(products []Selling) (price, left unit.Money, err error) {
	for _, s := range products {
		if s.Price <= 0 || s.Variable < 0 || s.Parts <= 0 {
			return 0, 0, &costing.RangeError{What: s.Name, Reason: "its price or its part is nothing, or its cost negative", Fix: "give price and part above 0 and a cost of 0 or more"}
		}
		sells, err := costing.Scaled(s.Price, s.Parts, 1)
		if err != nil {
			return 0, 0, err
		}
		leaves, err := costing.Scaled(s.Price-s.Variable, s.Parts, 1)
		if err != nil {
			return 0, 0, err
		}
		if price, err = costing.Sum(price, sells); err != nil {
			return 0, 0, err
		}
		if left, err = costing.Sum(left, leaves); err != nil {
			return 0, 0, err
		}
	}
	if left <= 0 {
		return 0, 0, &costing.RangeError{What: "contribution", Reason: fmt.Sprintf("is %v for a set: no sales ever pay the fixed cost", left), Fix: "raise a price, lower a variable cost, or sell less of what loses money"}
	}
	return price, left, nil
}

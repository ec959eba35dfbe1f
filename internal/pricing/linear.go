package pricing

import (
	"fmt"
	"math/big"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/unit"
)

// Linear is a cost that is a sum: Fixed, and for each input its value x Rate / Per.
type Linear struct {
	Fixed unit.Money
	Terms []Term
}

// Term is what one input costs: Rate for every Per of its steps. A kilogram price on a mass in nanograms has Per unit.Kilogram; a mass on
// a kilogram price in millionths has Rate = the mass and Per unit.Kilogram just as well.
type Term struct {
	Rate int64
	Per  int64
}

// Cost adds the terms up exactly and rounds once, a half up, to the millionth.
func (l Linear) Cost(values []int64) (unit.Money, error) {
	if len(values) != len(l.Terms) {
		return 0, &costing.RangeError{What: "linear cost", Reason: fmt.Sprintf("%d terms and %d inputs", len(l.Terms), len(values)), Fix: "give every input one term"}
	}
	sum := new(big.Rat).SetInt64(int64(l.Fixed))
	for i, t := range l.Terms {
		if t.Per <= 0 {
			return 0, &costing.RangeError{What: fmt.Sprintf("term %d", i), Reason: "is for nothing", Fix: "say for how many steps of the input the rate is, 1 or more"}
		}
		term := big.NewRat(t.Rate, t.Per)
		sum.Add(sum, term.Mul(term, new(big.Rat).SetInt64(values[i])))
	}
	sum.Add(sum, big.NewRat(1, 2)) // floor(x + 1/2)
	whole := new(big.Int).Div(sum.Num(), sum.Denom())
	if !whole.IsInt64() {
		return 0, &costing.RangeError{What: "linear cost", Reason: "is too large", Fix: "check the amounts and their units"}
	}
	return unit.Money(whole.Int64()), nil
}

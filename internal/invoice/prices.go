package invoice

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// PriceList is what one kind of customer pays. The list of kind "" is for everybody; a kind's own list need not name every product.
type PriceList struct {
	Kind   string
	Prices []Price
}

// Price is what each pack costs once From packs are taken.
type Price struct {
	Product int
	From    int64 // 0 and 1 mean the same
	Each    unit.Money
}

// PriceError says that no list has a price.
type PriceError struct {
	Kind    string
	Product int
	Packs   int64
}

func (e *PriceError) Error() string {
	return fmt.Sprintf("invoice: no list has a price for %d packs of product %d to a customer of kind %q; add one, or one for everybody", e.Packs, e.Product+1, e.Kind)
}

// PriceFor is what each pack costs a kind of customer who takes so many: the price of their own list if it has one for that many,
// else of everybody's list. The highest From that is reached counts; of equal ones the later, as lists are amended at their end.
// Errors are *PriceError.
func PriceFor(lists []PriceList, kind string, product int, packs int64) (unit.Money, error) {
	for _, k := range []string{kind, ""} {
		best := -1
		var all []Price
		for _, l := range lists {
			if l.Kind == k {
				all = append(all, l.Prices...)
			}
		}
		for i, p := range all {
			if p.Product == product && max(p.From, 1) <= packs && (best < 0 || p.From >= all[best].From) {
				best = i
			}
		}
		if best >= 0 {
			return all[best].Each, nil
		}
	}
	return 0, &PriceError{kind, product, packs}
}

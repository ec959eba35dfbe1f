package purchase

import "kettlefrost/internal/unit"

// Alternative is the best purchase with one supplier left out, or with fewer suppliers; or why there is none.
type Alternative struct {
	Without  int // supplier that is left out; -1 if it is the number that is capped
	AtMost   int // most suppliers; 0 if one is left out
	Purchase Purchase
	Extra    unit.Money // what it costs more than the purchase it stands against
	Err      error      // *UnmetError or *TermsError if it cannot be done
}

// Alternatives are, for every supplier of best, the best purchase without it; and the best from at most k suppliers, for every k
// below the number of best's. Best must be of the same basket. Each is searched within the steps of opt, and its proof says how far.
// Errors are *InputError; that an alternative cannot be done is no error.
func Alternatives(b Basket, than Purchase, opt Options) ([]Alternative, error) {
	if e := checkBasket(b); e != nil {
		return nil, e
	}
	if err := CheckBasket(b, than); err != nil {
		return nil, err
	}
	var all []Alternative
	add := func(a Alternative, b Basket, excluded uint64) {
		a.Purchase, a.Err = best(b, excluded, opt)
		if a.Err == nil {
			a.Extra = a.Purchase.Total - than.Total
		}
		all = append(all, a)
	}
	for _, o := range than.Orders {
		add(Alternative{Without: o.Supplier}, b, 1<<o.Supplier)
	}
	for k := 1; k < len(than.Orders); k++ {
		capped := b
		capped.AtMost = k
		add(Alternative{Without: -1, AtMost: k}, capped, 0)
	}
	return all, nil
}

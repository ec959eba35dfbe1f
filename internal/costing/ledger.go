package costing

import (
	"slices"

	"kettlefrost/internal/unit"
)

// Charge is a line and the work that it was spent on.
type Charge struct {
	Dish string
	Step string
	Line
}

// Ledger is charges, or the parts of them that one output or pack bears.
type Ledger []Charge

// Total adds them up. It is a lower bound when anything is Missing.
func (l Ledger) Total() unit.Money {
	total := unit.Money(0)
	for _, c := range l {
		total += c.Cost
	}
	return total
}

// Missing is the charges without a price.
func (l Ledger) Missing() Ledger {
	var missing Ledger
	for _, c := range l {
		if !c.Known {
			missing = append(missing, c)
		}
	}
	return missing
}

// Group is the total of the charges that have something in common.
type Group[K comparable] struct {
	Key   K
	Total unit.Money
}

// GroupBy adds a ledger up by a key, in the order in which the keys first come: by dish, step, kind or name.
func GroupBy[K comparable](l Ledger, key func(Charge) K) []Group[K] {
	var groups []Group[K]
	for _, c := range l {
		k := key(c)
		i := slices.IndexFunc(groups, func(g Group[K]) bool { return g.Key == k })
		if i < 0 {
			i = len(groups)
			groups = append(groups, Group[K]{Key: k})
		}
		groups[i].Total += c.Cost
	}
	return groups
}

// KindOf is the key by which a cost is told: food and so on, with what trim is worth taken off the food.
func KindOf(c Charge) Kind {
	if c.Kind == Credit {
		return Food
	}
	return c.Kind
}

// split shares every charge out in proportion to parts, so that each charge's parts add up to it, and what each part bears adds up to its
// share of the whole: both to the millionth, by largest remainders. A part of 0 bears nothing, not even what is missing.
func (l Ledger) split(what string, parts []int64) ([]Ledger, error) {
	short, err := l.Total().Split(parts...) // by how much each part bears too little, once the loop below has run
	if err != nil {
		return nil, &RangeError{what, err.Error(), "give every part 0 or more, and one of them more than 0"}
	}
	cells := make([][]unit.Money, len(l)) // charge, part
	for i, c := range l {
		if cells[i], err = c.Cost.Split(parts...); err != nil {
			return nil, &RangeError{what, err.Error(), "check the parts"}
		}
		for j, m := range cells[i] {
			short[j] -= m
		}
	}
	for _, row := range cells {
		even(row, short)
	}
	shares := make([]Ledger, len(parts))
	for i, c := range l {
		for j, m := range cells[i] {
			if parts[j] > 0 {
				c.Cost = m
				shares[j] = append(shares[j], c)
			}
		}
	}
	return shares, nil
}

// even moves millionths of one charge from the parts that bear too much to those that bear too little: short is what each lacks.
// It takes nothing from a part below 0.
func even(row, short []unit.Money) {
	for from := range row {
		for to := range row {
			if m := min(-short[from], short[to], row[from]); m > 0 {
				row[from] -= m
				row[to] += m
				short[from] += m
				short[to] -= m
			}
		}
	}
}

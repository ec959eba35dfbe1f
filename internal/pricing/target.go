package pricing

import (
	"kettlefrost/internal/costing"
	"kettlefrost/internal/unit"
)

// Endings is how a shop's prices end: At within every Step, such as .49 and .95 of 1.00. The zero Endings leaves a price as it is.
type Endings struct {
	Step unit.Money
	At   []unit.Money // each 0 or more and below Step
}

// Up is the least price of m or more with one of the endings. It never rounds down.
func (e Endings) Up(m unit.Money) (unit.Money, error) {
	if m < 0 || e.Step < 0 || (e.Step > 0) != (len(e.At) > 0) {
		return 0, badEnding("the price or the step is negative, or one of step and endings is missing")
	}
	if e.Step == 0 {
		return m, nil
	}
	best := unit.Money(-1)
	for _, at := range e.At {
		if at < 0 || at >= e.Step {
			return 0, badEnding("an ending is not inside its step")
		}
		over := (m%e.Step - at + e.Step) % e.Step // how far m is above this ending
		up := unit.Money(0)
		if over > 0 {
			up = e.Step - over
		}
		p, err := costing.Sum(m, up)
		if err != nil {
			return 0, err
		}
		if best < 0 || p < best {
			best = p
		}
	}
	return best, nil
}

func badEnding(reason string) error {
	return &costing.RangeError{What: "ending of prices", Reason: reason, Fix: "give endings of 0 or more below a step, such as 0.95 within 1.00"}
}

// Quote is a price for a target.
type Quote struct {
	Least unit.Money // the target is just met, up to the millionth
	Price unit.Money // with the ending asked for, never below Least
}

func (e Endings) quote(least unit.Money, err error) (Quote, error) {
	if err != nil {
		return Quote{}, err
	}
	price, err := e.Up(least)
	return Quote{Least: least, Price: price}, err
}

// ForMargin leaves margin of the price over the cost: cost / (1 - margin).
func (e Endings) ForMargin(cost unit.Money, margin unit.Share) (Quote, error) {
	return e.quote(costing.PriceForMargin(cost, margin))
}

// ForFoodShare is the price of which the food is at most a share: food / share.
func (e Endings) ForFoodShare(food unit.Money, share unit.Share) (Quote, error) {
	return e.quote(costing.PriceFor(food, share))
}

// ForMarkUp puts a share of the cost on top of it.
func (e Endings) ForMarkUp(cost unit.Money, markUp unit.Share) (Quote, error) {
	if cost < 0 || markUp < 0 {
		return Quote{}, &costing.RangeError{What: "mark-up", Reason: "it or the cost is negative", Fix: "give both as 0 or more"}
	}
	top, err := costing.ScaledUp(cost, int64(markUp), int64(unit.Whole))
	if err != nil {
		return Quote{}, err
	}
	return e.quote(costing.Sum(cost, top))
}

// ForProfit is the price at which so many packs pay their variable cost, the fixed cost and a profit.
func (e Endings) ForProfit(variable, fixed, profit unit.Money, packs int64) (Quote, error) {
	if variable < 0 || fixed < 0 || profit < 0 || packs <= 0 {
		return Quote{}, &costing.RangeError{What: "price for a profit", Reason: "a cost or the profit is negative, or no packs are sold", Fix: "give costs and profit of 0 or more, and 1 pack or more"}
	}
	need, err := costing.Sum(fixed, profit)
	if err != nil {
		return Quote{}, err
	}
	each, err := costing.ScaledUp(need, 1, packs)
	if err != nil {
		return Quote{}, err
	}
	return e.quote(costing.Sum(variable, each))
}

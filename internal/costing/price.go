package costing

import "kettlefrost/internal/unit"

// Price is what a mass costs. The zero Price is a price that is not known; a price of nothing says that it is Free, so that a
// forgotten price is never taken for 0.
type Price struct {
	Money unit.Money
	Per   unit.Mass
	Free  bool
}

// Known reports whether there is a price at all.
func (p Price) Known() bool { return p.Free || (p.Money > 0 && p.Per > 0) }

func (p Price) check() error {
	switch {
	case p.Money < 0 || p.Per < 0:
		return &RangeError{"price", "is negative", "give what was paid and for how much, both above 0"}
	case p.Free && p.Money != 0:
		return &RangeError{"price", "is free and not 0", "leave out the money, or do not call it free"}
	case !p.Known():
		return &RangeError{"price", "the money or the mass that it is for is not known", "give both, or say that it is free"}
	default:
		return nil
	}
}

// CostOf is what used costs when per costs price: of a pound, a quart, or a bunch counted in tablespoons.
func CostOf[Q unit.Mass | unit.Volume](price unit.Money, per, used Q) (unit.Money, error) {
	if per <= 0 || used < 0 {
		return 0, &RangeError{"amount", "is negative, or the price is for nothing", "what is priced must be above 0, what is used 0 or more"}
	}
	m, err := over([]int64{int64(price), int64(used)}, []int64{int64(per)}).whole("cost", halfUp)
	return unit.Money(m), err
}

// Each is total over n portions, half up: the cost of one of them.
func Each(total unit.Money, n int) (unit.Money, error) {
	if n <= 0 {
		return 0, &RangeError{"portions", "are fewer than 1", "give 1 or more"}
	}
	m, err := over([]int64{int64(total)}, []int64{int64(n)}).whole("cost of a portion", halfUp)
	return unit.Money(m), err
}

// Ratio is part over whole: food-cost share from a cost and a price, a cost factor from two price rises.
func Ratio(part, whole unit.Money) (unit.Share, error) {
	s, err := over([]int64{int64(part), int64(unit.Whole)}, []int64{int64(whole)}).whole("ratio", halfUp)
	return unit.Share(s), err
}

// PriceFor is the least price at which cost is at most the target share of it, rounded up to the millionth. With a food cost it
// prices by food-cost share, with a prime cost by prime-cost share.
func PriceFor(cost unit.Money, target unit.Share) (unit.Money, error) {
	if cost < 0 || target <= 0 {
		return 0, &RangeError{"price for a target", "the cost is negative or the target is nothing", "the cost must be 0 or more and the target above 0"}
	}
	m, err := over([]int64{int64(cost), int64(unit.Whole)}, []int64{int64(target)}).whole("price", up)
	return unit.Money(m), err
}

// PriceForMargin is the least price that leaves margin of it over a full cost, rounded up: cost / (1 - margin).
func PriceForMargin(cost unit.Money, margin unit.Share) (unit.Money, error) {
	if margin < 0 || margin >= unit.Whole {
		return 0, &RangeError{"margin", "is negative, or all of the price", "give 0 % or more and less than 100 %"}
	}
	return PriceFor(cost, unit.Whole-margin)
}

// Margin is the contribution margin: what a sale leaves after its variable cost. Negative when it loses money.
func Margin(price, variable unit.Money) (unit.Money, error) { return Sum(price, -variable) }

// Prime is the prime cost: food, wages, and the payroll taxes and benefits on them.
func Prime(food, wages, onCosts unit.Money) (unit.Money, error) { return Sum(food, wages, onCosts) }

// MonthFoodCost is what the food of a period cost: opening stock and purchases less closing stock.
func MonthFoodCost(opening, purchases, closing unit.Money) (unit.Money, error) {
	return Sum(opening, purchases, -closing)
}

// WorkCost is what a span of work costs at an hourly rate: a wage, or an overhead rate (see HourlyRate).
func WorkCost(rate unit.Wage, time unit.Span) (unit.Money, error) {
	if rate < 0 || time < 0 {
		return 0, &RangeError{"work", "its rate or its time is negative", "give both as 0 or more"}
	}
	m, err := over([]int64{int64(rate), int64(time)}, []int64{int64(unit.Hour)}).whole("cost of work", halfUp)
	return unit.Money(m), err
}

// HourlyRate spreads a cost, such as a year's overhead, over the hours of work that must carry it.
func HourlyRate(cost unit.Money, time unit.Span) (unit.Wage, error) {
	if time <= 0 {
		return 0, &RangeError{"hours", "are none", "give a time above 0"}
	}
	m, err := over([]int64{int64(cost), int64(unit.Hour)}, []int64{int64(time)}).whole("hourly rate", halfUp)
	return unit.Wage(m), err
}

// Scaled is m x num / den to the nearest millionth, a half up.
func Scaled(m unit.Money, num, den int64) (unit.Money, error) {
	s, err := over([]int64{int64(m), num}, []int64{den}).whole("product", halfUp)
	return unit.Money(s), err
}

// ScaledUp is m x num / den, up to the millionth.
func ScaledUp(m unit.Money, num, den int64) (unit.Money, error) {
	s, err := over([]int64{int64(m), num}, []int64{den}).whole("product", up)
	return unit.Money(s), err
}

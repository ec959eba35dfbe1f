// Package costing is the arithmetic of the cost sheet: yield tests, the cost of what goes into a pack, prime cost, food-cost
// share, a price for a target; the cost of a day carried from step to step down to the packs (Carry), one pot's cost shared out
// between what comes of it (Allocate), and what a run cost above its standard, by cause (Compare).
//
// Money is whole millionths and mass whole nanograms. Each function works out its figure exactly and rounds once, half up, to the
// millionth (or up, where it says so); what is shared out adds up to the whole exactly. Nothing is rounded to the cent here: show it by
// unit.Money.RoundCents or RoundedUp. The formulas are the usual ones of kitchen accounting: yield = EP/AP, EP cost = AP cost/yield,
// AP needed = EP needed/yield, cost factor = EP cost/AP cost (BCcampus, Basic Kitchen and Food Service Management, examples 12 and 25),
// prime cost = food + wages + on-costs (Controlling Costs in Foodservice, Goodheart-Willcox 2014).
package costing

import "kettlefrost/internal/unit"

// Yield is a yield test: what was bought as purchased (AP), and the edible portion (EP) that was left of it. EP is above AP for
// what swells, such as soaked beans.
type Yield struct {
	AP, EP    unit.Mass
	TrimWorth unit.Money // what the trim of AP is worth, such as bones for stock; it is taken off the cost
}

// Trimmed is the yield test of ap from which trim was taken.
func Trimmed(ap, trim unit.Mass) (Yield, error) {
	if trim < 0 || trim >= ap {
		return Yield{}, &RangeError{"trim", "is negative, or all that was bought", "give 0 or more, and less than what was bought"}
	}
	return Yield{AP: ap, EP: ap - trim}, nil
}

// AtYield is the yield test that a known share stands for, such as 88.5 % from a table.
func AtYield(s unit.Share) Yield { return Yield{AP: unit.Mass(unit.Whole), EP: unit.Mass(s)} }

func (y Yield) check() error {
	switch {
	case y.AP <= 0 || y.EP <= 0:
		return &RangeError{"yield", "AP or EP is nothing", "give both above 0"}
	case y.TrimWorth < 0:
		return &RangeError{"yield", "the worth of the trim is negative", "give 0 or more; what it costs to throw it away is a line of its own"}
	default:
		return nil
	}
}

// Share is EP over AP.
func (y Yield) Share() (unit.Share, error) {
	if err := y.check(); err != nil {
		return 0, err
	}
	s, err := over([]int64{int64(y.EP), int64(unit.Whole)}, []int64{int64(y.AP)}).whole("yield", halfUp)
	return unit.Share(s), err
}

// Factor is the cost factor AP over EP: how many times the AP price a usable mass costs when trim is worth nothing. Above the
// whole for all that loses anything.
func (y Yield) Factor() (unit.Share, error) {
	return Yield{AP: y.EP, EP: y.AP, TrimWorth: y.TrimWorth}.Share()
}

// APNeeded is what must be bought for a mass of edible portion, rounded up to the nanogram so that it is never short.
func (y Yield) APNeeded(ep unit.Mass) (unit.Mass, error) {
	if err := y.check(); err != nil {
		return 0, err
	}
	if ep < 0 {
		return 0, &RangeError{"edible portion", "is negative", "give 0 or more"}
	}
	ap, err := over([]int64{int64(ep), int64(y.AP)}, []int64{int64(y.EP)}).whole("mass to buy", up)
	return unit.Mass(ap), err
}

// EPCost is what a mass of edible portion costs at an AP price: (AP cost - worth of trim) x mass / EP.
func (y Yield) EPCost(ap Price, mass unit.Mass) (unit.Money, error) {
	if err := y.check(); err != nil {
		return 0, err
	}
	if mass < 0 {
		return 0, &RangeError{"edible portion", "is negative", "give 0 or more"}
	}
	if err := ap.check(); err != nil {
		return 0, err
	}
	if ap.Free {
		return 0, nil
	}
	f := over([]int64{int64(ap.Money), int64(y.AP)}, []int64{int64(ap.Per), int64(y.EP)})
	f.num.Sub(f.num, product([]int64{int64(y.TrimWorth), int64(ap.Per)}))
	if f.num.Sign() < 0 {
		return 0, &RangeError{"worth of the trim", "is more than what was bought costs", "check the worth, and the mass that it is for"}
	}
	f.num.Mul(f.num, product([]int64{int64(mass)}))
	cost, err := f.whole("cost of the edible portion", halfUp)
	return unit.Money(cost), err
}

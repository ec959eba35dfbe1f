package pricing

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/unit"
)

// Input is something a cost hangs on, in whole steps of any unit: millionths of money a kilogram, seconds, billionths of a share.
type Input struct {
	Name            string
	Low, Base, High int64
}

// Cost is a cost as a function of the inputs, in their order.
type Cost func(values []int64) (unit.Money, error)

// Bar is what one input does alone, the others at their base.
type Bar struct {
	Input         int // index of the input
	Name          string
	AtLow, AtHigh unit.Money // the cost at the input's low and high end; either may be the greater
	Width         unit.Money // from the least to the most of the two and the base
	Share         unit.Share // of the sum of all widths
}

// Tornado is what each input does to a cost, the widest first, of equal ones the first named.
type Tornado struct {
	Base unit.Money
	Bars []Bar
	// Main is the input with the widest bar, -1 when none moves the cost. It Dominates when it moves the cost more than all the
	// others together.
	Main      int
	Dominates bool
	// Least and Most are the cost with every input at the end at which it alone costs less, and more. For a cost that is a sum of terms with
	// one input each, nothing between the ends costs less or more; for any other cost they are two cases and no bounds.
	Least, Most unit.Money
}

// Sensitivity works the bars out, one input at a time. Only the ends are looked at: a cost that turns within a range may move further.
func Sensitivity(inputs []Input, cost Cost) (Tornado, error) {
	values := make([]int64, len(inputs))
	for i, in := range inputs {
		if in.Low > in.Base || in.Base > in.High {
			return Tornado{}, &costing.RangeError{What: in.Name, Reason: fmt.Sprintf("low %d, base %d, high %d are not in this order", in.Low, in.Base, in.High), Fix: "give low <= base <= high"}
		}
		values[i] = in.Base
	}
	base, err := cost(values)
	if err != nil {
		return Tornado{}, err
	}
	t := Tornado{Base: base, Main: -1}
	cheap, dear := slices.Clone(values), slices.Clone(values)
	for i, in := range inputs {
		bar, err := oneAtATime(i, in, values, cost, base)
		if err != nil {
			return Tornado{}, err
		}
		t.Bars = append(t.Bars, bar)
		cheap[i], dear[i] = in.Low, in.High
		if bar.AtLow > bar.AtHigh {
			cheap[i], dear[i] = in.High, in.Low
		}
	}
	if t.Least, err = cost(cheap); err != nil {
		return Tornado{}, err
	}
	if t.Most, err = cost(dear); err != nil {
		return Tornado{}, err
	}
	return t, t.rank()
}

// oneAtATime moves one input to its ends; values are left as they were.
func oneAtATime(i int, in Input, values []int64, cost Cost, base unit.Money) (Bar, error) {
	b := Bar{Input: i, Name: in.Name}
	defer func() { values[i] = in.Base }()
	var err error
	values[i] = in.Low
	if b.AtLow, err = cost(values); err != nil {
		return b, err
	}
	values[i] = in.High
	if b.AtHigh, err = cost(values); err != nil {
		return b, err
	}
	b.Width, err = costing.Sum(max(b.AtLow, b.AtHigh, base), -min(b.AtLow, b.AtHigh, base))
	return b, err
}

// rank sorts the bars and says which input is the main one.
func (t *Tornado) rank() error {
	slices.SortStableFunc(t.Bars, func(a, b Bar) int { return cmp.Compare(b.Width, a.Width) })
	widths := make([]unit.Money, len(t.Bars))
	for i, b := range t.Bars {
		widths[i] = b.Width
	}
	sum, err := costing.Sum(widths...)
	if err != nil || sum == 0 {
		return err
	}
	for i := range t.Bars {
		if t.Bars[i].Share, err = costing.Ratio(widths[i], sum); err != nil {
			return err
		}
	}
	t.Main, t.Dominates = t.Bars[0].Input, widths[0] > sum-widths[0]
	return nil
}

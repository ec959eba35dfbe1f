package costing

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Actual against standard, the usual way (such as OpenStax, Principles of Accounting 2, chapter 8). A variance is what was spent above
// the standard, so above 0 is adverse. What a dearer price costs on what was used too much counts as price, as is usual:
//
//	price = actual quantity x (actual price - standard price)      usage = (actual - standard quantity) x standard price
//	rate  = actual hours x (actual rate - standard rate)      efficiency = (actual - standard hours) x standard rate
//
// and with several inputs that stand in for each other, usage is parted by what the quantity actually used would have been in the
// standard proportions: mix = actual - that, yield = that - standard, both at the standard price. Every figure is the difference
// of two costs that are rounded once, so that the parts add up to the whole exactly.

// Side says which way a variance goes.
type Side int

const (
	Even       Side = iota // neither
	Favourable             // less was spent
	Adverse                // more was spent
	Untold                 // it cannot be told; the variance says why
)

var sideNames = [...]string{Even: "even", Favourable: "favourable", Adverse: "adverse", Untold: "cannot be told"}

// String is the side in words.
func (s Side) String() string {
	if s < Even || s > Untold {
		return fmt.Sprintf("side(%d)", int(s))
	}
	return sideNames[s]
}

// Variance is one cause of a difference.
type Variance struct {
	Amount unit.Money // above 0 is more than the standard; 0 and without meaning when it is Untold
	Why    string     // why it cannot be told, or what the figure hides; empty when there is nothing to say
	told   bool
}

// Side is which way it goes.
func (v Variance) Side() Side {
	switch {
	case !v.told:
		return Untold
	case v.Amount > 0:
		return Adverse
	case v.Amount < 0:
		return Favourable
	}
	return Even
}

// Usage is a mass at a price. For what was really paid, give the money of the invoice for the mass that was used.
type Usage struct {
	Mass  unit.Mass
	Price Price
}

// Input is one food, by the standard for what was planned, and as it was.
type Input struct {
	Name             string
	Standard, Actual Usage
}

// Hands is work at a rate, by the standard and as it was.
type Hands struct {
	Name                     string
	StandardTime, ActualTime unit.Span
	StandardRate, ActualRate unit.Wage // 0 is not known
}

// Run is a run that is over. Standards are for Planned of whatever is counted (packs, or a mass); they are scaled to what was Made.
type Run struct {
	Planned, Made int64
	Inputs        []Input
	Hands         []Hands
}

// InputVariance is one food's. Mix and Yield add up to Usage, Price and Usage to Total.
type InputVariance struct {
	Name       string
	Standard   unit.Money // for what was made
	Actual     unit.Money
	Price      Variance
	Usage      Variance
	Mix, Yield Variance
	Total      Variance
}

// HandsVariance is one kind of work's. Rate and Efficiency add up to Total.
type HandsVariance struct {
	Name       string
	Standard   unit.Money // for what was made
	Actual     unit.Money
	Rate       Variance
	Efficiency Variance
	Total      Variance
}

// Variances is a run's. A sum over what can be told names how much of it cannot in Untold; only without that it is the whole.
type Variances struct {
	Inputs []InputVariance
	Hands  []HandsVariance

	Price, Usage, Mix, Yield unit.Money
	Rate, Efficiency         unit.Money
	Total                    unit.Money // Price + Usage + Rate + Efficiency
	Untold                   []string   // what cannot be told, and why
}

// Compare tells a run's variances apart. Errors are *RangeError; a price that is missing is none: what hangs on it is Untold.
func Compare(r Run) (Variances, error) {
	if r.Planned <= 0 || r.Made < 0 {
		return Variances{}, &RangeError{"run", "nothing was planned, or less than nothing made", "give what the standard is for, above 0, and what was made"}
	}
	var v Variances
	if err := v.inputs(r); err != nil {
		return Variances{}, err
	}
	for _, h := range r.Hands {
		hv, err := h.compare(r)
		if err != nil {
			return Variances{}, at(h.Name, err)
		}
		v.Hands = append(v.Hands, hv)
	}
	return v, v.addUp()
}

func (v *Variances) addUp() error {
	var failed error
	count := func(total *unit.Money, name, what string, one Variance) {
		if one.Side() == Untold {
			v.Untold = append(v.Untold, name+", "+what+": "+one.Why)
			return
		}
		sum, err := Sum(*total, one.Amount)
		if failed == nil {
			failed = at(name, err)
		}
		*total = sum
	}
	for _, i := range v.Inputs {
		count(&v.Price, i.Name, "price", i.Price)
		count(&v.Usage, i.Name, "usage", i.Usage)
		if i.Usage.told { // else it has been said
			count(&v.Mix, i.Name, "mix", i.Mix)
			count(&v.Yield, i.Name, "yield", i.Yield)
		}
	}
	for _, h := range v.Hands {
		count(&v.Rate, h.Name, "rate", h.Rate)
		count(&v.Efficiency, h.Name, "efficiency", h.Efficiency)
	}
	if failed != nil {
		return failed
	}
	var err error
	v.Total, err = Sum(v.Price, v.Usage, v.Rate, v.Efficiency)
	return err
}

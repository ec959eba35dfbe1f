package costing

import (
	"math/big"

	"kettlefrost/internal/unit"
)

// Words for what cannot be told.
const (
	noStandardPrice = "the standard price is not known"
	noActualPrice   = "what was really paid is not known"
	nothingAtAll    = "none was planned and none was used"
	noneUsed        = "none was used, so that a change of price does not show"
	notPlanned      = "none was planned: all of it counts as usage"
	oneInput        = "there is one input, so all of usage is yield"
	noMixture       = "the standard names no quantity at all"
	noHours         = "no time was spent, so that a change of rate does not show"
	noTimeAtAll     = "no time was planned and none was spent"
)

// told is the difference between two costs.
func told(actual, standard unit.Money, why string) Variance {
	return Variance{Amount: actual - standard, Why: why, told: true}
}

func untold(why string) Variance { return Variance{Why: why} }

// inputs tells the foods' variances apart.
func (v *Variances) inputs(r Run) error {
	var used, planned big.Int
	for _, in := range r.Inputs {
		if in.Standard.Mass < 0 || in.Actual.Mass < 0 {
			return at(in.Name, &RangeError{"mass", "is negative", "give 0 or more"})
		}
		used.Add(&used, big.NewInt(int64(in.Actual.Mass)))
		planned.Add(&planned, big.NewInt(int64(in.Standard.Mass)))
	}
	for _, in := range r.Inputs {
		iv, err := in.compare(r, &used, &planned)
		if err != nil {
			return at(in.Name, err)
		}
		v.Inputs = append(v.Inputs, iv)
	}
	return nil
}

// compare tells one food's variances apart; used and planned are the masses of all.
func (in Input) compare(r Run, used, planned *big.Int) (InputVariance, error) {
	v := InputVariance{Name: in.Name}
	for _, p := range []Price{in.Standard.Price, in.Actual.Price} {
		if p.Known() {
			continue
		}
		if p.Money < 0 || p.Per < 0 {
			return v, p.check()
		}
	}
	s := in.Standard.Price
	if !s.Known() {
		why := noStandardPrice
		if in.Standard.Mass == 0 && in.Actual.Mass == 0 {
			why = nothingAtAll
		}
		v.Price, v.Usage, v.Mix, v.Yield, v.Total = untold(why), untold(why), untold(why), untold(why), untold(why)
		return v, v.actual(in)
	}
	standard, err := s.of(fraction{product([]int64{int64(in.Standard.Mass), r.Made}), big.NewInt(r.Planned)}, "standard cost")
	if err != nil {
		return v, err
	}
	flexed, err := s.of(over([]int64{int64(in.Actual.Mass)}, nil), "actual quantity at the standard price")
	if err != nil {
		return v, err
	}
	v.Standard = standard
	v.Usage = told(flexed, standard, "")
	switch {
	case in.Standard.Mass == 0 && in.Actual.Mass == 0:
		v.Usage.Why = nothingAtAll
	case in.Standard.Mass == 0:
		v.Usage.Why = notPlanned
	}
	if err := v.mix(in, r, flexed, used, planned); err != nil {
		return v, err
	}
	return v, v.price(in, flexed)
}

// actual is what was really paid, if that is known.
func (v *InputVariance) actual(in Input) error {
	if !in.Actual.Price.Known() {
		return nil
	}
	paid, err := in.Actual.Price.of(over([]int64{int64(in.Actual.Mass)}, nil), "actual cost")
	v.Actual = paid
	return err
}

// price tells what was paid above the standard price from the rest; flexed is what was used at that price.
func (v *InputVariance) price(in Input, flexed unit.Money) error {
	if in.Actual.Mass == 0 {
		v.Price = told(0, 0, noneUsed)
		v.Total = told(0, v.Standard, "")
		return nil
	}
	if !in.Actual.Price.Known() {
		v.Price, v.Total = untold(noActualPrice), untold(noActualPrice)
		return nil
	}
	if err := v.actual(in); err != nil {
		return err
	}
	v.Price = told(v.Actual, flexed, "")
	v.Total = told(v.Actual, v.Standard, "")
	return nil
}

// mix parts usage: by what all that was used would have held of this food in the standard proportions.
func (v *InputVariance) mix(in Input, r Run, flexed unit.Money, used, planned *big.Int) error {
	if planned.Sign() == 0 {
		v.Mix, v.Yield = untold(noMixture), untold(noMixture)
		return nil
	}
	share := fraction{new(big.Int).Mul(used, big.NewInt(int64(in.Standard.Mass))), planned}
	inProportion, err := in.Standard.Price.of(share, "all that was used, in the standard mix")
	if err != nil {
		return err
	}
	v.Mix = told(flexed, inProportion, "")
	v.Yield = told(inProportion, v.Standard, "")
	if len(r.Inputs) == 1 {
		v.Mix.Why = oneInput
	}
	return nil
}

// of is what a mass costs; the mass may be a fraction of a nanogram, so that nothing is rounded twice.
func (p Price) of(mass fraction, what string) (unit.Money, error) {
	if err := p.check(); err != nil {
		return 0, err
	}
	if p.Free {
		return 0, nil
	}
	f := fraction{new(big.Int).Mul(mass.num, big.NewInt(int64(p.Money))), new(big.Int).Mul(mass.den, big.NewInt(int64(p.Per)))}
	m, err := f.whole(what, halfUp)
	return unit.Money(m), err
}

// compare tells one kind of work's variances apart.
func (h Hands) compare(r Run) (HandsVariance, error) {
	v := HandsVariance{Name: h.Name}
	if h.StandardTime < 0 || h.ActualTime < 0 || h.StandardRate < 0 || h.ActualRate < 0 {
		return v, &RangeError{"work", "a rate or a time is negative", "give them as 0 or more"}
	}
	if h.ActualRate > 0 {
		paid, err := WorkCost(h.ActualRate, h.ActualTime)
		if err != nil {
			return v, err
		}
		v.Actual = paid
	}
	if h.StandardRate == 0 {
		v.Rate, v.Efficiency, v.Total = untold(noStandardPrice), untold(noStandardPrice), untold(noStandardPrice)
		return v, nil
	}
	standard, err := over([]int64{int64(h.StandardRate), int64(h.StandardTime), r.Made}, []int64{int64(unit.Hour), r.Planned}).whole("standard cost", halfUp)
	if err != nil {
		return v, err
	}
	flexed, err := WorkCost(h.StandardRate, h.ActualTime)
	if err != nil {
		return v, err
	}
	v.Standard = unit.Money(standard)
	v.Efficiency = told(flexed, v.Standard, "")
	switch {
	case h.ActualTime == 0:
		v.Rate, v.Total = told(0, 0, noHours), told(0, v.Standard, "")
		if h.StandardTime == 0 {
			v.Efficiency.Why = noTimeAtAll
		}
	case h.ActualRate == 0:
		v.Rate, v.Total = untold(noActualPrice), untold(noActualPrice)
	default:
		v.Rate, v.Total = told(v.Actual, flexed, ""), told(v.Actual, v.Standard, "")
	}
	return v, nil
}

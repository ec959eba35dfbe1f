package costing

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Base is what overhead is spread over.
type Base int

const (
	NoOverhead Base = iota // there is none on the sheet
	PerHour                // hands-on hours: work and cleaning, everybody's
	PerKg                  // what packs take, in kilograms
	PerPack                // packs made
	OfPrime                // a share of the prime cost: food, less what trim is worth, and labour
)

var baseNames = [...]string{NoOverhead: "none", PerHour: "per hands-on hour", PerKg: "per kilogram packed", PerPack: "per pack made", OfPrime: "of prime cost"}

// String is the base in words.
func (b Base) String() string {
	if b < NoOverhead || b > OfPrime {
		return fmt.Sprintf("base(%d)", int(b))
	}
	return baseNames[b]
}

// Spread is overhead at a rate on one base. A rate of 0 is one that is not known.
type Spread struct {
	Base  Base
	Rate  unit.Money // per hour, kilogram or pack
	Share unit.Share // of prime cost
}

func (s Spread) check() error {
	ok := s.Base >= NoOverhead && s.Base <= OfPrime && s.Rate >= 0 && s.Share >= 0
	switch s.Base {
	case NoOverhead:
		ok = ok && s.Rate == 0 && s.Share == 0
	case OfPrime:
		ok = ok && s.Rate == 0
	default:
		ok = ok && s.Share == 0
	}
	if !ok {
		return &RangeError{"overhead " + s.Base.String(), "its rate is negative or belongs to another base", "give one base: a rate per hour, kilogram or pack, or a share of prime cost"}
	}
	return nil
}

// onHours is the overhead on the hands-on time of charges, if that is the base.
func (s Spread) onHours(c Charges) ([]Line, error) {
	if s.Base != NoOverhead && len(c.Overhead) > 0 {
		return nil, &RangeError{"overhead", "is given on more than one base, so that some of it would be counted twice", "keep one"}
	}
	if s.Base != PerHour {
		return nil, nil
	}
	var time unit.Span
	for _, list := range [][]Work{c.Labour, c.Cleaning} {
		for _, w := range list {
			h, err := w.hours()
			if err != nil {
				return nil, at(w.Name, err)
			}
			time += h
		}
	}
	if time == 0 {
		return nil, nil
	}
	return s.line(int64(s.Rate), int64(time), int64(unit.Hour))
}

// onPacks is the overhead on a kind of pack, if that is the base.
func (s Spread) onPacks(p PackRun, l Ledger) ([]Line, error) {
	switch s.Base {
	case PerKg:
		masses := make([]unit.Money, len(p.Takes)) // Sum minds the range, whatever it adds
		for i, t := range p.Takes {
			masses[i] = unit.Money(t.Mass)
		}
		mass, err := Sum(masses...)
		if err != nil {
			return nil, err
		}
		return s.line(int64(s.Rate), int64(mass), int64(unit.Kilogram))
	case PerPack:
		return s.line(int64(s.Rate), int64(p.Count), 1)
	case OfPrime:
		var prime unit.Money
		for _, c := range l {
			if c.Kind == Food || c.Kind == Credit || c.Kind == Labour {
				prime += c.Cost
			}
		}
		return s.line(int64(s.Share), int64(prime), int64(unit.Whole))
	}
	return nil, nil
}

func (s Spread) line(rate, times, per int64) ([]Line, error) {
	cost, err := over([]int64{rate, times}, []int64{per}).whole("overhead", halfUp)
	return []Line{{Kind: Overhead, Name: "overhead " + s.Base.String(), Cost: unit.Money(cost), Known: rate > 0 || times == 0}}, err
}

package netcontents

import (
	"fmt"
	"math"

	"kettlefrost/internal/unit"
)

// Lot is what was weighed of a lot.
type Lot struct {
	Terms Terms
	Gross []unit.Mass // packs, in the order in which they were drawn
	Tares []unit.Mass // empty packagings, of which the average is taken off every pack
	Net   bool        // the packs were weighed without their packaging, or the scale took it off: there are no tares
}

// Ending is how a check ends.
type Ending int

const (
	Passes Ending = iota + 1
	Fails
	WeighMore // the first sample does not decide: weigh the second
)

var endingNames = [...]string{Passes: "passes", Fails: "fails", WeighMore: "weigh the second sample"}

// String is the ending in words.
func (e Ending) String() string {
	if e < Passes || e > WeighMore {
		return fmt.Sprintf("ending(%d)", int(e))
	}
	return endingNames[e]
}

// Reason is why a lot fails.
type Reason int

const (
	AverageShort Reason = iota + 1 // the average is short by more than the sample error limit
	PacksShort                     // too many packs are short by more than the MAV or TNE
	TwiceShort                     // a pack is short by more than twice the TNE
)

var reasonNames = [...]string{AverageShort: "the average is short", PacksShort: "too many packs are short", TwiceShort: "a pack is short twice over"}

// String is the reason in words.
func (r Reason) String() string {
	if r < AverageShort || r > TwiceShort {
		return fmt.Sprintf("reason(%d)", int(r))
	}
	return reasonNames[r]
}

// Verdict is a lot judged, with every figure on the way.
type Verdict struct {
	Plan   Plan
	Tare   unit.Mass   // average, to the nearest nanogram
	Errors []unit.Mass // of each pack: gross less tare less label; below 0 is short

	AverageErrorG float64 // of the first Plan.Average packs; of all where the average is not judged
	DeviationG    float64 // standard deviation of those, with n-1; 0 of one
	LimitG        float64 // sample error limit: Plan.Factor times the deviation

	Short []int // packs short by more than Plan.Shortfall, counted from 0
	Twice []int // of those, the ones short by more than twice that, where the plan asks

	Ending  Ending
	Reasons []Reason // why it fails, all that apply
}

// Evaluate judges a lot by its plan. The sample must have the plan's size (with the Directive, that of the first stage or of both): how
// many are weighed is settled before anybody sees a weight. Exactly at a limit passes. Errors are *InputError, *TableError and
// *SampleError.
func Evaluate(lot Lot) (Verdict, error) {
	plan, err := lot.Terms.Plan()
	if err != nil {
		return Verdict{}, err
	}
	v := Verdict{Plan: plan}
	if err := v.weigh(lot); err != nil {
		return Verdict{}, err
	}
	v.average()
	for i, e := range v.Errors {
		if -e > plan.Shortfall {
			v.Short = append(v.Short, i)
		}
		if plan.Twice && -e > 2*plan.Shortfall {
			v.Twice = append(v.Twice, i)
		}
	}
	v.judge()
	return v, nil
}

// weigh takes the tare off.
func (v *Verdict) weigh(lot Lot) error {
	sizes := v.Plan.sizes()
	fits := false
	for _, n := range sizes {
		fits = fits || n == len(lot.Gross)
	}
	switch {
	case !fits:
		return &SampleError{Want: sizes, Have: len(lot.Gross)}
	case lot.Net && len(lot.Tares) > 0:
		return &InputError{"Tares", "are given for net weights", "leave them out, or give gross weights"}
	case !lot.Net && len(lot.Tares) < v.Plan.Tares:
		return &InputError{"Tares", fmt.Sprintf("are %d", len(lot.Tares)), fmt.Sprintf("weigh %d empty packagings, or say that the weights are net", v.Plan.Tares)}
	}
	for _, t := range lot.Tares {
		if t < 0 || t > heaviest {
			return &InputError{"Tares", "has one of " + t.String(), "weigh it again"}
		}
		v.Tare += t
	}
	if n := unit.Mass(len(lot.Tares)); n > 0 {
		v.Tare = (v.Tare + n/2) / n
	}
	for _, g := range lot.Gross {
		if g <= 0 || g > heaviest {
			return &InputError{"Gross", "has one of " + g.String(), "weigh it again"}
		}
		v.Errors = append(v.Errors, g-v.Tare-lot.Terms.Label)
	}
	return nil
}

// heaviest keeps sums of a thousand weights within the range of a mass.
const heaviest = 1000 * unit.Kilogram

func (v *Verdict) average() {
	errors := v.Errors
	if v.Plan.Average > 0 {
		errors = errors[:v.Plan.Average]
	}
	v.AverageErrorG, v.DeviationG = moments(errors)
	v.LimitG = v.Plan.Factor * v.DeviationG
}

// moments are the mean and the standard deviation with n-1, in grams. Both are reckoned from the first mass, so that heavy packs of little
// scatter keep their digits.
func moments(masses []unit.Mass) (meanG, deviationG float64) {
	n := len(masses)
	sum, off := unit.Mass(0), unit.Mass(0)
	for _, m := range masses {
		sum, off = sum+m, off+m-masses[0]
	}
	meanOff, squares := grams(off)/float64(n), 0.0
	for _, m := range masses {
		d := grams(m-masses[0]) - meanOff
		squares += d * d
	}
	if n > 1 {
		deviationG = math.Sqrt(squares / float64(n-1))
	}
	return grams(sum) / float64(n), deviationG
}

func (v *Verdict) judge() {
	if v.Plan.Average > 0 && -v.AverageErrorG > v.LimitG {
		v.Reasons = append(v.Reasons, AverageShort)
	}
	count := v.count()
	if count == Fails {
		v.Reasons = append(v.Reasons, PacksShort)
	}
	if len(v.Twice) > 0 {
		v.Reasons = append(v.Reasons, TwiceShort)
	}
	v.Ending = count
	if len(v.Reasons) > 0 {
		v.Ending = Fails
	}
}

// count goes through the stages. A second sample that was weighed though the first had decided changes nothing.
func (v *Verdict) count() Ending {
	end := 0
	for _, s := range v.Plan.Stages {
		end += s.Packs
		if end > len(v.Errors) {
			break
		}
		short := 0
		for _, i := range v.Short {
			if i < end {
				short++
			}
		}
		switch {
		case short <= s.Accept:
			return Passes
		case short >= s.Reject:
			return Fails
		}
	}
	return WeighMore
}

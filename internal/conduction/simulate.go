package conduction

import (
	"errors"
	"math"

	"kettlefrost/internal/heat"
)

// coursedStepS is the longest step while a medium changes, so that no dip of a course is stepped over unseen.
const coursedStepS = 900

// Simulate follows the body until its core has passed a.CoreC. The two faces of a slab that are alike, also in what their courses say
// at every moment asked for, are computed as one half. Errors: *heat.RangeError for what is out of range (media: -60 to 150 °C, also
// later on the way); *heat.AxesError; *heat.NeverError if steady surroundings do not draw the core there. Where that cannot be known
// beforehand (courses that change, faces with different media, evaporation) it is followed for a.WithinS, with Reached false.
func (b Body) Simulate(a Ask) (Result, error) {
	if err := b.check(); err != nil {
		return Result{}, err
	}
	if err := a.check(); err != nil {
		return Result{}, err
	}
	around, err := b.look(a.WithinS)
	if err != nil {
		return Result{}, err
	}
	if around.pool {
		return Result{}, &heat.RangeError{What: "temperature of the medium of a face outside a pool", Unit: "°C", Value: math.NaN(), Low: lowestC, High: highestC}
	}
	if err := around.never(b.StartC, a.CoreC); err != nil && math.Abs(a.CoreC-b.StartC) > thereK {
		return Result{}, err
	}
	r, err := b.follow(a, around, a.Accuracy.settings(len(b.Axes)), true)
	if errors.Is(err, errUneven) {
		r, err = b.follow(a, around, a.Accuracy.settings(len(b.Axes)), false)
	}
	return r, err
}

func (b *Body) follow(a Ask, around surroundings, s settings, halve bool) (Result, error) {
	f := newField(b, s.perHalf, halve, a.CoreC < b.StartC)
	m := newMarch(s, []*field{f}, roughS(b, (around.lowC+around.highC)/2, a.CoreC))
	m.limit(math.Abs(f.startH-b.Material.EnthalpyJKg(a.CoreC)), a.WithinS, around.steady)
	if err := f.meet(0, 0); err != nil {
		return Result{}, err
	}
	r := newRecord(f, &a, f.along[0].highC)
	for !r.done {
		if err := m.next(a.WithinS, r.distance); err != nil {
			return Result{}, err
		}
		r.write(m.timeS, max(0, r.distance(now))*m.landed)
		if !r.done && m.timeS >= a.WithinS {
			r.close(m.timeS)
		}
	}
	return r.result, nil
}

package productmix

import (
	"errors"
	"math"

	"kettlefrost/internal/unit"
)

// Range is money between two ends; they are the same when both mixes behind it are proven the best.
type Range struct{ Low, High unit.Money }

// Exact reports whether it is one figure.
func (r Range) Exact() bool { return r.Low == r.High }

// Worth is what more and less of a resource would change, the others as they are.
type Worth struct {
	Resource int
	Step     int64 // in units of the resource: every figure is for this much at once, and not for each unit
	More     Range // what one more step would earn
	Less     Range // what one step less would cost, when CanLess
	// CanLess says that there is a step to take away, and that what must be made can still be made.
	CanLess bool
	// Pays is the fewest steps, up to MostSteps, that earn something for certain; 0 when none of them does. Lots are whole, so that one more
	// hour may earn nothing where three earn a lot's worth.
	Pays int64
	Earn Range // what so many steps would earn
}

// MostSteps is how many steps more Worths looks at.
const MostSteps = 8

// Worths works out what one more step of each resource would be worth to a mix of Best, by solving the whole problem again with it. A
// resource whose step is 0 is left out. Where a proof is missing the worth is a range.
func Worths(p Problem, m Mix) ([]Worth, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	if err := Check(p, m); err != nil {
		return nil, err
	}
	var list []Worth
	for k, r := range p.Resources {
		if r.Step == 0 {
			continue
		}
		w, err := worth(p, m, k)
		if err != nil {
			return nil, err
		}
		list = append(list, w)
	}
	return list, nil
}

func worth(p Problem, m Mix, resource int) (Worth, error) {
	w := Worth{Resource: resource, Step: p.Resources[resource].Step}
	var err error
	if w.More, err = gain(p, m, resource, 1); err != nil {
		return w, err
	}
	if err := w.less(p, m); err != nil {
		return w, err
	}
	return w, w.pays(p, m)
}

// gain is what so many steps more would earn.
func gain(p Problem, m Mix, resource int, steps int64) (Range, error) {
	more, err := solveWith(p, resource, steps)
	if err != nil {
		return Range{}, err
	}
	return between(m, more), nil
}

// between is how much more the better mix earns than the other, for all that is proven. More of a resource never earns less.
func between(m, better Mix) Range {
	return Range{Low: max(0, better.Contribution-m.Proof.Bound), High: max(0, better.Proof.Bound-m.Contribution)}
}

func (w *Worth) less(p Problem, m Mix) error {
	if p.Resources[w.Resource].Have < w.Step {
		return nil
	}
	fewer, err := solveWith(p, w.Resource, -1)
	var short *ShortError
	if errors.As(err, &short) {
		return nil
	}
	if err != nil {
		return err
	}
	w.CanLess, w.Less = true, between(fewer, m)
	return nil
}

// pays halves the range of steps: what some steps earn, more of them earn too.
func (w *Worth) pays(p Problem, m Mix) error {
	if w.More.Low > 0 {
		w.Pays, w.Earn = 1, w.More
		return nil
	}
	low, high := int64(1), int64(MostSteps)
	earn, err := gain(p, m, w.Resource, high)
	if err != nil || earn.Low == 0 {
		return err
	}
	w.Pays, w.Earn = high, earn
	for low+1 < w.Pays {
		mid := low + (w.Pays-low)/2
		if earn, err = gain(p, m, w.Resource, mid); err != nil {
			return err
		}
		if earn.Low > 0 {
			w.Pays, w.Earn = mid, earn
		} else {
			low = mid
		}
	}
	return nil
}

// solveWith solves again with so many steps more of a resource.
func solveWith(p Problem, resource int, steps int64) (Mix, error) {
	r := p.Resources[resource]
	if steps > 0 && r.Step > (math.MaxInt64-r.Have)/steps {
		return Mix{}, &InputError{"resource " + r.Name, "a step more of it is beyond counting", "count it in a larger unit"}
	}
	again := append([]Resource(nil), p.Resources...)
	again[resource].Have += steps * r.Step
	p.Resources = again
	return best(p, false)
}

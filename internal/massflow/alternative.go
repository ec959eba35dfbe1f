package massflow

import "math"

// Alternative is a vessel, besides the one that was chosen, in which loads of a chain of steps could be cooked just as well.
type Alternative struct {
	Vessel  int       // index into Step.Vessels
	ReduceS []float64 // of each step of the chain: how long it reduces there, s
}

// sameRate is how far two rates of evaporation may differ, as a share, and count as one; and how far a load may be over a limit.
const sameRate = 1e-9

// Alternatives are the vessels that hold each load of a chain of steps, as it was split, and in which it loses just what it loses now. So a load
// may go into any of them, and no mass changes.
func (g Graph) Alternatives(f Flow, chain []int) []Alternative {
	var found []Alternative
	for v := range g.Steps[chain[0]].Vessels {
		if v == f.Steps[chain[0]].Vessel {
			continue
		}
		if o, same := g.alternative(f, chain, v); same {
			found = append(found, o)
		}
	}
	return found
}

// alternative is a chain in another vessel; same is false where it does not fit or loses something else.
func (g Graph) alternative(f Flow, chain []int, v int) (o Alternative, same bool) {
	o.Vessel = v
	for _, i := range chain {
		s, at := g.Steps[i], f.Steps[i]
		if v >= len(s.Vessels) || at.Split.FullIn(s.Vessels[v].Limit) > 1+sameRate {
			return o, false
		}
		now, there := s.evaporationKgH(regime{vessel: at.Vessel}), s.evaporationKgH(regime{vessel: v})
		took := at.ReduceS
		switch {
		case s.ReduceTo > 0 && there > 0 && now > 0:
			took *= now / there
		case s.ReduceTo > 0 || s.TimeS > 0 && math.Abs(now-there) > sameRate*now:
			return o, false
		}
		o.ReduceS = append(o.ReduceS, took)
	}
	return o, true
}

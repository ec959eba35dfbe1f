package trace

import (
	"strconv"

	"kettlefrost/internal/unit"
)

// Holding is what is known of a lot beside what went into other lots.
type Holding struct {
	Lot        int
	OnHand     unit.Mass // as counted or weighed now
	Waste      unit.Mass // written off, spilled, taken as samples
	Dispatched unit.Mass // gone to recipients
}

// Balance is where a lot went: Came = Used + OnHand + Waste + Dispatched + Unaccounted, to the nanogram.
type Balance struct {
	Holding
	Came        unit.Mass
	Used        unit.Mass // into other lots
	Unaccounted unit.Mass // below 0: more was found than came
	// UnaccountedShare is Unaccounted over Came; 0 if nothing came.
	UnaccountedShare float64
}

// Balance holds what came of a lot against where it went. A lot that is not weighed counts as all that went in. Errors are *InputError.
func (g *Graph) Balance(h Holding) (Balance, error) {
	if err := g.checkLots(h.Lot); err != nil {
		return Balance{}, err
	}
	b := Balance{Holding: h, Came: g.came(h.Lot), Used: g.from[h.Lot]}
	b.Unaccounted = b.Came - b.Used // both are 0 or above, so that this stays in range
	for _, m := range []unit.Mass{h.OnHand, h.Waste, h.Dispatched} {
		if m < 0 {
			return Balance{}, h.negative()
		}
		less := b.Unaccounted - m
		if less > b.Unaccounted {
			return Balance{}, &InputError{"lot " + strconv.Itoa(h.Lot), "what was found is more than can be counted", "check the weights"}
		}
		b.Unaccounted = less
	}
	if b.Came > 0 {
		b.UnaccountedShare = float64(b.Unaccounted) / float64(b.Came)
	}
	return b, nil
}

func (h Holding) negative() *InputError {
	return &InputError{"lot " + strconv.Itoa(h.Lot), "less than nothing is on hand, wasted or dispatched", "give what was weighed"}
}

// Yield is what went into a lot, what came of it, and the difference: above 0 it was lost in making, below 0 it came from nothing recorded.
type Yield struct{ In, Came, Lost unit.Mass }

// Yield tells what making a lot cost. It panics if there is no such lot.
func (g *Graph) Yield(lot int) Yield {
	came := g.came(lot)
	return Yield{g.into[lot], came, g.into[lot] - came}
}

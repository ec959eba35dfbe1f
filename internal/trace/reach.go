package trace

import (
	"math"
	"math/bits"
	"strconv"

	"kettlefrost/internal/unit"
)

// Reach is all that some lots went into (Forward), or all that went into them (Backward).
//
// Forward, Whole = all Rest + all Lost + Absorbed. Backward there is no loss, and Whole = all Rest + Absorbed. Both to the nanogram.
type Reach struct {
	Forward  bool
	Whole    unit.Mass // of the lots that were asked for
	Lots     []Reached // the lots that were asked for too; every flow leads to a lot further down the list
	Flows    []Carried // grouped by the lot that they lead away from, in the order of Lots
	Absorbed unit.Mass // expected to have gone from one lot that was asked for into another; that one counts as a whole already
}

// Reached is a lot that was reached, and how much of the lots that were asked for is in it. Backward: how much of it is in them.
type Reached struct {
	Lot   int
	Layer int  // the most steps from a lot that was asked for: every flow leads from a lower layer to a higher one
	Asked bool // it is one of those that were asked for
	Content
	// Rest is what is expected to have stayed: it went into no other lot. Backward: what came from no recorded lot.
	Rest unit.Mass
	Lost unit.Mass // expected to have been lost in making this lot, because more went in than came; 0 backward
}

// Carried is a flow, and how much of the lots that were asked for went along it. Backward: how much of it is in them.
type Carried struct {
	Flow int
	Content
}

// Content is a mass inside another, under perfect mixing and at its bounds under any mixing.
type Content struct{ Expected, Least, Most unit.Mass }

// Forward is everything that contains any of these lots. Errors are *InputError.
func (g *Graph) Forward(lots ...int) (Reach, error) { return g.reach(lots, true) }

// Backward is everything that went into these lots. Errors are *InputError.
func (g *Graph) Backward(lots ...int) (Reach, error) { return g.reach(lots, false) }

func (g *Graph) reach(lots []int, forward bool) (Reach, error) {
	if err := g.checkLots(lots...); err != nil {
		return Reach{}, err
	}
	w := walk{g: g, links: &g.in, slot: make([]int32, len(g.lots)), ready: make([]uint64, len(g.lots)/64+1)}
	w.Forward = forward
	if forward {
		w.links = &g.out
	}
	for _, l := range lots {
		if w.slot[l] != 0 {
			continue
		}
		all := g.held(l)
		if w.Whole > math.MaxInt64-all {
			return Reach{}, &InputError{"lot " + strconv.Itoa(l), "the lots asked for add up to more than can be counted", "ask for fewer at a time"}
		}
		w.Whole += all
		*w.wait(l) = Reached{Lot: l, Asked: true, Content: Content{all, all, all}}
	}
	for i := range w.ready { // one that waits further down may be added meanwhile, never further up
		for w.ready[i] != 0 {
			bit := bits.TrailingZeros64(w.ready[i])
			w.ready[i] &^= 1 << bit
			w.visit(w.lotAt(64*i + bit))
		}
	}
	return w.Reach, nil
}

// walk visits lots in the order of their places (backward: from the end), so that all that flows into a lot is known before it is its turn.
type walk struct {
	Reach
	g     *Graph
	links *links
	slot  []int32 // of a lot, one more than where it waits; 0 if it has not been reached
	waits []Reached
	ready []uint64 // one bit for each place of a lot that waits
}

// bitOf is the turn of a lot; lotAt is the way back.
func (w *walk) bitOf(lot int) int {
	if w.Forward {
		return int(w.g.place[lot])
	}
	return len(w.g.at) - 1 - int(w.g.place[lot])
}

func (w *walk) lotAt(bit int) int {
	if w.Forward {
		return int(w.g.at[bit])
	}
	return int(w.g.at[len(w.g.at)-1-bit])
}

// wait is what is known of a lot whose turn has not come.
func (w *walk) wait(lot int) *Reached {
	if w.slot[lot] == 0 {
		w.waits = append(w.waits, Reached{Lot: lot})
		w.slot[lot] = int32(len(w.waits))
		bit := w.bitOf(lot)
		w.ready[bit/64] |= 1 << (bit % 64)
	}
	return &w.waits[w.slot[lot]-1]
}

// visit settles what is in a lot and shares it out over the flows that lead on.
func (w *walk) visit(lot int) {
	r := w.waits[w.slot[lot]-1]
	held := w.g.held(lot)
	whole := max(held, w.g.into[lot]) // all that went in, or more if more came
	if !r.Asked {
		if w.Forward {
			kept := part(r.Expected, held, whole)
			r.Lost, r.Expected = r.Expected-kept, kept
			r.Least = max(0, r.Least-(whole-held))
		}
		r.Most = min(r.Most, held, w.Whole)
	}
	parts := held
	if !w.Forward {
		parts = whole
	}
	r.Rest = r.Expected
	var sum, given unit.Mass // of the flows so far, and of what they carry: cutting at running sums loses nothing
	for f := w.links.first[lot]; f != 0; f = w.links.next[f-1] {
		flow := &w.g.flows[f-1]
		sum += flow.Mass
		upTo := part(r.Expected, sum, parts)
		c := Content{upTo - given, max(0, r.Least-(parts-flow.Mass)), min(r.Most, flow.Mass)}
		given = upTo
		w.Flows = append(w.Flows, Carried{int(f - 1), c})
		w.carry(flow, c, r.Layer+1)
	}
	r.Rest -= given
	w.Lots = append(w.Lots, r)
}

// carry adds what a flow brings to the lot that it leads to.
func (w *walk) carry(f *Flow, c Content, layer int) {
	to := f.From
	if w.Forward {
		to = f.To
	}
	r := w.wait(to)
	r.Layer = max(r.Layer, layer)
	if r.Asked {
		w.Absorbed += c.Expected
		return
	}
	r.Expected += c.Expected
	r.Least += c.Least
	r.Most += c.Most
}

// part is m*num/den rounded down, for num <= den; m if den is 0.
func part(m, num, den unit.Mass) unit.Mass {
	if num == den {
		return m
	}
	hi, lo := bits.Mul64(uint64(m), uint64(num))
	quo, _ := bits.Div64(hi, lo, uint64(den))
	return unit.Mass(quo)
}

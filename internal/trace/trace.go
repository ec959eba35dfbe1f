// Package trace follows lots: what went into a lot, and what contains any of it, through every generation. It knows neither food nor
// places; lots and flows are numbered from 0 in the order in which they come.
//
// A Graph grows entry by entry (AddLot, AddFlow, Weigh) or is built from a whole history (New). It never has a loop: a flow that would
// close one is refused with the loop named. Times are kept for windows and for showing; they never narrow a trace, because a time that
// was written down wrongly must not hide a pack.
//
// How much of a lot is in another is told three ways. Expected is perfect mixing: every part of a lot, and what is lost in making it,
// has the same share of everything that went in. Least and Most hold however badly it was mixed, as long as all that went in was
// recorded. They can be wider than they need be, never narrower. Masses are shared out in whole nanograms and nothing is lost: what
// is found everywhere adds up to what there was.
//
// A Graph may be read by many at once, but not while it grows.
package trace

import "kettlefrost/internal/unit"

// Lot is what came into being together. Packs is how many numbered packs it is; 0 is a lot in bulk.
type Lot struct {
	Came      unit.Mass // 0 or above
	Unweighed bool      // not weighed yet: it counts as all that went in
	AtMs      int64     // when it came, Unix milliseconds
	Packs     int64
}

// Flow is mass of one lot that went into another. A mass of 0 is a touch, such as a vessel that was not washed: it is followed, and
// carries nothing that can be counted.
type Flow struct {
	From, To int
	Mass     unit.Mass
	AtMs     int64
}

// Graph is lots and what went from one into another. The zero value is an empty one.
type Graph struct {
	lots    []Lot
	flows   []Flow
	in, out links
	// into and from are the masses that went into a lot and that were taken from it.
	into, from []unit.Mass
	// place is where a lot stands in an order in which every flow goes onward; at is the lot at a place.
	place, at []int32
}

// links are the flows at one end of every lot, in the order in which they came. Both numbers are one more than that of a flow, so that
// 0 is none.
type links struct {
	first, last []int32 // of a lot
	next        []int32 // of a flow
}

func (l *links) addLot() {
	l.first, l.last = append(l.first, 0), append(l.last, 0)
}

// add hangs the next flow on a lot.
func (l *links) add(lot int) {
	l.next = append(l.next, 0)
	flow := int32(len(l.next))
	if l.last[lot] == 0 {
		l.first[lot] = flow
	} else {
		l.next[l.last[lot]-1] = flow
	}
	l.last[lot] = flow
}

// Len is how many lots there are.
func (g *Graph) Len() int { return len(g.lots) }

// Flows is how many flows there are.
func (g *Graph) Flows() int { return len(g.flows) }

// Lot is a lot by its number; it panics if there is none, as a slice does.
func (g *Graph) Lot(lot int) Lot { return g.lots[lot] }

// Flow is a flow by its number; it panics if there is none.
func (g *Graph) Flow(flow int) Flow { return g.flows[flow] }

// Made says that something went into the lot, so that it was made and not received.
func (g *Graph) Made(lot int) bool { return g.in.first[lot] != 0 }

// Into is the mass that went into a lot.
func (g *Graph) Into(lot int) unit.Mass { return g.into[lot] }

// OutOf is the mass of a lot that went into others.
func (g *Graph) OutOf(lot int) unit.Mass { return g.from[lot] }

// Inputs are the flows into a lot: one step back.
func (g *Graph) Inputs(lot int) []int { return g.in.of(lot) }

// Outputs are the flows out of a lot: one step forward.
func (g *Graph) Outputs(lot int) []int { return g.out.of(lot) }

func (l *links) of(lot int) []int {
	var flows []int
	for f := l.first[lot]; f != 0; f = l.next[f-1] {
		flows = append(flows, int(f-1))
	}
	return flows
}

// Window is every lot that came at or after fromMs and before toMs.
func (g *Graph) Window(fromMs, toMs int64) []int {
	var lots []int
	for i := range g.lots {
		if at := g.lots[i].AtMs; fromMs <= at && at < toMs {
			lots = append(lots, i)
		}
	}
	return lots
}

// came is the mass that came of a lot.
func (g *Graph) came(lot int) unit.Mass {
	if g.lots[lot].Unweighed {
		return g.into[lot]
	}
	return g.lots[lot].Came
}

// held is the mass that there must have been of a lot: what came, or what was taken out if that is more.
func (g *Graph) held(lot int) unit.Mass { return max(g.came(lot), g.from[lot]) }

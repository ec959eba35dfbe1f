package trace

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"kettlefrost/internal/unit"
)

// New builds a graph from a whole history. Errors are *InputError and *LoopError; the first one ends it.
func New(lots []Lot, flows []Flow) (*Graph, error) {
	g := &Graph{}
	for _, l := range lots {
		if _, err := g.AddLot(l); err != nil {
			return nil, err
		}
	}
	for _, f := range flows {
		if err := g.checkFlow(f); err != nil {
			return nil, err
		}
		g.link(f)
	}
	if err := g.sort(); err != nil {
		return nil, err
	}
	return g, nil
}

// AddLot adds a lot and tells its number. Errors are *InputError.
func (g *Graph) AddLot(l Lot) (int, error) {
	if err := l.check(len(g.lots)); err != nil {
		return 0, err
	}
	g.lots = append(g.lots, l)
	g.in.addLot()
	g.out.addLot()
	g.into, g.from = append(g.into, 0), append(g.from, 0)
	g.place, g.at = append(g.place, int32(len(g.at))), append(g.at, int32(len(g.at)))
	return len(g.lots) - 1, nil
}

// check says whether a lot can be.
func (l Lot) check(number int) error {
	wrong := func(reason, fix string) error { return &InputError{"lot " + strconv.Itoa(number), reason, fix} }
	switch {
	case l.Came < 0 || l.Packs < 0:
		return wrong("it weighs less than nothing, or has fewer packs than none", "give what was weighed and counted")
	case l.Unweighed && l.Came != 0:
		return wrong("it is not weighed and has a mass", "give one or the other")
	case number == math.MaxInt32:
		return wrong("there are too many lots to be numbered", "begin a new history")
	}
	return nil
}

// Weigh states what came of a lot that was not weighed, or was weighed wrongly. Errors are *InputError.
func (g *Graph) Weigh(lot int, came unit.Mass) error {
	if err := g.checkLots(lot); err != nil {
		return err
	}
	l := g.lots[lot]
	l.Came, l.Unweighed = came, false
	return g.Settle(lot, l)
}

// Settle states what a lot is that was named before it came. What flowed into it and out of it stays. Errors are *InputError.
func (g *Graph) Settle(lot int, is Lot) error {
	if err := g.checkLots(lot); err != nil {
		return err
	}
	if err := is.check(lot); err != nil {
		return err
	}
	g.lots[lot] = is
	return nil
}

// AddFlow adds a flow and tells its number. One that would make a lot part of itself is refused with *LoopError; other errors are
// *InputError. A flow that is refused leaves the graph as it was.
func (g *Graph) AddFlow(f Flow) (int, error) {
	if err := g.checkFlow(f); err != nil {
		return 0, err
	}
	if err := g.makeRoom(f); err != nil {
		return 0, err
	}
	g.link(f)
	return len(g.flows) - 1, nil
}

func (g *Graph) link(f Flow) {
	g.flows = append(g.flows, f)
	g.out.add(f.From)
	g.in.add(f.To)
	g.from[f.From] += f.Mass
	g.into[f.To] += f.Mass
}

func (g *Graph) checkFlow(f Flow) error {
	if err := g.checkLots(f.From, f.To); err != nil {
		return err
	}
	wrong := func(reason, fix string) error {
		return &InputError{fmt.Sprintf("flow from %d to %d", f.From, f.To), reason, fix}
	}
	switch {
	case f.Mass < 0:
		return wrong("it weighs less than nothing", "put a wrong weight right with a new history, not with a flow backwards")
	case g.from[f.From] > math.MaxInt64-f.Mass || g.into[f.To] > math.MaxInt64-f.Mass:
		return wrong("the masses of a lot add up to more than can be counted", "check the weight")
	case len(g.flows) == math.MaxInt32-1:
		return wrong("there are too many flows to be numbered", "begin a new history")
	case f.From == f.To:
		return &LoopError{f, []int{f.From}}
	}
	return nil
}

func (g *Graph) checkLots(lots ...int) error {
	for _, l := range lots {
		if l < 0 || l >= len(g.lots) {
			return unknownLot(l, len(g.lots))
		}
	}
	return nil
}

// sort puts all lots in an order in which every flow goes onward (Kahn's method).
func (g *Graph) sort() error {
	waits := make([]int32, len(g.lots)) // flows into a lot from lots that have no place yet
	for _, f := range g.flows {
		waits[f.To]++
	}
	g.at = g.at[:0]
	for i, w := range waits {
		if w == 0 {
			g.at = append(g.at, int32(i))
		}
	}
	for i := 0; i < len(g.at); i++ {
		for f := g.out.first[g.at[i]]; f != 0; f = g.out.next[f-1] {
			to := g.flows[f-1].To
			if waits[to]--; waits[to] == 0 {
				g.at = append(g.at, int32(to))
			}
		}
	}
	if len(g.at) < len(g.lots) {
		return g.findLoop(waits)
	}
	for i, l := range g.at {
		g.place[l] = int32(i)
	}
	return nil
}

// findLoop walks back along flows between lots that still wait until it meets a lot again; there is always such a flow.
func (g *Graph) findLoop(waits []int32) error {
	lot := slices.IndexFunc(waits, func(w int32) bool { return w > 0 })
	met := make([]int, len(waits)) // the flow by which a lot was left, plus one
	for met[lot] == 0 {
		for f := g.in.first[lot]; f != 0; f = g.in.next[f-1] {
			if from := g.flows[f-1].From; waits[from] > 0 {
				met[lot] = int(f)
				lot = from
				break
			}
		}
	}
	first := g.flows[met[lot]-1]
	loop := []int{lot}
	for l := first.From; l != lot; l = g.flows[met[l]-1].From {
		loop = append(loop, l)
	}
	slices.Reverse(loop[1:])
	return &LoopError{Flow: first, Lots: loop}
}

package draw

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// TraceGraph is lots and what went from one into another: from the left, where it came from, to the right, where it went.
type TraceGraph struct {
	Title string
	Lots  []TraceLot
	Flows []TraceFlow
	Units unit.System
}

// TraceLot is a lot, or several drawn as one.
type TraceLot struct {
	ID    string // as it stands on the tub
	What  string
	Kind  TraceKind
	Mass  unit.Mass // that came; 0 if nobody weighed it
	Step  int       // how far from what was asked for: below 0 it went into it, above 0 it came of it
	Asked bool
}

// TraceFlow is mass of one lot that went into another, by their places among the lots.
type TraceFlow struct {
	From, To int
	Mass     unit.Mass
	Rework   bool // it had been made before and was cooked again
}

// TraceKind is what a lot is.
type TraceKind int

// The kinds of lots.
const (
	TraceUnknown TraceKind = iota
	TraceGoods
	TracePot
	TraceBatch
	TracePacks
	traceKinds
)

var traceSigns = [traceKinds]struct {
	pattern Pattern
	word    string
}{{Checks, "nobody said where from"}, {Solid, "received"}, {Level, "pot"}, {Rising, "made"}, {Dots, "packed"}}

const (
	traceBox    = 190.0 // width of a lot
	traceGap    = 74.0  // between columns
	traceMargin = 8.0
	traceLeast  = 70.0 // height of a lot that weighs nothing
	traceBelow  = 14.0 // between lots
	traceHeight = 640.0
	traceStripe = 12.0
	traceThin   = 2.0 // the least width of a flow
	// mostRows and mostSteps are how many lots stand below each other and how many steps each way are drawn; what is more is drawn as one.
	mostRows  = 8
	mostSteps = 5
)

// Picture draws the lots in columns by their steps, as high as their mass and never too low to be read, and between them what flowed, as
// wide as its mass. Where there are many of a kind, or many steps, they are put together; the table has each of them.
func (g TraceGraph) Picture() Picture {
	l := g.folded().layout()
	p := Picture{Width: l.width, Height: l.height + l.key.height() + traceMargin, Title: g.Title, Desc: g.desc()}
	p.Draw = func(c Canvas) { l.draw(c) }
	return p
}

func (g TraceGraph) desc() string {
	return fmt.Sprintf("%d lots and %d flows between them, from left to right; a flow is as wide as its mass. What was asked for has a thick frame. The table beside it has each lot.", len(g.Lots), len(g.Flows))
}

// Table is each flow as a row.
func (g TraceGraph) Table() Table {
	t := Table{Head: []string{"from", "what", "mass", "into", "what", "cooked again"}}
	for _, f := range g.Flows {
		from, to, again := g.Lots[f.From], g.Lots[f.To], ""
		if f.Rework {
			again = "cooked again"
		}
		t.Rows = append(t.Rows, []string{from.ID, from.What, f.Mass.Show(g.Units), to.ID, to.What, again})
	}
	return t
}

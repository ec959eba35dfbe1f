package draw

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
)

const kilogram = unit.Kilogram

// stewTrace is a stew of beef and leeks, packed; two packs went into a soup.
func stewTrace() TraceGraph {
	return TraceGraph{Title: "Where the stew came from and went", Units: unit.Metric,
		Lots: []TraceLot{{"R-beef", "beef", TraceGoods, 12 * kilogram, -2, false}, {"R-leek", "leek <b>", TraceGoods, 4 * kilogram, -2, false}, {"pot of stew in tue", "stew", TracePot, 16 * kilogram, -1, false},
			{"P-stew", "stew-500", TracePacks, 14 * kilogram, 0, true}, {"pot of soup in wed", "soup", TracePot, kilogram, 1, false}},
		Flows: []TraceFlow{{0, 2, 12 * kilogram, false}, {1, 2, 4 * kilogram, false}, {2, 3, 14 * kilogram, false}, {3, 4, kilogram, true}}}
}

// manyLots is three hundred deliveries of three ingredients into sixty pots, one after the other.
func manyLots() TraceGraph {
	g := TraceGraph{Title: "Where a year went", Units: unit.US}
	for i := range 60 {
		pot := len(g.Lots)
		g.Lots = append(g.Lots, TraceLot{fmt.Sprint("pot ", i), fmt.Sprint("dish ", i%12), TracePot, 40 * kilogram, i, i == 0})
		if i > 0 {
			g.Flows = append(g.Flows, TraceFlow{pot - 5, pot, kilogram, true})
		}
		for k := range 4 {
			g.Lots = append(g.Lots, TraceLot{fmt.Sprintf("R-%d-%d", i, k), fmt.Sprint("ingredient ", k), TraceGoods, 10 * kilogram, i - 1, false})
			g.Flows = append(g.Flows, TraceFlow{len(g.Lots) - 1, pot, 10 * kilogram, false})
		}
	}
	return g
}

func TestTraceSaysWhatWentWhere(t *testing.T) {
	data := SVG(stewTrace().Picture())
	got := read(t, data)
	for _, want := range []string{"received: beef, R-beef, 12 kg", "packed: stew-500, P-stew, 14 kg, asked for", "R-beef into pot of stew in tue, 12 kg", "P-stew into pot of soup in wed, 1 kg"} {
		if !contains(got.titles, want) {
			t.Errorf("no %q among %q", want, got.titles)
		}
	}
	if strings.Contains(string(data), "<b>") || !strings.Contains(string(data), "stroke-dasharray") || !strings.Contains(string(data), "cooked again") {
		t.Error("what was cooked again is not marked, or a name is markup")
	}
	if table := stewTrace().Table(); len(table.Rows) != 4 || strings.Join(table.Rows[3], "|") != "P-stew|stew-500|1 kg|pot of soup in wed|soup|cooked again" {
		t.Errorf("%v", table)
	}
}

// bands is a canvas that measures how high each flow is where it begins.
type bands struct {
	ruler
	high []float64
}

func (b *bands) Polyline(points []Point, _ Style) {
	b.high = append(b.high, points[len(points)-1].Y-points[0].Y)
}
func (b *bands) Group(_ string, draw func(Canvas)) { draw(b) }

// A flow is as wide as its mass: 12 : 4 : 14 : 1.
func TestTraceIsToScale(t *testing.T) {
	b := &bands{ruler: ruler{reach: map[float64]float64{}}}
	stewTrace().Picture().Draw(b)
	if len(b.high) != 4 {
		t.Fatalf("%d flows", len(b.high))
	}
	for i, kg := range []float64{12, 4, 14, 1} {
		if want := b.high[0] * kg / 12; math.Abs(b.high[i]-want) > 0.01 {
			t.Errorf("flow %d is %g high, want %g", i, b.high[i], want)
		}
	}
}

// Three hundred lots are drawn as few enough to be read, none is left out, and mass that is drawn together adds up.
func TestManyLotsAreDrawnTogether(t *testing.T) {
	g := manyLots()
	f := g.folded()
	lots, mass, columns := 0, unit.Mass(0), map[int]int{}
	for _, h := range f.heaps {
		lots += h.lots
		mass += h.Mass
		columns[h.Step]++
	}
	if lots != 300 || mass != 4800*kilogram || len(columns) > 2*mostSteps+1 {
		t.Errorf("%d lots, %s in %d columns", lots, mass, len(columns))
	}
	for step, n := range columns {
		if n > mostRows {
			t.Errorf("%d stand in the column of step %d", n, step)
		}
	}
	p := g.Picture()
	if p.Height > 1200 || p.Width > 3000 || len(SVG(p)) > 100_000 {
		t.Errorf("%g x %g, %d bytes", p.Width, p.Height, len(SVG(p)))
	}
	if empty := (TraceGraph{}).Picture(); len(SVG(empty)) == 0 {
		t.Error("nothing is drawn of nothing")
	}
}

// No two lots stand on each other, and each flow ends within the picture.
func TestTraceHasRoom(t *testing.T) {
	for _, g := range []TraceGraph{stewTrace(), manyLots()} {
		l := g.folded().layout()
		for i, a := range l.boxes {
			if a.X < 0 || a.Y < 0 || a.X+a.W > l.width || a.Y+a.H > l.height {
				t.Errorf("%s stands outside: %+v", l.heaps[i].ID, a)
			}
			for _, b := range l.boxes[:i] {
				if a.X < b.X+b.W && b.X < a.X+a.W && a.Y < b.Y+b.H && b.Y < a.Y+a.H {
					t.Errorf("%s stands on another: %+v %+v", l.heaps[i].ID, a, b)
				}
			}
		}
	}
}

package draw

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// gauge is a canvas that only measures how wide each thing with a name is at its top.
type gauge struct {
	now   string
	width map[string]float64
	bad   bool
}

func (g *gauge) Rect(b Box, s Style) {
	g.bad = g.bad || math.IsNaN(b.X+b.W) || b.X < 0 || b.X+b.W > riverWidth+0.01
	if g.now != "" {
		g.width[g.now] = b.W
	}
}
func (g *gauge) Line(Point, Point, Style) {}
func (g *gauge) Polyline(points []Point, s Style) {
	for _, p := range points {
		g.bad = g.bad || math.IsNaN(p.X) || p.X < 0 || p.X > riverWidth+0.01
	}
	if s.Fill != NoTone {
		g.width[g.now] = points[len(points)-1].X - points[0].X
	}
}
func (g *gauge) Text(Point, string, Type) {}
func (g *gauge) Group(title string, draw func(Canvas)) {
	g.now = title
	draw(g)
	g.now = ""
}

// What goes in, what is lost and what comes out of a step is as wide as it is heavy, to one scale in all steps.
func TestARiverIsToScale(t *testing.T) {
	river := River(boiled(), unit.US)
	if len(river) != 3 {
		t.Fatalf("%d stretches, want two steps and the end", len(river))
	}
	pound := 0.0
	for i, want := range []map[string]float64{{"roots, 10 lb": 10, "trim, 1 lb": 1, "cut roots, 9 lb": 9}, {"cut roots, 9 lb": 9, "water, 31 lb": 31, "evaporation, 4 lb": 4, "stock, 34 lb": 34}, {"fat, 2 lb": 2, "stock, 34 lb": 34}} {
		g := &gauge{width: map[string]float64{}}
		river[i].Picture.Draw(g)
		for name, pounds := range want {
			if pound == 0 {
				pound = g.width[name] / pounds
			}
			if math.Abs(g.width[name]-pounds*pound) > 0.01 || pound <= 0 {
				t.Errorf("stretch %d: %s is %.2f wide, want %.2f", i, name, g.width[name], pounds*pound)
			}
		}
		if g.bad {
			t.Errorf("stretch %d goes beyond its edges", i)
		}
	}
}

// What a later step takes waits beside the pot.
func TestWhatWaitsBesideARiver(t *testing.T) {
	d := plan.Dish{Steps: []plan.Step{
		{ID: "a", In: []plan.Line{{ID: "x", Mass: unit.Pound, Kind: plan.Fresh}}, Out: []plan.Line{{ID: "a", Name: "a", Mass: unit.Pound, Kind: plan.Product}}},
		{ID: "b", In: []plan.Line{{ID: "y", Mass: unit.Pound, Kind: plan.Fresh}}, Out: []plan.Line{{ID: "b", Name: "b", Mass: unit.Pound, Kind: plan.Product}}},
		{ID: "c", In: []plan.Line{{ID: "a", Mass: unit.Pound, Kind: plan.Earlier}, {ID: "b", Mass: unit.Pound, Kind: plan.Earlier}}, Out: []plan.Line{{ID: "c", Name: "c", Mass: 2 * unit.Pound, Kind: plan.Product}}},
	}}
	river := River(d, unit.US)
	for i, want := range []int{0, 1, 0, 0} {
		if len(river[i].Waits) != want {
			t.Errorf("beside stretch %d wait %v, want %d", i, river[i].Waits, want)
		}
	}
}

func TestAnyRiverCanBeDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var d plan.Dish
		ids := rapid.SampledFrom([]string{"a", "b", "c"})
		for range rapid.IntRange(0, 8).Draw(t, "steps") {
			line := func(kind plan.LineKind) plan.Line {
				return plan.Line{ID: ids.Draw(t, "id"), Name: rapid.String().Draw(t, "name"), Mass: unit.Mass(rapid.Int64Range(-1000, 1e12).Draw(t, "mass")), Kind: kind}
			}
			d.Steps = append(d.Steps, plan.Step{Do: rapid.String().Draw(t, "do"), In: []plan.Line{line(plan.Earlier), line(plan.Fresh)}, Out: []plan.Line{line(plan.Product)}, Losses: []plan.Loss{{Cause: "trim", Mass: unit.Mass(rapid.Int64Range(0, 1e9).Draw(t, "lost"))}}})
		}
		for _, s := range River(d, unit.Metric) {
			read(t, SVG(s.Picture))
		}
	})
}

package draw

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

func boiled() plan.Dish {
	return plan.Dish{ID: "broth", Name: "broth", Steps: []plan.Step{
		{ID: "chop", Do: "Chop the roots.", In: []plan.Line{{ID: "root", Name: "roots", Mass: 10 * unit.Pound, Kind: plan.Fresh}},
			Out: []plan.Line{{ID: "cut", Name: "cut roots", Mass: 9 * unit.Pound, Kind: plan.Product}}, Losses: []plan.Loss{{Cause: "trim", Mass: unit.Pound}}},
		{ID: "boil", Do: "Boil.", In: []plan.Line{{ID: "cut", Name: "cut roots", Mass: 9 * unit.Pound, Kind: plan.Earlier}, {ID: "water", Name: "water", Mass: 31 * unit.Pound, Kind: plan.MadeUp}},
			Out:    []plan.Line{{ID: "fat", Name: "fat", Mass: 2 * unit.Pound, Kind: plan.ByProduct}, {ID: "stock", Name: "stock", Mass: 34 * unit.Pound, Kind: plan.Product}},
			Losses: []plan.Loss{{Cause: "evaporation", Mass: 4 * unit.Pound}}},
	}}
}

func TestMassesSayWhatGoesWhere(t *testing.T) {
	d := boiled()
	data := SVG(Masses(d, NewCodes([]plan.Dish{d}), unit.US))
	got := read(t, data)
	for _, want := range []string{"roots, 10 lb", "trim, 1 lb", "from A1, 9 lb", "water, 31 lb", "fat, 2 lb", "evaporation, 4 lb"} {
		if !contains(got.titles, want) {
			t.Errorf("no %q among %q", want, got.titles)
		}
	}
	if !strings.Contains(string(data), "#drawing-p1)") {
		t.Error("losses are not hatched")
	}
}

// ruler is a canvas that only measures how far the bars of each height reach.
type ruler struct{ reach map[float64]float64 }

func (r ruler) Rect(b Box, s Style) {
	if s.Stroke != NoTone {
		r.reach[b.Y] += b.W + 1
	}
}
func (r ruler) Line(Point, Point, Style)          {}
func (r ruler) Polyline([]Point, Style)           {}
func (r ruler) Text(Point, string, Type)          {}
func (r ruler) Group(_ string, draw func(Canvas)) { draw(r) }

// Ten pounds in and ten out are bars of one length, and the biggest step fills the width.
func TestMassesAreToScale(t *testing.T) {
	d := boiled()
	r := ruler{reach: map[float64]float64{}}
	Masses(d, NewCodes(nil), unit.US).Draw(r)
	step := titleHeight + 2*barHeight + 4 + stepGap
	for y, pounds := range map[float64]float64{titleHeight: 10, titleHeight + barHeight + 4: 10, step + titleHeight: 40, step + titleHeight + barHeight + 4: 40} {
		if want := massesRoom * pounds / 40; r.reach[y] < want-0.01 || r.reach[y] > want+0.01 {
			t.Errorf("the bars at %g are %g long, want %g", y, r.reach[y], want)
		}
	}
}

func TestAnyDishCanBeDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var d plan.Dish
		for range rapid.IntRange(0, 20).Draw(t, "steps") {
			line := func() []plan.Line {
				return []plan.Line{{Name: rapid.String().Draw(t, "name"), Mass: unit.Mass(rapid.Int64().Draw(t, "mass")), Kind: plan.Earlier}}
			}
			d.Steps = append(d.Steps, plan.Step{Do: rapid.String().Draw(t, "do"), In: line(), Out: line()})
		}
		read(t, SVG(Masses(d, NewCodes(nil), unit.Metric)))
	})
}

package draw

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/haccp"
)

func flowPlan(t testing.TB, steps ...haccp.Step) haccp.Plan {
	t.Helper()
	p, err := haccp.Draft(haccp.Product{ID: "x", Name: "Soup", Frozen: true, Ingredients: []haccp.Ingredient{{ID: "hen", Name: "hen", Class: haccp.Poultry, AllergensKnown: true}}, Steps: steps})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Every step stands in the picture with what goes in and its limit, each once and below the one before.
func TestHazardFlow(t *testing.T) {
	hot := 98.0
	p := flowPlan(t, haccp.Step{ID: "cut", Do: "Cut <the> hen.", Uses: []string{"hen"}, Amounts: []string{"2 lb hen"}, Equipment: []string{"board", "table"}},
		haccp.Step{ID: "boil", Do: "Boil.", From: []string{"cut"}, HeatToC: &hot, HoldS: 60})
	for _, wide := range []float64{340, 720} {
		picture := HazardFlow(p, wide)
		svg := string(SVG(picture))
		for _, want := range []string{"Cut &lt;the&gt; hen.", "in: 2 lb hen", "with: board or table", "CCP 1: 165 °F at once", "Keep and sell"} {
			if !strings.Contains(svg, want) {
				t.Errorf("%q does not stand on a width of %g", want, wide)
			}
		}
		if !strings.Contains(picture.Desc, "CCP 1 at boil") {
			t.Errorf("%s", picture.Desc)
		}
	}
}

// Whatever the dish, no two lines run in one lane at a time, and no box stands on another.
func TestFlowLanes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var p haccp.Plan
		for i := range rapid.IntRange(1, 14).Draw(t, "steps") {
			s := haccp.FlowStep{ID: string(rune('a' + i)), Do: rapid.StringMatching(`[a-z ]{1,80}`).Draw(t, "do")}
			for _, e := range p.Flow {
				if rapid.IntRange(0, 3).Draw(t, "from") == 0 {
					s.From = append(s.From, e.ID)
				}
			}
			p.Flow = append(p.Flow, s)
		}
		f := flowOf(p)
		f.lay(rapid.Float64Range(340, 900).Draw(t, "wide"))
		for i, a := range f.steps {
			for k, b := range f.steps[:i] {
				if a.lane == b.lane && b.last > i { // its line goes on past this step, so the lane is not free
					t.Errorf("step %d stands in the lane of step %d, which runs to %d", i, k, b.last)
				}
			}
			if i > 0 && a.box.Y < f.steps[i-1].box.Y+f.steps[i-1].box.H {
				t.Errorf("step %d stands on the one before", i)
			}
			if a.lane >= f.lanes || a.box.X < f.x(f.lanes-1) {
				t.Errorf("step %d: lane %d of %d", i, a.lane, f.lanes)
			}
		}
	})
}

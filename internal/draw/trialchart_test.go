package draw

import (
	"strings"
	"testing"
)

func drip() Weekly {
	bound := 10.0
	return Weekly{Title: "Drip", Unit: "g", Across: "weeks in the freezer", Weeks: []float64{1, 4, 8, 12}, Bound: &bound, BoundName: "good up to 10 g", Lines: []WeeklyLine{
		{Name: "as it is", Seen: []WeekValue{{1, 3.1}, {1, 3.2}, {4, 6.1}, {8, 10.2}}, Points: []WeekMean{{1, 3.1, 2.5, 3.7}, {4, 6.2, 5.8, 6.6}, {8, 10.2, 9.5, 10.9}}},
		{Name: "with gum", Seen: []WeekValue{{1, 1}, {4, 1.2}, {8, 1.3}}, Points: []WeekMean{{1, 1, 1, 1}, {4, 1.2, 1.2, 1.2}, {8, 1.3, 1.3, 1.3}}}, {Name: "nothing yet"}}}
}

func TestWeeklyChart(t *testing.T) {
	p := drip().Picture()
	for _, want := range []string{"as it is: week 1 3.1 g (2.5 to 3.7)", "with gum: week 1 1 g, week 4", "nothing yet: nothing seen"} {
		if !strings.Contains(p.Desc, want) {
			t.Errorf("it is not said: %q in %q", want, p.Desc)
		}
	}
	svg := string(SVG(p))
	for _, want := range []string{">12<", ">weeks in the freezer<", ">good up to 10 g<", ">where the mean may lie (95 %)<"} {
		if !strings.Contains(svg, want) {
			t.Errorf("it does not show %q", want)
		}
	}
	for name, w := range map[string]Weekly{"nothing": {}, "one value": {Lines: []WeeklyLine{{Name: "a", Seen: []WeekValue{{0, 0}}, Points: []WeekMean{{0, 0, 0, 0}}}}}} {
		if svg := string(SVG(w.Picture())); strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
			t.Errorf("%s: %s", name, svg)
		}
	}
}

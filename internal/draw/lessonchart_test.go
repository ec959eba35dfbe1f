package draw

import (
	"strings"
	"testing"
)

func TestLessonChart(t *testing.T) {
	l := Lesson{Title: "Water lost", Unit: "%", Book: LessonMark{"the book", 12, 10, 14}, Proposed: &LessonMark{"proposed", 14, 13, 15},
		Runs: []LessonRun{{"tue 1", 16, false, false}, {"tue 2", 28, false, true}, {"tue 3", 2, true, false}}}
	p := l.Picture()
	for _, want := range []string{"the book has 12 %", "Run 2, tue 2: 28", "Run 3, tue 3: 2, left out", "Proposed is 14, truly between 13 and 15"} {
		if !strings.Contains(p.Desc, want) {
			t.Errorf("it is not said: %q in %q", want, p.Desc)
		}
	}
	svg := string(SVG(p))
	for _, want := range []string{">book<", ">new<", ">3<", ">far off: asked about<", ">left out by somebody<"} {
		if !strings.Contains(svg, want) {
			t.Errorf("it does not show %q", want)
		}
	}
	many := Lesson{Unit: "s", Book: LessonMark{"the book", 60, 60, 60}, Width: 360}
	for range 200 {
		many.Runs = append(many.Runs, LessonRun{Value: 60})
	}
	for name, c := range map[string]Lesson{"nothing": {}, "200 runs alike, narrow": many, "below zero": {Book: LessonMark{"the book", 0, -0.03, 0.03}, Runs: []LessonRun{{"a", -0.02, false, false}}}} {
		if svg := string(SVG(c.Picture())); strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
			t.Errorf("%s: %s", name, svg)
		}
	}
}

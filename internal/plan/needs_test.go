package plan

import (
	"slices"
	"testing"
)

// In the demo's big Tuesday a sauce is filled when it is cold, and chilled when it is cooked.
func TestNeeds(t *testing.T) {
	needs := openDemo(t, "tuesday").Needs()
	for _, c := range []struct{ task, after string }{
		{"ale-cheddar-lb/fill/1", "ale-cheddar/sauce-chill/1"}, {"ale-cheddar/sauce-chill/1", "ale-cheddar/sweat/1"},
	} {
		if !slices.Contains(needs[c.task], Need{Task: c.after, Over: true, Begin: true}) {
			t.Errorf("%s needs %v, not %s", c.task, needs[c.task], c.after)
		}
	}
	if n := needs["ale-cheddar/cut/1"]; len(n) > 0 {
		t.Errorf("what is first needs %v", n)
	}
}

package labelmaker

import (
	"strings"
	"testing"

	"kettlefrost/internal/finding"
)

// Everything that a label of soup says, on common sizes: all of it fits and stands as the rules ask, or there is a stop with figures and ways out.
func TestSoupOnCommonSizes(t *testing.T) {
	linear := facts()
	linear.Linear = true
	for _, c := range []struct {
		name, stock string
		change      func(*Content)
		fits        bool
		says        []string
	}{
		{"all of it", "4 x 6 in", func(c *Content) { c.Panel = oneColumn() }, true, nil},
		{"two columns of figures are wider", "4 x 6 in", func(*Content) {}, false, []string{"height needed", "area short", "panel as lines of text", "second label"}},
		{"half a sheet", "letter, 2 of 8 x 5 in", func(*Content) {}, true, nil},
		{"no panel", "100 x 100 mm", func(c *Content) { c.Panel = nil }, true, nil},
		{"linear panel", "100 x 100 mm", func(c *Content) { c.Panel, c.Square, c.SquareSays, c.Bars = linear, nil, "", nil }, true, nil},
		{"a front label", "3 x 2 in", func(c *Content) {
			*c = Content{Identity: c.Identity, Keep: c.Keep, Net: []string{"NET WT 12 OZ (340 G)"}, Name: c.Name}
		}, true, nil},
		{"the net quantity on two lines is too high for its place", "3 x 2 in", func(c *Content) { *c = Content{Identity: c.Identity, Keep: c.Keep, Net: c.Net} }, false, []string{"it would but for the rule that the net quantity stands in the lowest 30 %"}},
		{"a lot label", "2 x 1 in", func(c *Content) { *c = Content{Name: c.Identity, Dates: c.Dates[:1], Lot: c.Lot, Keep: c.Keep} }, true, nil},
		{"a bar code too long", "2 x 1 in", func(c *Content) { *c = Content{Bars: c.Bars} }, false, []string{"height needed at this width"}}, // turned, on a higher one
		{"a word too long", "2 x 1 in", func(c *Content) { *c = Content{Identity: strings.Repeat("soup", 30)} }, false, []string{"statement of identity cannot be set in the width", "width needed"}},
		{"all of it on a small one", "2 x 1 in", func(c *Content) {}, false, []string{"cannot be set in the width"}},
	} {
		content := soup(t)
		c.change(&content)
		l, found := Lay(content, stockOf(t, c.stock), US(20))
		if got := found.Worst() != finding.Stop; got != c.fits || got == l.Empty() {
			t.Errorf("%s: %v", c.name, found)
			continue
		}
		told := ""
		for _, f := range found {
			told += f.String()
			for _, figure := range f.Figures {
				told += figure.Name + figure.Text
			}
		}
		for _, words := range c.says {
			if !strings.Contains(told, words) {
				t.Errorf("%s: nothing says %q: %s", c.name, words, told)
			}
		}
		if c.fits {
			for _, f := range Check(l) {
				t.Errorf("%s: %v %v", c.name, f, f.Figures)
			}
		}
	}
}

// From a roll without gaps, as much is cut as the content needs: it fits, and a millimetre less does not.
func TestShortest(t *testing.T) {
	c, s := soup(t), Roll(101.6, 152.4)
	c.Panel = nil
	high, fits := Shortest(c, s, US(20))
	if !fits || high < 60 || high > 152 {
		t.Fatalf("%g mm, %v", high, fits)
	}
	for more, want := range map[float64]bool{0: true, -1: false} {
		s.HighMm = high + more
		if l, _ := Lay(c, s, US(20)); l.Empty() == want {
			t.Errorf("%g mm: %v", s.HighMm, !l.Empty())
		}
	}
	for name, c := range map[string]Content{"nothing": {}, "another script": {Name: "とん汁"}, "too wide": {Name: strings.Repeat("w", 300)}} {
		if high, fits := Shortest(c, s, US(20)); fits {
			t.Errorf("%s: %g mm", name, high)
		}
	}
}

// The labels of a lot look alike though one says more: type of one size.
func TestLabelsOfALotLookAlike(t *testing.T) {
	s := stockOf(t, "4 x 2 in")
	var contents []Content
	for _, serial := range []string{"1", "2", "3 (this one was set aside, weighed again and found to be right by the cook on duty; see the sheet of the day)"} {
		contents = append(contents, Content{Identity: "Red Lentil Soup", Net: []string{"NET WT 24 OZ"}, Cautions: []string{"Pack " + serial}, Ingredients: soup(t).Ingredients, Lot: Fact{"Lot", "L-1"}})
	}
	labels, found := LayAll(contents, s, US(20))
	if len(labels) != 3 || found.Worst() == finding.Stop {
		t.Fatal(found)
	}
	alone, _ := Lay(contents[0], s, US(20))
	sizes := func(l Label) map[Element]float64 {
		all := map[Element]float64{}
		for _, m := range l.Marks {
			all[m.Element] = m.Size
		}
		return all
	}
	if sizes(alone)[Identity] == sizes(labels[0])[Identity] && sizes(alone)[Ingredients] == sizes(labels[0])[Ingredients] {
		t.Error("the fullest label is no fuller: the example shows nothing")
	}
	for i, l := range labels {
		for e, size := range sizes(labels[2]) {
			if sizes(l)[e] != size {
				t.Errorf("label %d: %v is set in %.2f, not %.2f points", i+1, e, sizes(l)[e], size)
			}
		}
		if faults := Check(l); len(faults) > 0 {
			t.Errorf("label %d: %v", i+1, faults)
		}
	}
	contents[1].Lot.Is = "とん汁"
	if labels, found := LayAll(contents, s, US(20)); labels != nil || !strings.Contains(found[0].Where, "label 2") {
		t.Errorf("%d labels, %v", len(labels), found)
	}
}

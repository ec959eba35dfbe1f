package labelmaker

import (
	"slices"
	"testing"

	"kettlefrost/internal/draw"
)

// A label that is spoilt by hand is found out, whatever spoilt it.
func TestCheckFindsWhatIsWrong(t *testing.T) {
	c := soup(t)
	c.Panel = oneColumn()
	good := laid(t, c, stockOf(t, "4 x 6 in"), US(20))
	if found := Check(good); len(found) > 0 {
		t.Fatal(found)
	}
	first := func(l Label, e Element) *Mark {
		return &l.Marks[slices.IndexFunc(l.Marks, func(m Mark) bool { return m.Element == e })]
	}
	for _, spoilt := range []struct {
		name, code string
		by         func(*Label)
	}{
		{"a line moved onto the next", CodeOverlap, func(l *Label) { first(*l, Ingredients).Y += 5 }},
		{"a text under the bars", CodeOverlap, func(l *Label) { bars := first(*l, Bars); lot := first(*l, Lot); lot.X, lot.Y = bars.X, bars.Y+10 }},
		{"a line of the panel through a text", CodeOverlap, func(l *Label) { first(*l, PanelLine).Y += 6 }},
		{"out at the right", CodeOutside, func(l *Label) { first(*l, Identity).X += 200 }},
		{"out at the left, by a hair", CodeOutside, func(l *Label) { first(*l, Identity).X -= 4 }},
		{"above the edge", CodeOutside, func(l *Label) { first(*l, ProductName).Y = 3 }},
		{"ingredients too small", CodeTypeSmall, func(l *Label) { first(*l, Ingredients).Size = 8.4 }},
		{"calories too small", CodeTypeSmall, func(l *Label) { first(*l, PanelFigure).Size = 21 }},
		{"allergens smaller than the ingredients", CodeTypeSmall, func(l *Label) {
			for i := range l.Marks {
				if l.Marks[i].Element == Ingredients {
					l.Marks[i].Size *= 1.01
				}
			}
		}},
		{"text close to the bars", CodeQuiet, func(l *Label) { z := l.Zones[0].Box; lot := first(*l, Lot); lot.X, lot.Y = z.X+z.W-4, z.Y+12 }},
		{"no room at the edge for the quiet zone", CodeQuiet, func(l *Label) { l.Zones[0].Box.X = 0 }},
		{"the net quantity too high", CodeNetPlace, func(l *Label) { first(*l, NetQuantity).Y = 0.6 * l.HighPt }},
		{"a text too near the net quantity", CodeNetPlace, func(l *Label) { first(*l, KeepFrozen).Y += 8 }},
	} {
		l := good
		l.Marks, l.Zones = slices.Clone(good.Marks), slices.Clone(good.Zones)
		spoilt.by(&l)
		codes := map[string]bool{}
		for _, f := range Check(l) {
			codes[f.Code] = true
		}
		if !codes[spoilt.code] {
			t.Errorf("%s: found %v", spoilt.name, codes)
		}
	}
}

// Pale type and type on a dark ground are found out. No layout makes them, so they are drawn by hand.
func TestContrast(t *testing.T) {
	for name, c := range map[string]struct {
		ground, tone draw.Tone
		found        bool
	}{
		"black on white": {draw.NoTone, draw.Ink, false}, "grey on white": {draw.NoTone, draw.Faint, true}, "black on black": {draw.Ink, draw.Ink, true}, "white on black": {draw.Ink, draw.Paper, false},
		"dark grey on white": {draw.NoTone, draw.Quiet, false}, "black on pale": {draw.Wash, draw.Ink, false},
	} {
		r := newRecorder()
		r.Group(Lot.String(), func(on draw.Canvas) {
			on.Rect(draw.Box{X: 0, Y: 0, W: 100, H: 100}, draw.Style{Fill: c.ground})
			on.Text(draw.Point{X: 10, Y: 50}, "Lot 1", draw.Type{Size: 12, Tone: c.tone})
		})
		check := checker{recorder: r, seen: r.seen}
		check.dark()
		if got := len(check.found) > 0; got != c.found {
			t.Errorf("%s: %v", name, check.found)
		}
	}
}

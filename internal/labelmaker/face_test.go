package labelmaker

import (
	"math"
	"testing"
)

// No character reaches out of the line that is kept for it, so that lines set close never touch.
func TestLettersStayInTheirLine(t *testing.T) {
	r := newRecorder()
	far := 0
	for _, bold := range []bool{false, true} {
		for c := range faceOf(bold).wide {
			line := extent{usualUp, usualDown}.with(string(c))
			if line.up > usualUp {
				far++
			}
			if b := r.bounds(letter{c, bold}); -b.top > line.up+1e-9 || b.low > line.down+1e-9 {
				t.Errorf("%q reaches %.3f up and %.3f down, its line %+v", c, -b.top, b.low, line)
			}
		}
	}
	if far == 0 || far > 200 {
		t.Errorf("%d characters reach out of the usual line", far)
	}
}

// What the layout measures is what is drawn: the width of a text is that of its letters, and nothing is hidden by a letter without ink.
func TestEveryPrintableCharacterHasInk(t *testing.T) {
	r := newRecorder()
	for _, bold := range []bool{false, true} {
		for c, wide := range faceOf(bold).wide {
			b := r.bounds(letter{c, bold})
			if math.Abs(b.wide-wide) > 1e-9 {
				t.Errorf("%q is %.4f wide and is taken for %.4f", c, b.wide, wide)
			}
			if blank := c == ' ' || c == '\u00a0'; blank != (b.right <= b.left) {
				t.Errorf("%q (U+%04X): ink from %.3f to %.3f", c, c, b.left, b.right)
			}
		}
	}
}

// The heights of an x and an H in thousandths of a size, measured in the font files by hand (2048 units: 1086 and 1480; bold 1098 and 1480).
func TestLetterHeights(t *testing.T) {
	for _, c := range []struct {
		text string
		bold bool
		want float64
	}{
		{"Net Wt 24 oz", false, 1086. / 2048}, {"NET WT 24 OZ", false, 1480. / 2048}, {"Net Wt", true, 1098. / 2048}, {"680 G", true, 1480. / 2048}, {"12", false, 1480. / 2048}, {"ŻUREK é", false, 1086. / 2048},
	} {
		if got := letterHeight(c.text, c.bold); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%q: %.4f, want %.4f", c.text, got, c.want)
		}
	}
}

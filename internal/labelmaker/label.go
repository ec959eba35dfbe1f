package labelmaker

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"

	"kettlefrost/internal/draw"
)

// Mark is one thing on a label, in ink: a text with the left end of its base line at X, Y, or a filled box. Lengths are in points.
type Mark struct {
	Element Element
	Text    string // empty for a box
	X, Y    float64
	Size    float64 // of type
	Bold    bool
	Turned  bool    // the text reads from bottom to top
	W, H    float64 // of a box
}

// Zone is room that a symbol needs for itself: with its quiet zones.
type Zone struct {
	Element Element
	Box     draw.Box
	Module  float64 // how wide one of its modules is, in points
}

// Label is a label laid out. The zero value is no label and is not printed.
type Label struct {
	WidePt, HighPt float64
	Printable      draw.Box // everything stands in it
	Marks          []Mark   // element by element
	Zones          []Zone
	Rules          Rules // it was laid out by
}

// Empty says whether there is nothing to print.
func (l Label) Empty() bool { return len(l.Marks) == 0 }

// Key is the same for labels that look the same, whatever made them: what reprints are counted by.
func (l Label) Key() string {
	sum := sha256.New()
	fmt.Fprintf(sum, "%.2f %.2f\n", l.WidePt, l.HighPt)
	for _, m := range l.Marks {
		fmt.Fprintf(sum, "%d %q %.2f %.2f %.2f %t %t %.2f %.2f\n", m.Element, m.Text, m.X, m.Y, m.Size, m.Bold, m.Turned, m.W, m.H)
	}
	return hex.EncodeToString(sum.Sum(nil))
}

// Picture is the label as it is drawn everywhere: on the screen, on paper, as an image. A unit is a point.
func (l Label) Picture() draw.Picture {
	return draw.Picture{Width: l.WidePt, Height: l.HighPt, Title: "label", Desc: l.read(), Draw: l.draw}
}

func (l Label) draw(c draw.Canvas) {
	for i := 0; i < len(l.Marks); {
		end := i
		for end < len(l.Marks) && l.Marks[end].Element == l.Marks[i].Element {
			end++
		}
		marks := l.Marks[i:end]
		c.Group(marks[0].Element.String(), func(c draw.Canvas) {
			for _, m := range marks {
				m.draw(c)
			}
		})
		i = end
	}
}

func (m Mark) draw(c draw.Canvas) {
	if m.Text == "" {
		c.Rect(draw.Box{X: m.X, Y: m.Y, W: m.W, H: m.H}, draw.Style{Fill: draw.Ink})
		return
	}
	c.Text(draw.Point{X: m.X, Y: m.Y}, m.Text, draw.Type{Size: m.Size, Bold: m.Bold, Turned: m.Turned, Tone: draw.Ink})
}

// read is all that the label says, for those who cannot see it.
func (l Label) read() string {
	var words []string
	for _, m := range l.Marks {
		if m.Text != "" {
			words = append(words, m.Text)
		}
	}
	return strings.Join(words, " ")
}

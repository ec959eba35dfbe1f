// Package draw makes the pictures of a plan. A Picture is drawn on a Canvas; SVG is one canvas, and a picture knows nothing of it.
// Lengths are in units of a sixteenth of the plain type size: on a screen one unit is one CSS pixel, and plain type is 16.
//
// Nothing is told by colour alone: dishes differ by letter and pattern, absence is hatched, and every mark that stands for
// something has words.
package draw

// Point is a place on the canvas, x to the right and y down.
type Point struct{ X, Y float64 }

// Box is a rectangle by its upper left corner.
type Box struct{ X, Y, W, H float64 }

// Tone is what a colour is for. The canvas, or the page around it, decides which colour that is.
type Tone int

// The tones.
const (
	NoTone Tone = iota
	Ink         // text and strong lines
	Paper       // the ground
	Faint       // grid lines
	Quiet       // secondary text
	Wash        // ground of a bar
)

// Pattern fills an area so that it can be told from others without colour.
type Pattern int

// The patterns. Hatched is kept for absence.
const (
	Plain Pattern = iota
	Hatched
	Solid
	Rising
	Dots
	Upright
	Checks
	Level
	patternCount
)

// DishPatterns are the patterns that tell dishes apart, in the order in which they are given out.
var DishPatterns = [...]Pattern{Solid, Dots, Rising, Upright, Checks, Level}

// Dash breaks a line so that it can be told from others without colour.
type Dash int

// The dashes.
const (
	Unbroken Dash = iota
	Dashed
	Dotted
	LongDashed
	dashCount
)

// Style is how an area or a line is drawn.
type Style struct {
	Fill    Tone
	Pattern Pattern // in place of Fill: drawn in Ink on Paper
	Stroke  Tone
	Width   float64 // of the stroke
	Dash    Dash    // of the stroke
	Round   float64 // radius of a rectangle's corners
}

// Anchor says which part of a text stands at its point.
type Anchor int

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Type is how a text is set.
type Type struct {
	Size   float64
	Bold   bool
	Tone   Tone
	Anchor Anchor
	Turned bool // reads from bottom to top
}

// Canvas is what a picture is drawn on.
type Canvas interface {
	Rect(Box, Style)
	Line(from, to Point, s Style)
	// Polyline draws through the points; with a fill it is closed.
	Polyline(points []Point, s Style)
	// Text sets text with its base line at p. The text may be anything: the canvas makes it harmless.
	Text(p Point, text string, t Type)
	// Group draws what belongs together and says what it is to those who cannot see it or point at it.
	Group(title string, draw func(Canvas))
}

// Picture is something that can be drawn on any canvas.
type Picture struct {
	Width, Height float64
	Title         string // what it is, in a few words
	Desc          string // what it shows, for those who cannot see it
	Stretch       bool   // it fills the place where it is shown, however wide and high that is
	Draw          func(Canvas)
}

// Stack puts pictures below each other.
func Stack(title, desc string, gap float64, pictures []Picture) Picture {
	all := Picture{Title: title, Desc: desc}
	for i, p := range pictures {
		if i > 0 {
			all.Height += gap
		}
		all.Width = max(all.Width, p.Width)
		all.Height += p.Height
	}
	all.Draw = func(c Canvas) {
		y := 0.0
		for _, p := range pictures {
			p.Draw(shifted{c, y})
			y += p.Height + gap
		}
	}
	return all
}

// shifted is a canvas moved down.
type shifted struct {
	on   Canvas
	down float64
}

func (s shifted) Rect(b Box, st Style) { b.Y += s.down; s.on.Rect(b, st) }
func (s shifted) Line(from, to Point, st Style) {
	from.Y += s.down
	to.Y += s.down
	s.on.Line(from, to, st)
}
func (s shifted) Text(p Point, text string, t Type) { p.Y += s.down; s.on.Text(p, text, t) }
func (s shifted) Polyline(points []Point, st Style) {
	moved := make([]Point, len(points))
	for i, p := range points {
		moved[i] = Point{p.X, p.Y + s.down}
	}
	s.on.Polyline(moved, st)
}
func (s shifted) Group(title string, draw func(Canvas)) {
	s.on.Group(title, func(c Canvas) { draw(shifted{c, s.down}) })
}

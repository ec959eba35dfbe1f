package draw

import "fmt"

// Tile is one square of a pattern that repeats, on paper: what a canvas needs to draw it.
type Tile struct {
	Size  float64 // of a side
	Tone  Tone    // of lines and dots, and of the whole of it when it is solid
	Solid bool
	Lines [][4]float64 // x1, y1, x2, y2; they may begin and end outside of the square
	Width float64      // of the lines
	Dots  [][3]float64 // x, y, radius
}

var tiles = [patternCount]Tile{
	Hatched: {Size: 9, Tone: Quiet, Lines: [][4]float64{{-1, 1, 1, -1}, {0, 9, 9, 0}, {8, 10, 10, 8}}, Width: 1},
	Solid:   {Size: 8, Tone: Ink, Solid: true},
	Rising:  {Size: 6, Tone: Ink, Lines: [][4]float64{{-1, 1, 1, -1}, {0, 6, 6, 0}, {5, 7, 7, 5}}, Width: 2},
	Dots:    {Size: 7, Tone: Ink, Dots: [][3]float64{{3.5, 3.5, 2}}},
	Upright: {Size: 5, Tone: Ink, Lines: [][4]float64{{2.5, 0, 2.5, 5}}, Width: 2},
	Checks:  {Size: 6, Tone: Ink, Lines: [][4]float64{{0, 0, 6, 6}, {6, 0, 0, 6}}, Width: 1.3},
	Level:   {Size: 4, Tone: Ink, Lines: [][4]float64{{0, 2, 4, 2}}, Width: 1.6},
}

// Tile is what a pattern repeats; false for Plain, which has none.
func (p Pattern) Tile() (Tile, bool) {
	if p <= Plain || p >= patternCount {
		return Tile{}, false
	}
	return tiles[p], true
}

// patterns writes the definitions of those that are used.
func (s *svg) patterns(used [patternCount]bool) {
	open := false
	for i, yes := range used {
		if !yes {
			continue
		}
		if !open {
			s.out.WriteString("<defs>\n")
			open = true
		}
		s.pattern(Pattern(i), tiles[i])
	}
	if open {
		s.out.WriteString("</defs>\n")
	}
}

func (s *svg) pattern(p Pattern, t Tile) {
	size := number(t.Size)
	fmt.Fprintf(&s.out, "<pattern id=\"%s-p%d\" patternUnits=\"userSpaceOnUse\" width=\"%s\" height=\"%s\">\n", s.prefix, p, size, size)
	ground := Paper
	if t.Solid {
		ground = t.Tone
	}
	s.Rect(Box{W: t.Size, H: t.Size}, Style{Fill: ground})
	for _, l := range t.Lines {
		s.Line(Point{l[0], l[1]}, Point{l[2], l[3]}, Style{Stroke: t.Tone, Width: t.Width})
	}
	for _, d := range t.Dots {
		fmt.Fprintf(&s.out, "<circle cx=\"%s\" cy=\"%s\" r=\"%s\"", number(d[0]), number(d[1]), number(d[2]))
		s.tail(Style{Fill: t.Tone})
	}
	s.out.WriteString("</pattern>\n")
}

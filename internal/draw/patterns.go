package draw

import "fmt"

// tile is one square of a pattern that repeats.
type tile struct {
	size  float64
	lines [][4]float64 // x1, y1, x2, y2
	width float64
	dots  [][3]float64 // x, y, radius
	solid bool
}

var tiles = [patternCount]tile{
	Hatched: {size: 9, lines: [][4]float64{{-1, 1, 1, -1}, {0, 9, 9, 0}, {8, 10, 10, 8}}, width: 1},
	Solid:   {size: 8, solid: true},
	Rising:  {size: 6, lines: [][4]float64{{-1, 1, 1, -1}, {0, 6, 6, 0}, {5, 7, 7, 5}}, width: 2},
	Dots:    {size: 7, dots: [][3]float64{{3.5, 3.5, 2}}},
	Upright: {size: 5, lines: [][4]float64{{2.5, 0, 2.5, 5}}, width: 2},
	Checks:  {size: 6, lines: [][4]float64{{0, 0, 6, 6}, {6, 0, 0, 6}}, width: 1.3},
	Level:   {size: 4, lines: [][4]float64{{0, 2, 4, 2}}, width: 1.6},
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

func (s *svg) pattern(p Pattern, t tile) {
	tone := Ink
	if p == Hatched {
		tone = Quiet
	}
	size := number(t.size)
	fmt.Fprintf(&s.out, "<pattern id=\"%s-p%d\" patternUnits=\"userSpaceOnUse\" width=\"%s\" height=\"%s\">\n", s.prefix, p, size, size)
	ground := Paper
	if t.solid {
		ground = tone
	}
	s.Rect(Box{W: t.size, H: t.size}, Style{Fill: ground})
	for _, l := range t.lines {
		s.Line(Point{l[0], l[1]}, Point{l[2], l[3]}, Style{Stroke: tone, Width: t.width})
	}
	for _, d := range t.dots {
		fmt.Fprintf(&s.out, "<circle cx=\"%s\" cy=\"%s\" r=\"%s\"", number(d[0]), number(d[1]), number(d[2]))
		s.tail(Style{Fill: tone})
	}
	s.out.WriteString("</pattern>\n")
}

package draw

import "math"

// disc is a circle by its middle.
func disc(c Canvas, p Point, r float64, st Style) {
	st.Round = r
	c.Rect(Box{p.X - r, p.Y - r, 2 * r, 2 * r}, st)
}

// dot marks a place on a line; the ring of paper keeps it apart from what it lies on.
func dot(c Canvas, p Point) {
	disc(c, p, 7, Style{Fill: Paper})
	disc(c, p, 5, Style{Fill: Ink})
}

// ringed marks the place where a line meets a limit in time; crossed where it does not. They differ in shape.
func ringed(c Canvas, p Point) {
	disc(c, p, 7, Style{Fill: Paper, Stroke: Ink, Width: 2})
	disc(c, p, 3.5, Style{Fill: Ink})
}

func crossed(c Canvas, p Point) {
	disc(c, p, 8, Style{Fill: Paper})
	for _, way := range [...]float64{-1, 1} {
		c.Line(Point{p.X - 6, p.Y - 6*way}, Point{p.X + 6, p.Y + 6*way}, Style{Stroke: Ink, Width: 3.5})
	}
}

// shapes tell lines of one kind apart: corners of a polygon about a point, and whether it is filled.
var shapes = [...]struct {
	corners int
	turn    float64
	filled  bool
}{{4, math.Pi / 4, false}, {3, -math.Pi / 2, true}, {4, 0, false}, {3, math.Pi / 2, false}, {4, math.Pi / 4, true}, {6, 0, false}, {4, 0, true}, {3, math.Pi / 2, true}}

// shape draws the nth shape.
func shape(c Canvas, n int, p Point) {
	s := shapes[n%len(shapes)]
	st := Style{Fill: Paper, Stroke: Ink, Width: 2}
	if s.filled {
		st.Fill = Ink
	}
	var points []Point
	for i := range s.corners {
		a := s.turn + 2*math.Pi*float64(i)/float64(s.corners)
		points = append(points, Point{p.X + 7*math.Cos(a), p.Y + 7*math.Sin(a)})
	}
	c.Polyline(points, st)
}

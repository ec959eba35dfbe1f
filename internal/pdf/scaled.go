package pdf

import "kettlefrost/internal/draw"

// scaled is a canvas on which a picture is drawn at another place and size. Dashes and patterns keep theirs.
type scaled struct {
	on    draw.Canvas
	at    draw.Point
	scale float64
}

func (s scaled) point(p draw.Point) draw.Point {
	return draw.Point{X: s.at.X + p.X*s.scale, Y: s.at.Y + p.Y*s.scale}
}

func (s scaled) style(st draw.Style) draw.Style {
	st.Width, st.Round = st.Width*s.scale, st.Round*s.scale
	return st
}

func (s scaled) Rect(b draw.Box, st draw.Style) {
	p := s.point(draw.Point{X: b.X, Y: b.Y})
	s.on.Rect(draw.Box{X: p.X, Y: p.Y, W: b.W * s.scale, H: b.H * s.scale}, s.style(st))
}

func (s scaled) Line(from, to draw.Point, st draw.Style) {
	s.on.Line(s.point(from), s.point(to), s.style(st))
}

func (s scaled) Polyline(points []draw.Point, st draw.Style) {
	moved := make([]draw.Point, len(points))
	for i, p := range points {
		moved[i] = s.point(p)
	}
	s.on.Polyline(moved, s.style(st))
}

func (s scaled) Text(p draw.Point, text string, t draw.Type) {
	t.Size *= s.scale
	s.on.Text(s.point(p), text, t)
}

func (s scaled) Group(title string, in func(draw.Canvas)) {
	s.on.Group(title, func(c draw.Canvas) { in(scaled{c, s.at, s.scale}) })
}

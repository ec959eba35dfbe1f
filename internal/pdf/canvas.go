package pdf

import (
	"math"

	"codeberg.org/go-pdf/fpdf"

	"kettlefrost/internal/draw"
)

// canvas draws on the page that is open, in points from its upper left corner.
type canvas struct{ f *fpdf.Fpdf }

// greys are the tones on paper; a printer that knows no greys still has words, patterns and dashes.
var greys = [...]int{draw.NoTone: 255, draw.Ink: 0, draw.Paper: 255, draw.Faint: 170, draw.Quiet: 70, draw.Wash: 232}

func grey(t draw.Tone) int {
	if t < 0 || int(t) >= len(greys) {
		return greys[draw.Ink]
	}
	return greys[t]
}

// dashes by kind, in points; a dot is a dash of no length with round ends.
var dashes = [...][]float64{draw.Unbroken: nil, draw.Dashed: {6, 3.5}, draw.Dotted: {0.1, 4}, draw.LongDashed: {12, 4}}

// finite says whether everything is a number that can be a place on paper.
func finite(values ...float64) bool {
	for _, v := range values {
		if !(math.Abs(v) < 1e5) {
			return false
		}
	}
	return true
}

// paint sets the colours of a mark and says how it is painted: filled, stroked or both; "" for not at all.
func (c canvas) paint(st draw.Style) string {
	how := ""
	if st.Fill != draw.NoTone {
		g := grey(st.Fill)
		c.f.SetFillColor(g, g, g)
		how = "F"
	}
	if st.Stroke != draw.NoTone && st.Width > 0 {
		c.stroke(st)
		how += "D"
	}
	return how
}

func (c canvas) stroke(st draw.Style) {
	g := grey(st.Stroke)
	c.f.SetDrawColor(g, g, g)
	c.f.SetLineWidth(st.Width)
	c.f.SetLineJoinStyle("round")
	c.f.SetLineCapStyle("butt")
	dash := []float64(nil)
	if st.Dash > draw.Unbroken && int(st.Dash) < len(dashes) {
		dash = dashes[st.Dash]
	}
	if st.Dash == draw.Dotted {
		c.f.SetLineCapStyle("round")
	}
	c.f.SetDashPattern(dash, 0)
}

func (c canvas) Rect(b draw.Box, st draw.Style) {
	if !finite(b.X, b.Y, b.W, b.H) || b.W < 0 || b.H < 0 {
		return
	}
	if tile, is := st.Pattern.Tile(); is {
		c.tiled(b, tile)
		st.Fill = draw.NoTone
	}
	how := c.paint(st)
	switch round := min(st.Round, b.W/2, b.H/2); {
	case how == "":
	case round <= 0:
		c.f.Rect(b.X, b.Y, b.W, b.H, how)
	case round >= b.W/2-1e-9 && round >= b.H/2-1e-9:
		c.f.Circle(b.X+b.W/2, b.Y+b.H/2, round, how)
	default:
		c.f.RoundedRect(b.X, b.Y, b.W, b.H, round, "1234", how)
	}
}

// tiled fills a box with a pattern. The tiles lie on one grid for the whole page, so that boxes side by side match.
func (c canvas) tiled(b draw.Box, t draw.Tile) {
	if t.Solid {
		c.Rect(b, draw.Style{Fill: t.Tone})
		return
	}
	c.f.ClipRect(b.X, b.Y, b.W, b.H, false)
	c.Rect(b, draw.Style{Fill: draw.Paper})
	for y := math.Floor(b.Y/t.Size) * t.Size; y < b.Y+b.H; y += t.Size {
		for x := math.Floor(b.X/t.Size) * t.Size; x < b.X+b.W; x += t.Size {
			for _, l := range t.Lines {
				c.Line(draw.Point{X: x + l[0], Y: y + l[1]}, draw.Point{X: x + l[2], Y: y + l[3]}, draw.Style{Stroke: t.Tone, Width: t.Width})
			}
			for _, d := range t.Dots {
				c.Rect(draw.Box{X: x + d[0] - d[2], Y: y + d[1] - d[2], W: 2 * d[2], H: 2 * d[2]}, draw.Style{Fill: t.Tone, Round: d[2]})
			}
		}
	}
	c.f.ClipEnd()
}

func (c canvas) Line(from, to draw.Point, st draw.Style) {
	if st.Stroke == draw.NoTone || st.Width <= 0 || !finite(from.X, from.Y, to.X, to.Y) {
		return
	}
	c.stroke(st)
	c.f.Line(from.X, from.Y, to.X, to.Y)
}

func (c canvas) Polyline(points []draw.Point, st draw.Style) {
	var path []fpdf.PointType
	for _, p := range points {
		if finite(p.X, p.Y) {
			path = append(path, fpdf.PointType{X: p.X, Y: p.Y})
		}
	}
	how := c.paint(st)
	if how == "" || len(path) < 2 {
		return
	}
	if st.Fill != draw.NoTone {
		c.f.Polygon(path, how)
		return
	}
	c.f.MoveTo(path[0].X, path[0].Y)
	for _, p := range path[1:] {
		c.f.LineTo(p.X, p.Y)
	}
	c.f.DrawPath(how)
}

func (c canvas) Text(p draw.Point, text string, t draw.Type) {
	if text = printable(text); text == "" || t.Tone == draw.NoTone || !finite(p.X, p.Y, t.Size) || t.Size <= 0 {
		return
	}
	style, g := "", grey(t.Tone)
	if t.Bold {
		style = "B"
	}
	c.f.SetFont(family, style, t.Size)
	c.f.SetTextColor(g, g, g)
	x := p.X - width(text, t.Size, t.Bold)*map[draw.Anchor]float64{draw.Start: 0, draw.Middle: 0.5, draw.End: 1}[t.Anchor]
	if !t.Turned {
		c.f.Text(x, p.Y, text)
		return
	}
	c.f.TransformBegin()
	c.f.TransformRotate(90, p.X, p.Y)
	c.f.Text(x, p.Y, text)
	c.f.TransformEnd()
}

// Group draws what is in it; paper has nobody who points at it, and its words are printed elsewhere.
func (c canvas) Group(_ string, in func(draw.Canvas)) { in(c) }

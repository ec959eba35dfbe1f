package draw

import "math"

// picture draws what was laid out.
func (h curveChart) picture() Picture {
	foot := h.plot.Y + h.plot.H + belowPlot
	height := foot + h.beneath.height()
	if h.Height <= mostChart {
		height = max(height, h.Height)
	}
	return Picture{Width: size(h.Width, chartWidth), Height: height, Title: h.Title, Desc: h.said(), Draw: func(c Canvas) {
		h.drawBand(c)
		h.grid(c)
		h.frame.words(c)
		for _, l := range h.Limits {
			c.Group(l.Name, func(c Canvas) { c.Polyline(h.gate(l), Style{Stroke: Ink, Width: 2}) })
		}
		for i, l := range h.Lines {
			c.Group(h.spoken(l), func(c Canvas) { h.drawLine(c, i) })
		}
		h.drawMarks(c)
		for _, l := range h.labels {
			ground := Paper
			if h.inside(l.box.middle()) {
				ground = Wash
			}
			h.setLabel(c, l, ground)
			if l.line >= 0 && l.line < len(h.Lines) && h.shaped[l.line] >= 0 {
				shape(c, h.shaped[l.line], Point{l.box.X + 9, l.box.Y + 10})
			}
		}
		h.beneath.draw(c, foot)
	}}
}

func (h curveChart) drawBand(c Canvas) {
	if len(h.band) == 0 {
		return
	}
	c.Group(h.Band.Name, func(c Canvas) { c.Polyline(h.band, bandStyle) })
}

// bandStyle has an edge, since a wash may get lost in print.
var bandStyle = Style{Fill: Wash, Stroke: Quiet, Width: 1}

// drawLine draws a line and the shapes that tell it from others of its kind.
func (h curveChart) drawLine(c Canvas, i int) {
	points := h.lines[i]
	if len(points) == 1 {
		dot(c, points[0])
		return
	}
	c.Polyline(points, h.Lines[i].Kind.style())
	if h.shaped[i] < 0 {
		return
	}
	long := 0.0
	for n := 1; n < len(points); n++ {
		long += math.Hypot(points[n].X-points[n-1].X, points[n].Y-points[n-1].Y)
	}
	shift := float64(i%3) * 0.07 // so that shapes of lines that run together do not lie on each other
	for _, share := range [...]float64{0.3, 0.75} {
		shape(c, h.shaped[i], onWay(points, long*(share+shift)))
	}
}

func (h curveChart) drawMarks(c Canvas) {
	for _, v := range h.judged {
		sign := crossed
		if v.InTime {
			sign = ringed
		}
		sign(c, h.point(v.TimeS, v.TempC))
	}
	for _, m := range h.Marks {
		dot(c, h.point(m.TimeS, m.TempC))
	}
}

// sample is a piece of a line for the words beneath.
func (h curveChart) sample(i int) func(Canvas, Point) {
	return func(c Canvas, p Point) {
		c.Line(Point{p.X - 20, p.Y}, Point{p.X + 20, p.Y}, h.Lines[i].Kind.style())
		if h.shaped[i] >= 0 {
			shape(c, h.shaped[i], p)
		}
	}
}

// words are those beneath: what became of each limit, and what the band is.
func (h curveChart) words(wide float64) strip {
	s := strip{wide: wide}
	several := h.cores() > 1
	limit := ""
	for _, v := range h.judged {
		sign := crossed
		if v.InTime {
			sign = ringed
		}
		switch {
		case !several:
			s.add(item{sign: sign, text: v.spoken(false), fresh: true})
			continue
		case v.Limit != limit:
			s.add(item{text: v.Limit + ":", head: true})
			limit = v.Limit
		}
		s.add(item{sign: sign, text: v.Line + " " + v.brief})
	}
	if h.Band.Name != "" {
		s.add(item{sign: swatch, wide: 36, text: h.Band.Name, fresh: true})
	}
	return s
}

func swatch(c Canvas, p Point) { c.Rect(Box{p.X - 18, p.Y - 9, 36, 18}, bandStyle) }

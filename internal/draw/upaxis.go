package draw

// upAxis draws the frame of a chart whose values go up: a pale line and a figure at each tick, the two axes, and the unit above.
func upAxis(c Canvas, plot Box, ticks []float64, y func(float64) float64, text func(float64) string, unit string) {
	bottom, right := plot.Y+plot.H, plot.X+plot.W
	end := tickType
	end.Anchor = End
	for _, v := range ticks {
		c.Line(Point{plot.X, y(v)}, Point{right, y(v)}, Style{Stroke: Faint, Width: 1})
		c.Text(Point{plot.X - tickGap, y(v) + 6}, text(v), end)
	}
	c.Line(Point{plot.X, plot.Y}, Point{plot.X, bottom}, Style{Stroke: Quiet, Width: 1.5})
	c.Line(Point{plot.X, bottom}, Point{right, bottom}, Style{Stroke: Quiet, Width: 1.5})
	c.Text(Point{2, 18}, unit, limitType)
}

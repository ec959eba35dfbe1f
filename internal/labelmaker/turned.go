package labelmaker

// turned is a part that reads from bottom to top, at the side of a label: bars that are longer than the label is wide.
type turned struct {
	part part
	long float64 // how high the label is, in points
	dpi  int
}

func (t turned) set(wide, ease float64) (setting, bool) {
	dot := 72 / float64(t.dpi)
	in, fits := t.part.set(t.long-dot, ease) // a dot to come onto the grid
	if !fits || in.high > wide {
		return setting{}, false
	}
	return setting{wide: in.high, high: in.wide + dot, marks: func(x, y float64, to *[]Mark) {
		first := len(*to)
		in.marks(0, 0, to)
		foot := snapped(y+in.wide, t.dpi)
		for i := range (*to)[first:] {
			(*to)[first+i].turn(x, foot)
		}
	}}, true
}

// turn puts a mark, whose place is from the corner of its part, where it stands when the part is turned to read upwards from a point.
func (m *Mark) turn(x, foot float64) {
	if m.Text == "" {
		m.X, m.Y, m.W, m.H = x+m.Y, foot-m.X-m.W, m.H, m.W
		return
	}
	m.X, m.Y, m.Turned = x+m.Y, foot-m.X, true
}

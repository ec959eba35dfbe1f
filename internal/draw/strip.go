package draw

// strip is rows of signs and words beneath a chart.
type strip struct {
	wide  float64
	items []item
	rows  int
	x     float64 // where the next item may begin
	left  float64 // where a row goes on that began with a heading
}

// item is a sign and its words.
type item struct {
	sign  func(Canvas, Point) // about its middle; nil for none
	wide  float64             // of the sign, if wider than a mark
	text  string
	head  bool // begins a row, and further ones go on behind it
	fresh bool // begins a row
	x     float64
	row   int
}

const (
	stripRow  = 26.0
	stripLeft = 10.0
	itemGap   = 20.0
	signWide  = 18.0
)

func (i item) typ() Type {
	if i.head {
		return limitType
	}
	return tickType
}

func (i item) signRoom() float64 {
	if i.sign == nil {
		return 0
	}
	return max(i.wide, signWide) + 6
}

// add sets an item behind the last one, or on a row of its own where it does not fit.
func (s *strip) add(i item) {
	i.text = fit(i.text, s.wide-2*stripLeft-i.signRoom(), i.typ())
	room := i.signRoom() + textWidth(i.text, i.typ())
	switch {
	case s.rows == 0 || i.fresh || i.head:
		s.rows++
		s.x, s.left = stripLeft, stripLeft
	case s.x+room > s.wide-stripLeft:
		s.rows++
		if s.x = s.left; s.x+room > s.wide-stripLeft {
			s.x = stripLeft
		}
	}
	i.x, i.row = s.x, s.rows-1
	s.x += room + itemGap
	if i.head {
		s.x -= itemGap / 2
		s.left = s.x
	}
	s.items = append(s.items, i)
}

// close makes the next item begin a row.
func (s *strip) close() { s.x, s.left = s.wide, stripLeft }

func (s strip) height() float64 {
	if s.rows == 0 {
		return 0
	}
	return float64(s.rows)*stripRow + 14
}

func (s strip) draw(c Canvas, top float64) {
	for _, i := range s.items {
		base := top + 10 + stripRow*float64(i.row) + stripRow/2
		if i.sign != nil {
			i.sign(c, Point{i.x + max(i.wide, signWide)/2, base})
		}
		c.Text(Point{i.x + i.signRoom(), base + 5.5}, i.text, i.typ())
	}
}

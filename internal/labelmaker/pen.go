package labelmaker

// pen draws lines of cells and bars between two edges, from above. Lengths are in points.
type pen struct {
	of             *panel
	left, right, y float64
	marks          []Mark
}

func (p *pen) wide() float64 { return p.right - p.left }

// cell is a text on a line: from a place, or up to one. At 0 it begins at the left edge.
type cell struct {
	e    Element
	text string
	bold bool
	at   float64
	end  bool
}

// line sets cells in one size on one base line.
func (p *pen) line(size float64, cells ...cell) {
	for _, c := range cells {
		p.put(c, size, p.y+p.of.line.up*size)
	}
	p.y += p.of.line.leading() * size
}

// sizes sets cells each in the size of its element, on one base line.
func (p *pen) sizes(cells ...cell) {
	largest := 0.0
	for _, c := range cells {
		largest = max(largest, p.of.size(c.e))
	}
	for _, c := range cells {
		p.put(c, p.of.size(c.e), p.y+p.of.line.up*largest)
	}
	p.y += p.of.line.leading() * largest
}

func (p *pen) put(c cell, size, base float64) {
	line := p.of.typeset(c.text, c.bold)
	if len(line.words) == 0 {
		return
	}
	x := c.at
	switch {
	case c.end:
		x -= line.wide * size
	case x == 0:
		x = p.left
	}
	set(c.e, line.words, x, base, size, &p.marks)
}

// bar draws one from edge to edge, with room above and below it.
func (p *pen) bar(thick float64) {
	room := min(1.2, thick)
	p.y += room
	p.marks = append(p.marks, Mark{Element: PanelFrame, X: p.left, Y: p.y, W: p.wide(), H: thick})
	p.y += thick + room
}

// frame draws one round everything, from 0, 0.
func (p *pen) frame(wide, high float64) {
	for _, m := range []Mark{
		{X: 0, Y: 0, W: wide, H: panelStroke}, {X: 0, Y: high - panelStroke, W: wide, H: panelStroke},
		{X: 0, Y: panelStroke, W: panelStroke, H: high - 2*panelStroke}, {X: wide - panelStroke, Y: panelStroke, W: panelStroke, H: high - 2*panelStroke},
	} {
		m.Element = PanelFrame
		p.marks = append(p.marks, m)
	}
}

package draw

import "fmt"

// beyond says beneath which readings the scale does not reach.
func (h *tempLayout) beyond() {
	for _, t := range h.traces {
		n, far := 0, reach{h.lowC, h.highC}
		for _, p := range t.odd {
			if !p.Blank && (p.TempC < h.lowC || p.TempC > h.highC) {
				n++
				far.add(p.TempC)
			}
		}
		if n == 0 {
			continue
		}
		words := counted(n, "reading") + " beyond this scale:"
		if far.high > h.highC {
			words += " up to " + bothTenths(far.high, h.Units)
		}
		if far.low < h.lowC {
			words += " down to " + bothTenths(far.low, h.Units)
		}
		h.beneath.add(item{sign: beyondSample, text: words, fresh: true})
	}
}

// name puts the words into the chart; what finds no room goes beneath.
func (h *tempLayout) name() {
	h.nameStages()
	crowd := h.crowd()
	h.beneath.close()
	for _, m := range h.Marks {
		l := label{text: fit(m.Text, h.plot.W/2, tickType), typ: tickType, line: -1, most: 3 * hidesOther, spots: []spot{{at: h.point(m.TimeS, m.TempC), gap: 8}}}
		h.put(&crowd, l, item{sign: m.Sign.draw, text: m.Text, fresh: true})
	}
	for i, l := range h.Limits {
		h.put(&crowd, label{text: fit(l.Name, h.plot.W*0.7, limitType), typ: limitType, line: h.limitLine(i), most: bearable, spots: h.limitSpots(l)},
			item{sign: limitSample, wide: 40, text: l.Name})
	}
	for _, m := range h.moments() {
		line := h.upright(m.TimeS)
		spots := along([]Point{line[0], line[1]}, 0.1)
		for j := range spots {
			spots[j].close = true
		}
		h.put(&crowd, label{text: fit(m.Text, h.plot.W/2, tickType), typ: tickType, line: -1, most: 2 * hidesOther, spots: spots},
			item{sign: momentSample, text: fmt.Sprintf("%s at %s", m.Text, h.clock(m.TimeS))})
	}
	for i, t := range h.traces {
		h.nameTrace(&crowd, i, t)
	}
	h.nameGaps(&crowd)
}

// limitSpots are those about the tick of a limit, then those along its line.
func (h tempLayout) limitSpots(l TempLimit) []spot {
	line := h.limit(l)
	var spots []spot
	if len(line) > 2 {
		spots = append(spots, spot{at: Point{line[1].X, (line[1].Y + line[2].Y) / 2}, gap: 8, close: true}, spot{at: line[2], gap: 3, cost: 5, close: true})
	}
	for _, s := range along(line[:2], 0.8) {
		s.gap, s.cost, s.close = 3, s.cost+10, true
		spots = append(spots, s)
	}
	return spots
}

func (h *tempLayout) nameTrace(w *crowd, i int, t tempTrace) {
	longest := []Point(nil)
	for _, piece := range h.lines[i] {
		if len(piece) > 0 && (longest == nil || piece[len(piece)-1].X-piece[0].X > longest[len(longest)-1].X-longest[0].X) {
			longest = piece
		}
	}
	if len(longest) == 0 {
		return
	}
	l := label{text: fit(t.Name, h.plot.W/2, lineType), typ: lineType, line: i, most: bearable, spots: along(within(longest, 1), 0.6), on: t.Kind == Medium}
	if h.shaped[i] >= 0 {
		l.lead = 22
	}
	h.put(w, l, item{sign: h.sample(i), wide: 40, text: t.Name})
}

// nameGaps says in the chart that nothing was read, where there is room.
func (h *tempLayout) nameGaps(w *crowd) {
	for _, g := range h.gaps {
		box := h.gapBox(g)
		middle := Point{box.X + box.W/2, box.Y + box.H/2}
		l := label{text: "nothing read", typ: tickType, line: -1, most: hidesOther / 2, on: true, spots: []spot{{at: middle, close: true}, {at: Point{middle.X, box.Y + box.H*0.8}, close: true, cost: 1}}}
		if textWidth(l.text, l.typ)+8 < box.W {
			h.put(w, l, item{})
		}
	}
}

// put places a label, or else sets its words beneath.
func (h *tempLayout) put(w *crowd, l label, otherwise item) {
	switch {
	case l.text == "":
	case w.put(&l):
		h.labels = append(h.labels, l)
	case otherwise.text != "":
		h.beneath.add(otherwise)
	}
}

// nameStages sets the names of stages above the plot; one that has no room there is named beneath.
func (h *tempLayout) nameStages() {
	for _, s := range h.Stages {
		box := h.stageBox(s)
		if box.W <= 0 {
			continue
		}
		words := fmt.Sprintf("%s: %s to %s", s.Name, h.clock(s.FromS), h.clock(s.UntilS))
		text := s.Name
		if textWidth(text, limitType) > box.W-8 {
			h.beneath.add(item{sign: swatch, wide: 36, text: words, fresh: true})
			continue
		}
		h.stages = append(h.stages, label{text: text, typ: limitType, line: -1, box: Box{box.X, h.plot.Y - stageRow, box.W, labelHeight}})
	}
}

// limitLine is the number by which a limit's line is known among the lines.
func (h tempLayout) limitLine(i int) int { return len(h.traces) + i }

// crowd is what words must keep clear of.
func (h tempLayout) crowd() crowd {
	w := crowd{within: h.plot}
	for i, pieces := range h.lines {
		for _, p := range pieces {
			w.addLine(p, i)
		}
	}
	for _, b := range h.bands {
		w.addLine(b, -1)
	}
	for i, l := range h.Limits {
		w.addLine(h.limit(l), h.limitLine(i))
	}
	for _, m := range h.moments() {
		w.addLine(h.upright(m.TimeS), -1)
	}
	square := func(p Point, r float64) { w.boxes = append(w.boxes, Box{p.X - r, p.Y - r, 2 * r, 2 * r}) }
	for _, m := range h.Marks {
		square(h.point(m.TimeS, m.TempC), 7)
	}
	for _, s := range h.signs {
		square(s.at, 7)
		if s.way == 0 && !s.blank {
			square(Point{s.at.X + 5, s.at.Y - 12}, 7)
		}
	}
	return w
}

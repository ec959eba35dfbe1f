package labelmaker

import (
	"slices"
	"strings"
)

// Sizes of a panel in points; those of its type come from the rules.
const (
	panelPad    = 3.5
	panelStroke = 0.7
	hairline    = 0.3
	heavyBar    = 5.0
	middleBar   = 2.5
	panelIndent = 7.0
	panelGap    = 6.0 // between a name and its figures at least
	panelMost   = 1.5 // how much wider than it must be a panel is drawn
	titleMost   = 2.2 // and how much larger than it must be its title
)

// panel is a nutrition panel in a column.
type panel struct {
	Panel
	rules Rules
	em    map[run]float64 // widths in type sizes, of texts that were measured
	ease  float64
	at    figures // at that ease
}

// run is a text in a face.
type run struct {
	text string
	bold bool
}

// face of the elements of a panel that are bold.
func boldIn(e Element) bool {
	return e == PanelTitle || e == PanelServing || e == PanelCalories || e == PanelFigure || e == PanelSmall
}

// type size of an element at the panel's ease. A panel grows by a quarter where there is room.
func (p *panel) size(e Element) float64 {
	least := max(p.rules.size(e, "x", boldIn(e)), p.rules.size(e, "X", boldIn(e)))
	return sized(least, 1.1*least, min(p.ease, 2))
}

// wide is how wide a text of an element is with all of its ink, in points.
func (p *panel) wide(e Element, text string, bold bool) float64 {
	k := run{text, bold}
	em, known := p.em[k]
	if !known {
		if words := wordsOf([]Run{{text, bold}}); len(words) > 0 {
			em = lineWidth(words)
		}
		p.em[k] = em
	}
	return em * p.size(e)
}

// figures is how wide names are, and a column of figures is: amounts, a gap, percents. One column has its amounts behind the names.
type figures struct{ names, amounts, percents float64 }

func (f figures) column() float64 {
	if f.amounts == 0 || f.percents == 0 {
		return f.amounts + f.percents
	}
	return f.amounts + panelGap + f.percents
}

func (p *panel) figures() figures {
	f := figures{names: p.wide(PanelCalories, p.Calories.Name, true)}
	several := p.columns() > 1
	for _, l := range p.Lines {
		names := panelIndent*float64(l.Indent) + p.wide(PanelLine, l.label(), l.Strong)
		if !several && !l.within() && l.amount(0) != "" {
			names += p.space() + p.wide(PanelLine, l.amount(0), false)
		}
		f.names = max(f.names, names)
		for i := range p.columns() {
			if several && (!l.within() || i > 0) {
				f.amounts = max(f.amounts, p.wide(PanelLine, l.amount(i), false))
			}
			f.percents = max(f.percents, p.wide(PanelLine, l.percent(i), true))
		}
	}
	return f
}

// narrowest is how wide the panel must be inside of its frame.
func (p *panel) narrowest() float64 {
	f, n := p.at, float64(p.columns())
	column := f.column()
	for i := range p.columns() {
		column = max(column, p.wide(PanelSmall, at(p.Heads, i), true), p.wide(PanelSmall, p.PercentHead, true), p.wide(PanelFigure, at(p.Calories.Amounts, i), true))
	}
	return max(f.names+n*(panelGap+column), p.wide(PanelTitle, p.Title, true), p.wide(PanelSmall, p.Amount, true),
		p.wide(PanelServing, p.Serving.Name, true)+panelGap+p.wide(PanelServing, p.Serving.Is, true), p.wide(PanelServings, p.Servings, false))
}

func (p *panel) set(wide, ease float64) (setting, bool) {
	q := *p
	q.ease = ease
	q.at = q.figures()
	least := q.narrowest()
	inside := wide - 2*(panelPad+panelStroke)
	if least > inside {
		return setting{}, false
	}
	inside = min(inside, least*panelMost)
	var pen pen
	pen.left, pen.right = panelPad+panelStroke, panelPad+panelStroke+inside
	pen.y = panelPad + panelStroke
	q.head(&pen)
	q.lines(&pen)
	if !q.foot(&pen) {
		return setting{}, false
	}
	s := setting{wide: inside + 2*(panelPad+panelStroke), high: pen.y + panelPad + panelStroke}
	pen.frame(s.wide, s.high)
	s.marks = func(x, y float64, to *[]Mark) {
		for _, m := range pen.marks {
			m.X, m.Y = m.X+x, m.Y+y
			*to = append(*to, m)
		}
	}
	return s, true
}

// head is what stands above the lines.
func (p *panel) head(pen *pen) {
	if strings.TrimSpace(p.Title) != "" {
		size := p.size(PanelTitle)
		size = min(titleMost*size, max(size, size*pen.wide()/p.wide(PanelTitle, p.Title, true)))
		pen.line(size, cell{e: PanelTitle, text: p.Title, bold: true})
		pen.bar(hairline)
	}
	if p.Servings != "" {
		pen.line(p.size(PanelServings), cell{e: PanelServings, text: p.Servings})
	}
	if p.Serving != (Fact{}) {
		pen.line(p.size(PanelServing), cell{e: PanelServing, text: p.Serving.Name, bold: true}, cell{e: PanelServing, text: p.Serving.Is, bold: true, at: pen.right, end: true})
	}
	pen.bar(heavyBar)
	if p.Amount != "" && p.columns() == 1 {
		pen.line(p.size(PanelSmall), cell{e: PanelSmall, text: p.Amount, bold: true})
	}
	if heads := p.acrossColumns(pen, PanelSmall, p.Heads); len(heads) > 0 {
		pen.line(p.size(PanelSmall), heads...)
	}
	if p.Calories.Name != "" {
		cells := append([]cell{{e: PanelCalories, text: p.Calories.Name, bold: true}}, p.acrossColumns(pen, PanelFigure, p.Calories.Amounts)...)
		pen.sizes(p, cells...)
		pen.bar(middleBar)
	}
	if p.PercentHead != "" {
		pen.line(p.size(PanelSmall), p.acrossColumns(pen, PanelSmall, slices.Repeat([]string{p.PercentHead}, p.columns()))...)
		pen.bar(hairline)
	}
}

// acrossColumns are texts at the ends of the columns of figures.
func (p *panel) acrossColumns(pen *pen, e Element, all []string) []cell {
	var cells []cell
	for i, text := range all {
		if text != "" {
			cells = append(cells, cell{e: e, text: text, bold: true, at: p.columnEnd(pen, i), end: true})
		}
	}
	return cells
}

// space is between a name and an amount behind it.
func (p *panel) space() float64 { return faceOf(false).wide[' '] * p.size(PanelLine) }

// columnEnd is the right end of a column of figures.
func (p *panel) columnEnd(pen *pen, i int) float64 {
	n := p.columns()
	each := (pen.wide() - p.at.names) / float64(n)
	return pen.right - each*float64(n-1-i)
}

func (p *panel) lines(pen *pen) {
	f := p.at
	for i, l := range p.Lines {
		switch {
		case l.Bar:
			pen.bar(heavyBar)
		case i > 0:
			pen.bar(hairline)
		}
		left := pen.left + panelIndent*float64(l.Indent)
		cells := []cell{{e: PanelLine, text: l.label(), bold: l.Strong, at: left}}
		for k := range p.columns() {
			end := p.columnEnd(pen, k)
			amount := cell{e: PanelLine, text: l.amount(k), at: end, end: true}
			switch {
			case p.columns() == 1:
				amount.at, amount.end = left+p.wide(PanelLine, l.label(), l.Strong)+p.space(), false
			case f.percents > 0:
				amount.at = end - f.percents - panelGap
			}
			if amount.text != "" && (!l.within() || k > 0) {
				cells = append(cells, amount)
			}
			if text := l.percent(k); text != "" {
				cells = append(cells, cell{e: PanelLine, text: text, bold: true, at: end, end: true})
			}
		}
		pen.line(p.size(PanelLine), cells...)
	}
}

// foot is what stands below the lines; false when a word of it is too wide.
func (p *panel) foot(pen *pen) bool {
	rule := middleBar
	for _, text := range []string{p.NotSignificant, p.Footnote} {
		words, size := wordsOf(Plain(text)), p.size(PanelNote)
		lines, fits := wrap(words, pen.wide()/size)
		if !fits {
			return false
		}
		if len(lines) == 0 {
			continue
		}
		pen.bar(rule)
		rule = hairline
		for _, l := range lines {
			set(PanelNote, words[l.from:l.to], pen.left, pen.y+ascent*size, size, &pen.marks)
			pen.y += leading * size
		}
	}
	return true
}

package labelmaker

import (
	"slices"
	"strings"
)

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
		pen.sizes(cells...)
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

// body is the lines.
func (p *panel) body(pen *pen) {
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
			case !p.apart():
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
		words, size := p.typeset(text, false).words, p.size(PanelNote)
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
			set(PanelNote, words[l.from:l.to], pen.left, pen.y+p.line.up*size, size, &pen.marks)
			pen.y += p.line.leading() * size
		}
	}
	return true
}

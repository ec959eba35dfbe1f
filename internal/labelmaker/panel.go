package labelmaker

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
	least [texts]float64 // sizes
	line  extent
	lines map[run]typeset     // of texts that were measured
	tried map[float64]figures // by ease
	ease  float64
	at    figures // at that ease
}

// run is a text in a face, on one line.
type run struct {
	text string
	bold bool
}

// typeset is its words and how wide they are in type sizes, with all of their ink.
type typeset struct {
	words []word
	wide  float64
}

func panelOf(p Panel, r Rules) *panel {
	all := &panel{Panel: p, line: extent{usualUp, usualDown}, lines: map[run]typeset{}, tried: map[float64]figures{}}
	for _, s := range p.texts() {
		all.line = all.line.with(s.text)
	}
	for _, e := range Elements() {
		all.least[e] = max(r.size(e, "x", boldIn(e)), r.size(e, "X", boldIn(e)))
	}
	return all
}

// boldIn says whether an element of a panel is bold.
func boldIn(e Element) bool {
	return e == PanelTitle || e == PanelServing || e == PanelCalories || e == PanelFigure || e == PanelSmall
}

// size of an element's type at the panel's ease. A panel grows by a fifth where there is room.
func (p *panel) size(e Element) float64 { return sized(p.least[e], 1.1*p.least[e], p.ease) }

func (p *panel) typeset(text string, bold bool) typeset {
	k := run{text, bold}
	set, known := p.lines[k]
	if !known {
		if set.words = wordsOf([]Run{{text, bold}}); len(set.words) > 0 {
			set.wide = lineWidth(set.words)
		}
		p.lines[k] = set
	}
	return set
}

// wide is how wide a text of an element is, in points.
func (p *panel) wide(e Element, text string, bold bool) float64 {
	return p.typeset(text, bold).wide * p.size(e)
}

// apart says whether amounts stand in columns: one column with percents has its amounts behind the names.
func (p *panel) apart() bool { return p.columns() > 1 || p.at.percents == 0 }

// figures is how wide names are, and a column of figures is: amounts, a gap, percents.
type figures struct{ names, amounts, percents float64 }

func (f figures) column() float64 {
	if f.amounts == 0 || f.percents == 0 {
		return f.amounts + f.percents
	}
	return f.amounts + panelGap + f.percents
}

func (p *panel) figures() figures {
	if f, known := p.tried[p.ease]; known {
		return f
	}
	f := figures{names: p.wide(PanelCalories, p.Calories.Name, true)}
	for _, l := range p.Lines {
		for i := range p.columns() {
			f.percents = max(f.percents, p.wide(PanelLine, l.percent(i), true))
		}
	}
	p.at = f
	for _, l := range p.Lines {
		names := panelIndent*float64(l.Indent) + p.wide(PanelLine, l.label(), l.Strong)
		if !p.apart() && !l.within() && l.amount(0) != "" {
			names += p.space() + p.wide(PanelLine, l.amount(0), false)
		}
		f.names = max(f.names, names)
		for i := range p.columns() {
			if p.apart() && (!l.within() || i > 0) {
				f.amounts = max(f.amounts, p.wide(PanelLine, l.amount(i), false))
			}
		}
	}
	p.tried[p.ease] = f
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
	pen := pen{of: &q, left: panelPad + panelStroke, right: panelPad + panelStroke + inside, y: panelPad + panelStroke, marks: make([]Mark, 0, 4*len(p.Lines)+24)}
	q.head(&pen)
	q.body(&pen)
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

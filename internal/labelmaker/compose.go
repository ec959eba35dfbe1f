package labelmaker

import "kettlefrost/internal/draw"

// Usual sizes of type in points, where there is room. Common practice.
const (
	usualIdentity = 21
	usualName     = 12
	usualKeep     = 13
	usualText     = 9
	usualSmall    = 8
)

// gaps inside of groups, in points.
const groupGap = 3

// partsOf takes a content apart.
func partsOf(c Content, s Stock, r Rules) parts {
	var p parts
	var head []part
	if t := textOf(r, ProductName, usualName, Plain(c.Name)); t != nil {
		head = append(head, t)
	}
	if t := textOf(r, Identity, usualIdentity, strong(c.Identity)); t != nil {
		head = append(head, t)
	}
	if len(head) > 0 {
		p.head = &stack{head, 1}
	}
	f := &foot{net: textOf(r, NetQuantity, 0, each(strong, c.Net)...), keep: textOf(r, KeepFrozen, usualKeep, strong(c.Keep)), clear: r.NetClear}
	if f.net != nil || f.keep != nil {
		p.foot = f
	}
	add := func(bars bool, all ...part) {
		if len(all) > 0 {
			p.body = append(p.body, group{stack{all, groupGap}, bars})
		}
	}
	if c.Panel != nil {
		add(false, panelOf(*c.Panel, r))
	}
	add(false, some(statement(r, c)...)...)
	add(false, some(textOf(r, Firm, usualText, each(Plain, c.Firm)...))...)
	add(false, some(spaced(textOf(r, Heating, usualText, each(Plain, c.Heating)...)))...)
	add(false, some(spaced(textOf(r, Caution, usualText, each(strong, c.Cautions)...)))...)
	var dates [][]Run
	for _, d := range c.Dates {
		dates = append(dates, d.runs())
	}
	add(false, some(textOf(r, Dates, usualText, dates...), textOf(r, Lot, usualText, c.Lot.runs()))...)
	if c.Bars != nil {
		add(true, &bars{*c.Bars, s.DPI, wordsAs(r, BarText, usualSmall, readable(*c.Bars))})
	}
	if c.Square != nil {
		add(false, &square{*c.Square, s.DPI, textOf(r, SquareText, usualSmall, Plain(c.SquareSays))})
	}
	return p
}

func panelOf(p Panel, r Rules) part {
	if !p.Linear {
		return &panel{Panel: p, rules: r, em: map[run]float64{}}
	}
	return framed{textOf(r, PanelText, 0, p.runs())}
}

// statement is the ingredients and the line of allergens, which is set no smaller: in the same size.
func statement(r Rules, c Content) []*text {
	list, contains := textOf(r, Ingredients, usualText, c.Ingredients), textOf(r, Contains, usualText, allStrong(c.Contains))
	if list != nil && contains != nil {
		least, wish := max(contains.least, list.least), max(contains.wish, list.wish)
		list.least, list.wish, contains.least, contains.wish = least, wish, least, wish
	}
	return []*text{list, contains}
}

// some are the texts that there are.
func some(all ...*text) []part {
	var out []part
	for _, t := range all {
		if t != nil {
			out = append(out, t)
		}
	}
	return out
}

func spaced(t *text) *text {
	if t != nil {
		t.between = 0.25
	}
	return t
}

func strong(text string) []Run { return []Run{{text, true}} }

func allStrong(runs []Run) []Run {
	var out []Run
	for _, r := range runs {
		out = append(out, Run{r.Text, true})
	}
	return out
}

func each(as func(string) []Run, texts []string) [][]Run {
	var all [][]Run
	for _, t := range texts {
		all = append(all, as(t))
	}
	return all
}

func (f Fact) runs() []Run {
	if f == (Fact{}) {
		return nil
	}
	return []Run{{f.Name + " ", false}, {f.Is, true}}
}

func wordsAs(r Rules, e Element, wish float64, words []word) *text {
	if len(words) == 0 {
		return nil
	}
	least := r.size(e, "X", false)
	return &text{element: e, paragraphs: [][]word{words}, least: least, wish: max(wish, 1.1*least)}
}

// frameOf is the room of a stock, by the rules.
func frameOf(s Stock, r Rules) frame {
	f := frame{wide: pt(s.WideMm - 2*s.MarginMm), high: pt(s.HighMm - 2*s.MarginMm)}
	if r.NetWithin > 0 {
		f.netMost = r.NetWithin*pt(s.HighMm) - pt(s.MarginMm)
	}
	return f
}

// place draws the parts as planned.
func (p parts) place(plan plan, s Stock, r Rules) Label {
	f := frameOf(s, r)
	edge := pt(s.MarginMm)
	l := Label{WidePt: pt(s.WideMm), HighPt: pt(s.HighMm), Printable: draw.Box{X: edge, Y: edge, W: f.wide, H: f.high}, Rules: r}
	gap := gapAt(plan.ease)
	top, bottom := edge, edge+f.high
	put := func(part part, x, y, wide, ease float64) float64 {
		one, _ := part.set(wide, ease) // it fitted when it was planned
		one.marks(x, y, &l.Marks)
		return one.high
	}
	if p.head != nil {
		top += put(p.head, edge, top, f.wide, plan.head) + gap
	}
	low := bottom
	if p.foot != nil {
		one, _ := p.foot.set(f.wide, plan.ease)
		low -= one.high + gap
	}
	for i, g := range p.body {
		if plan.strip && plan.in[i] == inStrip {
			one, _ := g.part.set(f.wide, plan.ease)
			low -= one.high
			one.marks(edge, low, &l.Marks)
			low -= gap
		}
	}
	x := edge
	for c, wide := range plan.columns {
		y := top
		for i, g := range p.body {
			if plan.in[i] == c {
				y += put(g.part, x, y, wide, plan.ease) + gap
			}
		}
		x += wide + gutter
	}
	if p.foot != nil {
		one, _ := p.foot.set(f.wide, plan.ease)
		one.marks(edge, bottom-one.high, &l.Marks)
	}
	return l
}

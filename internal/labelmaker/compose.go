package labelmaker

import (
	"strings"

	"kettlefrost/internal/draw"
)

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
	head := some(textOf(r, ProductName, usualName, Plain(c.Name)), textOf(r, Identity, usualIdentity, strong(c.Identity)))
	if len(head) > 0 {
		p.head = &stack{head, 1}
	}
	f := &foot{net: textOf(r, NetQuantity, 0, each(amounts, c.Net)...), keep: textOf(r, KeepFrozen, usualKeep, strong(c.Keep)), clear: r.NetClear}
	if f.net != nil || f.keep != nil {
		p.foot = f
	}
	if c.Panel != nil {
		p.panel(*c.Panel, r)
	}
	p.add(some(statement(r, c)...)...)
	p.add(some(textOf(r, Firm, usualText, each(Plain, c.Firm)...))...)
	p.add(some(spaced(textOf(r, Heating, usualText, each(Plain, c.Heating)...)))...)
	p.add(some(spaced(textOf(r, Caution, usualText, each(strong, c.Cautions)...)))...)
	var dates [][]Run
	for _, d := range c.Dates {
		dates = append(dates, d.runs())
	}
	p.add(some(textOf(r, Dates, usualText, dates...), textOf(r, Lot, usualText, c.Lot.runs()))...)
	if c.Bars != nil {
		upright := &bars{*c.Bars, s.DPI, wordsAs(r, BarText, usualSmall, readable(*c.Bars))}
		p.add(upright)
		g := &p.body[len(p.body)-1]
		g.bars, g.tall = true, func(high float64) part { return turned{upright, high, s.DPI} }
	}
	if c.Square != nil {
		p.add(&square{*c.Square, s.DPI, textOf(r, SquareText, usualSmall, Plain(c.SquareSays))})
	}
	return p
}

// add makes a group of what there is.
func (p *parts) add(all ...part) {
	if len(all) > 0 {
		p.body = append(p.body, group{part: stack{all, groupGap}})
	}
}

// panel adds one, unless it says nothing.
func (p *parts) panel(panel Panel, r Rules) {
	switch {
	case !panel.says():
	case panel.Linear:
		p.add(framed{textOf(r, PanelText, 0, panel.runs())})
	default:
		upright := panelOf(panel, r)
		p.add(upright)
		p.body[len(p.body)-1].tall = func(float64) part { return upright }
	}
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

// amounts keeps numbers with their units, and what stands in parentheses, on one line.
func amounts(text string) []Run {
	var out strings.Builder
	depth, before := 0, ' '
	for _, r := range strings.Join(strings.Fields(text), " ") {
		switch r {
		case '(':
			depth++
		case ')':
			depth--
		case ' ':
			if depth > 0 || before >= '0' && before <= '9' {
				r = '\u00a0'
			}
		}
		out.WriteRune(r)
		before = r
	}
	return strong(out.String())
}

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
	return &text{element: e, paragraphs: [][]word{words}, least: least, wish: max(wish, 1.1*least), line: extent{usualUp, usualDown}} // ASCII
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
	f, edge := frameOf(s, r), pt(s.MarginMm)
	l := Label{WidePt: pt(s.WideMm), HighPt: pt(s.HighMm), Printable: draw.Box{X: edge, Y: edge, W: f.wide, H: f.high}, Rules: r}
	left, gap := edge, gapAt(plan.ease)
	top, bottom := edge, edge+f.high
	put := func(part part, x, y, wide, ease float64) float64 {
		one, _ := part.set(wide, ease) // it fitted when it was planned
		one.marks(x, y, &l.Marks)
		return one.high
	}
	var tall part
	if plan.side > 0 {
		tall, p = p.body[plan.aside].tall(f.high), p.without(plan.aside)
		left, f.wide = left+plan.side+gutter, f.wide-plan.side-gutter
	}
	if p.head != nil {
		top += put(p.head, left, top, f.wide, plan.head) + gap
	}
	if tall != nil {
		put(tall, edge, edge, plan.side, plan.ease)
	}
	x := left
	for c, wide := range plan.columns {
		y := top
		for i, g := range p.body {
			if plan.in[i] == c {
				y += put(g.part, x, y, wide, plan.ease) + gap
			}
		}
		x += wide + gutter
	}
	p.below(plan, f, left, bottom, &l.Marks)
	return l
}

// below draws the strip and the foot, which stands at the lower edge.
func (p parts) below(plan plan, f frame, left, bottom float64, to *[]Mark) {
	gap := gapAt(plan.ease)
	var foot setting
	if p.foot != nil {
		foot, _ = p.foot.set(f.wide, plan.ease)
		bottom -= foot.high + gap
	}
	low := bottom
	for i, g := range p.body {
		if plan.strip && plan.in[i] == inStrip {
			one, _ := g.part.set(f.wide, plan.ease)
			low -= one.high
			one.marks(left, low, to)
			low -= gap
		}
	}
	if p.foot != nil {
		foot.marks(left, bottom+gap, to)
	}
}

package pdf

import (
	"strconv"

	"kettlefrost/internal/draw"
)

func (t Title) set(f *flow) {
	f.gap(10)
	f.lines(f.left, wrap(t.Text, f.measure(), 20, true), draw.Type{Size: 20, Bold: true, Tone: draw.Ink})
	if t.Below != "" {
		f.y += 2
		f.lines(f.left, wrap(t.Below, f.measure(), 11, false), draw.Type{Size: 11, Tone: draw.Quiet})
	}
	f.y += 6
}

// headSizes are the sizes of headings by level, and the room above them.
var headSizes = [...]struct{ size, above float64 }{1: {15, 18}, 2: {11.5, 12}, 3: {10, 8}}

func (h Heading) set(f *flow) {
	level := max(1, min(h.Level, 3))
	s := headSizes[level]
	lines := wrap(h.Text, f.measure(), s.size, true)
	if h.Page && f.y > f.top {
		f.turn()
	}
	f.gap(s.above)
	f.need(float64(len(lines))*s.size*leading + 100) // something of what it heads stands with it: a table with its name, its head and a row
	text := printable(h.Text)
	f.page().heads = append(f.page().heads, head{level, text, f.y})
	if level == 1 {
		f.found = append(f.found, listed{text, len(f.pages)})
	}
	f.lines(f.left, lines, draw.Type{Size: s.size, Bold: true, Tone: draw.Ink})
	if level == 1 {
		f.line(f.left, f.y+1, f.right, f.y+1, 1.2, draw.Ink)
		f.y += 4
	}
	f.y += 3
}

// keeps begins a page when a figure that the heading is of has no room with it on this one.
func (h Heading) keeps(f *flow, next Block) {
	if x, is := next.(Figure); is && x.Picture.Draw != nil {
		_, tall := x.size(f)
		f.need(tall + besides - 8)
	}
}

func (t Contents) set(f *flow) {
	if len(f.listed) == 0 {
		return
	}
	f.gap(6)
	f.lines(f.left, wrap(t.Name, f.measure(), plainSize, true), draw.Type{Size: plainSize, Bold: true, Tone: draw.Ink})
	plain := draw.Type{Size: plainSize, Tone: draw.Ink}
	ended := plain
	ended.Anchor = draw.End
	for _, l := range f.listed {
		f.need(plainSize * leading)
		text := cut(l.text, f.measure()-40, plainSize)
		f.text(f.left, f.y, text, plain)
		f.text(f.right, f.y, strconv.Itoa(l.page), ended)
		f.draw(dotted(f.left+width(text, plainSize, false)+5, f.right-28, f.y+plainSize-1))
		f.y += plainSize * leading
	}
}

func dotted(from, to, y float64) func(draw.Canvas) {
	return func(c draw.Canvas) {
		if from < to {
			c.Line(draw.Point{X: from, Y: y}, draw.Point{X: to, Y: y}, draw.Style{Stroke: draw.Quiet, Width: 0.7, Dash: draw.Dotted})
		}
	}
}

func (p Paragraph) set(f *flow) {
	if p.Text == "" {
		return
	}
	f.gap(3)
	switch p.Tone {
	case Strong:
		f.lines(f.left, wrap(p.Text, f.measure(), plainSize, true), draw.Type{Size: plainSize, Bold: true, Tone: draw.Ink})
	case Quiet:
		f.lines(f.left, wrap(p.Text, f.measure(), smallSize, false), draw.Type{Size: smallSize, Tone: draw.Quiet})
	case Loud:
		f.loud(p.Text)
	default:
		f.lines(f.left, wrap(p.Text, f.measure(), plainSize, false), draw.Type{Size: plainSize, Tone: draw.Ink})
	}
	f.y += 3
}

// loud sets text in a frame, which goes on over a page's end.
func (f *flow) loud(text string) {
	const in = 7.0
	t := draw.Type{Size: plainSize, Bold: true, Tone: draw.Ink}
	lines := wrap(text, f.measure()-2*in, t.Size, true)
	step := t.Size * leading
	for len(lines) > 0 {
		f.need(2*in + min(float64(len(lines)), 3)*step)
		n := max(1, min(len(lines), int((f.room()-2*in)/step)))
		box := draw.Box{X: f.left, Y: f.y, W: f.measure(), H: 2*in + float64(n)*step}
		f.draw(func(c draw.Canvas) { c.Rect(box, draw.Style{Stroke: draw.Ink, Width: 1.5}) })
		for i, l := range lines[:n] {
			f.text(f.left+in, box.Y+in+float64(i)*step-0.5, l, t)
		}
		f.y, lines = box.Y+box.H+2, lines[n:]
	}
}

func (l List) set(f *flow) {
	const in = 13.0
	t := draw.Type{Size: plainSize, Tone: draw.Ink}
	f.gap(2)
	for _, item := range l {
		f.need(plainSize * leading)
		f.text(f.left+2, f.y, "•", t)
		f.lines(f.left+in, wrap(item, f.measure()-in, plainSize, false), t)
		f.y += 2
	}
}

func (all Facts) set(f *flow) {
	name := draw.Type{Size: plainSize, Tone: draw.Quiet}
	is := draw.Type{Size: plainSize, Tone: draw.Ink}
	wide := 0.0
	for _, x := range all {
		wide = max(wide, width(printable(x.Name), plainSize, false))
	}
	wide = min(wide, f.measure()/3)
	f.gap(2)
	for _, x := range all {
		names := wrap(x.Name, wide, plainSize, false)
		says := wrap(x.Is, f.measure()-wide-14, plainSize, false)
		f.need(min(float64(max(len(names), len(says))), 4) * plainSize * leading)
		from, on := f.y, len(f.pages)
		f.lines(f.left, names, name)
		end := f.y
		if on == len(f.pages) {
			f.y = from
		}
		f.lines(f.left+wide+14, says, is)
		if on == len(f.pages) {
			f.y = max(f.y, end)
		}
		f.y += 1.5
	}
}

func (PageBreak) set(f *flow) {
	if f.y > f.top {
		f.turn()
	}
}

// figureScale is points for a unit of a picture: type of 16 is printed in 10.
const figureScale = 10.0 / 16

// besides is what is left of a page beside the tallest figure: for its heading.
const besides = 52.0

// size is the scale of the picture and how tall the figure is with its caption.
func (x Figure) size(f *flow) (scale, tall float64) {
	below := 0.0
	if x.Caption != "" {
		below = float64(len(wrap(x.Caption, f.measure(), smallSize, false))) * smallSize * leading
	}
	p := x.Picture
	if p.Draw == nil || p.Width <= 0 || p.Height <= 0 {
		return 0, below
	}
	scale = min(figureScale, f.measure()/p.Width, (f.bottom-f.top-below-besides)/p.Height)
	return scale, p.Height*scale + below + 4
}

func (x Figure) set(f *flow) {
	scale, tall := x.size(f)
	if scale > 0 {
		f.gap(5)
		f.need(tall)
		at := draw.Point{X: f.left, Y: f.y}
		f.draw(func(c draw.Canvas) { x.Picture.Draw(scaled{c, at, scale}) })
		f.y += x.Picture.Height*scale + 4
	}
	if x.Caption != "" {
		f.lines(f.left, wrap(x.Caption, f.measure(), smallSize, false), draw.Type{Size: smallSize, Tone: draw.Quiet})
	}
	f.y += 4
}

func (all Signatures) set(f *flow) {
	const wide, tall = 236.0, 58.0
	label := draw.Type{Size: smallSize, Tone: draw.Quiet}
	said := draw.Type{Size: plainSize, Tone: draw.Ink}
	f.gap(8)
	for _, s := range all {
		says := wrap(s.Says, f.measure(), smallSize, false)
		if s.Says == "" {
			says = nil
		}
		f.need(tall + float64(len(says))*smallSize*leading)
		base := f.y + 26
		for _, part := range [...]struct {
			x, wide  float64
			name, is string
		}{{f.left, wide, s.As, s.Who}, {f.left + wide + 24, f.measure() - wide - 24, f.doc.In.Say("date and time"), s.When}} {
			f.line(part.x, base, part.x+part.wide, base, 0.8, draw.Ink)
			f.text(part.x+2, base-plainSize-4, cut(part.is, part.wide-4, plainSize), said)
			f.text(part.x, base+3, cut(part.name, part.wide, smallSize), label)
		}
		f.y = base + 3 + smallSize*leading
		f.lines(f.left, says, label)
		f.y += 8
	}
}

package pdf

import (
	"strconv"

	"kettlefrost/internal/draw"
)

// page is what is on one page, in points from its upper left corner.
type page struct {
	under []func(draw.Canvas) // below everything
	marks []func(draw.Canvas)
	heads []head
}

// head is a heading, for the outline.
type head struct {
	level int
	text  string
	y     float64
}

// Margins and sizes in points. Margins are to the head and to the foot, and stay what they are however large everything else is set.
const (
	sideMargin = 54.0
	headMargin = 40.0
	footMargin = 36.0
	belowHead  = 26.0
	aboveFoot  = 24.0
	plainSize  = 10.0
	smallSize  = 8.5
	leading    = 1.32
)

// flow sets blocks one below the other, page after page.
type flow struct {
	doc                      Document
	scale                    float64 // of everything: the page is laid out as if it were so much smaller
	wide, tall               float64
	left, right, top, bottom float64
	y                        float64
	pages                    []*page
	listed                   []listed // headings for the contents, of the pass before
	found                    []listed
	drafted                  []string // what marks every page as a draft
}

// listed is a heading of the contents.
type listed struct {
	text string
	page int
}

func newFlow(doc Document, before []listed) *flow {
	scale := max(1, min(doc.Large, largest))
	w, h := doc.size()
	w, h = w/scale, h/scale
	f := &flow{doc: doc, scale: scale, wide: w, tall: h, left: sideMargin / scale, right: w - sideMargin/scale,
		top: headMargin/scale + belowHead, bottom: h - footMargin/scale - aboveFoot, listed: before}
	if doc.Draft != "" {
		f.drafted = wrap(doc.Draft, f.measure()-12, smallSize, true)
		f.drafted = f.drafted[:min(len(f.drafted), mostDraftLines)]
		f.top += 13 + float64(len(f.drafted))*smallSize*leading
	}
	f.turn()
	return f
}

// largest is what still leaves room for a table.
const largest = 2.0

// mostDraftLines are as many as the mark of a draft takes at most.
const mostDraftLines = 3

// lay sets a document. It is set twice where it has contents: their pages are known only when all is set.
func lay(doc Document) *flow {
	var before []listed
	for {
		f := newFlow(doc, before)
		for i, b := range doc.Blocks {
			if h, is := b.(Heading); is && i+1 < len(doc.Blocks) {
				h.keeps(f, doc.Blocks[i+1])
			}
			b.set(f)
		}
		if !f.hasContents() || len(before) == len(f.found) {
			f.frame()
			return f
		}
		before = f.found
	}
}

func (f *flow) hasContents() bool {
	for _, b := range f.doc.Blocks {
		if _, is := b.(Contents); is {
			return len(f.found) > 0
		}
	}
	return false
}

// turn begins a page.
func (f *flow) turn() {
	f.pages = append(f.pages, &page{})
	f.y = f.top
}

func (f *flow) page() *page { return f.pages[len(f.pages)-1] }

// room is what is left of the page.
func (f *flow) room() float64 { return f.bottom - f.y }

func (f *flow) measure() float64 { return f.right - f.left }

// need begins a page when there is less room than that, unless nothing is on this one.
func (f *flow) need(tall float64) {
	if f.room() < tall && f.y > f.top {
		f.turn()
	}
}

// gap leaves room between blocks, but not at the head of a page.
func (f *flow) gap(tall float64) {
	if f.y > f.top {
		f.y += tall
	}
}

func (f *flow) draw(mark func(draw.Canvas)) { f.page().marks = append(f.page().marks, mark) }

// text sets one line with its upper edge at y.
func (f *flow) text(x, y float64, text string, t draw.Type) {
	f.draw(func(c draw.Canvas) { c.Text(draw.Point{X: x, Y: y + t.Size}, text, t) })
}

func (f *flow) line(fromX, fromY, toX, toY, wide float64, tone draw.Tone) {
	f.draw(func(c draw.Canvas) {
		c.Line(draw.Point{X: fromX, Y: fromY}, draw.Point{X: toX, Y: toY}, draw.Style{Stroke: tone, Width: wide})
	})
}

// lines sets lines from y on, over as many pages as they take.
func (f *flow) lines(x float64, lines []string, t draw.Type) {
	for _, l := range lines {
		f.need(t.Size * leading)
		f.text(x, f.y, l, t)
		f.y += t.Size * leading
	}
}

// frame puts what stands on every page about it.
func (f *flow) frame() {
	quiet := draw.Type{Size: smallSize, Tone: draw.Quiet}
	ended := quiet
	ended.Anchor = draw.End
	for i, p := range f.pages {
		number := f.number(i)
		p.under = append(p.under, func(c draw.Canvas) {
			if f.doc.Draft != "" {
				f.draft(c)
			}
			head := headMargin / f.scale
			c.Text(draw.Point{X: f.left, Y: head}, cut(f.doc.Head, f.measure(), smallSize), quiet)
			c.Line(draw.Point{X: f.left, Y: head + 6}, draw.Point{X: f.right, Y: head + 6}, draw.Style{Stroke: draw.Quiet, Width: 0.6})
			base := f.tall - footMargin/f.scale
			c.Line(draw.Point{X: f.left, Y: base - 12}, draw.Point{X: f.right, Y: base - 12}, draw.Style{Stroke: draw.Quiet, Width: 0.6})
			c.Text(draw.Point{X: f.left, Y: base}, cut(f.doc.Foot, f.measure()-90, smallSize), quiet)
			c.Text(draw.Point{X: f.right, Y: base}, number, ended)
		})
	}
}

// number is what a page is called.
func (f *flow) number(i int) string {
	return f.doc.In.Say("page %s of %s", strconv.Itoa(i+1), strconv.Itoa(len(f.pages)))
}

// draft marks a page: words in a frame above, and the word below all that is on it, as pale as a bar's ground.
func (f *flow) draft(c draw.Canvas) {
	c.Text(draw.Point{X: f.wide / 2, Y: f.tall/2 + 40}, f.doc.In.Say("DRAFT"), draw.Type{Size: 150, Bold: true, Tone: draw.Wash, Anchor: draw.Middle})
	box := draw.Box{X: f.left, Y: headMargin/f.scale + 12, W: f.measure(), H: 8 + float64(len(f.drafted))*smallSize*leading}
	c.Rect(box, draw.Style{Stroke: draw.Ink, Width: 1.2})
	for i, line := range f.drafted {
		c.Text(draw.Point{X: f.wide / 2, Y: box.Y + 12.5 + float64(i)*smallSize*leading}, line, draw.Type{Size: smallSize, Bold: true, Tone: draw.Ink, Anchor: draw.Middle})
	}
}

// cut is text on one line; what does not fit is replaced by an ellipsis.
func cut(text string, wide, size float64) string {
	text = wrap(text, 1e9, size, false)[0]
	if width(text, size, false) <= wide {
		return text
	}
	return text[:fitting(text, wide-width("…", size, false), size, false)] + "…"
}

// picture is a page as a picture.
func (f *flow) picture(i int) draw.Picture {
	p := f.pages[i]
	return draw.Picture{Width: f.wide * f.scale, Height: f.tall * f.scale, Title: f.doc.Title, Desc: f.number(i), Draw: func(c draw.Canvas) {
		if f.scale != 1 {
			c = scaled{on: c, scale: f.scale}
		}
		for _, mark := range p.under {
			mark(c)
		}
		for _, mark := range p.marks {
			mark(c)
		}
	}}
}

// Pages are the pages of a document as pictures, in points.
func Pages(doc Document) []draw.Picture {
	f := lay(doc)
	all := make([]draw.Picture, len(f.pages))
	for i := range f.pages {
		all[i] = f.picture(i)
	}
	return all
}

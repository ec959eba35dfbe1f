package pdf

import "kettlefrost/internal/draw"

// Columns is parts in two columns side by side, for a sheet that should be one page: its type is as large as it can be for that, from 10 points
// down to Least. What does not fit then goes on over pages, one column after the other.
type Columns struct {
	Left, Right []Part
	Share       float64 // of the width for the left column; half when 0
	Least       float64 // the smallest type, in points; 8 when 0
}

// Part is a heading and what stands below it.
type Part struct {
	Name  string
	Items []Item
}

// Item is a mark or a number that hangs at the left, a text beside it, and small print below that.
type Item struct{ Mark, Text, Small string }

const (
	gutter   = 18.0 // between the columns
	sizeStep = 0.25
)

func (x Columns) set(f *flow) {
	left, right := x.widths(f.measure())
	size := x.size(left, right, f.room())
	from, start, page := f.left, f.y, len(f.pages)
	end := f.right
	f.right = from + left
	f.parts(x.Left, size)
	below, on := f.y, len(f.pages)
	f.left, f.right = end-right, end
	if on == page {
		f.y = start
	}
	f.parts(x.Right, size)
	if on == page && len(f.pages) == page {
		f.y = max(f.y, below)
	}
	f.left = from
}

func (x Columns) widths(measure float64) (left, right float64) {
	share := x.Share
	if share <= 0 || share >= 1 {
		share = 0.5
	}
	left = (measure - gutter) * share
	return left, measure - gutter - left
}

// size is the largest type in which both columns end on the page.
func (x Columns) size(left, right, room float64) float64 {
	least := x.Least
	if least <= 0 {
		least = 8
	}
	size := plainSize
	for size > least && (partsTall(x.Left, left, size) > room || partsTall(x.Right, right, size) > room) {
		size -= sizeStep
	}
	return max(size, least)
}

// sized are the sizes and distances of parts in a type.
type sized struct{ head, text, small, above, between, in float64 }

func sizedBy(size float64) sized {
	return sized{head: size * 1.2, text: size, small: size * 0.85, above: size * 0.9, between: size * 0.3, in: size * 1.6}
}

// lines is the lines of an item in a width.
func (i Item) lines(wide float64, s sized) (text, small []string) {
	if i.Mark != "" {
		wide -= s.in
	}
	text = wrap(i.Text, wide, s.text, false)
	if i.Small != "" {
		small = wrap(i.Small, wide, s.small, false)
	}
	return text, small
}

func partsTall(parts []Part, wide, size float64) float64 {
	s, tall := sizedBy(size), 0.0
	for _, p := range parts {
		if p.Name != "" {
			tall += s.above + float64(len(wrap(p.Name, wide, s.head, true)))*s.head*leading + s.between
		}
		for _, i := range p.Items {
			text, small := i.lines(wide, s)
			tall += float64(len(text))*s.text*leading + float64(len(small))*s.small*leading + s.between
		}
	}
	return tall
}

// parts sets parts in a column.
func (f *flow) parts(parts []Part, size float64) {
	s := sizedBy(size)
	plain, quiet := draw.Type{Size: s.text, Tone: draw.Ink}, draw.Type{Size: s.small, Tone: draw.Quiet}
	strong := draw.Type{Size: s.text, Bold: true, Tone: draw.Ink}
	for _, p := range parts {
		if p.Name != "" {
			f.gap(s.above)
			f.lines(f.left, wrap(p.Name, f.measure(), s.head, true), draw.Type{Size: s.head, Bold: true, Tone: draw.Ink})
			f.y += s.between
		}
		for _, i := range p.Items {
			text, small := i.lines(f.measure(), s)
			x := f.left
			f.need(s.text * leading)
			if i.Mark != "" {
				f.text(x, f.y, cut(printable(i.Mark), s.in, s.text), strong)
				x += s.in
			}
			f.lines(x, text, plain)
			f.lines(x, small, quiet)
			f.y += s.between
		}
	}
}

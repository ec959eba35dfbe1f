package labelmaker

import (
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"kettlefrost/internal/draw"
)

// inked is something that is seen on a label: where its ink is, in points.
type inked struct {
	name string // of the group that it was drawn in
	box  draw.Box
	tone draw.Tone
	text string  // empty for an area
	base float64 // line that the text stands on
	draw.Type
}

// recorder is a canvas that keeps what is drawn on it. It measures ink by the outlines of the faces, not by what the layout took letters for.
type recorder struct {
	group string
	seen  []inked
	fonts [2]*sfnt.Font
	buf   sfnt.Buffer
	known map[letter]bounds
}

// bounds are those of a letter's ink and how far it moves on, in type sizes.
type bounds struct{ left, right, top, low, wide float64 }

func newRecorder() *recorder {
	r := &recorder{known: map[letter]bounds{}}
	for i, ttf := range [][]byte{goregular.TTF, gobold.TTF} {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			panic("labelmaker: " + err.Error()) // an embedded face
		}
		r.fonts[i] = f
	}
	return r
}

// bounds of a letter; none of one that the face lacks.
func (r *recorder) bounds(l letter) bounds {
	if b, known := r.known[l]; known {
		return b
	}
	f := r.fonts[0]
	if l.bold {
		f = r.fonts[1]
	}
	glyph, err := f.GlyphIndex(&r.buf, l.r)
	if err != nil {
		glyph = 0
	}
	box, wide, err := f.GlyphBounds(&r.buf, glyph, fixed.I(unitsPerSize), font.HintingNone)
	if err != nil {
		return bounds{}
	}
	size := func(x fixed.Int26_6) float64 { return float64(x) / 64 / unitsPerSize }
	b := bounds{size(box.Min.X), size(box.Max.X), size(box.Min.Y), size(box.Max.Y), size(wide)}
	r.known[l] = b
	return b
}

func (r *recorder) Text(p draw.Point, text string, t draw.Type) {
	ink := draw.Box{X: p.X, Y: p.Y}
	x, low, first := p.X, p.Y, true
	right := p.X
	for _, c := range text {
		b := r.bounds(letter{c, t.Bold})
		if b.right > b.left { // a space has no ink
			if first {
				ink.X, first = x+b.left*t.Size, false
			}
			right = max(right, x+b.right*t.Size)
			ink.Y, low = min(ink.Y, p.Y+b.top*t.Size), max(low, p.Y+b.low*t.Size)
		}
		x += b.wide * t.Size
	}
	ink.W, ink.H = right-ink.X, low-ink.Y
	base := p.Y
	if t.Turned { // a quarter to the left, about its point
		ink = draw.Box{X: p.X + ink.Y - p.Y, Y: p.Y - (ink.X - p.X) - ink.W, W: ink.H, H: ink.W}
		base = p.X
	}
	r.seen = append(r.seen, inked{name: r.group, box: ink, tone: t.Tone, text: text, base: base, Type: t})
}

func (r *recorder) Rect(b draw.Box, st draw.Style) {
	if st.Fill != draw.NoTone {
		r.seen = append(r.seen, inked{name: r.group, box: b, tone: st.Fill})
	}
	if st.Stroke != draw.NoTone {
		r.seen = append(r.seen, inked{name: r.group, box: b, tone: st.Stroke})
	}
}

func (r *recorder) Line(from, to draw.Point, st draw.Style) {
	r.Polyline([]draw.Point{from, to}, st)
}

func (r *recorder) Polyline(points []draw.Point, st draw.Style) {
	if len(points) == 0 {
		return
	}
	box := draw.Box{X: points[0].X, Y: points[0].Y}
	for _, p := range points {
		right, low := max(box.X+box.W, p.X), max(box.Y+box.H, p.Y)
		box.X, box.Y = min(box.X, p.X), min(box.Y, p.Y)
		box.W, box.H = right-box.X, low-box.Y
	}
	r.seen = append(r.seen, inked{name: r.group, box: box, tone: max(st.Stroke, st.Fill)})
}

func (r *recorder) Group(title string, in func(draw.Canvas)) {
	before := r.group
	r.group = title
	in(r)
	r.group = before
}

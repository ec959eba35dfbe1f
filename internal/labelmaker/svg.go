package labelmaker

import (
	"bytes"
	"fmt"
	"html"
	"strconv"
	"strings"

	"golang.org/x/image/font/sfnt"

	"kettlefrost/internal/draw"
)

// SVG draws a picture of labels, whose units are points, as an element that stands alone or in a page: black on white whatever the page is, and with
// the outlines of the printed letters, so that what is seen is what is printed. Prefix keeps its ids apart from others; it must be fit for an id.
func SVG(p draw.Picture, prefix string) []byte {
	s := &screen{prefix: prefix, ids: map[letter]int{}}
	p.Draw(s)
	var out bytes.Buffer
	w, h := number(p.Width), number(p.Height)
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="%[1]s-t %[1]s-d" width="%[2]spt" height="%[3]spt" viewBox="0 0 %[2]s %[3]s">`, prefix, w, h)
	fmt.Fprintf(&out, "\n<title id=\"%s-t\">%s</title>\n<desc id=\"%s-d\">%s</desc>\n<defs>\n", prefix, escaped(p.Title), prefix, escaped(p.Desc))
	out.Write(s.defs.Bytes())
	fmt.Fprintf(&out, "</defs>\n<rect width=\"%s\" height=\"%s\" fill=\"#fff\"/>\n", w, h)
	out.Write(s.body.Bytes())
	out.WriteString("</svg>\n")
	return out.Bytes()
}

// escaped is text fit for an XML document.
func escaped(text string) string {
	return html.EscapeString(strings.Map(func(r rune) rune {
		if r < ' ' || r == 0xFFFE || r == 0xFFFF {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "\ufffd")))
}

// letter is a character in a face.
type letter struct {
	r    rune
	bold bool
}

// screen draws as SVG. Every letter is defined once, in the units of its face.
type screen struct {
	prefix     string
	ids        map[letter]int
	defs, body bytes.Buffer
}

func (s *screen) Rect(b draw.Box, st draw.Style) {
	if st.Fill == draw.Ink {
		fmt.Fprintf(&s.body, "<rect x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\"/>\n", number(b.X), number(b.Y), number(b.W), number(b.H))
	}
}

func (s *screen) Text(p draw.Point, text string, t draw.Type) {
	turn := ""
	if t.Turned {
		turn = " rotate(-90)"
	}
	fmt.Fprintf(&s.body, "<g transform=\"translate(%s %s)%s scale(%s)\">", number(p.X), number(p.Y), turn, strconv.FormatFloat(t.Size/unitsPerSize, 'g', 6, 64))
	x := 0.0
	for _, r := range text {
		id := s.define(letter{r, t.Bold})
		if id >= 0 {
			fmt.Fprintf(&s.body, `<use href="#%s-%d" x="%d"/>`, s.prefix, id, int(x*unitsPerSize+0.5))
		}
		x += faceOf(t.Bold).wide[r]
	}
	s.body.WriteString("</g>\n")
}

// define is the number of a letter's outline; -1 when there is nothing to see.
func (s *screen) define(l letter) int {
	if id, known := s.ids[l]; known {
		return id
	}
	o := outlineOf(l.r, l.bold)
	id := len(s.ids)
	if len(o.segments) == 0 {
		id = -1
	} else {
		fmt.Fprintf(&s.defs, "<path id=\"%s-%d\" d=\"%s\"/>\n", s.prefix, id, path(o))
	}
	s.ids[l] = id
	return id
}

// path is an outline in the units of its face, which are whole.
func path(o outline) string {
	var out strings.Builder
	for i, g := range o.segments {
		if g.op == sfnt.SegmentOpMoveTo && i > 0 {
			out.WriteByte('Z')
		}
		out.WriteByte("MLQC"[g.op])
		for k := range g.points() {
			fmt.Fprintf(&out, "%g %g ", g.at[k][0]*unitsPerSize, g.at[k][1]*unitsPerSize)
		}
	}
	out.WriteByte('Z')
	return out.String()
}

func (s *screen) Group(title string, in func(draw.Canvas)) {
	s.body.WriteString("<g><title>" + escaped(title) + "</title>\n")
	in(s)
	s.body.WriteString("</g>\n")
}

func (s *screen) Line(draw.Point, draw.Point, draw.Style) {}
func (s *screen) Polyline([]draw.Point, draw.Style)       {}

// number is points to a thousandth, finer than any printer.
func number(x float64) string {
	return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(x, 'f', 3, 64), "0"), ".")
}

package draw

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// SVG draws p as a document that stands alone. Colours are presentation attributes; there is no inline style.
func SVG(p Picture) []byte { return document(p, svg{prefix: "drawing"}) }

// NightSVG is SVG on a dark ground, for a page that is dark.
func NightSVG(p Picture) []byte { return document(p, svg{prefix: "drawing", night: true}) }

// InlineSVG draws p as an svg element for an HTML page, whose style sheet gives the classes f-ink, s-ink and so on their colours:
// f- for fills, s- for strokes, and the tone. Prefix keeps the element's ids apart from those of other drawings on the page; it
// must be fit for an id.
func InlineSVG(p Picture, prefix string) []byte {
	return document(p, svg{prefix: prefix, classes: true})
}

func document(p Picture, blank svg) []byte {
	s, body, prefix := &svg{prefix: blank.prefix, classes: blank.classes, night: blank.night}, &blank, blank.prefix
	if p.Draw != nil {
		p.Draw(body)
	}
	w, h, stretch := number(p.Width), number(p.Height), ""
	if p.Stretch {
		stretch = ` preserveAspectRatio="none"`
	}
	fmt.Fprintf(&s.out, `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="%[1]s-t %[1]s-d" class="drawing" `+
		`width="%[2]s" height="%[3]s" viewBox="0 0 %[2]s %[3]s"%[5]s font-family="system-ui, sans-serif" font-size="%[4]s">`, prefix, w, h, number(plainSize), stretch)
	fmt.Fprintf(&s.out, "\n<title id=\"%s-t\">%s</title>\n<desc id=\"%s-d\">%s</desc>\n", prefix, escape(p.Title), prefix, escape(p.Desc))
	s.patterns(body.used)
	s.Rect(Box{W: p.Width, H: p.Height}, Style{Fill: Paper})
	s.out.Write(body.out.Bytes())
	s.out.WriteString("</svg>\n")
	return s.out.Bytes()
}

// plainSize is the size of type that need not be said.
const plainSize = 16.0

type svg struct {
	prefix  string
	classes bool // colours by class, not by attribute
	night   bool // light on dark
	out     bytes.Buffer
	used    [patternCount]bool
}

var tones = [...]struct{ class, day, night string }{
	NoTone: {"", "none", "none"}, Ink: {"ink", "#14181b", "#f3f1ec"}, Paper: {"paper", "#ffffff", "#1c2226"}, Faint: {"faint", "#b9bfc4", "#4c565d"},
	Quiet: {"quiet", "#454c52", "#c0c7cc"}, Wash: {"wash", "#e9edf0", "#2d363c"},
}

func (s *svg) colour(t Tone) string {
	if s.night {
		return tones[t].night
	}
	return tones[t].day
}

// fill is the attributes of a mark's inside.
func (s *svg) fill(t Tone) string {
	if s.classes && t != NoTone {
		return ` class="f-` + tones[t].class + `"`
	}
	return ` fill="` + s.colour(t) + `"`
}

// paint is the attributes that give a mark its colours.
func (s *svg) paint(fill, stroke Tone) string {
	switch {
	case stroke == NoTone:
		return s.fill(fill)
	case s.classes && fill != NoTone:
		return ` class="f-` + tones[fill].class + " s-" + tones[stroke].class + `"`
	default:
		return s.fill(fill) + s.stroke(stroke)
	}
}

func (s *svg) stroke(t Tone) string {
	switch {
	case t == NoTone:
		return ""
	case s.classes:
		return ` class="s-` + tones[t].class + `"`
	}
	return ` stroke="` + s.colour(t) + `"`
}

// dashes are the attributes of each dash; a dot is a dash of no length with round ends.
var dashes = [dashCount]string{
	Dashed:     ` stroke-dasharray="9 5"`,
	Dotted:     ` stroke-dasharray="0.1 6" stroke-linecap="round"`,
	LongDashed: ` stroke-dasharray="18 6"`,
}

// tail closes a shape.
func (s *svg) tail(st Style) {
	s.out.WriteString(s.paint(st.Fill, st.Stroke))
	if st.Stroke != NoTone && st.Width != 1 {
		s.out.WriteString(` stroke-width="` + number(st.Width) + `"`)
	}
	if st.Stroke != NoTone && st.Dash > Unbroken && st.Dash < dashCount {
		s.out.WriteString(dashes[st.Dash])
	}
	s.out.WriteString("/>\n")
}

func (s *svg) Rect(b Box, st Style) {
	fmt.Fprintf(&s.out, `<rect x="%s" y="%s" width="%s" height="%s"`, number(b.X), number(b.Y), number(max(0, b.W)), number(max(0, b.H)))
	if st.Round > 0 {
		s.out.WriteString(` rx="` + number(st.Round) + `"`)
	}
	if st.Pattern > Plain && st.Pattern < patternCount {
		s.used[st.Pattern] = true
		fmt.Fprintf(&s.out, ` fill="url(#%s-p%d)"`, s.prefix, st.Pattern)
		s.out.WriteString(s.stroke(st.Stroke) + "/>\n")
		return
	}
	s.tail(st)
}

func (s *svg) Line(from, to Point, st Style) {
	fmt.Fprintf(&s.out, `<line x1="%s" y1="%s" x2="%s" y2="%s"`, number(from.X), number(from.Y), number(to.X), number(to.Y))
	st.Fill = NoTone
	s.tail(st)
}

func (s *svg) Polyline(points []Point, st Style) {
	name := "polyline"
	if st.Fill != NoTone {
		name = "polygon"
	}
	s.out.WriteString("<" + name + ` points="`)
	for i, p := range points {
		if i > 0 {
			s.out.WriteByte(' ')
		}
		s.out.WriteString(number(p.X) + "," + number(p.Y))
	}
	s.out.WriteByte('"')
	s.tail(st)
}

// Text in classes mode leaves Ink to the page's rule for text.
func (s *svg) Text(p Point, text string, t Type) {
	fmt.Fprintf(&s.out, `<text x="%s" y="%s"`, number(p.X), number(p.Y))
	if !s.classes || t.Tone != Ink {
		s.out.WriteString(s.fill(t.Tone))
	}
	if t.Size != plainSize {
		s.out.WriteString(` font-size="` + number(t.Size) + `"`)
	}
	if t.Bold {
		s.out.WriteString(` font-weight="700"`)
	}
	if t.Anchor != Start {
		s.out.WriteString(` text-anchor="` + map[Anchor]string{Middle: "middle", End: "end"}[t.Anchor] + `"`)
	}
	if t.Turned {
		fmt.Fprintf(&s.out, ` transform="rotate(-90 %s %s)"`, number(p.X), number(p.Y))
	}
	s.out.WriteString(">" + escape(text) + "</text>\n")
}

func (s *svg) Group(title string, draw func(Canvas)) {
	s.out.WriteString("<g><title>" + escape(title) + "</title>\n")
	draw(s)
	s.out.WriteString("</g>\n")
}

// number is x to a tenth, which is finer than a screen shows.
func number(x float64) string {
	text := strconv.FormatFloat(x, 'f', 1, 64)
	return strings.TrimSuffix(text, ".0")
}

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;")

// escape makes any text fit for an XML document: markup is spelt out, and characters that XML does not allow are replaced.
func escape(text string) string {
	return escaper.Replace(strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n' || r == '\r':
			return ' '
		case r < 0x20 || r == 0xFFFE || r == 0xFFFF || r == utf8.RuneError || r > utf8.MaxRune:
			return utf8.RuneError
		default:
			return r
		}
	}, text))
}

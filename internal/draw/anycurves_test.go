package draw

import (
	"bytes"
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/unit"
)

// seen is a canvas that shows what is drawn on it.
type seen struct {
	rect func(Box, Style)
	line func(from, to Point, s Style)
	poly func([]Point, Style)
	text func(Point, string, Type)
}

func (s seen) Rect(b Box, st Style) {
	if s.rect != nil {
		s.rect(b, st)
	}
}
func (s seen) Line(from, to Point, st Style) {
	if s.line != nil {
		s.line(from, to, st)
	}
}
func (s seen) Polyline(points []Point, st Style) {
	if s.poly != nil {
		s.poly(points, st)
	}
}
func (s seen) Text(p Point, text string, t Type) {
	if s.text != nil {
		s.text(p, text, t)
	}
}
func (s seen) Group(_ string, draw func(Canvas)) { draw(s) }

// inBox fails the test if anything of a picture is drawn outside its box; strokes and the rings of signs may reach over by 8.
func inBox(t interface{ Fatalf(string, ...any) }, p Picture) {
	in := func(what string, b Box, over float64) {
		if !(b.X >= -over && b.Y >= -over && b.X+b.W <= p.Width+over && b.Y+b.H <= p.Height+over) {
			t.Fatalf("%s at %v is outside the picture of %g by %g", what, b, p.Width, p.Height)
		}
	}
	p.Draw(seen{
		rect: func(b Box, s Style) { in("a rectangle", b, 8*min(1, s.Round)) },
		line: func(from, to Point, _ Style) {
			in("a line", Box{from.X, from.Y, 0, 0}, 0)
			in("a line", Box{to.X, to.Y, 0, 0}, 0)
		},
		poly: func(points []Point, s Style) {
			for _, at := range points {
				in("a line through points", Box{at.X, at.Y, 0, 0}, 0)
			}
		},
		text: func(at Point, text string, typ Type) {
			wide := textWidth(text, typ)
			in("the text "+strconv.Quote(text), Box{at.X - wide*float64(typ.Anchor)/2, at.Y - 14, wide, 18}, 0.1)
		},
	})
}

// finite fails the test if a number of an SVG is none.
func finite(t interface{ Fatalf(string, ...any) }, data []byte) {
	for parser := xml.NewDecoder(bytes.NewReader(data)); ; {
		token, err := parser.Token()
		if err != nil {
			return
		}
		if start, ok := token.(xml.StartElement); ok {
			for _, a := range start.Attr {
				if strings.Contains(a.Value, "NaN") || strings.Contains(a.Value, "Inf") {
					t.Fatalf("%s has %s=%q", start.Name.Local, a.Name.Local, a.Value)
				}
			}
		}
	}
}

var anyNumber = rapid.OneOf(rapid.Float64Range(-100, 300), rapid.Float64Range(-1e5, 1e5), rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), math.Inf(-1), 1e308, -1e308,
	5e-324, mostTempC, mostTimeS}))

func anyCurves(t *rapid.T) Curves {
	name := rapid.StringN(0, 40, -1)
	points := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) At { return At{anyNumber.Draw(t, "time"), anyNumber.Draw(t, "temp")} }), 0, 12)
	return Curves{Title: name.Draw(t, "title"), Units: rapid.SampledFrom([]unit.System{unit.US, unit.Metric}).Draw(t, "units"),
		Lines: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Line {
			return Line{Name: name.Draw(t, "line"), Points: points.Draw(t, "points"), Kind: LineKind(rapid.IntRange(-1, 5).Draw(t, "kind"))}
		}), 0, 6).Draw(t, "lines"),
		Band: Band{Name: name.Draw(t, "band"), Low: points.Draw(t, "low"), High: points.Draw(t, "high")},
		Limits: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Limit {
			return Limit{TempC: anyNumber.Draw(t, "temp"), ByS: anyNumber.Draw(t, "by"), Name: name.Draw(t, "limit")}
		}), 0, 4).Draw(t, "limits"),
		Marks: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Mark {
			return Mark{TimeS: anyNumber.Draw(t, "time"), TempC: anyNumber.Draw(t, "temp"), Text: name.Draw(t, "mark")}
		}), 0, 4).Draw(t, "marks"),
		Warming: rapid.Bool().Draw(t, "warming"), Width: anyNumber.Draw(t, "width"), Height: anyNumber.Draw(t, "height")}
}

// Whatever is asked for is a picture that can be read, lies in its box, is the same each time, and has a table with a place for each
// value; no label stands on another.
func TestAnyCurves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurves(t)
		p := c.Picture()
		data := SVG(p)
		read(t, data)
		finite(t, data)
		inBox(t, p)
		if again := SVG(c.Picture()); !bytes.Equal(data, again) {
			t.Fatalf("two drawings of one chart differ")
		}
		table := c.Table()
		for _, row := range table.Rows {
			if len(row) != len(table.Head) {
				t.Fatalf("a row of %d under a head of %d", len(row), len(table.Head))
			}
		}
		if clean := c.cleaned(); len(clean.Lines) > 0 {
			h := newCurveChart(clean)
			for i, a := range h.labels {
				for _, b := range h.labels[:i] {
					if a.box.meets(b.box, 0) {
						t.Fatalf("%q at %v stands on %q at %v", a.text, a.box, b.text, b.box)
					}
				}
			}
		}
	})
}

func BenchmarkCurves(b *testing.B) {
	c := potInIce()
	for b.Loop() {
		SVG(c.Picture())
	}
}

package packlabel

import (
	"math"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/unit"
)

// letterer measures letters by the outlines of the faces that labels are printed in, apart from what the layout took them for.
type letterer struct{ regular, bold *sfnt.Font }

const unitsPerSize = 2048 // at this size the Go fonts round nothing

var letters = sync.OnceValue(func() letterer {
	parse := func(ttf []byte) *sfnt.Font {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			panic("packlabel: " + err.Error()) // an embedded face
		}
		return f
	}
	return letterer{parse(goregular.TTF), parse(gobold.TTF)}
})

// glyph is how far the ink of a letter reaches up and down from its line, and how far it moves on, in type sizes.
func (l letterer) glyph(r rune, bold bool) (up, down, wide float64) {
	f := l.regular
	if bold {
		f = l.bold
	}
	var buf sfnt.Buffer
	i, err := f.GlyphIndex(&buf, r)
	if err != nil {
		return 0, 0, 0
	}
	box, moves, err := f.GlyphBounds(&buf, i, fixed.I(unitsPerSize), font.HintingNone)
	if err != nil {
		return 0, 0, 0
	}
	sizes := func(x fixed.Int26_6) float64 { return float64(x) / 64 / unitsPerSize }
	return -sizes(box.Min.Y), sizes(box.Max.Y), sizes(moves)
}

// height is that of the letters of a text as the rules measure it: of a lower-case letter where there are any, else of a capital.
func (l letterer) height(mark labelmaker.Mark, lower rune) float64 {
	of := 'H'
	if strings.ContainsFunc(mark.Text, unicode.IsLower) {
		of = lower
	}
	up, _, _ := l.glyph(of, mark.Bold)
	return up * mark.Size
}

// ink is where a mark is.
func (l letterer) ink(mark labelmaker.Mark) draw.Box {
	if mark.Text == "" {
		return draw.Box{X: mark.X, Y: mark.Y, W: mark.W, H: mark.H}
	}
	var up, down, wide float64
	for _, r := range mark.Text {
		u, d, w := l.glyph(r, mark.Bold)
		up, down, wide = max(up, u), max(down, d), wide+w
	}
	if mark.Turned { // it reads from bottom to top
		return draw.Box{X: mark.X - up*mark.Size, Y: mark.Y - wide*mark.Size, W: (up + down) * mark.Size, H: wide * mark.Size}
	}
	return draw.Box{X: mark.X, Y: mark.Y - up*mark.Size, W: wide * mark.Size, H: (up + down) * mark.Size}
}

// points is a length on a label.
func points(pt float64) unit.Length {
	return unit.Length(math.Round(pt / labelmaker.PtPerMm * float64(unit.Millimetre)))
}

package labelmaker

import (
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// face is one of the two faces: what is measured here is what is printed, since nothing is kerned. Lengths are in type sizes.
type face struct {
	ttf   []byte
	font  *sfnt.Font
	wide  map[rune]float64
	lead  map[rune]float64 // how far a letter's ink begins before its place, of those whose does
	trail map[rune]float64 // how far it ends behind its width
	glyph map[rune]sfnt.GlyphIndex
	far   map[rune]extent // of those that reach out of the usual line
	lower float64         // height of an x
	upper float64         // height of an H
}

const (
	// unitsPerSize is the units of the Go fonts: at this size nothing is rounded.
	unitsPerSize = 2048
	// usualUp and usualDown hold nearly every letter, accents on capitals included.
	usualUp   = 0.95
	usualDown = 0.215
)

// extent is how far the letters of a text reach up and down from their base line, in type sizes.
type extent struct{ up, down float64 }

// leading is from one line to the next: they never touch.
func (x extent) leading() float64 { return x.up + x.down }

// with takes in what letters of a text reach further, as a few do: ĺ, Ǘ.
func (x extent) with(text string) extent {
	for _, f := range faces() {
		for _, r := range text {
			if far, is := f.far[r]; is {
				x.up, x.down = max(x.up, far.up), max(x.down, far.down)
			}
		}
	}
	return x
}

var faces = sync.OnceValue(func() [2]*face { return [2]*face{mustFace(goregular.TTF), mustFace(gobold.TTF)} })

func faceOf(bold bool) *face {
	if bold {
		return faces()[1]
	}
	return faces()[0]
}

// mustFace reads an embedded font. A mistake in it is one of the program.
func mustFace(ttf []byte) *face {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic("labelmaker: " + err.Error())
	}
	all := &face{ttf: ttf, font: f, wide: map[rune]float64{}, lead: map[rune]float64{}, trail: map[rune]float64{}, glyph: map[rune]sfnt.GlyphIndex{}, far: map[rune]extent{}}
	var buf sfnt.Buffer
	for r := rune(' '); r < 0x10000; r++ {
		glyph, err := f.GlyphIndex(&buf, r)
		if err != nil || glyph == 0 || !printable(r) {
			continue
		}
		box, wide, err := f.GlyphBounds(&buf, glyph, fixed.I(unitsPerSize), font.HintingNone)
		if err != nil {
			continue
		}
		all.wide[r], all.glyph[r] = float64(wide)/64/unitsPerSize, glyph
		if reach := (extent{-float64(box.Min.Y) / 64 / unitsPerSize, float64(box.Max.Y) / 64 / unitsPerSize}); reach.up > usualUp || reach.down > usualDown {
			all.far[r] = reach
		}
		if box.Min.X < 0 {
			all.lead[r] = -float64(box.Min.X) / 64 / unitsPerSize
		}
		if box.Max.X > wide {
			all.trail[r] = float64(box.Max.X-wide) / 64 / unitsPerSize
		}
	}
	all.lower, all.upper = all.heightOf('x'), all.heightOf('H')
	return all
}

// printable leaves out what moves other characters about or is put on top of them: alone it would print something else than was written.
func printable(r rune) bool {
	return r != unicode.ReplacementChar && !unicode.In(r, unicode.Cc, unicode.Cf, unicode.Mn, unicode.Me, unicode.Co) && (r == ' ' || r == '\u00a0' || !unicode.IsSpace(r))
}

// heightOf is how high a letter stands above the base line.
func (f *face) heightOf(r rune) float64 {
	var buf sfnt.Buffer
	box, _, err := f.font.GlyphBounds(&buf, f.glyph[r], fixed.I(unitsPerSize), font.HintingNone)
	if err != nil {
		panic("labelmaker: " + err.Error())
	}
	return -float64(box.Min.Y) / 64 / unitsPerSize
}

// width of text in type sizes.
func width(text string, bold bool) float64 {
	wide, sum := faceOf(bold).wide, 0.0
	for _, r := range text {
		sum += wide[r]
	}
	return sum
}

// letterHeight is how high the letters of a text are, in type sizes: its lower-case ones where it has some, else capitals and figures.
func letterHeight(text string, bold bool) float64 {
	f := faceOf(bold)
	for _, r := range text {
		if unicode.IsLower(r) {
			return f.lower
		}
	}
	return f.upper
}

// lacking are the characters of a text that cannot be printed, each once.
func lacking(text string) []rune {
	var out []rune
	seen := map[rune]bool{}
	for _, r := range text {
		_, light := faceOf(false).wide[r]
		_, heavy := faceOf(true).wide[r]
		if light && heavy || r == '\n' || r == '\t' || r == '\r' || seen[r] {
			continue
		}
		seen[r] = true
		out = append(out, r)
	}
	return out
}

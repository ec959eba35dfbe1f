package pdf

import (
	"iter"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// face is one of the two faces, with how wide its characters are: what is measured here is what is printed, since nothing is kerned.
type face struct {
	ttf    []byte
	widths map[rune]float64 // in sizes, of each character that the face has
}

// faces are read when the first page is set.
var faces = sync.OnceValue(func() [2]*face {
	return [2]*face{mustFace(goregular.TTF), mustFace(gobold.TTF)}
})

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
		panic("pdf: " + err.Error())
	}
	const size = 2048 // the units of the Go fonts: nothing is rounded
	var buf sfnt.Buffer
	widths := map[rune]float64{}
	for r := range rune(0x10000) {
		glyph, err := f.GlyphIndex(&buf, r)
		if err != nil || glyph == 0 {
			continue
		}
		wide, err := f.GlyphAdvance(&buf, glyph, fixed.I(size), font.HintingNone)
		if err != nil {
			continue
		}
		widths[r] = float64(wide) / 64 / size
	}
	return &face{ttf, widths}
}

// width of text that is printable, in points.
func width(text string, size float64, bold bool) float64 {
	widths, sum := faceOf(bold).widths, 0.0
	for _, r := range text {
		sum += widths[r]
	}
	return sum * size
}

// missing is printed for a character that the faces do not have.
const missing = '□'

// spelt are characters that the faces do not have and that can be said with others.
var spelt = map[rune]string{'⅓': " 1/3", '⅔': " 2/3", '✓': "√", '✕': "×", '✗': "×", '\u2011': "-", '\u202f': "\u00a0", '\u2009': "\u00a0"}

// printable is text as it can be printed: every character is one of the faces, and none moves others about.
func printable(text string) string {
	widths := faceOf(false).widths
	plain := true
	for _, r := range text {
		if r < ' ' || r > '~' {
			plain = false
			break
		}
	}
	if plain {
		return text
	}
	var out strings.Builder
	for _, r := range text {
		other, known := spelt[r]
		switch {
		case known:
			out.WriteString(other)
		case unicode.IsSpace(r) && r != '\u00a0':
			out.WriteByte(' ')
		case unicode.Is(unicode.Cf, r), unicode.Is(unicode.Mn, r) && widths[r] == 0: // marks that join or turn text, and accents of their own
			out.WriteRune(missing)
		case widths[r] > 0:
			out.WriteRune(r)
		default:
			out.WriteRune(missing)
		}
	}
	return out.String()
}

// wrap breaks text into lines that are no wider than a width. A word that is wider is broken where it must be.
func wrap(text string, wide, size float64, bold bool) []string {
	var lines []string
	for part := range strings.SplitSeq(strings.ReplaceAll(text, "\r\n", "\n"), "\n") {
		lines = append(lines, wrapLine(printable(part), wide, size, bold)...)
	}
	return lines
}

func wrapLine(text string, wide, size float64, bold bool) []string {
	space := width(" ", size, bold)
	var lines []string
	var line strings.Builder
	filled := 0.0
	end := func() {
		lines = append(lines, line.String())
		line.Reset()
		filled = 0
	}
	for _, word := range strings.Fields(text) {
		gap := space
		for piece := range pieces(word) {
			w := width(piece, size, bold)
			if line.Len() > 0 && filled+gap+w > wide {
				end()
			}
			for w > wide {
				n := fitting(piece, wide, size, bold)
				line.WriteString(piece[:n])
				end()
				piece = piece[n:]
				w = width(piece, size, bold)
			}
			if line.Len() > 0 && gap > 0 {
				line.WriteByte(' ')
				filled += gap
			}
			line.WriteString(piece)
			filled += w
			gap = 0
		}
	}
	if line.Len() > 0 || len(lines) == 0 {
		end()
	}
	return lines
}

// longName is how long a word is that may be broken behind its strokes: names of records are like paths.
const longName = 20

// pieces are the parts of a word between which a line may end.
func pieces(word string) iter.Seq[string] {
	if len(word) <= longName {
		return func(yield func(string) bool) { yield(word) }
	}
	return strings.SplitAfterSeq(word, "/")
}

// fitting is how many bytes of a word fit: one character at least.
func fitting(word string, wide, size float64, bold bool) int {
	widths, sum := faceOf(bold).widths, 0.0
	for i, r := range word {
		if sum += widths[r] * size; sum > wide && i > 0 {
			return i
		}
	}
	return len(word)
}

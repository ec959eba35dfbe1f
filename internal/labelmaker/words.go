package labelmaker

import (
	"strings"
	"unicode/utf8"

	"kettlefrost/internal/barcode"
)

// piece is a stretch of a word in one face.
type piece struct {
	text string
	bold bool
	wide float64 // in type sizes
}

// word is what no line is broken in.
type word struct {
	pieces []piece
	wide   float64 // in type sizes
	space  float64 // before it, unless it begins a line; 0 where a line may break without one
	lead   float64 // how far its ink begins before it, as that of a j does
	trail  float64 // how far its ink ends behind it
}

// wordsOf are the words of runs. A run may end within a word; a no-break space does not end one.
func wordsOf(runs []Run) []word {
	var all []word
	gap := true
	for _, r := range runs {
		for rest := r.Text; rest != ""; {
			n := strings.IndexAny(rest, " \n\t\r")
			switch n {
			case 0:
				gap, rest = true, rest[1:]
				continue
			case -1:
				n = len(rest)
			}
			p := piece{rest[:n], r.Strong, width(rest[:n], r.Strong)}
			f := faceOf(r.Strong)
			if gap {
				begins, _ := utf8.DecodeRuneInString(p.text)
				all = append(all, word{space: f.wide[' '], lead: f.lead[begins]})
			}
			last := &all[len(all)-1]
			ends, _ := utf8.DecodeLastRuneInString(p.text)
			last.pieces, last.wide, last.trail = append(last.pieces, p), last.wide+p.wide, f.trail[ends]
			gap, rest = false, rest[n:]
		}
	}
	return all
}

// readable are the words of what stands below a symbol: every space counts, and a line may break before the identifier of an element alone.
func readable(s barcode.Symbol) []word {
	if strings.TrimSpace(s.Readable) == "" {
		return nil
	}
	text := strings.ReplaceAll(s.Readable, " ", "\u00a0")
	if s.Symbology != barcode.GS1128 {
		return wordsOf(Plain(text))
	}
	all := wordsOf(Plain(strings.ReplaceAll(text, "(", " (")))
	for i := range all {
		all[i].space = 0
	}
	return all
}

// span is the words of one line: from one to before another.
type span struct{ from, to int }

// wrap breaks words into lines no wider than a width in type sizes. False when a word alone is wider.
func wrap(words []word, wide float64) ([]span, bool) {
	lines := make([]span, 0, 16)
	filled := 0.0
	for i, w := range words {
		if w.lead+w.wide+w.trail > wide {
			return nil, false
		}
		if n := len(lines); n > 0 && filled+w.space+w.wide+w.trail <= wide {
			lines[n-1].to, filled = i+1, filled+w.space+w.wide
			continue
		}
		lines, filled = append(lines, span{i, i + 1}), w.lead+w.wide
	}
	return lines, true
}

// lineWidth is how wide a line is with all of its ink, in type sizes.
func lineWidth(words []word) float64 {
	sum := words[0].lead - words[0].space + words[len(words)-1].trail
	for _, w := range words {
		sum += w.space + w.wide
	}
	return sum
}

// set puts a line with its base line at y, as marks: one for each stretch in one face.
func set(e Element, words []word, x, y, size float64, to *[]Mark) {
	first := len(*to)
	x += words[0].lead * size
	for i, w := range words {
		space := w.space
		if i == 0 {
			space = 0
		}
		for k, p := range w.pieces {
			if n := len(*to) - 1; n >= first && (*to)[n].Bold == p.bold {
				if k == 0 && space > 0 {
					(*to)[n].Text += " "
				}
				(*to)[n].Text += p.text
			} else {
				at := x
				if k == 0 {
					at += space * size
				}
				*to = append(*to, Mark{Element: e, Text: p.text, X: at, Y: y, Size: size, Bold: p.bold})
			}
			if k == 0 {
				x += space * size
			}
			x += p.wide * size
		}
	}
}

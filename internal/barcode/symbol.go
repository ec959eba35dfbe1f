package barcode

import "iter"

// Symbology is a way of writing data in modules.
type Symbology string

// The symbologies.
const (
	Code128 Symbology = "Code 128"
	GS1128  Symbology = "GS1-128"
	EAN13   Symbology = "EAN-13" // of a GTIN-12 also called UPC-A
	EAN8    Symbology = "EAN-8"
	QR      Symbology = "QR"
)

// Symbol is data as modules, dark or light. A linear one has a single row, to be drawn as high as it should be.
type Symbol struct {
	Symbology Symbology
	Data      string // what a reader gives back; of GS1-128 without its symbology identifier
	Readable  string // what stands below it for people; empty for none
	Wide      int    // modules across, without quiet zones
	Rows      int
	Quiet     int // modules that stay empty on every side; of a linear symbol left and right only
	dark      []bool
}

// Dark says of a module, column and row from 0, whether it is dark. Outside of the symbol none is.
func (s Symbol) Dark(x, y int) bool {
	return x >= 0 && y >= 0 && x < s.Wide && y < s.Rows && s.dark[y*s.Wide+x]
}

// Linear says whether it is bars, not squares.
func (s Symbol) Linear() bool { return s.Rows == 1 }

// AcrossModules is its width with both quiet zones.
func (s Symbol) AcrossModules() int { return s.Wide + 2*s.Quiet }

// Run is a stretch of dark modules, across or down.
type Run struct{ X, Y, W, H int }

// Runs are its dark modules in stretches as long as they go: drawn as one rectangle each, no hairline shows between neighbours. Those of more than
// one row come across and down, which closes the seams between rows too.
func (s Symbol) Runs() iter.Seq[Run] {
	return func(yield func(Run) bool) {
		for y := range s.Rows {
			for x := 0; x < s.Wide; x++ {
				n := 0
				for s.Dark(x+n, y) {
					n++
				}
				if n > 0 && !yield(Run{x, y, n, 1}) {
					return
				}
				x += n
			}
		}
		for x := range s.Wide {
			for y := 0; y < s.Rows; y++ {
				n := 0
				for s.Dark(x, y+n) {
					n++
				}
				if n > 1 && !yield(Run{x, y, 1, n}) {
					return
				}
				y += n
			}
		}
	}
}

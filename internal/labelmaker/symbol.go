package labelmaker

import (
	"math"

	"kettlefrost/internal/barcode"
	"kettlefrost/internal/draw"
)

// Heights and modules of symbols.
const (
	// leastBarsMm and leastBarsShare are how high bars must be: a quarter of an inch, or 15 % of the symbol's length if that is more. Common practice.
	leastBarsMm    = 6.35
	leastBarsShare = 0.15
	usualBarsMm    = 10
	// usualModuleMm and usualSquareMm are the modules where there is room. Common practice.
	usualModuleMm = 0.38
	usualSquareMm = 0.5
)

// dots is how wide a module is, in points: a whole number of the printer's dots, no less than the least, and near the usual one.
func dots(dpi int, leastMm, usualMm, ease float64) float64 {
	dot := 25.4 / float64(dpi)
	least := math.Ceil(leastMm/dot - 1e-6)
	usual := max(least, math.Round(usualMm/dot))
	n := math.Floor(sized(least, usual, min(ease, 1)) + 1e-6)
	return n * dot * PtPerMm
}

// bars is a linear symbol with its text below it.
type bars struct {
	symbol barcode.Symbol
	dpi    int
	below  *text
}

// tall is how high bars are that are so wide, in points.
func tall(wide, ease float64) float64 {
	least := max(leastBarsMm*PtPerMm, leastBarsShare*wide)
	return sized(least, max(least, usualBarsMm*PtPerMm), min(1, ease))
}

func (b *bars) set(wide, ease float64) (setting, bool) {
	module, dot := dots(b.dpi, barcode.SmallModuleMm, usualModuleMm, ease), 72/float64(b.dpi)
	across := float64(b.symbol.AcrossModules())
	if across*module+dot > wide { // as many dots fewer as it takes
		module = max(dots(b.dpi, barcode.SmallModuleMm, 0, 0), math.Floor((wide-dot)/across/dot+1e-6)*dot)
	}
	s := setting{wide: across*module + dot} // a dot to come onto the grid
	if s.wide > wide+1e-6 || b.symbol.Symbology == barcode.GS1128 && s.wide > barcode.MostGS1Mm*PtPerMm {
		return setting{}, false
	}
	high := tall(float64(b.symbol.Wide)*module, ease)
	s.high = high
	var below setting
	if b.below != nil {
		var fits bool
		if below, fits = b.below.set(s.wide, min(1, ease)); !fits {
			return setting{}, false
		}
		s.high += below.high
	}
	s.marks = func(x, y float64, to *[]Mark) {
		drawn := symbolMarks(b.symbol, Bars, snapped(x+float64(b.symbol.Quiet)*module, b.dpi), y, module, high)
		*to = append(*to, drawn...)
		if b.below != nil {
			below.marks(x+(s.wide-below.wide)/2, y+high, to)
		}
	}
	return s, true
}

// snapped is the next place on the printer's grid of dots.
func snapped(x float64, dpi int) float64 {
	dot := 72 / float64(dpi)
	return math.Ceil(x/dot-1e-6) * dot
}

// symbolMarks are the dark runs of a symbol from a corner, quiet zone outside; bars are so high.
func symbolMarks(s barcode.Symbol, e Element, x, y, module, high float64) []Mark {
	var all []Mark
	for r := range s.Runs() {
		m := Mark{Element: e, X: x + float64(r.X)*module, Y: y + float64(r.Y)*module, W: float64(r.W) * module, H: float64(r.H) * module}
		if s.Linear() {
			m.H = high
		}
		all = append(all, m)
	}
	return all
}

// square is a QR symbol with its text beside or below it.
type square struct {
	symbol barcode.Symbol
	dpi    int
	beside *text
}

// besideMost is how wide a text beside a square is at most, in points.
const besideMost = 110

func (q *square) set(wide, ease float64) (setting, bool) {
	module := dots(q.dpi, barcode.SmallSquareMm, usualSquareMm, ease)
	side := float64(q.symbol.AcrossModules())*module + 72/float64(q.dpi) // a dot to come onto the grid
	if side > wide {
		return setting{}, false
	}
	s := setting{wide: side, high: side}
	var words setting
	fits, below := true, false
	if q.beside != nil {
		words, fits = q.beside.set(min(wide-side, besideMost), ease)
		if below = !fits || words.high > side; below {
			words, fits = q.beside.set(wide, ease)
		}
	}
	switch {
	case !fits:
		return setting{}, false
	case below:
		s.wide, s.high = max(side, words.wide), side+words.high
	case q.beside != nil:
		s.wide = side + words.wide
	}
	s.marks = func(x, y float64, to *[]Mark) {
		edge := float64(q.symbol.Quiet) * module
		*to = append(*to, symbolMarks(q.symbol, Square, snapped(x+edge, q.dpi), snapped(y+edge, q.dpi), module, 0)...)
		switch {
		case below:
			words.marks(x, y+side, to)
		case q.beside != nil:
			words.marks(x+side, y+(side-words.high)/2, to)
		}
	}
	return s, true
}

// zone is the room of a symbol with its quiet zones, from the marks that were drawn of it.
func zone(s barcode.Symbol, e Element, marks []Mark) (Zone, bool) {
	box := draw.Box{X: math.Inf(1), Y: math.Inf(1)}
	right, low, widest := 0.0, 0.0, 0.0
	for _, m := range marks {
		if m.Element == e {
			box.X, box.Y = min(box.X, m.X), min(box.Y, m.Y)
			right, low, widest = max(right, m.X+m.W), max(low, m.Y+m.H), max(widest, m.W)
		}
	}
	if right == 0 {
		return Zone{}, false
	}
	box.W, box.H = right-box.X, low-box.Y
	isTurned := s.Linear() && widest > box.W-1e-6 // every bar goes across
	z := Zone{Element: e, Box: box, Module: box.W / float64(s.Wide)}
	if isTurned {
		z.Module = box.H / float64(s.Wide)
	}
	edge := float64(s.Quiet) * z.Module
	if !isTurned {
		z.Box.X, z.Box.W = box.X-edge, box.W+2*edge
	}
	if isTurned || !s.Linear() {
		z.Box.Y, z.Box.H = box.Y-edge, box.H+2*edge
	}
	return z, true
}

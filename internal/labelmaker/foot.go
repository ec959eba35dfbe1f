package labelmaker

// foot is the net quantity along the lower edge, with what must be kept in mind beside or above it.
type foot struct {
	net   *text // nil for none
	keep  *text // nil for none
	clear bool  // the net quantity has its letter height free above it, and twice the width of its N at its sides
	inset bool  // something stands at the left of the foot
}

func (f foot) set(wide, ease float64) (setting, bool) {
	if f.net == nil {
		return f.keep.set(wide, ease)
	}
	above, beside, left := f.room(ease)
	net, fits := f.net.set(wide-left, ease)
	if !fits {
		return setting{}, false
	}
	s := setting{wide: left + net.wide, high: above + net.high, marks: func(x, y float64, to *[]Mark) { net.marks(x+left, y+above, to) }}
	if f.keep == nil {
		return s, true
	}
	if keep, fits := f.keep.set(wide-s.wide-beside, ease); fits && keep.high <= net.high {
		return setting{wide: wide, high: s.high, marks: func(x, y float64, to *[]Mark) {
			s.marks(x, y, to)
			keep.marks(x+wide-keep.wide, y+s.high-keep.high, to)
		}}, true
	}
	keep, fits := f.keep.set(wide, ease)
	return setting{wide: max(s.wide, keep.wide), high: keep.high + s.high, marks: func(x, y float64, to *[]Mark) {
		keep.marks(x, y, to)
		s.marks(x, y+keep.high, to)
	}}, fits
}

// room is what stays free around the net quantity, in points: above it, between it and what stands beside it, and at its left.
func (f foot) room(ease float64) (above, beside, left float64) {
	if !f.clear {
		return 0, gutter, 0
	}
	size := sized(f.net.least, f.net.wish, ease)
	above, beside = faceOf(true).upper*size, 2*width("N", true)*size
	if f.inset {
		left = beside
	}
	return above, beside, left
}

// netHigh is how high the net quantity stands above the lower edge of the printable area, clear room left out.
func (f foot) netHigh(wide, ease float64) float64 {
	if f.net == nil {
		return 0
	}
	_, _, left := f.room(ease)
	s, fits := f.net.set(wide-left, ease)
	if !fits {
		return 0
	}
	return s.high
}

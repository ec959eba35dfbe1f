package labelmaker

// foot is the net quantity along the lower edge, with what must be kept in mind beside or above it.
type foot struct {
	net   *text // nil for none
	keep  *text // nil for none
	clear bool  // the net quantity has its letter height free above it, and twice the width of its N at its sides
}

func (f foot) set(wide, ease float64) (setting, bool) {
	if f.net == nil {
		return f.keep.set(wide, ease)
	}
	net, fits := f.net.set(wide, ease)
	if !fits {
		return setting{}, false
	}
	size := sized(f.net.least, f.net.wish, ease)
	above, beside := 0.0, gutter
	if f.clear {
		above, beside = faceOf(true).upper*size, 2*width("N", true)*size
	}
	if f.keep == nil {
		return netAlone(net, above), true
	}
	keep, fits := f.keep.set(wide-net.wide-beside, ease)
	if fits && keep.high <= net.high {
		s := netAlone(net, above)
		s.wide = wide
		s.marks = func(x, y float64, to *[]Mark) {
			net.marks(x, y+above, to)
			keep.marks(x+wide-keep.wide, y+above+net.high-keep.high, to)
		}
		return s, true
	}
	if keep, fits = f.keep.set(wide, ease); !fits {
		return setting{}, false
	}
	s := netAlone(net, above)
	s.wide, s.high = max(net.wide, keep.wide), keep.high+s.high
	s.marks = func(x, y float64, to *[]Mark) {
		keep.marks(x, y, to)
		net.marks(x, y+keep.high+above, to)
	}
	return s, true
}

// netAlone is the net quantity with its clear room above.
func netAlone(net setting, above float64) setting {
	return setting{wide: net.wide, high: net.high + above, marks: func(x, y float64, to *[]Mark) { net.marks(x, y+above, to) }}
}

// netHigh is how high the net quantity stands above the lower edge of the printable area, clear room left out.
func (f foot) netHigh(wide, ease float64) float64 {
	if f.net == nil {
		return 0
	}
	s, fits := f.net.set(wide, ease)
	if !fits {
		return 0
	}
	return s.high
}

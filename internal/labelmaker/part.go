package labelmaker

// setting is a part set in a width: how much room it takes, and what it draws there.
type setting struct {
	wide, high float64
	marks      func(x, y float64, to *[]Mark)
}

// part is something that is set as a whole. Ease says how large: 0 at the least that the rules allow, 1 as is usual, more where there is room.
// It is false when the part is too wide, however high it might be.
type part interface {
	set(wide, ease float64) (setting, bool)
}

// text is paragraphs of one element in one size.
type text struct {
	element     Element
	paragraphs  [][]word
	least, wish float64 // sizes in points
	unbroken    bool    // no line may be broken
	between     float64 // of paragraphs, in type sizes
	line        extent
}

// textOf makes a part of paragraphs; nil when none has words. Wish is the usual size in points, at least a tenth above the least.
func textOf(r Rules, e Element, wish float64, paragraphs ...[]Run) *text {
	t := &text{element: e, line: extent{usualUp, usualDown}}
	for _, p := range paragraphs {
		words := wordsOf(p)
		if len(words) == 0 {
			continue
		}
		t.paragraphs = append(t.paragraphs, words)
		t.line = t.line.with(joined(p))
		for _, run := range p {
			t.least = max(t.least, r.size(e, joined(p), run.Strong))
		}
	}
	if len(t.paragraphs) == 0 {
		return nil
	}
	t.wish = max(wish, 1.1*t.least)
	return t
}

// sized is a size between the least and the usual, or above it.
func sized(least, wish, ease float64) float64 { return least + ease*(wish-least) }

func (t *text) set(wide, ease float64) (setting, bool) {
	size := sized(t.least, t.wish, ease)
	all := make([][]span, len(t.paragraphs))
	n, widest := 0, 0.0
	for i, p := range t.paragraphs {
		lines, fits := wrap(p, wide/size)
		if !fits || t.unbroken && len(lines) > 1 {
			return setting{}, false
		}
		all[i] = lines
		n += len(lines)
		for _, l := range lines {
			widest = max(widest, lineWidth(p[l.from:l.to]))
		}
	}
	gap := t.between * size
	s := setting{wide: widest * size, high: float64(n)*t.line.leading()*size + gap*float64(len(all)-1)}
	s.marks = func(x, y float64, to *[]Mark) {
		for i, lines := range all {
			for _, l := range lines {
				set(t.element, t.paragraphs[i][l.from:l.to], x, y+t.line.up*size, size, to)
				y += t.line.leading() * size
			}
			y += gap
		}
	}
	return s, true
}

// stack is parts one below the other, with a gap in points when there is ease.
type stack struct {
	parts []part
	gap   float64
}

func (s stack) set(wide, ease float64) (setting, bool) {
	all := make([]setting, len(s.parts))
	gap := s.gap * min(1, 0.4+0.6*ease)
	out := setting{high: gap * float64(len(s.parts)-1)}
	for i, p := range s.parts {
		one, fits := p.set(wide, ease)
		if !fits {
			return setting{}, false
		}
		all[i] = one
		out.high += one.high
		out.wide = max(out.wide, one.wide)
	}
	out.marks = func(x, y float64, to *[]Mark) {
		for _, one := range all {
			one.marks(x, y, to)
			y += one.high + gap
		}
	}
	return out, true
}

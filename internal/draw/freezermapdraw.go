package draw

import (
	"fmt"
	"strings"
)

const (
	mapWidth = 600.0
	mapBar   = 38.0
	mapHead  = 30.0 // the name of a place
	mapWords = 24.0 // a line below it
	mapGap   = 12.0
	mapPart  = 14.0 // how far the parts of a place stand in
	mapThin  = 9.0  // lots narrower than this are put together
)

var (
	mapName = Type{Size: 19, Tone: Ink, Bold: true}
	mapSub  = Type{Size: 17, Tone: Ink, Bold: true}
	mapSays = Type{Size: 16, Tone: Quiet}
	mapLot  = Type{Size: 16, Tone: Ink}
)

// Picture draws the map. What is held, past its day or to go first differs in pattern and sign.
func (m FreezerMap) Picture() Picture {
	if m.Width == 0 {
		m.Width = mapWidth
	}
	tall := 6.0
	tops := make([]float64, len(m.Places))
	for i, p := range m.Places {
		if i > 0 && !p.Part {
			tall += mapGap
		}
		tops[i] = tall
		tall += p.tall(m.Width)
	}
	key := m.key()
	return Picture{Width: m.Width, Height: tall + key.height(), Title: m.Title, Desc: m.Desc, Draw: func(c Canvas) {
		for i, p := range m.Places {
			c.Group(p.Name+": "+strings.Join(p.lines(mapWidth), ", "), func(c Canvas) { p.draw(c, tops[i], m.Width) })
		}
		key.draw(c, tall)
	}}
}

// lines are what is said of a place: on one line where there is room for it.
func (p MapPlace) lines(wide float64) []string {
	switch one := p.Holds + ", " + p.Fits; {
	case p.Fits == "":
		return []string{p.Holds}
	case textWidth(one, mapSays) <= wide-mapPart:
		return []string{one}
	}
	return []string{p.Holds, p.Fits}
}

func (p MapPlace) tall(wide float64) float64 {
	tall := mapHead + mapWords*float64(len(p.lines(wide))) + mapGap
	if !p.NoBar {
		tall += mapBar
	}
	return tall
}

func (p MapPlace) draw(c Canvas, top, wide float64) {
	left, name := 0.0, mapName
	if p.Part {
		left, name = mapPart, mapSub
		c.Line(Point{4, top}, Point{4, top + p.tall(wide)}, Style{Stroke: Faint, Width: 3})
	} else {
		c.Line(Point{0, top}, Point{wide, top}, Style{Stroke: Ink, Width: 2})
	}
	c.Text(Point{left, top + mapHead - 8}, fit(p.Name, wide-left, name), name)
	below := top + mapHead
	for _, line := range p.lines(wide) {
		below += mapWords
		c.Text(Point{left, below - 9}, fit(line, wide-left, mapSays), mapSays)
	}
	if !p.NoBar {
		p.bar(c, Box{left, below, wide - left - 2, mapBar})
	}
}

// bar draws the lots in a bar as long as the room. Of a place whose room is not known it is a broken line, longer than what is in it.
func (p MapPlace) bar(c Canvas, b Box) {
	sum := 0.0
	for _, l := range p.Lots {
		sum += l.Kg
	}
	whole := max(p.RoomKg, sum)
	frame := Style{Stroke: Quiet, Width: 1.5}
	if p.RoomKg == 0 {
		frame.Dash = Dashed
		whole = sum * 4 / 3
	}
	c.Rect(b, frame)
	if whole == 0 {
		return
	}
	x := b.X
	for _, l := range joined(p.Lots, whole, b.W) {
		w := l.Kg / whole * b.W
		c.Group(l.Says, func(c Canvas) { l.draw(c, Box{x, b.Y, w, b.H}) })
		x += w
	}
	if p.over() {
		at := b.X + p.RoomKg/whole*b.W
		c.Line(Point{at, b.Y - 5}, Point{at, b.Y + b.H + 5}, Style{Stroke: Ink, Width: 4})
	}
}

// over says that there is more than there is room for.
func (p MapPlace) over() bool {
	sum := 0.0
	for _, l := range p.Lots {
		sum += l.Kg
	}
	return p.RoomKg > 0 && sum > p.RoomKg
}

// joined puts neighbours that would be too narrow to see into one.
func joined(lots []MapLot, whole, wide float64) []MapLot {
	var out []MapLot
	var thin MapLot
	n := 0
	flush := func() {
		switch {
		case n == 1:
			out = append(out, thin)
		case n > 1:
			thin.Name, thin.Says = fmt.Sprintf("%d lots", n), fmt.Sprintf("%d small lots, %s and on", n, thin.Name)
			out = append(out, thin)
		}
		thin, n = MapLot{}, 0
	}
	for _, l := range lots {
		if l.Kg/whole*wide >= mapThin || l.Oldest || l.Held || l.Past {
			flush()
			out = append(out, l)
			continue
		}
		if n++; n == 1 {
			thin = l
		} else {
			thin.Kg += l.Kg
		}
		if thin.Kg/whole*wide >= 4*mapThin {
			flush()
		}
	}
	flush()
	return out
}

func (l MapLot) style() Style {
	st := Style{Fill: Wash, Stroke: Ink, Width: 1.5}
	switch {
	case l.Past:
		st.Pattern = Rising
	case l.Held:
		st.Pattern = Checks
	}
	return st
}

func (l MapLot) draw(c Canvas, b Box) {
	c.Rect(b, l.style())
	x := b.X + 6
	if l.Oldest && b.W >= 16 {
		dot(c, Point{b.X + 11, b.Y + b.H/2})
		x += 16
	}
	text := fit(l.Name, b.X+b.W-x-4, mapLot)
	if text == "" {
		return
	}
	if l.Past || l.Held {
		c.Rect(Box{x - 2, b.Y + 7, textWidth(text, mapLot) + 3, b.H - 14}, Style{Fill: Paper})
	}
	c.Text(Point{x, b.Y + b.H/2 + 6}, text, mapLot)
}

// key says what the signs mean, of those that are used.
func (m FreezerMap) key() strip {
	s := strip{wide: m.Width}
	var first, held, past, unknown, over bool
	for _, p := range m.Places {
		unknown, over = unknown || p.RoomKg == 0 && !p.NoBar, over || p.over()
		for _, l := range p.Lots {
			first, held, past = first || l.Oldest, held || l.Held, past || l.Past
		}
	}
	swatch := func(st Style) func(Canvas, Point) {
		return func(c Canvas, p Point) { c.Rect(Box{p.X - 12, p.Y - 8, 24, 16}, st) }
	}
	for _, k := range []struct {
		used bool
		sign func(Canvas, Point)
		says string
	}{
		{first, func(c Canvas, p Point) { dot(c, p) }, "the oldest of its kind: goes first"},
		{held, swatch(MapLot{Held: true}.style()), "held, or some of it"},
		{past, swatch(MapLot{Past: true}.style()), "past its day"},
		{over, func(c Canvas, p Point) {
			c.Line(Point{p.X, p.Y - 10}, Point{p.X, p.Y + 10}, Style{Stroke: Ink, Width: 4})
		}, "the room ends here"},
		{unknown, swatch(Style{Stroke: Quiet, Width: 1.5, Dash: Dashed}), "how much fits is not known"},
	} {
		if k.used {
			s.add(item{sign: k.sign, wide: 26, text: k.says})
		}
	}
	return s
}

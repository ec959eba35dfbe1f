package draw

// Shares shows what several things are made up of: one bar for each, its parts one behind the other, all on one scale from nothing.
// Parts of one name have one pattern; each is named beneath. Amounts that are not finite, or negative, count as nothing.
type Shares struct {
	Title, Desc string
	Rows        []SharesRow // in the order drawn
	Width       float64     // 0 for the usual one
}

// SharesRow is one bar.
type SharesRow struct {
	Name  string
	Parts []SharesPart
	Total string // what all parts come to, in words
	Marks []SharesMark
}

// SharesPart is one part of a bar.
type SharesPart struct {
	Name   string
	Amount float64
	Text   string // the amount in words, for those who point at it or cannot see it
}

// SharesMark is an amount that the bar is held against: a price, what a freezer takes in a day.
type SharesMark struct {
	Name string // beneath, such as "price"
	At   float64
	Text string // at the mark, such as "$9.50"
}

const (
	sharesRow = 84.0
	sharesBar = 26.0
	sharesTop = 6.0
)

// sharePatterns are given out in the order in which parts are first named, and again from the first when there are more.
var sharePatterns = [...]Pattern{Solid, Dots, Rising, Level, Upright, Checks, Plain}

func amount(v float64) float64 {
	if !(v > 0) || v > 1e12 {
		return 0
	}
	return v
}

// Picture draws it.
func (s Shares) Picture() Picture {
	wide := size(s.Width, chartWidth)
	keys := s.keys(wide)
	p := Picture{Width: wide, Height: sharesTop + sharesRow*float64(len(s.Rows)) + keys.height(), Title: s.Title, Desc: s.said()}
	if len(s.Rows) == 0 {
		return nothing(s.Title, s.Desc, "Nothing to show.", s.Width, 0)
	}
	p.Draw = func(c Canvas) {
		x, patterns, dashes := s.scale(wide), s.patterns(), s.dashes()
		for i, r := range s.Rows {
			c.Group(r.said(), func(c Canvas) { r.draw(c, sharesTop+sharesRow*float64(i), x, patterns, dashes, wide) })
		}
		keys.draw(c, sharesTop+sharesRow*float64(len(s.Rows)))
	}
	return p
}

// scale has the longest bar, or the farthest mark, go right across.
func (s Shares) scale(wide float64) func(float64) float64 {
	most := 0.0
	for _, r := range s.Rows {
		most = max(most, r.length())
		for _, m := range r.Marks {
			most = max(most, amount(m.At))
		}
	}
	if most == 0 {
		most = 1
	}
	return func(v float64) float64 { return stripLeft + amount(v)/most*(wide-2*stripLeft) }
}

func (r SharesRow) length() float64 {
	sum := 0.0
	for _, p := range r.Parts {
		sum += amount(p.Amount)
	}
	return sum
}

func (s Shares) patterns() map[string]Pattern {
	of := map[string]Pattern{}
	for _, r := range s.Rows {
		for _, p := range r.Parts {
			if _, known := of[p.Name]; !known && amount(p.Amount) > 0 {
				of[p.Name] = sharePatterns[len(of)%len(sharePatterns)]
			}
		}
	}
	return of
}

func (r SharesRow) draw(c Canvas, top float64, x func(float64) float64, patterns map[string]Pattern, dashes map[string]Dash, wide float64) {
	name := fit(r.Name, wide-2*stripLeft-textWidth(r.Total, limitType)-itemGap/2, tickType)
	c.Text(Point{stripLeft, top + 18}, name, tickType)
	c.Text(Point{stripLeft + textWidth(name, tickType) + itemGap/2, top + 18}, r.Total, limitType)
	y, sum := top+28, 0.0
	for _, p := range r.Parts {
		v := amount(p.Amount)
		if v == 0 {
			continue
		}
		from, to := x(sum), x(sum+v)
		sum += v
		c.Group(p.Name+": "+p.Text, func(c Canvas) {
			c.Rect(Box{from, y, max(1, to-from), sharesBar}, Style{Pattern: patterns[p.Name], Fill: Paper, Stroke: Ink, Width: 1})
		})
	}
	r.marks(c, y, x, dashes, wide)
}

// markDashes tell marks apart by their strokes.
var markDashes = [...]Dash{Unbroken, Dotted, Dashed}

func (s Shares) dashes() map[string]Dash {
	of := map[string]Dash{}
	for _, r := range s.Rows {
		for _, m := range r.Marks {
			if _, known := of[m.Name]; !known {
				of[m.Name] = markDashes[len(of)%len(markDashes)]
			}
		}
	}
	return of
}

// marks are strokes across the bar with their words below it, as many as find room.
func (r SharesRow) marks(c Canvas, y float64, x func(float64) float64, dashes map[string]Dash, wide float64) {
	free := 0.0
	for _, m := range r.Marks {
		at := x(m.At)
		c.Line(Point{at, y - 5}, Point{at, y + sharesBar + 5}, Style{Stroke: Paper, Width: 7})
		c.Line(Point{at, y - 5}, Point{at, y + sharesBar + 5}, Style{Stroke: Ink, Width: 3, Dash: dashes[m.Name]})
		room := textWidth(m.Text, tickType)
		left := max(stripLeft, min(at-room/2, wide-stripLeft-room))
		if left = max(left, free); left+room > wide-stripLeft {
			continue
		}
		free = left + room + itemGap/2
		c.Text(Point{left, y + sharesBar + 22}, m.Text, tickType)
	}
}

// keys name the patterns, and the marks.
func (s Shares) keys(wide float64) strip {
	k := strip{wide: wide}
	patterns, dashes, seen := s.patterns(), s.dashes(), map[string]bool{}
	for _, r := range s.Rows {
		for _, p := range r.Parts {
			if pattern, drawn := patterns[p.Name]; drawn && !seen[p.Name] {
				seen[p.Name] = true
				k.add(item{text: p.Name, sign: func(c Canvas, at Point) {
					c.Rect(Box{at.X - signWide/2, at.Y - 8, signWide, 16}, Style{Pattern: pattern, Fill: Paper, Stroke: Ink, Width: 1})
				}})
			}
		}
	}
	for _, r := range s.Rows {
		for _, m := range r.Marks {
			if !seen["|"+m.Name] {
				seen["|"+m.Name] = true
				k.add(item{text: m.Name, sign: func(c Canvas, at Point) {
					c.Line(Point{at.X, at.Y - 10}, Point{at.X, at.Y + 10}, Style{Stroke: Ink, Width: 3, Dash: dashes[m.Name]})
				}})
			}
		}
	}
	return k
}

func (r SharesRow) said() string {
	text := r.Name + ": " + r.Total
	for _, m := range r.Marks {
		text += ", " + m.Name + " " + m.Text
	}
	return text
}

func (s Shares) said() string {
	text := s.Desc
	for _, r := range s.Rows {
		text += " " + r.said() + "."
		for _, p := range r.Parts {
			if amount(p.Amount) > 0 {
				text += " " + p.Name + ": " + p.Text + "."
			}
		}
	}
	return text
}

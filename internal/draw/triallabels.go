package draw

// Labels are small labels in three columns, to be cut apart and stuck on packs.
type Labels struct{ Labels []Label }

// Label has one thing that is read from afar, and lines below it.
type Label struct {
	Big   string
	Lines []string
}

// Sizes of labels.
const (
	labelColumns = 3
	labelWide    = 240.0
	labelTall    = 112.0
)

// Picture draws them, each in a frame along which it is cut.
func (l Labels) Picture() Picture {
	rows := (len(l.Labels) + labelColumns - 1) / labelColumns
	return Picture{Width: labelColumns * labelWide, Height: float64(rows) * labelTall, Title: "Labels", Desc: "Labels for packs", Draw: func(c Canvas) {
		for i, x := range l.Labels {
			x.draw(c, Box{float64(i%labelColumns) * labelWide, float64(i/labelColumns) * labelTall, labelWide, labelTall})
		}
	}}
}

func (l Label) draw(c Canvas, b Box) {
	c.Rect(b, Style{Stroke: Quiet, Width: 1, Dash: Dashed})
	c.Text(Point{b.X + 12, b.Y + 40}, fit(l.Big, b.W-24, Type{Size: 34, Bold: true}), Type{Size: 34, Bold: true, Tone: Ink})
	for i, line := range l.Lines {
		t := Type{Size: 15, Tone: Ink}
		c.Text(Point{b.X + 12, b.Y + 60 + 20*float64(i)}, fit(line, b.W-24, t), t)
	}
}

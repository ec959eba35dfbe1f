package pdf

import (
	"cmp"
	"slices"
	"strings"

	"kettlefrost/internal/draw"
)

// Sizes of a table.
const (
	cellSize = 9.0
	cellGap  = 9.0 // between columns
	cellPad  = 2.2 // above and below what a row says
)

func (t Table) set(f *flow) {
	if len(t.Rows) == 0 && t.None == "" {
		return
	}
	f.gap(5)
	if t.Name != "" {
		f.need(plainSize*leading + 50)
		f.lines(f.left, wrap(t.Name, f.measure(), plainSize, true), draw.Type{Size: plainSize, Bold: true, Tone: draw.Ink})
		f.y += 1
	}
	if len(t.Rows) == 0 {
		f.lines(f.left, wrap(t.None, f.measure(), plainSize, false), draw.Type{Size: plainSize, Tone: draw.Ink})
		f.y += 4
		return
	}
	w := t.widths(f.measure())
	heads := t.broken(w, t.names(), true)
	f.need(tallOf(heads) + t.tallOf(t.broken(w, t.Rows[0].Cells, t.Rows[0].Strong)) + 6)
	t.head(f, w, heads)
	for _, r := range t.Rows {
		t.row(f, w, heads, r)
	}
	f.y += 6
}

func (t Table) names() []string {
	names := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		names[i] = c.Name
	}
	return names
}

// widths gives each column what its widest cell asks for; where that is too much, what its longest word asks for and a share of the rest.
func (t Table) widths(measure float64) []float64 {
	least, most := make([]float64, len(t.Columns)), make([]float64, len(t.Columns))
	add := func(i int, text string, bold bool) {
		if i >= len(t.Columns) {
			return
		}
		for line := range strings.SplitSeq(text, "\n") {
			line = printable(line)
			most[i] = max(most[i], width(line, cellSize, bold)+0.1)
			for word := range strings.FieldsSeq(line) {
				for piece := range pieces(word) {
					least[i] = max(least[i], width(piece, cellSize, bold)+0.1)
				}
			}
		}
	}
	for i, c := range t.Columns {
		add(i, c.Name, true)
		least[i], most[i] = max(least[i], c.Wide), max(most[i], c.Wide)
	}
	for _, r := range t.Rows {
		for i, cell := range r.Cells {
			add(i, cell, r.Strong)
		}
	}
	return share(least, most, measure-cellGap*float64(len(t.Columns)-1))
}

// share gives out a width among columns: those that lack little get it before those that lack much, so that only what is long is broken.
func share(least, most []float64, wide float64) []float64 {
	const longest = 0.4 // no word has more than that of the page; it is broken
	got, order, left := make([]float64, len(least)), make([]int, len(least)), wide
	for i := range least {
		got[i] = min(least[i], wide*longest)
		left -= got[i]
		order[i] = i
	}
	if left < 0 {
		for i := range got {
			got[i] *= wide / (wide - left)
		}
		return got
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(most[a]-got[a], most[b]-got[b]) })
	for n, i := range order {
		more := min(max(0, most[i]-got[i]), left/float64(len(order)-n))
		got[i] += more
		left -= more
	}
	return got
}

// broken is a row's cells as lines.
func (t Table) broken(w []float64, cells []string, bold bool) [][]string {
	lines := make([][]string, len(t.Columns))
	for i := range t.Columns {
		if i < len(cells) {
			lines[i] = wrap(cells[i], w[i], cellSize, bold)
		}
	}
	return lines
}

func tallOf(cells [][]string) float64 {
	most := 1
	for _, lines := range cells {
		most = max(most, len(lines))
	}
	return float64(most)*cellSize*leading + 2*cellPad
}

// tallOf is how tall a row is: room to write in, if it is meant for that.
func (t Table) tallOf(cells [][]string) float64 { return max(tallOf(cells), min(t.Tall, tallest)) }

// tallest is as much as a row is given to write in.
const tallest = 144.0

// line is what stands below a row.
func (t Table) line() (wide float64, tone draw.Tone) {
	if t.Ruled {
		return 0.6, draw.Ink
	}
	return 0.4, draw.Faint
}

// rule draws lines between the columns of what was set since y, if the table has them.
func (t Table) rule(f *flow, w []float64, from float64) {
	if !t.Ruled {
		return
	}
	x := f.left
	for _, wide := range w[:len(w)-1] {
		x += wide + cellGap
		f.line(x-cellGap/2, from, x-cellGap/2, f.y, 0.6, draw.Ink)
	}
}

func (t Table) head(f *flow, w []float64, heads [][]string) {
	from := f.y
	t.cells(f, w, heads, true)
	t.rule(f, w, from)
	f.line(f.left, f.y, f.right, f.y, 1, draw.Ink)
}

// row sets a row on this page, or on the next; one that is taller than a page goes on over as many as it takes.
func (t Table) row(f *flow, w []float64, heads [][]string, r Row) {
	cells := t.broken(w, r.Cells, r.Strong)
	whole := f.bottom - f.top - tallOf(heads) - 2*cellSize*leading
	if t.tallOf(cells) > f.room() && (tallOf(cells) <= whole || f.room() < 60) {
		t.goOn(f, w, heads)
	}
	for tallOf(cells) > f.room() {
		fit := max(1, int((f.room()-2*cellPad)/(cellSize*leading)))
		first := make([][]string, len(cells))
		for i, lines := range cells {
			n := min(fit, len(lines))
			first[i], cells[i] = lines[:n], lines[n:]
		}
		t.cells(f, w, first, r.Strong)
		t.goOn(f, w, heads)
	}
	from := f.y
	t.cells(f, w, cells, r.Strong)
	f.y = max(f.y, from+t.tallOf(cells))
	t.rule(f, w, from)
	wide, tone := t.line()
	f.line(f.left, f.y, f.right, f.y, wide, tone)
}

func (t Table) goOn(f *flow, w []float64, heads [][]string) {
	f.turn()
	if t.Name != "" {
		f.text(f.left, f.y, cut(f.doc.In.Say("%s, continued", t.Name), f.measure(), smallSize), draw.Type{Size: smallSize, Tone: draw.Quiet})
		f.y += smallSize * leading
	}
	t.head(f, w, heads)
}

func (t Table) cells(f *flow, w []float64, cells [][]string, bold bool) {
	x := f.left
	for i, lines := range cells {
		typ := draw.Type{Size: cellSize, Bold: bold, Tone: draw.Ink}
		at := x
		if t.Columns[i].Figure {
			typ.Anchor, at = draw.End, x+w[i]
		}
		for n, l := range lines {
			f.text(at, f.y+cellPad+float64(n)*cellSize*leading, l, typ)
		}
		x += w[i] + cellGap
	}
	f.y += tallOf(cells)
}

package draw

import (
	"cmp"
	"slices"

	"kettlefrost/internal/unit"
)

// traceLayout is where everything of a trace stands.
type traceLayout struct {
	folding
	boxes         []Box // of the heaps
	scale         float64
	width, height float64
	key           strip
}

func (f folding) layout() traceLayout {
	l := traceLayout{folding: f, boxes: make([]Box, len(f.heaps)), height: traceLeast + 2*traceMargin}
	columns := f.columns()
	l.scale = f.scaleOf(columns)
	l.width = max(traceBox, float64(len(columns))*(traceBox+traceGap)-traceGap) + 2*traceMargin
	for x, column := range columns {
		high := -traceBelow
		for _, i := range column {
			l.boxes[i] = Box{X: traceMargin + float64(x)*(traceBox+traceGap), Y: high + traceBelow, W: traceBox, H: traceLeast + f.weightOf(i).Kg()*l.scale}
			high += traceBelow + l.boxes[i].H
		}
		l.height = max(l.height, high+2*traceMargin)
	}
	for _, column := range columns { // each in the middle
		last := l.boxes[column[len(column)-1]]
		shift := (l.height - last.Y - last.H) / 2
		for _, i := range column {
			l.boxes[i].Y += shift
		}
	}
	l.key = f.signs(l.width)
	return l
}

// columns are the heaps from left to right; within a column those whose neighbours stand higher stand higher.
func (f folding) columns() [][]int {
	var columns [][]int
	for i, h := range f.heaps { // in the order of their steps
		if n := len(columns); n == 0 || f.heaps[columns[n-1][0]].Step != h.Step {
			columns = append(columns, nil)
		}
		columns[len(columns)-1] = append(columns[len(columns)-1], i)
	}
	rank := make([]float64, len(f.heaps))
	settle := func(column []int) {
		for k, i := range column {
			rank[i] = (float64(k) + 0.5) / float64(len(column))
		}
	}
	for _, c := range columns {
		settle(c)
	}
	for range 4 {
		for _, c := range columns {
			f.byNeighbours(c, rank)
			settle(c)
		}
		for _, c := range slices.Backward(columns) {
			f.byNeighbours(c, rank)
			settle(c)
		}
	}
	return columns
}

// byNeighbours sorts a column by the mean height of what each heap hangs on (the barycentre heuristic of Sugiyama, Tagawa and Toda, 1981).
func (f folding) byNeighbours(column []int, rank []float64) {
	mean := map[int]float64{}
	for _, i := range column {
		sum, n := 0.0, 0.0
		for _, x := range f.flows {
			switch i {
			case x.From:
				sum, n = sum+rank[x.To], n+1
			case x.To:
				sum, n = sum+rank[x.From], n+1
			}
		}
		if mean[i] = rank[i]; n > 0 {
			mean[i] = sum / n
		}
	}
	slices.SortStableFunc(column, func(a, b int) int { return cmp.Compare(mean[a], mean[b]) })
}

// scaleOf is the height of a kilogram: the heaviest column fills the height.
func (f folding) scaleOf(columns [][]int) float64 {
	scale := 0.0
	set := func(room, kg float64) {
		if kg > 0 && (scale == 0 || room/kg < scale) {
			scale = room / kg
		}
	}
	for _, column := range columns {
		sum := 0.0
		for _, i := range column {
			sum += f.weightOf(i).Kg()
		}
		set(max(60, traceHeight-float64(len(column))*(traceLeast+traceBelow)), sum)
	}
	return scale
}

// weightOf is the mass by which a heap is drawn: no less than what flows through it.
func (f folding) weightOf(heap int) unit.Mass {
	in, out := f.through(heap)
	return max(f.heaps[heap].Mass, in, out)
}

// through is what flows into a heap and out of it.
func (f folding) through(heap int) (in, out unit.Mass) {
	for _, x := range f.flows {
		if x.To == heap {
			in += x.Mass
		}
		if x.From == heap {
			out += x.Mass
		}
	}
	return in, out
}

// signs is the key: the kinds that are there.
func (f folding) signs(wide float64) strip {
	s := strip{wide: wide}
	there := [traceKinds]bool{}
	for _, h := range f.heaps {
		there[h.Kind] = true
	}
	for k, yes := range there {
		if yes {
			s.add(item{sign: func(c Canvas, at Point) {
				c.Rect(Box{at.X - traceStripe/2, at.Y - 9, traceStripe, 18}, Style{Pattern: traceSigns[k].pattern, Stroke: Ink, Width: 1})
			}, text: traceSigns[k].word})
		}
	}
	if slices.ContainsFunc(f.flows, func(x TraceFlow) bool { return x.Rework }) {
		s.add(item{sign: func(c Canvas, at Point) {
			c.Rect(Box{at.X - signWide/2, at.Y - 6, signWide, 12}, Style{Fill: Wash, Stroke: Ink, Width: 2, Dash: Dashed})
		}, text: "cooked again"})
	}
	return s
}

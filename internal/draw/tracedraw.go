package draw

import (
	"cmp"
	"slices"
)

var (
	traceName = Type{Size: 16, Tone: Ink, Bold: true}
	traceSays = Type{Size: 16, Tone: Ink}
)

func (l traceLayout) draw(c Canvas) {
	l.drawFlows(c)
	for i, h := range l.heaps {
		c.Group(h.title(l), func(c Canvas) { l.drawHeap(c, h, l.boxes[i]) })
	}
	l.key.draw(c, l.height)
}

func (h heap) title(l traceLayout) string {
	text := traceSigns[h.Kind].word + ": " + h.What + ", " + h.says()
	if h.Mass > 0 {
		text += ", " + h.Mass.Show(l.units)
	}
	if h.Asked {
		text += ", asked for"
	}
	return text
}

func (l traceLayout) drawHeap(c Canvas, h heap, b Box) {
	width := 1.0
	if h.Asked {
		width = 4
	}
	c.Rect(b, Style{Fill: Paper})
	c.Rect(Box{b.X, b.Y, traceStripe, b.H}, Style{Pattern: traceSigns[h.Kind].pattern, Stroke: Ink, Width: 1})
	c.Rect(b, Style{Stroke: Ink, Width: width})
	x, room := b.X+traceStripe+7, b.W-traceStripe-12
	y := b.Y + b.H/2 - 13
	mass := ""
	if h.Mass > 0 {
		mass = h.Mass.Show(l.units)
	}
	for k, line := range []struct {
		text string
		typ  Type
	}{{h.What, traceName}, {h.says(), traceSays}, {mass, traceSays}} {
		c.Text(Point{x, y + float64(k)*19}, fit(line.text, room, line.typ), line.typ)
	}
}

// drawFlows draws flows from the right side of a lot to the left side of another, each as wide as its mass, those to higher lots above.
func (l traceLayout) drawFlows(c Canvas) {
	outY, inY := l.sides(true), l.sides(false)
	for i, f := range l.flows {
		from, to, w := l.boxes[f.From], l.boxes[f.To], l.widthOf(f)
		a, b := Point{from.X + from.W, outY[i]}, Point{to.X, inY[i]}
		style := Style{Fill: Wash, Stroke: Faint, Width: 1}
		if f.Rework {
			style = Style{Fill: Wash, Stroke: Ink, Width: 2, Dash: Dashed}
		}
		title := l.heaps[f.From].says() + " into " + l.heaps[f.To].says() + ", " + f.Mass.Show(l.units)
		c.Group(title, func(c Canvas) { c.Polyline(ribbon(a, b, w), style) })
	}
}

func (l traceLayout) widthOf(f TraceFlow) float64 { return max(traceThin, f.Mass.Kg()*l.scale) }

// sides is the upper end of each flow where it leaves a lot, or where it enters one: together in the middle of the lot's side.
func (l traceLayout) sides(leaving bool) []float64 {
	end := func(i int, here bool) int {
		if here == leaving {
			return l.flows[i].From
		}
		return l.flows[i].To
	}
	of := make([][]int, len(l.heaps))
	for i := range l.flows {
		of[end(i, true)] = append(of[end(i, true)], i)
	}
	at := make([]float64, len(l.flows))
	for heap, flows := range of {
		slices.SortStableFunc(flows, func(a, b int) int { return cmp.Compare(l.boxes[end(a, false)].Y, l.boxes[end(b, false)].Y) })
		high := 0.0
		for _, i := range flows {
			high += l.widthOf(l.flows[i])
		}
		y := l.boxes[heap].Y + (l.boxes[heap].H-high)/2
		for _, i := range flows {
			at[i] = y
			y += l.widthOf(l.flows[i])
		}
	}
	return at
}

// ribbonBends is how many straight pieces a side of a flow has.
const ribbonBends = 10

// ribbon is a band of a height from one point to another that leaves and arrives level.
func ribbon(a, b Point, high float64) []Point {
	upper := make([]Point, 0, 2*(ribbonBends+1))
	for k := range ribbonBends + 1 {
		t := float64(k) / ribbonBends
		upper = append(upper, Point{a.X + (b.X-a.X)*t, a.Y + (b.Y-a.Y)*t*t*(3-2*t)})
	}
	for _, p := range slices.Backward(slices.Clone(upper)) {
		upper = append(upper, Point{p.X, p.Y + high})
	}
	return upper
}

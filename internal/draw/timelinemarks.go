package draw

import (
	"kettlefrost/internal/plan"
	"kettlefrost/internal/roster"
	"kettlefrost/internal/unit"
)

// Sizes of the marks of a timeline.
const (
	edgeWidth  = 3.5 // of a critical bar's edge
	signRoom   = 14.0
	slackStop  = 12.0 // height of the end stop of a slack
	slackDepth = 9.0  // of its line above the bottom of the row
)

// heavyEdge is the edge of a critical bar. It lies within the bar, so that it covers nothing beside it.
func heavyEdge(c Canvas, b Box) {
	in := min(edgeWidth, b.W/2)
	c.Rect(Box{b.X + in/2, b.Y + in/2, b.W - in, b.H - in}, Style{Stroke: Ink, Width: in})
}

// sign is a small mark about a point. Signs differ in shape.
type sign func(Canvas, Point)

func criticalSign(c Canvas, p Point) {
	c.Polyline([]Point{{p.X - 5, p.Y - 4}, {p.X + 5, p.Y - 4}, {p.X, p.Y + 4.5}}, Style{Fill: Ink})
}

func begunSign(c Canvas, p Point) {
	c.Polyline([]Point{{p.X - 3.5, p.Y - 4}, {p.X + 4, p.Y}, {p.X - 3.5, p.Y + 4}}, Style{Fill: Paper, Stroke: Ink, Width: 1.5})
}

func doneSign(c Canvas, p Point) {
	c.Polyline([]Point{{p.X - 4.5, p.Y}, {p.X - 1, p.Y + 3.5}, {p.X + 5, p.Y - 4}}, Style{Stroke: Ink, Width: 2})
}

func laterSign(c Canvas, p Point)   { shiftSign(c, p, 1) }
func earlierSign(c Canvas, p Point) { shiftSign(c, p, -1) }

// shiftSign is a double arrow head to the right, or to the left when way is -1.
func shiftSign(c Canvas, p Point, way float64) {
	for _, x := range [...]float64{-3, 2} {
		c.Polyline([]Point{{p.X + way*(x-1.5), p.Y - 3.5}, {p.X + way*(x+2), p.Y}, {p.X + way*(x-1.5), p.Y + 3.5}}, Style{Stroke: Ink, Width: 1.8})
	}
}

// signs are those that stand on one bar, the gravest first.
type signs []sign

func signsOf(t plan.Task, shift unit.Moment) signs {
	var all signs
	if roster.Critical(t) {
		all = append(all, criticalSign)
	}
	switch t.State {
	case plan.Begun:
		all = append(all, begunSign)
	case plan.Done:
		all = append(all, doneSign)
	}
	switch {
	case shift > 0:
		all = append(all, laterSign)
	case shift < 0:
		all = append(all, earlierSign)
	}
	return all
}

// draw sets signs at the right end of a bar's strip, each on a ground of paper, as many as there is room for.
func (all signs) draw(c Canvas, bar Box) {
	x := bar.X + bar.W - edgeWidth
	for _, sign := range all {
		if x -= signRoom; x < bar.X {
			return
		}
		c.Rect(Box{x, bar.Y + 1, signRoom, barStrip - 1}, Style{Fill: Paper})
		sign(c, Point{x + signRoom/2, bar.Y + 0.5 + barStrip/2})
	}
}

// slack draws how much later the task of a row's bar may be: a thin line behind the last of its bars, up to a stop. Where another bar
// stands before that, the line ends there without a stop.
func (s scale) slack(c Canvas, t plan.Task, l lane, i int) {
	b := l.row.Bars[i]
	if t.State != plan.ToDo || t.Slack <= 0 || b.From >= b.To {
		return
	}
	end, stopped := b.To+unit.Moment(t.Slack/unit.Minute), true
	for j, other := range l.row.Bars {
		if other.Task == b.Task && other.From > b.From {
			return
		}
		if l.line[j] == l.line[i] && other.From >= b.To && other.From < end {
			end, stopped = other.From, false
		}
	}
	from, to, _, after := s.cut(b.To, end)
	if from >= to {
		return
	}
	y := l.top(i) + l.height - slackDepth
	line := Style{Stroke: Ink, Width: 1.5}
	c.Line(Point{s.x(from), y}, Point{s.x(to), y}, line)
	if stopped && !after {
		c.Line(Point{s.x(to), y - slackStop/2}, Point{s.x(to), y + slackStop/2}, line)
	}
}

// shifts is how much later than planned each moved task starts.
func shifts(t plan.Timetable) map[int]unit.Moment {
	by := map[int]unit.Moment{}
	for _, m := range roster.Moved(t) {
		if d := t.Tasks[m.Task].Start - m.Was; d != 0 {
			by[m.Task] = d
		}
	}
	return by
}

// ghost draws where a bar was before its task was moved. Bars lie over it.
func (s scale) ghost(c Canvas, l lane, i int, by unit.Moment) {
	b := l.row.Bars[i]
	from, to, _, _ := s.cut(b.From-by, b.To-by)
	if from >= to {
		return
	}
	box := Box{s.x(from), l.top(i), max(leastBar, float64(to-from)*s.perMinute-1), l.height - 2}
	if box.W < narrowBar {
		box = low(box)
	}
	c.Rect(Box{box.X + 1, box.Y + 3, max(1, box.W-2), box.H - 6}, Style{Stroke: Quiet, Width: 1.5, Dash: Dashed, Round: 2})
}

// has tells whether a moment lies in the picture.
func (s scale) has(now *unit.Moment) bool { return now != nil && *now >= s.from && *now <= s.to }

var nowType = Type{Size: 16, Tone: Paper, Bold: true, Anchor: Middle}

func nowWords(at unit.Moment) string { return "now " + at.String() }

// nowBox is where the words of now stand, above the hours.
func (s scale) nowBox(at unit.Moment) Box {
	wide := textWidth(nowWords(at), nowType) + 10
	middle := max(wide/2, min(s.x(at), s.wide-wide/2))
	return Box{middle - wide/2, 0, wide, axisHeight - 6}
}

// now draws what time it is: a line through all rows, on a ground of paper that keeps it apart from the edges of bars.
func (s scale) now(c Canvas, at unit.Moment, height float64) {
	x, box := s.x(at), s.nowBox(at)
	c.Group(nowWords(at), func(c Canvas) {
		c.Line(Point{x, axisHeight - 8}, Point{x, height}, Style{Stroke: Paper, Width: 5.5})
		c.Line(Point{x, axisHeight - 8}, Point{x, height}, Style{Stroke: Ink, Width: 2.5})
		c.Rect(box, Style{Fill: Ink, Round: 2})
		c.Text(Point{box.X + box.W/2, 17.5}, nowWords(at), nowType)
	})
}

package draw

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/haccp"
)

// HazardFlow is the flow of a hazard plan: its steps below each other, lines from each to where its food goes, and the control points with their
// limits. Wide is how wide it is; from 340 on it can be read.
func HazardFlow(p haccp.Plan, wide float64) Picture {
	f := flowOf(p)
	f.lay(wide)
	return Picture{Width: wide, Height: f.high, Title: "Flow of " + p.Product, Desc: flowDesc(p), Draw: f.draw}
}

func flowDesc(p haccp.Plan) string {
	points := make([]string, len(p.Points))
	for i, x := range p.Points {
		points[i] = x.Number + " at " + x.Step
	}
	return fmt.Sprintf("%d steps, from receiving to selling. Control points: %s.", len(p.Flow), strings.Join(points, ", "))
}

const (
	flowLane   = 22.0 // between two lanes
	flowMargin = 6.0
	flowLine   = 20.0 // of type
	flowPad    = 9.0
	flowGap    = 16.0 // between boxes, for arrows
	flowDot    = 5.0
	flowWide   = 0.88 // of a line that is filled: bold type of some faces runs wider than is reckoned
)

var (
	flowName  = Type{Size: 16, Bold: true, Tone: Ink}
	flowSays  = Type{Size: 16, Tone: Ink}
	flowQuiet = Type{Size: 16, Tone: Quiet}
)

// hazardFlow is a flow laid out in lanes, as a plan of tramlines is: each step has one, and its line runs down it to the last step that takes
// from it.
type hazardFlow struct {
	steps []flowStep
	lanes int
	left  float64 // of the boxes
	wide  float64
	high  float64
}

type flowStep struct {
	haccp.FlowStep
	points []haccp.Point
	from   []int // steps before it, without the store: nearly all take from it
	last   int   // the last step that takes from it
	lane   int
	lines  []flowText
	box    Box
}

type flowText struct {
	text string
	Type
	mark bool // it stands in a frame of its own
}

func flowOf(p haccp.Plan) *hazardFlow {
	f := &hazardFlow{}
	at := map[string]int{}
	for i, s := range p.Flow {
		x := flowStep{FlowStep: s, last: i}
		for _, from := range s.From {
			if k, ok := at[from]; ok && (from != haccp.Storing || len(s.From) == 1 && i == at[haccp.Storing]+1) {
				x.from = append(x.from, k)
				f.steps[k].last = i
			}
		}
		for _, point := range p.Points {
			if point.Step == s.ID {
				x.points = append(x.points, point)
			}
		}
		at[s.ID] = i
		f.steps = append(f.steps, x)
	}
	f.assign()
	return f
}

// assign gives each step a lane: that of one of those before it whose line ends here, else the first that is free.
func (f *hazardFlow) assign() {
	busy := []int{} // until which step
	for i := range f.steps {
		s := &f.steps[i]
		s.lane = -1
		for _, k := range s.from {
			if before := f.steps[k]; before.last == i && (s.lane < 0 || before.lane < s.lane) {
				s.lane = before.lane
			}
		}
		if s.lane < 0 {
			s.lane = slices.IndexFunc(busy, func(until int) bool { return until < i })
		}
		if s.lane < 0 {
			s.lane, busy = len(busy), append(busy, 0)
		}
		busy[s.lane] = s.last
	}
	f.lanes = max(1, len(busy))
}

// lay sets the texts and the boxes.
func (f *hazardFlow) lay(wide float64) {
	f.wide, f.left = wide, flowMargin+float64(f.lanes)*flowLane
	y := flowMargin
	for i := range f.steps {
		s := &f.steps[i]
		s.words(i+1, wide-f.left-flowMargin-2*flowPad)
		high := float64(len(s.lines))*flowLine + 2*flowPad
		s.box = Box{f.left, y, wide - f.left - flowMargin, high}
		y += high + flowGap
	}
	f.high = y - flowGap + flowMargin
}

func (s *flowStep) words(number int, room float64) {
	room *= flowWide
	add := func(text string, t Type, mark bool) {
		for _, l := range wrapped(text, room, t) {
			s.lines = append(s.lines, flowText{l, t, mark})
		}
	}
	add(fmt.Sprintf("%d  %s", number, s.Do), flowName, false)
	if len(s.In) > 0 {
		add("in: "+strings.Join(s.In, ", "), flowSays, false)
	}
	if len(s.Equipment) > 0 {
		add("with: "+strings.Join(s.Equipment, " or "), flowQuiet, false)
	}
	for _, x := range s.points {
		add(x.Number+": "+x.Limit.Text, flowName, true)
	}
}

// wrapped is text on lines that are no wider than room; a word that is wider stands alone and is cut.
func wrapped(text string, room float64, t Type) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && textWidth(longer, t) > room {
			lines, line = append(lines, line), word
			continue
		}
		line = longer
	}
	lines = append(lines, line)
	for i, l := range lines {
		lines[i] = fit(l, room, t)
	}
	return lines
}

func (f *hazardFlow) x(lane int) float64 { return flowMargin + (float64(lane)+0.5)*flowLane }

// heart is the height at which a step's dot stands: at its first line.
func (s flowStep) heart() float64 { return s.box.Y + flowPad + flowLine/2 }

func (f *hazardFlow) draw(c Canvas) {
	for _, s := range f.steps {
		for _, k := range s.from {
			f.drawWay(c, f.steps[k], s)
		}
	}
	for _, s := range f.steps {
		c.Group(strings.TrimSpace(s.Do+" "+s.Point), func(c Canvas) { f.drawStep(c, s) })
	}
}

// drawWay draws the line of a step down its lane and over to one that takes from it.
func (f *hazardFlow) drawWay(c Canvas, from, to flowStep) {
	style := Style{Stroke: Ink, Width: 2}
	x, y := f.x(from.lane), to.heart()
	c.Line(Point{x, from.heart()}, Point{x, y}, style)
	if from.lane != to.lane {
		c.Line(Point{x, y}, Point{f.x(to.lane), y}, style)
	}
}

func (f *hazardFlow) drawStep(c Canvas, s flowStep) {
	width := 1.0
	if len(s.points) > 0 {
		width = 4
	}
	x, y := f.x(s.lane), s.heart()
	c.Line(Point{x, y}, Point{s.box.X, y}, Style{Stroke: Ink, Width: 2})
	c.Polyline([]Point{{s.box.X, y}, {s.box.X - 8, y - 5}, {s.box.X - 8, y + 5}}, Style{Fill: Ink})
	c.Rect(Box{x - flowDot, y - flowDot, 2 * flowDot, 2 * flowDot}, Style{Fill: Paper, Stroke: Ink, Width: 2, Round: flowDot})
	c.Rect(s.box, Style{Fill: Paper, Stroke: Ink, Width: width, Round: 3})
	base := s.box.Y + flowPad + flowLine - 5
	for _, l := range s.lines {
		if l.mark {
			c.Rect(Box{s.box.X + flowPad - 5, base - flowLine + 4, s.box.W - 2*flowPad + 10, flowLine}, Style{Fill: Wash})
		}
		c.Text(Point{s.box.X + flowPad, base}, l.text, l.Type)
		base += flowLine
	}
}

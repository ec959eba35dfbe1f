package draw

import (
	"fmt"
	"math"
	"slices"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/roster"
	"kettlefrost/internal/unit"
)

// Whose says which rows a timeline shows.
type Whose int

// The rows of a timeline.
const (
	Everyone  Whose = iota // people, then equipment
	People                 // people only
	Equipment              // equipment only
)

// Sizes of a timeline. Type is never below 16.
const (
	stretchWidth = 600.0 // of one stretch of the day: two stand side by side on a tablet, one fills it upright
	namesWidth   = 112.0
	rightMargin  = 28.0 // room for half of the last hour's figures
	axisHeight   = 30.0
	personHeight = 58.0
	thingHeight  = 48.0
	rowGap       = 6.0
	longestHours = 4 // of one stretch
	mostStretch  = 24
)

var (
	axisType = Type{Size: 16, Tone: Quiet, Anchor: Middle}
	nameType = Type{Size: 17, Tone: Ink, Bold: true}
	barType  = Type{Size: 16, Tone: Ink}
	codeType = Type{Size: 17, Tone: Ink, Bold: true}
	awayType = Type{Size: 16, Tone: Quiet, Anchor: Middle}
)

// Timeline is the day in stretches of at most four hours, equally long, each a picture of its own with a row for each person and
// piece of equipment. It is empty when no task has a time.
func Timeline(t plan.Timetable, codes Codes, whose Whose) []Picture {
	from, to, ok := span(t)
	rows := choose(t.Rows, whose)
	if !ok || len(rows) == 0 {
		return nil
	}
	n := min(mostStretch, int(math.Ceil(float64(to-from)/(longestHours*60))))
	long := (int(to-from) + n - 1) / n
	long = (long + 29) / 30 * 30
	var pictures []Picture
	for start := from; start < to; start += unit.Moment(long) {
		end := min(to, start+unit.Moment(long))
		pictures = append(pictures, stretch(t, codes, busy(rows, start, end), start, end))
	}
	return pictures
}

// span is the time that tasks take, out to whole half hours.
func span(t plan.Timetable) (from, to unit.Moment, ok bool) {
	if len(t.Tasks) == 0 {
		return 0, 0, false
	}
	from, to = t.Tasks[0].Start, t.Tasks[0].End
	for _, task := range t.Tasks {
		from, to = min(from, task.Start), max(to, task.End)
	}
	from -= mod(from, 30)
	to += mod(-to, 30)
	return from, max(to, from+30), true
}

func mod(c, n unit.Moment) unit.Moment { return (c%n + n) % n }

func choose(all []plan.Row, whose Whose) []plan.Row {
	var rows []plan.Row
	for _, r := range all {
		if whose == Everyone || r.Person == (whose == People) {
			rows = append(rows, r)
		}
	}
	return rows
}

// busy leaves out the equipment that nobody uses between two times. People stay: that somebody is free is worth seeing.
func busy(all []plan.Row, from, to unit.Moment) []plan.Row {
	var rows []plan.Row
	for _, r := range all {
		if r.Person || slices.ContainsFunc(r.Bars, func(b plan.Bar) bool { return b.From < to && b.To > from }) {
			rows = append(rows, r)
		}
	}
	return rows
}

// lane is one row of one stretch, laid out: bars that overlap are put below each other.
type lane struct {
	row    plan.Row
	y      float64
	height float64 // of one line of bars
	lines  int
	line   []int // of each bar
}

// top is where the line of a bar begins.
func (l lane) top(bar int) float64 { return l.y + l.height*float64(l.line[bar]) }

// layout puts rows below each other.
func layout(rows []plan.Row) (lanes []lane, height float64) {
	y := axisHeight
	for _, r := range rows {
		l := lane{row: r, y: y, height: thingHeight}
		if r.Person {
			l.height = personHeight
		}
		l.line, l.lines = stagger(r.Bars)
		y += l.height*float64(l.lines) + rowGap
		lanes = append(lanes, l)
	}
	return lanes, y
}

// mostLines keeps a row with nonsense in it from growing without end; further bars are drawn over each other.
const mostLines = 12

// stagger gives each bar the first line on which it overlaps no earlier bar.
func stagger(bars []plan.Bar) (line []int, lines int) {
	var ends []unit.Moment // of each line
	for _, b := range bars {
		on := slices.IndexFunc(ends, func(end unit.Moment) bool { return end <= b.From })
		if on < 0 && len(ends) < mostLines {
			on = len(ends)
			ends = append(ends, b.To)
		} else if on < 0 {
			on = mostLines - 1
		}
		ends[on] = b.To
		line = append(line, on)
	}
	return line, max(1, len(ends))
}

// stretch is one picture: the rows between two times.
func stretch(t plan.Timetable, codes Codes, rows []plan.Row, from, to unit.Moment) Picture {
	s := newScale(from, to, stretchWidth)
	lanes, height := layout(rows)
	return Picture{
		Width: stretchWidth, Height: height,
		Title: fmt.Sprintf("The day from %s to %s", from.String(), to.String()),
		Desc:  describe(t, from, to),
		Draw:  func(c Canvas) { s.rows(c, t, codes, lanes, height) },
	}
}

// rows draws the grid, the lanes and, over them, what time it is.
func (s scale) rows(c Canvas, t plan.Timetable, codes Codes, lanes []lane, height float64) {
	s.grid(c, t, height)
	for _, l := range lanes {
		s.lane(c, t, codes, l)
	}
	if s.has(t.Now) {
		s.now(c, *t.Now, height)
	}
}

// describe says in words what a stretch shows; the page beside it has the list of tasks.
func describe(t plan.Timetable, from, to unit.Moment) string {
	n, critical := 0, 0
	for _, task := range t.Tasks {
		if task.Start < to && task.End > from {
			n++
			if roster.Critical(task) {
				critical++
			}
		}
	}
	text := fmt.Sprintf("%d tasks in rows by person, then by equipment", n)
	if critical > 0 {
		text += fmt.Sprintf("; %d of them are critical and have a heavy edge", critical)
	}
	return text + ". Bars carry the codes of the steps; hatching is time away."
}

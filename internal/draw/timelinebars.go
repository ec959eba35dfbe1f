package draw

import (
	"fmt"
	"strings"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/roster"
	"kettlefrost/internal/unit"
)

// scale turns times of one picture into places.
type scale struct {
	from, to  unit.Moment
	wide      float64 // of the picture
	perMinute float64
}

func newScale(from, to unit.Moment, wide float64) scale {
	return scale{from: from, to: to, wide: wide, perMinute: (wide - namesWidth - rightMargin) / float64(to-from)}
}

func (s scale) x(c unit.Moment) float64 { return namesWidth + float64(c-s.from)*s.perMinute }

// cut is the part of a time that this stretch shows; before and after tell whether there is more of it.
func (s scale) cut(from, to unit.Moment) (a, b unit.Moment, before, after bool) {
	return max(from, s.from), min(to, s.to), from < s.from, to > s.to
}

// grid draws hours and half hours. No hour stands where the words of now do.
func (s scale) grid(c Canvas, t plan.Timetable, height float64) {
	taken := Box{}
	if s.has(t.Now) {
		taken = s.nowBox(*t.Now)
	}
	for m := s.from + mod(-s.from, 30); m <= s.to; m += 30 {
		whole := mod(m, 60) == 0
		style := Style{Stroke: Faint, Width: 1}
		if whole {
			style.Width = 2
		}
		c.Line(Point{s.x(m), axisHeight - 4}, Point{s.x(m), height}, style)
		half := textWidth(m.String(), axisType) / 2
		free := s.x(m)+half < taken.X || s.x(m)-half > taken.X+taken.W
		if free && (whole || s.to-s.from <= 120) {
			c.Text(Point{s.x(m), axisHeight - 10}, m.String(), axisType)
		}
	}
}

func (s scale) lane(c Canvas, t plan.Timetable, codes Codes, l lane) {
	whole := Box{namesWidth, l.y, float64(s.to-s.from) * s.perMinute, l.height * float64(l.lines)}
	c.Line(Point{0, l.y + whole.H + rowGap/2}, Point{s.wide, l.y + whole.H + rowGap/2}, Style{Stroke: Faint, Width: 1})
	s.name(c, l)
	for _, away := range l.row.Away {
		s.away(c, l, whole, away)
	}
	moved := shifts(t)
	for i, b := range l.row.Bars {
		if by, ok := moved[b.Task]; ok {
			s.ghost(c, l, i, by)
		}
	}
	for i, b := range l.row.Bars {
		if b.Task >= 0 && b.Task < len(t.Tasks) {
			task := asOf(t.Tasks[b.Task], b, t.Now)
			s.slack(c, task, l, i)
			s.bar(c, task, signsOf(task, moved[b.Task]), codes, b, l.top(i), l.height)
		}
	}
}

// asOf is a task as one of its bars shows it: of a task that has begun, what lies behind is done.
func asOf(task plan.Task, b plan.Bar, now *unit.Moment) plan.Task {
	if task.State == plan.Begun && now != nil && b.To <= *now {
		task.State = plan.Done
	}
	return task
}

// name sets the name of a row, on two lines when it is long.
func (s scale) name(c Canvas, l lane) {
	typ := nameType
	if !l.row.Person {
		typ.Bold = false
		typ.Size = 16
	}
	const room = namesWidth - 14
	first, second := broken(l.row.Name, room, typ)
	base := l.y + l.height/2 + 6
	if second == "" {
		c.Text(Point{6, base}, fit(first, room, typ), typ)
		return
	}
	c.Text(Point{6, base - 10}, fit(first, room, typ), typ)
	c.Text(Point{6, base + 10}, fitEnds(second, room, typ), typ)
}

// broken splits a text at the last space where its first part fits.
func broken(text string, width float64, t Type) (first, second string) {
	if textWidth(text, t) <= width {
		return text, ""
	}
	at := -1
	for i, r := range text {
		if textWidth(text[:i], t) > width {
			break
		}
		if r == ' ' && i > 0 {
			at = i
		}
	}
	if at < 0 {
		return text, ""
	}
	return text[:at], text[at+1:]
}

// fitEnds is fit, but of a piece with a number ("burner of the range no. 2") the number stays.
func fitEnds(text string, width float64, t Type) string {
	at := strings.LastIndex(text, "no. ")
	if at < 0 || textWidth(text, t) <= width || len(text)-at > len("no. 999") {
		return fit(text, width, t)
	}
	end := text[at:]
	return strings.TrimSpace(fit(strings.TrimSpace(text[:at]), width-textWidth(" "+end, t), t) + " " + end)
}

func (s scale) away(c Canvas, l lane, whole Box, b plan.Bar) {
	from, to, _, _ := s.cut(b.From, b.To)
	if from >= to {
		return
	}
	box := Box{s.x(from), l.y, float64(to-from) * s.perMinute, whole.H}
	c.Group(fmt.Sprintf("%s away %s to %s", l.row.Name, b.From.String(), b.To.String()), func(c Canvas) {
		c.Rect(box, Style{Fill: Paper, Pattern: Hatched, Stroke: Faint, Width: 1})
		if word := fit("away", box.W-12, awayType); word == "away" {
			c.Rect(Box{box.X + box.W/2 - 24, box.Y + box.H/2 - 12, 48, 24}, Style{Fill: Paper})
			c.Text(Point{box.X + box.W/2, box.Y + box.H/2 + 5}, word, awayType)
		}
	})
}

// barStrip is the height of the strip of pattern on top of a bar: text never stands on a pattern.
const barStrip = 11.0

// Bars too short for words are low and all pattern, so that those with words stand out; the shortest stays visible.
const (
	narrowBar = 16.0
	leastBar  = 4.0
)

// low is the lower part of a box.
func low(b Box) Box { return Box{b.X, b.Y + b.H*0.6, b.W, b.H * 0.4} }

func (s scale) bar(c Canvas, task plan.Task, signs signs, codes Codes, b plan.Bar, y, height float64) {
	from, to, before, after := s.cut(b.From, b.To)
	if from >= to {
		return
	}
	box := Box{s.x(from), y, max(leastBar, float64(to-from)*s.perMinute-1), height - 2}
	c.Group(Spoken(task, codes, b), func(c Canvas) {
		if box.W < narrowBar {
			box = low(box)
			c.Rect(box, patternOf(task, codes))
			if roster.Critical(task) {
				heavyEdge(c, box)
				criticalSign(c, Point{box.X + box.W/2, box.Y - 7})
			}
			return
		}
		c.Rect(box, groundOf(task))
		c.Rect(Box{box.X, box.Y, box.W, barStrip}, patternOf(task, codes))
		if roster.Critical(task) {
			heavyEdge(c, box)
		}
		signs.draw(c, box)
		s.words(c, box, codes, task, before)
		if after {
			arrow(c, box)
		}
	})
}

// patternOf is the strip of a task's dish; what is done has none, so that the rest stands out.
func patternOf(task plan.Task, codes Codes) Style {
	if task.State == plan.Done {
		return Style{Fill: Paper, Stroke: Faint, Width: 1}
	}
	return Style{Pattern: codes.Pattern(task.Dish), Stroke: Ink, Width: 1}
}

func groundOf(task plan.Task) Style {
	if task.State == plan.Done {
		return Style{Fill: Paper, Stroke: Faint, Width: 1, Round: 2}
	}
	return Style{Fill: Wash, Stroke: Ink, Width: 1, Round: 2}
}

// arrow says, beside its end, that a bar goes on in the next stretch.
func arrow(c Canvas, b Box) {
	x, y := b.X+b.W+4, b.Y+(b.H+barStrip)/2
	c.Polyline([]Point{{x, y - 6}, {x + 7, y}, {x, y + 6}}, Style{Stroke: Ink, Width: 2})
}

// words sets as much of code and label as the bar takes: both, the code, the code on end, or the dish's letter. Of what is done they
// are light.
func (s scale) words(c Canvas, box Box, codes Codes, task plan.Task, before bool) {
	code := codes.Task(task)
	if before && code != "" {
		code = "…" + code
	}
	letter := codes.Dish(task.Dish)
	middle := Point{box.X + box.W/2, box.Y + barStrip + (box.H-barStrip)/2}
	width := textWidth(code, codeType)
	left := box.X + 4
	if roster.Critical(task) {
		left += edgeWidth
	}
	bold, light := codeType, barType
	if task.State == plan.Done {
		bold.Tone, light.Tone = Quiet, Quiet
	}
	centred := bold
	centred.Anchor = Middle
	switch {
	case width+2*(left-box.X) <= box.W:
		if code != "" {
			c.Text(Point{left, middle.Y + 6}, code, bold)
			left += width + 6
		}
		if label := fit(Brief(task), box.X+box.W-left-4, light); label != "" {
			c.Text(Point{left, middle.Y + 6}, label, light)
		}
	case width <= box.H-barStrip:
		centred.Turned = true
		c.Text(Point{middle.X + 6, middle.Y}, code, centred)
	case textWidth(letter, codeType)+2 <= box.W:
		c.Text(Point{middle.X, middle.Y + 6}, letter, centred)
	}
}

// Brief is a task's label without the full stop of a sentence.
func Brief(task plan.Task) string { return strings.TrimRight(task.Label, ". ") }

// Spoken is what a bar stands for, in few words: the code of the step leads to the rest.
func Spoken(task plan.Task, codes Codes, b plan.Bar) string {
	text := codes.Task(task)
	if text == "" {
		text = Brief(task)
	}
	if task.Loads > 1 {
		text += fmt.Sprintf(", load %d of %d", task.Load, task.Loads)
	}
	text = fmt.Sprintf("%s, %s to %s", text, b.From, b.To)
	switch {
	case task.State != plan.ToDo:
		text += ", " + string(task.State)
	case roster.Critical(task):
		text += ", critical"
	}
	return text
}

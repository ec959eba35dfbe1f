package draw

import (
	"slices"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/roster"
)

// DaySign is a sign of a timeline and what it says.
type DaySign struct {
	Says string
	draw func(Canvas, Box)
}

// The size of a mark in a key.
const (
	markWide = 48.0
	markTall = 26.0
)

// Picture is the mark alone, for the key of a page.
func (m DaySign) Picture() Picture {
	return Picture{Width: markWide, Height: markTall, Title: m.Says, Draw: func(c Canvas) { m.draw(c, Box{1, 1, markWide - 2, markTall - 2}) }}
}

// Sign is that of a dish: its pattern.
func (c Codes) Sign(id, says string) DaySign {
	return DaySign{says, func(on Canvas, b Box) { on.Rect(b, Style{Fill: Paper, Pattern: c.Pattern(id), Stroke: Ink, Width: 1}) }}
}

// DayKey is the signs that a timetable needs, beside those of its dishes.
func DayKey(t plan.Timetable) []DaySign {
	var marks []DaySign
	has := func(yes func(plan.Task) bool) bool { return slices.ContainsFunc(t.Tasks, yes) }
	if has(roster.Critical) {
		marks = append(marks, DaySign{"critical: a delay here makes the day end later", func(c Canvas, b Box) {
			keyBar(c, b, Style{Fill: Wash, Stroke: Ink, Width: 1}, criticalSign)
			heavyEdge(c, b)
		}})
	}
	if has(func(k plan.Task) bool { return k.State == plan.ToDo && k.Slack > 0 }) {
		marks = append(marks, DaySign{"slack: may be so much later; without a stop, more than fits before the next bar", keySlack})
	}
	if has(func(k plan.Task) bool { return k.State == plan.Begun }) {
		marks = append(marks, DaySign{"begun", func(c Canvas, b Box) { keyBar(c, b, Style{Fill: Wash, Stroke: Ink, Width: 1}, begunSign) }})
	}
	if has(func(k plan.Task) bool { return k.State == plan.Done }) {
		marks = append(marks, DaySign{"done", func(c Canvas, b Box) { keyBar(c, b, Style{Fill: Paper, Stroke: Faint, Width: 1}, doneSign) }})
	}
	if len(shifts(t)) > 0 {
		marks = append(marks, DaySign{"moved, later or earlier", func(c Canvas, b Box) {
			keyBar(c, b, Style{Fill: Wash, Stroke: Ink, Width: 1}, laterSign, earlierSign)
		}}, DaySign{"where it was", func(c Canvas, b Box) { c.Rect(b, Style{Stroke: Quiet, Width: 1.5, Dash: Dashed, Round: 2}) }})
	}
	return marks
}

// keyBar is a bar with signs in its middle.
func keyBar(c Canvas, b Box, st Style, all ...sign) {
	c.Rect(b, st)
	x := b.X + b.W/2 - signRoom/2*float64(len(all)-1)
	for _, sign := range all {
		sign(c, Point{x, b.Y + b.H/2})
		x += signRoom
	}
}

func keySlack(c Canvas, b Box) {
	line := Style{Stroke: Ink, Width: 1.5}
	y := b.Y + b.H - 7
	c.Rect(Box{b.X, b.Y, b.W * 0.4, b.H}, Style{Fill: Wash, Stroke: Ink, Width: 1})
	c.Line(Point{b.X + b.W*0.4, y}, Point{b.X + b.W - 2, y}, line)
	c.Line(Point{b.X + b.W - 2, y - slackStop/2}, Point{b.X + b.W - 2, y + slackStop/2}, line)
}

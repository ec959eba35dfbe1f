package draw

import (
	"fmt"
	"math"

	"kettlefrost/internal/plan"
)

// Sizes of the picture of a whole day: at 1400 units, type of 16 is 9 points on a landscape page of letter or A4 paper. A day too long
// for that makes the picture wider, so that a minute does not get narrower.
const (
	leastDay    = 1400.0
	leastMinute = 1.6
	headHeight  = 40.0
	pageShape   = 0.64 // height by width of what a landscape page takes below a heading
)

var dayType = Type{Size: 22, Tone: Ink, Bold: true}

// WholeDay is all of a plan's day in one picture, with its hours on top, its name and its key, for a screen or a sheet of its own. Of the
// people only those named in only are shown, with no equipment, when it is not empty. It is false when no task has a time.
func WholeDay(p plan.Plan, only ...string) (Picture, bool) {
	pictures := wholeDay(p, only, math.Inf(1))
	if len(pictures) == 0 {
		return Picture{}, false
	}
	return pictures[0], true
}

// DayPages is the whole day cut between its rows into pictures that each fit a landscape page, every one with the hours on top.
func DayPages(p plan.Plan) []Picture { return wholeDay(p, nil, pageShape) }

// wholeDay is the day in pictures of a shape, or higher when a single row is.
func wholeDay(p plan.Plan, only []string, shape float64) []Picture {
	t, codes := p.Timetable, NewCodes(p.Dishes)
	from, to, ok := span(t)
	rows := named(busy(t.Rows, from, to), only)
	if !ok || len(rows) == 0 {
		return nil
	}
	s := newScale(from, to, max(leastDay, namesWidth+rightMargin+float64(to-from)*leastMinute))
	key := dayStrip(p, codes, s.wide)
	room := s.wide*shape - headHeight - axisHeight - key.height()
	var pictures []Picture
	for len(rows) > 0 {
		n := fitting(rows, room)
		lanes, height := layout(rows[:n])
		rows = rows[n:]
		title := fmt.Sprintf("%s, %s to %s", nameOf(p), t.Start, t.End)
		if len(pictures) > 0 {
			title += fmt.Sprintf(" (%d)", len(pictures)+1)
		}
		pictures = append(pictures, Picture{
			Width: s.wide, Height: headHeight + height + key.height(),
			Title: title, Desc: describe(t, from, to),
			Draw: func(c Canvas) {
				c.Text(Point{6, 26}, fit(title, s.wide-12, dayType), dayType)
				s.rows(shifted{c, headHeight}, t, codes, lanes, height)
				key.draw(c, headHeight+height)
			},
		})
	}
	return pictures
}

// fitting is how many of the first rows have room, at least one.
func fitting(rows []plan.Row, room float64) int {
	for n := 2; n <= len(rows); n++ {
		if _, height := layout(rows[:n]); height-axisHeight > room {
			return n - 1
		}
	}
	return len(rows)
}

// nameOf is a run with its day.
func nameOf(p plan.Plan) string {
	if p.Day == "" {
		return p.Run
	}
	return p.Run + ", " + p.Day
}

// named leaves the rows of some people, all rows when nobody is named.
func named(all []plan.Row, only []string) []plan.Row {
	if len(only) == 0 {
		return all
	}
	var rows []plan.Row
	for _, r := range all {
		for _, name := range only {
			if r.Person && r.Name == name {
				rows = append(rows, r)
			}
		}
	}
	return rows
}

// dayStrip is the key below the whole day.
func dayStrip(p plan.Plan, codes Codes, wide float64) strip {
	key := strip{wide: wide}
	add := func(m DaySign, text string) {
		key.add(item{text: text, wide: markWide, sign: func(c Canvas, at Point) {
			m.draw(c, Box{at.X - markWide/2, at.Y - 10, markWide, 20})
		}})
	}
	for _, d := range p.Dishes {
		add(codes.Sign(d.ID, d.Name), codes.Dish(d.ID)+" "+d.Name)
	}
	for _, m := range DayKey(p.Timetable) {
		add(m, m.Says)
	}
	return key
}

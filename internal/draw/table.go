package draw

import (
	"slices"
	"strings"
)

// Table is a chart as rows of words, for those who cannot see it. Each row is as long as the head.
type Table struct {
	Head []string
	Rows [][]string
}

// none stands where a line has no temperature.
const none = "–"

// Table is the temperatures of each line at even times, and at the times of marks and limits with a note of what they are.
// Between two points a line is straight, as drawn.
func (c Curves) Table() Table {
	c = c.cleaned()
	table := Table{Head: []string{"time"}}
	columns := make([][]At, 0, len(c.Lines)+2)
	for _, l := range c.Lines {
		table.Head = append(table.Head, l.Name)
		columns = append(columns, l.Points)
	}
	if len(c.Band.Low) > 0 {
		table.Head = append(table.Head, c.Band.Name+", low", c.Band.Name+", high")
		columns = append(columns, c.Band.Low, c.Band.High)
	}
	table.Head = append(table.Head, "note")
	if len(columns) == 0 && len(c.Marks) == 0 {
		return table
	}
	notes := c.notes()
	for _, t := range c.rowTimes(notes) {
		row := []string{lasting(t)}
		for _, points := range columns {
			word := none
			if temp, ok := tempAt(points, t); ok {
				word = degrees(temp, c.Units)
			}
			row = append(row, word)
		}
		table.Rows = append(table.Rows, append(row, strings.Join(notes[t], "; ")))
	}
	return table
}

// notes are what is to be said at which time.
func (c Curves) notes() map[float64][]string {
	notes := map[float64][]string{}
	for _, m := range c.Marks {
		notes[m.TimeS] = append(notes[m.TimeS], m.Text)
	}
	for _, l := range c.Limits {
		if l.ByS > 0 {
			notes[l.ByS] = append(notes[l.ByS], "limit: "+l.Name)
		}
	}
	for _, v := range c.verdicts() {
		notes[v.TimeS] = append(notes[v.TimeS], v.spoken(c.cores() > 1))
	}
	return notes
}

// rowTimes are those of the ticks, the notes and the end.
func (c Curves) rowTimes(notes map[float64][]string) []float64 {
	reach, _ := c.reaches()
	end := 0.0
	for _, l := range c.Lines {
		end = max(end, l.Points[len(l.Points)-1].TimeS)
	}
	times := []float64{end}
	for _, k := range timeTicks(reach.low, max(end, reach.low+minuteS), 10) {
		times = append(times, k.at)
	}
	for t := range notes {
		times = append(times, t)
	}
	slices.Sort(times)
	return slices.Compact(times)
}

// Table is the temperatures of each line at the depths that are ticked.
func (p Profile) Table() Table {
	p = p.cleaned()
	table := Table{Head: []string{"depth"}}
	depths := noReach()
	for _, l := range p.Lines {
		table.Head = append(table.Head, l.Name)
		depths.add(l.Places[0].DepthM)
		depths.add(l.Places[len(l.Places)-1].DepthM)
	}
	if depths.empty() {
		return table
	}
	for _, k := range depthTicks(depths.low, depths.high, 8, p.Units) {
		row := []string{k.text}
		for _, l := range p.Lines {
			word := none
			if temp, ok := l.at(k.at); ok {
				word = degrees(temp, p.Units)
			}
			row = append(row, word)
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

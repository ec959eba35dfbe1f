package cooling

import (
	"math"
	"sort"
)

const (
	curvePoints = 60
	// crowded is how much closer the points lie at the beginning, where the curve bends.
	crowded = 1.3
	// drawnS is as far as food is drawn that does not get cold.
	drawnS = 48 * 3600
)

// curve samples the three courses at the same moments, until the low one is at the end.
func curve(c [levels]course) []CurvePoint {
	lastS := c[usual].timeS
	if !c[usual].reached {
		lastS = min(lastS, drawnS)
	} else if c[low].reached {
		lastS = max(lastS, c[low].timeS)
	}
	var lines [levels][]point
	for l := range levels {
		lines[l] = c[l].line()
	}
	points := make([]CurvePoint, 0, curvePoints)
	for i := range curvePoints {
		t := lastS * math.Pow(float64(i)/(curvePoints-1), crowded)
		p := at(lines[usual], t)
		points = append(points, CurvePoint{TimeS: t, CoreC: p.coreC, MeanC: p.meanC, MediumC: p.mediumC,
			LowC: at(lines[low], t).coreC, HighC: at(lines[high], t).coreC})
	}
	return points
}

// line is all points of a course; between two stages the food stays as it is.
func (c course) line() []point {
	var line []point
	for i, l := range c.legs {
		for _, p := range l.points {
			p.timeS += c.startsS[i]
			line = append(line, p)
		}
	}
	return line
}

// at is between the points, and at the first or last beyond them.
func at(line []point, timeS float64) point {
	i := sort.Search(len(line), func(i int) bool { return line[i].timeS > timeS })
	switch i {
	case 0:
		return line[0]
	case len(line):
		return line[i-1]
	}
	a, b := line[i-1], line[i]
	along := (timeS - a.timeS) / (b.timeS - a.timeS)
	between := func(x, y float64) float64 { return x + along*(y-x) }
	return point{timeS, between(a.coreC, b.coreC), between(a.meanC, b.meanC), between(a.mediumC, b.mediumC)}
}

package draw

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"kettlefrost/internal/unit"
)

// Profile is a chart of temperature through a thickness at several times. Its lines are in the order of time and drawn the stronger
// the later. Places may come in any order; those that are not finite, or absurd (beyond 10 000 °C or 100 m), are left out.
type Profile struct {
	Title, Desc string
	Units       unit.System
	Lines       []ProfileLine
	FreezingC   *float64 // where food begins to freeze, drawn as a line; nil for none

	LowFace, HighFace string // what is at the least and the greatest depth: "tray", "air"

	// Size of the picture in drawing units, about 600 by 400 if 0.
	Width, Height float64
}

// ProfileLine is the temperatures at one time: "start", "1 h".
type ProfileLine struct {
	Name   string
	Places []Place
}

// Place is a temperature, °C, at a depth, m.
type Place struct{ DepthM, TempC float64 }

const mostDepthM = 100.0

func (p Place) fit() bool { // false for NaN, too
	return math.Abs(p.DepthM) <= mostDepthM && math.Abs(p.TempC) <= mostTempC
}

// cleaned is a copy with only what can be drawn, in the order of depth.
func (p Profile) cleaned() Profile {
	var lines []ProfileLine
	for _, l := range p.Lines {
		var kept []Place
		for _, at := range l.Places {
			if at.fit() {
				kept = append(kept, at)
			}
		}
		slices.SortStableFunc(kept, func(a, b Place) int {
			switch {
			case a.DepthM < b.DepthM:
				return -1
			case a.DepthM > b.DepthM:
				return 1
			}
			return 0
		})
		if len(kept) > 0 {
			lines = append(lines, ProfileLine{l.Name, kept})
		}
	}
	p.Lines = lines
	if p.FreezingC != nil && !(Place{TempC: *p.FreezingC}).fit() {
		p.FreezingC = nil
	}
	return p
}

// at is the temperature at a depth between two places.
func (l ProfileLine) at(depthM float64) (float64, bool) {
	points := make([]At, len(l.Places)) // depth for time: one way to go between points is enough
	for i, p := range l.Places {
		points[i] = At{p.DepthM, p.TempC}
	}
	return tempAt(points, depthM)
}

// Picture draws the profile. Without a single place it is an empty frame with words.
func (p Profile) Picture() Picture {
	p = p.cleaned()
	if len(p.Lines) == 0 {
		return nothing(p.Title, p.Desc, "No temperatures to show.", p.Width, p.Height)
	}
	return newProfileChart(p).picture()
}

// profileChart is a profile laid out.
type profileChart struct {
	Profile
	frame
	lines   [][]Point
	labels  []label
	beneath strip
}

// facesTall is room for the words of the faces.
const facesTall = 26.0

func newProfileChart(p Profile) profileChart {
	depths, temps := noReach(), noReach()
	for _, l := range p.Lines {
		for _, at := range l.Places {
			depths.add(at.DepthM)
			temps.add(at.TempC)
		}
	}
	if p.FreezingC != nil {
		temps.add(*p.FreezingC)
	}
	depths = depths.atLeast(0.001)
	tall := plotHeight
	if p.Height > 0 && p.Height <= mostChart {
		tall = max(leastPlot, p.Height-abovePlot-belowPlot-facesTall)
	}
	width := size(p.Width, chartWidth)
	h := profileChart{Profile: p, frame: newFrame(width, tall, temps, p.Units, nil), beneath: strip{wide: width}}
	h.left, h.right = depths.low, depths.high
	h.across = depthTicks(h.left, h.right, int(h.plot.W/depthRoom), p.Units)
	for _, l := range p.Lines {
		places := make([]Point, len(l.Places))
		for i, at := range l.Places {
			places[i] = h.point(at.DepthM, at.TempC)
		}
		h.lines = append(h.lines, thin(places, mostPoints/len(p.Lines)))
	}
	h.name()
	return h
}

// name puts the names of the lines where they run; what finds no room goes beneath.
func (h *profileChart) name() {
	crowd := crowd{within: h.plot}
	for i, points := range h.lines {
		crowd.addLine(points, i)
	}
	if h.FreezingC != nil {
		line := h.freezing()
		crowd.addLine(line, len(h.lines))
		spots := along(line, 0)
		for i := range spots {
			spots[i].close = true
		}
		l := label{text: "begins to freeze, " + degrees(*h.FreezingC, h.Units), typ: tickType, line: len(h.lines), most: bearable, spots: spots}
		if crowd.put(&l) {
			h.labels = append(h.labels, l)
		} else {
			h.beneath.add(item{sign: func(c Canvas, p Point) { c.Line(Point{p.X - 20, p.Y}, Point{p.X + 20, p.Y}, freezingStyle) }, wide: 40, text: l.text})
		}
	}
	for i, line := range h.Lines {
		l := label{text: fit(line.Name, h.plot.W/2, lineType), typ: lineType, line: i, most: bearable, spots: along(h.lines[i], 0.5), on: true}
		switch {
		case l.text == "":
		case crowd.put(&l):
			h.labels = append(h.labels, l)
		default:
			h.beneath.add(item{sign: func(c Canvas, p Point) { c.Line(Point{p.X - 20, p.Y}, Point{p.X + 20, p.Y}, h.strength(i)) }, wide: 40, text: line.Name})
		}
	}
}

var freezingStyle = Style{Stroke: Ink, Width: 1.5, Dash: LongDashed}

func (h profileChart) freezing() []Point {
	y := h.y(*h.FreezingC)
	return []Point{{h.plot.X, y}, {h.plot.X + h.plot.W, y}}
}

// strength of a line: from thin at the start to strong at the end.
func (h profileChart) strength(i int) Style {
	share := 1.0
	if len(h.Lines) > 1 {
		share = float64(i) / float64(len(h.Lines)-1)
	}
	return Style{Stroke: Ink, Width: 1.5 + 2.5*share}
}

func (h profileChart) picture() Picture {
	foot := h.plot.Y + h.plot.H + belowPlot
	if h.LowFace != "" || h.HighFace != "" {
		foot += facesTall
	}
	height := foot + h.beneath.height()
	if h.Height <= mostChart {
		height = max(height, h.Height)
	}
	return Picture{Width: size(h.Width, chartWidth), Height: height, Title: h.Title, Desc: h.said(), Draw: func(c Canvas) {
		h.grid(c)
		h.words(c)
		h.faces(c)
		if h.FreezingC != nil {
			c.Polyline(h.freezing(), freezingStyle)
		}
		for i, points := range h.lines {
			c.Group(h.spoken(h.Lines[i]), func(c Canvas) {
				if len(points) == 1 {
					dot(c, points[0])
					return
				}
				c.Polyline(points, h.strength(i))
			})
		}
		for _, l := range h.labels {
			h.setLabel(c, l, Paper)
		}
		h.beneath.draw(c, foot)
	}}
}

// faces names what is at the two ends, and closes the frame at the far one.
func (h profileChart) faces(c Canvas) {
	right, bottom := h.plot.X+h.plot.W, h.plot.Y+h.plot.H
	c.Line(Point{right, h.plot.Y}, Point{right, bottom}, Style{Stroke: Quiet, Width: 1.5})
	if h.LowFace == "" && h.HighFace == "" {
		return
	}
	base := bottom + belowPlot + 16
	end := limitType
	end.Anchor = End
	c.Text(Point{h.plot.X, base}, fit(h.LowFace, h.plot.W/2-10, limitType), limitType)
	c.Text(Point{right, base}, fit(h.HighFace, h.plot.W/2-10, limitType), end)
}

// spoken is a line in few words: its ends and its hottest and coldest place between them.
func (h profileChart) spoken(l ProfileLine) string {
	temps := noReach()
	for _, at := range l.Places {
		temps.add(at.TempC)
	}
	return fmt.Sprintf("%s: from %s to %s", l.Name, degrees(temps.low, h.Units), degrees(temps.high, h.Units))
}

func (h profileChart) said() string {
	var all []string
	if h.Desc != "" {
		all = append(all, h.Desc)
	}
	for _, l := range h.Lines {
		all = append(all, h.spoken(l)+".")
	}
	return strings.Join(all, " ")
}

package web

import (
	"math"
	"strconv"
	"strings"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/unit"
)

// dialKind is how the slider works for one kind of shape: which length it moves, in which steps, and how far.
type dialKind struct {
	label  string // of the length that moves
	sides  string // of all lengths, when there are more
	way    string // said behind the ends when there are more
	us     dialSteps
	metric dialSteps
	size   map[unit.System]string // to begin with
}

// dialSteps are whole multiples of a step.
type dialSteps struct {
	step        unit.Length
	least, most int
}

var dials = map[heatcase.Kind]dialKind{
	heatcase.Pan: {"Depth in the pan", "", "", dialSteps{unit.Inch / 8, 2, 48}, dialSteps{unit.Millimetre, 5, 150},
		map[unit.System]string{unit.US: "2 in", unit.Metric: "50 mm"}},
	heatcase.Bag: {"Thickness of the bag", "", "", dialSteps{unit.Inch / 8, 2, 32}, dialSteps{unit.Millimetre, 5, 100},
		map[unit.System]string{unit.US: "1 in", unit.Metric: "25 mm"}},
	heatcase.Slab: {"Thickness of the layer", "", "", dialSteps{unit.Inch / 8, 2, 48}, dialSteps{unit.Millimetre, 5, 150},
		map[unit.System]string{unit.US: "1 in", unit.Metric: "25 mm"}},
	heatcase.Pot: {"Depth in the pot", "Width x depth", " deep", dialSteps{unit.Inch / 2, 4, 48}, dialSteps{unit.Centimetre, 5, 60},
		map[unit.System]string{unit.US: "12 in x 10 in", unit.Metric: "30 cm x 25 cm"}},
	heatcase.Brick: {"Height of the block", "Length x width x height", " high", dialSteps{unit.Inch / 4, 2, 48}, dialSteps{5 * unit.Millimetre, 2, 60},
		map[unit.System]string{unit.US: "8 in x 6 in x 3 in", unit.Metric: "20 cm x 15 cm x 8 cm"}},
}

func (d dialKind) usual(s unit.System) string { return d.size[s] }

func (d dialKind) steps(s unit.System) dialSteps {
	if s == unit.Metric {
		return d.metric
	}
	return d.us
}

func (d dialSteps) length(n int) unit.Length { return d.step * unit.Length(n) }

// at is the step nearest to a length, within the reach of the slider.
func (d dialSteps) at(l unit.Length) int {
	n := math.Round(float64(l) / float64(d.step))
	return int(min(max(n, float64(d.least)), float64(d.most)))
}

// moved is the length of a shape that the slider moves.
func moved(s *heatcase.Shape) *unit.Length {
	switch s.Kind {
	case heatcase.Pot:
		return &s.Depth
	case heatcase.Brick:
		return &s.Height
	}
	return &s.Thickness
}

// slide moves the shape to where the slider stands; it wins over the text.
func (q *heatQuestion) slide(text string) {
	n, err := strconv.Atoi(text)
	if err != nil {
		return
	}
	key, d := string(q.kind), dials[q.kind]
	if q.asked.Shape.Kind != q.kind { // its text cannot be read
		if q.asked.Set(key, d.usual(q.units)) != nil {
			return
		}
	}
	steps := d.steps(q.units)
	*moved(&q.asked.Shape) = steps.length(min(max(n, steps.least), steps.most))
	q.texts[key] = sizes(q.asked.Shape, q.units)
	for i, p := range q.problems {
		if p.key == key {
			q.problems = append(q.problems[:i], q.problems[i+1:]...)
			break
		}
	}
}

// sizes is a shape as its text says it.
func sizes(s heatcase.Shape, units unit.System) string {
	lengths := []unit.Length{s.Thickness}
	switch s.Kind {
	case heatcase.Pot:
		lengths = []unit.Length{s.Diameter, s.Depth}
	case heatcase.Brick:
		lengths = []unit.Length{s.Length, s.Width, s.Height}
	}
	var parts []string
	for _, l := range lengths {
		parts = append(parts, readable(l, units, unit.ParseLength))
	}
	return strings.Join(parts, " x ")
}

// readable is a quantity as a cook writes it if that reads back the same, and exact if not.
func readable[T interface {
	comparable
	shown
	String() string
}](v T, units unit.System, parse func(string) (T, error)) string {
	text := v.Show(units)
	if again, err := parse(text); err == nil && again == v {
		return text
	}
	return v.String()
}

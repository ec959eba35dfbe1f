package draw

import (
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Sizes of a drawing of masses.
const (
	massesWidth = 900.0
	massesLeft  = 64.0 // room for codes
	massesRoom  = massesWidth - massesLeft - 8
	titleHeight = 30.0
	barHeight   = 34.0
	stepGap     = 26.0
	leastMass   = 3.0 // keeps a pinch visible
)

// portion is one part of what goes into a step or comes out of it.
type portion struct {
	name string
	mass unit.Mass
	kind plan.LineKind
	lost bool
}

// Masses shows for each step of a dish what goes in above what comes out, all to one scale: the two bars of a step are as long as
// each other when mass is neither lost nor won. What is lost is hatched, by-products are dotted.
func Masses(d plan.Dish, codes Codes, units unit.System) Picture {
	scale := massScale(d)
	return Picture{
		Width: massesWidth, Height: float64(len(d.Steps)) * (titleHeight + 2*barHeight + 4 + stepGap),
		Title: "Where the mass of " + d.Name + " goes",
		Desc:  "For each step, above what goes in and below what comes out, to one scale. Losses are hatched.",
		Draw: func(c Canvas) {
			made := map[string]string{} // output to the code of the step that gave it
			for i, s := range d.Steps {
				y := float64(i) * (titleHeight + 2*barHeight + 4 + stepGap)
				code := codes.Step(d.ID, s.ID)
				c.Text(Point{0, y + titleHeight - 9}, code, Type{Size: 18, Bold: true, Tone: Ink})
				c.Text(Point{massesLeft, y + titleHeight - 9}, fit(s.Do, massesRoom, nameType), nameType)
				row(c, y+titleHeight, "in", goingIn(s, made), scale, units)
				row(c, y+titleHeight+barHeight+4, "out", comingOut(s), scale, units)
				for _, o := range s.Out {
					made[o.ID] = code
				}
			}
		},
	}
}

// massScale is the length of a kilogram, so that the biggest step fills the width.
func massScale(d plan.Dish) float64 {
	most := unit.Gram
	for _, s := range d.Steps {
		most = max(most, total(goingIn(s, nil)), total(comingOut(s)))
	}
	return massesRoom / most.Kg()
}

func total(portions []portion) (sum unit.Mass) {
	for _, p := range portions {
		sum += max(0, p.mass)
	}
	return sum
}

func goingIn(s plan.Step, made map[string]string) []portion {
	var all []portion
	for _, l := range s.In {
		name := l.Name
		if code := made[l.ID]; code != "" && l.Kind == plan.Earlier {
			name = "from " + code
		}
		all = append(all, portion{name: name, mass: l.Mass, kind: l.Kind})
	}
	return all
}

func comingOut(s plan.Step) []portion {
	var all []portion
	for _, l := range s.Out {
		all = append(all, portion{name: l.Name, mass: l.Mass, kind: l.Kind})
	}
	for _, l := range s.Losses {
		all = append(all, portion{name: l.Cause, mass: l.Mass, lost: true})
	}
	return all
}

// row draws portions beside each other, with as much of name and mass as each takes.
func row(c Canvas, y float64, word string, portions []portion, scale float64, units unit.System) {
	c.Text(Point{0, y + barHeight/2 + 6}, word, Type{Size: 16, Tone: Quiet})
	x := massesLeft
	for _, p := range portions {
		if p.mass <= 0 {
			continue
		}
		width := p.mass.Kg() * scale
		box := Box{x, y, max(leastMass, width-1), barHeight}
		c.Group(p.name+", "+p.mass.Show(units), func(c Canvas) { p.draw(c, box, units) })
		x += width
	}
}

func (p portion) draw(c Canvas, box Box, units unit.System) {
	style := Style{Fill: Wash, Stroke: Ink, Width: 1}
	switch {
	case p.lost:
		style.Pattern = Hatched
	case p.kind == plan.ByProduct:
		style.Pattern = Dots
	case p.kind == plan.Earlier:
		style.Fill = Paper
	}
	c.Rect(box, style)
	text := p.name + " " + p.mass.Show(units)
	if textWidth(text, barType) > box.W-10 {
		text = fit(p.name, box.W-10, barType)
	}
	if text == "" {
		return
	}
	if style.Pattern != Plain { // text never stands on a pattern
		c.Rect(Box{box.X + 3, box.Y + 6, textWidth(text, barType) + 4, box.H - 12}, Style{Fill: Paper})
	}
	c.Text(Point{box.X + 5, box.Y + box.H/2 + 6}, text, barType)
}

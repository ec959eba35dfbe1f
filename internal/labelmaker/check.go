package labelmaker

import (
	"fmt"
	"math"
	"slices"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/finding"
)

// Codes of what is wrong with a label that was laid out.
const (
	CodeOverlap   = "label-overlap"
	CodeOutside   = "label-outside"
	CodeTypeSmall = "label-type-small"
	CodeContrast  = "label-contrast"
	CodeQuiet     = "label-quiet-zone"
	CodeNetPlace  = "label-net-place"
)

const (
	// slack is by how much ink may touch, in points: a dot of a fine printer.
	slack = 0.12
	// touching is by how much letters beside each other on one line may reach into each other's box, in type sizes.
	touching = 0.2
	// leastContrast of type and its ground, as a ratio of luminances (WCAG 2.2, 1.4.3).
	leastContrast = 4.5
)

// Check looks at a label again, with none of the layout's code: it draws it and measures the ink. Nothing overlaps, all is within the printable
// area, every type is as high as the rules ask for, dark on light; around symbols there is room, and the net quantity stands where it must. Nothing
// found is not a promise that the words are right.
func Check(l Label) finding.List {
	r := newRecorder()
	l.Picture().Draw(r)
	c := checker{label: l, seen: r.seen, recorder: r}
	c.inside()
	c.apart()
	c.high()
	c.dark()
	c.quiet()
	c.net()
	return c.found
}

type checker struct {
	label    Label
	seen     []inked
	recorder *recorder
	found    finding.List
}

func (c *checker) stop(code string, x inked, message string, figures ...finding.Figure) {
	c.found = append(c.found, finding.Finding{Code: code, Severity: finding.Stop, Where: "label, " + x.name, Message: message, Figures: figures, Fix: "do not print it; this is a mistake of the program"})
}

func (x inked) says() string {
	if x.text == "" {
		return "a mark"
	}
	return fmt.Sprintf("%q", shortened(x.text))
}

func (c *checker) inside() {
	p := c.label.Printable
	for _, x := range c.seen {
		if over := max(p.X-x.box.X, p.Y-x.box.Y, x.box.X+x.box.W-p.X-p.W, x.box.Y+x.box.H-p.Y-p.H); over > slack || math.IsNaN(over) {
			c.stop(CodeOutside, x, x.says()+" reaches out of the printable area", mm("by", over/PtPerMm))
		}
	}
}

// overlap is how deep two boxes lie in each other, the shorter way; 0 or less when they do not.
func overlap(a, b draw.Box) float64 {
	across := min(a.X+a.W, b.X+b.W) - max(a.X, b.X)
	down := min(a.Y+a.H, b.Y+b.H) - max(a.Y, b.Y)
	return min(across, down)
}

// apart looks at every pair, but for the parts of one symbol or frame among themselves.
func (c *checker) apart() {
	for i, a := range c.seen {
		for _, b := range c.seen[i+1:] {
			if a.text == "" && b.text == "" && a.name == b.name {
				continue
			}
			most := slack
			if a.text != "" && b.text != "" && a.name == b.name && a.base == b.base {
				most = touching * a.Size // the tail of a Q reaches under its neighbour, in any text
			}
			if deep := overlap(a.box, b.box); deep > most {
				c.stop(CodeOverlap, a, fmt.Sprintf("%s lies on %s of %s", a.says(), b.says(), b.name), mm("by", deep/PtPerMm))
			}
		}
	}
}

// high measures letters where the rules do: an x where there are lower-case letters, else a capital.
func (c *checker) high() {
	sizes := map[string]float64{}
	for _, x := range c.seen {
		if x.text == "" {
			continue
		}
		if known := sizes[x.name]; known == 0 || x.Size < known {
			sizes[x.name] = x.Size
		}
		e := slices.IndexFunc(Elements(), func(e Element) bool { return e.String() == x.name })
		if e < 0 {
			c.stop(CodeTypeSmall, x, x.says()+" is of no element that has a least height")
			continue
		}
		least := c.label.Rules.Least[e]
		letterMm := c.letter(x) / PtPerMm
		if letterMm < least.LetterMm-0.005 {
			c.stop(CodeTypeSmall, x, x.says()+" is set in letters that are too low", mm("height", letterMm), mm("at least", least.LetterMm))
		}
		if x.Size < least.TypePt-0.01 {
			c.stop(CodeTypeSmall, x, x.says()+" is set in type that is too small", points("size", x.Size), points("at least", least.TypePt))
		}
	}
	if list, is := sizes[Ingredients.String()]; is && sizes[Contains.String()] > 0 && sizes[Contains.String()] < list-0.01 {
		c.stop(CodeTypeSmall, inked{name: Contains.String()}, "the line of allergens is set smaller than the ingredients", points("size", sizes[Contains.String()]), points("ingredients", list))
	}
}

func points(name string, x float64) finding.Figure {
	return finding.Figure{Name: name, Value: x, Unit: "pt", Text: fmt.Sprintf("%.2f pt", x)}
}

// letter is how high the letters of a text stand, in points.
func (c *checker) letter(x inked) float64 {
	of := 'H'
	for _, r := range x.text {
		if r >= 'a' && r <= 'z' {
			of = 'x'
		}
	}
	return -c.recorder.bounds(letter{of, x.Bold}).top * x.Size
}

// luminances of the tones as they are printed: black and white, the rest as internal/draw's greys may come out. Nothing but ink is drawn on a label.
var luminances = map[draw.Tone]float64{draw.Ink: 0, draw.Paper: 1, draw.Faint: 0.4, draw.Quiet: 0.06, draw.Wash: 0.8}

func (c *checker) dark() {
	for i, x := range c.seen {
		if x.text == "" {
			continue
		}
		ground := luminances[draw.Paper]
		for _, below := range c.seen[:i] {
			if below.text == "" && overlap(x.box, below.box) > slack {
				ground = luminances[below.tone]
			}
		}
		light, dark := max(ground, luminances[x.tone]), min(ground, luminances[x.tone])
		if ratio := (light + 0.05) / (dark + 0.05); ratio < leastContrast {
			c.stop(CodeContrast, x, x.says()+" is hard to tell from its ground", finding.Figure{Name: "contrast", Value: ratio, Text: fmt.Sprintf("%.1f to 1", ratio)})
		}
	}
}

// quiet looks for anything else in the room of a symbol.
func (c *checker) quiet() {
	for _, z := range c.label.Zones {
		for _, x := range c.seen {
			if x.name != z.Element.String() && overlap(x.box, z.Box) > slack {
				c.stop(CodeQuiet, x, x.says()+" lies in the quiet zone of the "+z.Element.String())
			}
		}
		if p := c.label.Printable; z.Box.X < p.X-slack || z.Box.X+z.Box.W > p.X+p.W+slack || z.Box.Y < p.Y-slack || z.Box.Y+z.Box.H > p.Y+p.H+slack {
			c.stop(CodeQuiet, inked{name: z.Element.String()}, "its quiet zone reaches out of the printable area")
		}
	}
}

// net holds the net quantity to its share of the label and its clear room.
func (c *checker) net() {
	rules := c.label.Rules
	for _, x := range c.seen {
		if x.name != NetQuantity.String() {
			continue
		}
		if from := c.label.HighPt * (1 - rules.NetWithin); rules.NetWithin > 0 && x.box.Y < from-slack {
			c.stop(CodeNetPlace, x, fmt.Sprintf("%s does not stand in the lowest %.0f %% of the label", x.says(), 100*rules.NetWithin), mm("from", x.box.Y/PtPerMm), mm("no higher than", from/PtPerMm))
		}
		if !rules.NetClear {
			continue
		}
		up, side := -c.recorder.bounds(letter{'H', x.Bold}).top*x.Size, 2*c.recorder.bounds(letter{'N', x.Bold}).wide*x.Size
		clear := draw.Box{X: x.box.X - side, Y: x.box.Y - up, W: x.box.W + 2*side, H: x.box.H + 2*up}
		for _, other := range c.seen {
			if other.name != x.name && overlap(clear, other.box) > slack {
				c.stop(CodeNetPlace, x, fmt.Sprintf("%s of %s stands in the clear room of the net quantity", other.says(), other.name))
			}
		}
	}
}

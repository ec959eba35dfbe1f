package draw

import (
	"math"
	"slices"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Sizes of a stretch of a river, near those at which it is shown.
const (
	riverWidth  = 320.0
	riverHeight = 160.0
	riverGap    = 6.0 // between what stands beside each other
	leastStream = 2.0 // keeps a pinch visible
	pourTop     = 0.12 * riverHeight
	potTop      = 0.40 * riverHeight
	potFoot     = 0.62 * riverHeight
	lossFoot    = 0.88 * riverHeight
)

// Stretch is one step of a river: its picture, and what waits beside it meanwhile.
type Stretch struct {
	Picture Picture
	Waits   []plan.Line
}

// River is where the masses of a dish flow, one stretch for each step in the order of cooking and one for the end, to be shown below each other:
// at any height the widths are all the food that is in work then, to one scale. Into the pot of a step falls what is new; out of it comes what
// it gives, and beside that, hatched and cut off, what is lost. What a later step takes waits beside the pot.
func River(d plan.Dish, units unit.System) []Stretch {
	var now []stream
	var bends []bend
	for _, s := range d.Steps {
		b := bendOf(s, now)
		bends = append(bends, b)
		now = b.after
	}
	scale := riverScale(bends)
	var all []Stretch
	for i, b := range bends {
		all = append(all, Stretch{Picture: b.picture(d.Steps[i].Do, scale, units), Waits: b.waits()})
	}
	if len(all) > 0 {
		all = append(all, Stretch{Picture: mouth(now, scale, units)})
	}
	return all
}

// stream is an amount of something that was made and is still to be used.
type stream struct {
	line plan.Line
	kind plan.LineKind
}

// bend is what a step does to the streams.
type bend struct {
	before, after []stream
	taken         []stream // from before, in the order of before
	left          []stream // of before, what is not taken
	at            int      // how many of left stand before the pot
	fresh         []plan.Line
	out           []stream
	lost          []plan.Loss
}

func bendOf(s plan.Step, before []stream) bend {
	b := bend{before: before, lost: s.Losses}
	takes := map[string]unit.Mass{}
	for _, l := range s.In {
		if l.Kind == plan.Earlier {
			takes[l.ID] += l.Mass - l.Short
			if l.Short > 0 {
				b.fresh = append(b.fresh, plan.Line{Name: l.StandIn, Mass: l.Short})
			}
			continue
		}
		b.fresh = append(b.fresh, l)
	}
	for _, o := range s.Out {
		b.out = append(b.out, stream{o, o.Kind})
	}
	placed := false
	for _, x := range before {
		m := min(takes[x.line.ID], x.line.Mass)
		if m > 0 {
			taken := x
			taken.line.Mass = m
			b.taken = append(b.taken, taken)
			if !placed { // what it gives stands where the first of what it takes stood
				b.at, placed = len(b.left), true
				b.after = append(b.after, b.out...)
			}
			x.line.Mass -= m
		}
		if x.line.Mass > unit.Gram/10 {
			b.left, b.after = append(b.left, x), append(b.after, x)
		}
	}
	if !placed {
		b.at = len(b.left)
		b.after = append(b.after, b.out...)
	}
	return b
}

// waits is what stands by while the step goes on.
func (b bend) waits() []plan.Line {
	var all []plan.Line
	for _, x := range b.left {
		all = append(all, x.line)
	}
	return all
}

// riverScale is the width of a kilogram, so that the widest place fills the width.
func riverScale(bends []bend) float64 {
	scale := math.Inf(1)
	fit := func(gaps int, masses ...unit.Mass) {
		kg := 0.0
		for _, m := range masses {
			kg += max(0, m.Kg())
		}
		if kg > 0 {
			scale = min(scale, (riverWidth-4-riverGap*float64(gaps)-leastStream*float64(len(masses)))/kg)
		}
	}
	for _, b := range bends {
		var in, out []unit.Mass
		for _, x := range b.left {
			in, out = append(in, x.line.Mass), append(out, x.line.Mass)
		}
		for _, x := range b.taken {
			in = append(in, x.line.Mass)
		}
		for _, l := range b.fresh {
			in = append(in, l.Mass)
		}
		for _, x := range b.out {
			out = append(out, x.line.Mass)
		}
		for _, l := range b.lost {
			out = append(out, l.Mass)
		}
		fit(len(b.left)+1, in...)
		fit(len(out), out...)
		fit(len(b.before), masses(b.before)...)
		fit(len(b.after), masses(b.after)...)
	}
	if math.IsInf(scale, 1) || scale <= 0 {
		return 1e-3
	}
	return scale
}

func masses(streams []stream) []unit.Mass {
	var all []unit.Mass
	for _, x := range streams {
		all = append(all, x.line.Mass)
	}
	return all
}

// extent is from where to where something is wide.
type extent struct{ from, to float64 }

func (r extent) width() float64 { return r.to - r.from }

// lay puts streams beside each other from the left.
func lay(streams []stream, scale float64) []extent {
	x, all := 2.0, make([]extent, 0, len(streams))
	for _, s := range streams {
		w := wide(s.line.Mass, scale)
		all = append(all, extent{x, x + w})
		x += w + riverGap
	}
	return all
}

func wide(m unit.Mass, scale float64) float64 { return max(leastStream, m.Kg()*scale) }

// indexOf is where a stream stands among others, by what it is of.
func indexOf(streams []stream, id string) int {
	return slices.IndexFunc(streams, func(x stream) bool { return x.line.ID == id })
}

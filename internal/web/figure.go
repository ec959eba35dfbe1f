package web

import (
	"strconv"
	"strings"

	"kettlefrost/internal/unit"
)

// figure is a quantity as text: in the units that the cook reads first, and in the others.
type figure struct{ First, Second string }

// shown is what unit's quantities can do.
type shown interface{ Show(unit.System) string }

// reader puts figures into words for one cook.
type reader struct {
	units    unit.System
	currency string
}

func (r reader) other() unit.System {
	if r.units == unit.US {
		return unit.Metric
	}
	return unit.US
}

// fig is a quantity in both systems; the second is left out where it reads the same.
func (r reader) fig(q shown) figure {
	f := figure{First: together(q.Show(r.units)), Second: together(q.Show(r.other()))}
	if f.First == f.Second {
		f.Second = ""
	}
	return f
}

// together keeps a number on the line of its unit.
func together(text string) string { return strings.ReplaceAll(text, " ", "\u00a0") }

// mass is fig, and nothing for no mass.
func (r reader) mass(m unit.Mass) figure {
	if m == 0 {
		return figure{}
	}
	return r.fig(m)
}

func (r reader) volume(v unit.Volume) figure {
	if v == 0 {
		return figure{}
	}
	return r.fig(v)
}

func (r reader) span(d unit.Span) string {
	if d == 0 {
		return ""
	}
	return d.Show(r.units)
}

func (r reader) money(m unit.Money) string { return m.Show(r.currency) }

// times is "1 load" or "6 loads".
func times(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + more
}

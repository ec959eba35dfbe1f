package labelmaker

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
)

// Way is a way out for a label that does not fit, tried.
type Way struct {
	Says    string
	Does    bool     // everything fits then
	Content Content  // of the label, as it would be
	Second  *Content // of a second label of the same stock; nil where there is none
	Stock   Stock
}

// change is a way of having less on a label.
type change struct {
	says  string
	holds func(Content) bool // it changes something
	do    func(*Content) *Content
}

var changes = []change{
	{"the nutrition panel as lines of text, where the pack is small enough for it (21 CFR 101.9(j)(13), from memory)",
		func(c Content) bool { return c.Panel != nil && !c.Panel.Linear },
		func(c *Content) *Content {
			linear := *c.Panel
			linear.Linear = true
			c.Panel = &linear
			return nil
		}},
	{"without the QR code",
		func(c Content) bool { return c.Square != nil },
		func(c *Content) *Content { c.Square, c.SquareSays = nil, ""; return nil }},
	{"the ingredients and the line of allergens on a second label",
		func(c Content) bool { return len(c.Ingredients)+len(c.Contains) > 0 },
		func(c *Content) *Content {
			second := &Content{Identity: c.Identity, Ingredients: c.Ingredients, Contains: c.Contains, Lot: c.Lot}
			c.Ingredients, c.Contains = nil, nil
			return second
		}},
	{"the nutrition panel on a second label",
		func(c Content) bool { return c.Panel != nil },
		func(c *Content) *Content {
			second := &Content{Identity: c.Identity, Panel: c.Panel, Lot: c.Lot}
			c.Panel = nil
			return second
		}},
	{"heating instructions and cautions on a second label",
		func(c Content) bool { return len(c.Heating)+len(c.Cautions) > 0 },
		func(c *Content) *Content {
			second := &Content{Identity: c.Identity, Heating: c.Heating, Cautions: c.Cautions, Lot: c.Lot}
			c.Heating, c.Cautions = nil, nil
			return second
		}},
	{"without the bar code",
		func(c Content) bool { return c.Bars != nil },
		func(c *Content) *Content { c.Bars = nil; return nil }},
}

// Ways are the ways out of a label that does not fit, each tried: with less on it, in pairs where nothing alone does, and on the smallest larger
// stock of the common ones.
func Ways(c Content, s Stock, r Rules) []Way {
	var single, pairs []Way
	does := false
	for i, a := range changes {
		if !a.holds(c) {
			continue
		}
		w := tried(c, s, r, a)
		does = does || w.Does
		single = append(single, w)
		for _, b := range changes[i+1:] {
			if !b.holds(c) || does {
				continue
			}
			if w := tried(c, s, r, a, b); w.Does {
				pairs = append(pairs, w)
			}
		}
	}
	if does {
		pairs = nil
	}
	return slices.Concat(larger(c, s, r), single, pairs)
}

// tried changes a content and looks whether it fits. With two changes that need a second label, both are on it.
func tried(c Content, s Stock, r Rules, all ...change) Way {
	w := Way{Content: c, Stock: s}
	var says []string
	for _, a := range all {
		says = append(says, a.says)
		if !a.holds(w.Content) {
			return w
		}
		if second := a.do(&w.Content); second != nil {
			if w.Second != nil {
				second = both(*w.Second, *second)
			}
			w.Second = second
		}
	}
	w.Says = strings.Join(says, " and ")
	w.Does = fits(w.Content, s, r) && (w.Second == nil || fits(*w.Second, s, r))
	return w
}

func both(a, b Content) *Content {
	a.Panel = cmp.Or(a.Panel, b.Panel)
	a.Ingredients, a.Contains = append(slices.Clone(a.Ingredients), b.Ingredients...), append(slices.Clone(a.Contains), b.Contains...)
	a.Heating, a.Cautions = append(slices.Clone(a.Heating), b.Heating...), append(slices.Clone(a.Cautions), b.Cautions...)
	return &a
}

// fits says whether a content fits with the least type.
func fits(c Content, s Stock, r Rules) bool {
	_, fits := partsOf(c, s, r).arrange(frameOf(s, r), eases[len(eases)-1:])
	return fits
}

// larger is the smallest of the common stocks that is larger, of the same kind and paper, and holds everything; none when none does.
func larger(c Content, s Stock, r Rules) []Way {
	all := Stocks()
	slices.SortStableFunc(all, func(a, b Stock) int { return cmp.Compare(a.areaMm2(), b.areaMm2()) })
	for _, other := range all {
		same := (s.Sheet == nil) == (other.Sheet == nil) && (s.Sheet == nil || s.Sheet.WideMm == other.Sheet.WideMm && s.Sheet.HighMm == other.Sheet.HighMm)
		if !same || other.areaMm2() <= s.areaMm2() {
			continue
		}
		other.MarginMm, other.DPI = s.MarginMm, s.DPI
		if other.Check() == nil && fits(c, other, r) {
			return []Way{{Says: "labels of " + other.Name, Does: true, Content: c, Stock: other}}
		}
	}
	return nil
}

// doesNotFit says how much room is missing and what would do.
func doesNotFit(c Content, s Stock, r Rules, p parts) finding.Finding {
	f := finding.Finding{Code: CodeDoesNotFit, Severity: finding.Stop, Where: "label of " + s.Name, Source: sources(c, r)}
	fr := frameOf(s, r)
	if names, need := p.tooWide(fr.wide); len(names) > 0 {
		f.Message = fmt.Sprintf("%s cannot be set in the width of the label, whatever its height", strings.Join(names, ", "))
		f.Figures = []finding.Figure{mm("width needed", need/PtPerMm+2*s.MarginMm), mm("width of the label", s.WideMm)}
	} else if high, enough := p.highNeeded(s, r); enough {
		short := (high - s.HighMm) * s.WideMm / 100
		f.Message = "what must be on it does not fit, with every type at its least"
		f.Figures = []finding.Figure{mm("height needed at this width", high), mm("height of the label", s.HighMm),
			{Name: "area short", Value: short, Unit: "cm2", Text: fmt.Sprintf("%.1f cm2 (%.1f sq in)", short, short/6.4516)}}
		if free := r; r.NetWithin > 0 {
			if free.NetWithin = 0; fits(c, s, free) {
				f.Message += fmt.Sprintf("; it would but for the rule that the net quantity stands in the lowest %.0f %% of the label", 100*r.NetWithin)
			}
		}
	} else {
		f.Message = fmt.Sprintf("what must be on it does not fit in this width on any label up to %g mm high", largestMm)
	}
	f.Fix = wayOut(Ways(c, s, r))
	return f
}

// wayOut is what would do, in words, and what alone would not.
func wayOut(ways []Way) string {
	var does, not []string
	for _, w := range ways {
		if w.Does {
			does = append(does, w.Says)
		} else {
			not = append(not, w.Says)
		}
	}
	out := "none of the common sizes holds it: take some of it off, or give a free size"
	if len(does) > 0 {
		out = "any of these would do (each was tried): " + strings.Join(does, "; ")
	}
	if len(not) > 0 {
		out += ". This alone would not: " + strings.Join(not, "; ")
	}
	return out
}

// sources of the type heights of what is on the label, each once.
func sources(c Content, r Rules) string {
	var all []string
	for said := range c.texts() {
		l := r.Least[said.element]
		source := l.Source
		if l.Confirm != "" && l.Confirm != source {
			source += " (" + l.Confirm + ")"
		}
		if source != "" && !slices.Contains(all, source) {
			all = append(all, source)
		}
	}
	return strings.Join(all, "; ")
}

// tooWide names what cannot be set in a width at its least, and how wide the widest of it must be.
func (p parts) tooWide(wide float64) (names []string, need float64) {
	try := func(one part) {
		if _, fits := one.set(wide, 0); fits {
			return
		}
		low, high := wide, largestMm*PtPerMm
		for high-low > 0.1 {
			middle := (low + high) / 2
			if _, fits := one.set(middle, 0); fits {
				high = middle
			} else {
				low = middle
			}
		}
		names = append(names, nameOf(one))
		need = max(need, high)
	}
	if p.head != nil {
		for _, one := range p.head.parts {
			try(one)
		}
	}
	for _, g := range p.body {
		for _, one := range g.part.(stack).parts {
			try(one)
		}
	}
	if p.foot != nil {
		try(p.foot)
	}
	return names, need
}

// nameOf a part, for a cook.
func nameOf(p part) string {
	switch p := p.(type) {
	case *text:
		return p.element.String()
	case *panel, framed:
		return "nutrition panel"
	case *bars:
		return "bar code"
	case *square:
		return "QR code"
	case *foot:
		return NetQuantity.String()
	}
	return "a part"
}

// highNeeded is how high, in millimetres, a label of the same width must be; false when no height does.
func (p parts) highNeeded(s Stock, r Rules) (float64, bool) {
	at := func(high float64) bool {
		s.HighMm = high
		_, fits := p.arrange(frameOf(s, r), eases[len(eases)-1:])
		return fits
	}
	low, high := s.HighMm, s.HighMm
	for !at(high) {
		if high >= largestMm {
			return 0, false
		}
		low, high = high, min(2*high, largestMm)
	}
	for high-low > 0.5 {
		if middle := (low + high) / 2; at(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high, true
}

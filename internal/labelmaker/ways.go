package labelmaker

import (
	"cmp"
	"slices"
	"strings"
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

// Ways are the ways out of a label that does not fit, each tried: the smallest larger stock of the common ones, less on it, two things less where
// nothing alone does, and where that does not do either, a larger stock with less on it.
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
	all := slices.Concat(larger(c, s, r), single, pairs)
	if !slices.ContainsFunc(all, func(w Way) bool { return w.Does }) {
		all = append(all, largerWithLess(c, s, r)...)
	}
	return all
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
	_, fits := partsOf(c, s, r).again(frameOf(s, r), 0, 0)
	return fits
}

// larger is the smallest of the common stocks that is larger and holds everything; none when none does.
func larger(c Content, s Stock, r Rules) []Way {
	for _, other := range s.larger() {
		if fits(c, other, r) {
			return []Way{{Says: "labels of " + other.Name, Does: true, Content: c, Stock: other}}
		}
	}
	return nil
}

// largerWithLess is the smallest of them that holds everything with one thing less on it.
func largerWithLess(c Content, s Stock, r Rules) []Way {
	for _, other := range s.larger() {
		for _, a := range changes {
			if !a.holds(c) {
				continue
			}
			if w := tried(c, other, r, a); w.Does {
				w.Says = "labels of " + other.Name + ", " + w.Says
				return []Way{w}
			}
		}
	}
	return nil
}

// larger are the common stocks of the same kind and paper that are larger, the smallest first, for the same printer.
func (s Stock) larger() []Stock {
	var all []Stock
	for _, other := range Stocks() {
		same := (s.Sheet == nil) == (other.Sheet == nil) && (s.Sheet == nil || s.Sheet.WideMm == other.Sheet.WideMm && s.Sheet.HighMm == other.Sheet.HighMm)
		other.MarginMm, other.DPI = s.MarginMm, s.DPI
		if same && other.areaMm2() > s.areaMm2() && other.Check() == nil {
			all = append(all, other)
		}
	}
	slices.SortStableFunc(all, func(a, b Stock) int { return cmp.Compare(a.areaMm2(), b.areaMm2()) })
	return all
}

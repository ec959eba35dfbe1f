// Package statement writes the ingredient statement of a label and its "Contains" line.
//
// Ingredients stand in descending order of predominance by weight (21 CFR 101.4(a)(1)), by the weight put in; a compound
// ingredient is followed by all its parts in parentheses (101.4(b)(2)(i)). The "Contains" line names every major food allergen
// (21 U.S.C. 321(qq), 343(w)), and it is only written when every line and every part has been answered: an allergen that nobody
// asked about is not an allergen that is absent. The package never says that a food is free from anything.
//
// It does not judge names: that they are the common or usual ones, and that a supplier's label was copied whole, is for the cook.
package statement

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/unit"
)

// Line is one ingredient as it is put in. Water is a line like any other.
type Line struct {
	Name           string // as it is declared
	Mass           unit.Mass
	Function       string // what an additive does: "emulsifier"
	Sub            []Sub  // the parts of a compound ingredient, in the order of its supplier's label
	Allergens      []string
	AllergensKnown bool // somebody looked: an empty list then means none
}

// Sub is one part of a compound ingredient.
type Sub struct {
	Name           string
	Function       string
	Share          unit.Share // of the ingredient that it is a part of; 0: not known
	Sub            []Sub
	Allergens      []string
	AllergensKnown bool
}

// Statement is what the label says, and what must be known about it.
type Statement struct {
	Ingredients string // "Ingredients: water, red lentils, cream (milk)."
	Contains    string // "Contains: Milk, Wheat."; empty when there is none, and whenever Withheld
	Items       []Item // the lines, merged and in order
	Found       []Found
	Missing     []Missing  // what has not been answered
	Close       []CloseTie // neighbours so close in weight that weighing decides their order
	Unmerged    []string   // names that are declared more than once with different parts or functions
	Nested      []string   // compound ingredients that could not be spread out, as the share of a part is not known
	AtEnd       int        // how many of the items stand at the end, behind "Contains 2 % or less of"
}

// Withheld reports whether an allergen question is open, so that no label may be printed and Found is not the whole list.
func (s Statement) Withheld() bool { return len(s.Missing) > 0 }

// Item is one entry of the statement.
type Item struct {
	Name string
	Text string // with its function and its parts
	Mass unit.Mass
}

// Found is one major allergen, with the species where the law asks for them and the lines that bring it in.
type Found struct {
	Allergen string
	Species  []string
	From     []string
}

// Missing is a line, or a part of one, whose allergens nobody has answered: "stock" > "seasoning".
type Missing struct{ Path []string }

// String is the way to what is missing.
func (m Missing) String() string { return strings.Join(m.Path, " > ") }

// CloseTie is two neighbours in the statement of which the second weighs at most 2 % less than the first.
type CloseTie struct {
	First, Second string
	By            unit.Mass
}

// closeParts is the 2 % of a CloseTie, as one part in so many. It is common practice, about what a kitchen scale and a
// spoonful left in a bowl come to; no rule asks for it.
const closeParts = 50

// LineError says which line makes no sense.
type LineError struct {
	Path   []string
	Reason string
}

func (e *LineError) Error() string {
	return fmt.Sprintf("statement: %s: %s", strings.Join(e.Path, " > "), e.Reason)
}

// Write writes the statement as WriteAs does in the zero Style.
func Write(lines []Line) (Statement, error) { return WriteAs(lines, Style{}) }

// WriteAs writes the statement in a style. The errors, *LineError and *AllergenError, are joined: all of them are reported, not only the first.
func WriteAs(lines []Line, style Style) (Statement, error) {
	if len(lines) == 0 {
		return Statement{}, &LineError{Path: []string{"statement"}, Reason: "no ingredients"}
	}
	if !slices.Contains(lasts, style.Last) {
		return Statement{}, &LineError{Path: []string{"statement"}, Reason: "what stands at the end may be 2, 1.5, 1 or 0.5 % of the food at most"}
	}
	var (
		s      Statement
		errs   []error
		groups = groups{}
		found  = finder{}
	)
	for i, l := range lines {
		whole := l.asSub()
		path := []string{cmp.Or(tidy(l.Name), fmt.Sprintf("line %d", i+1))}
		errs = append(errs, whole.check(path)...)
		if l.Mass <= 0 {
			errs = append(errs, &LineError{path, "its mass must be above 0"})
			continue
		}
		s.Missing = append(s.Missing, whole.missing(path)...)
		errs = append(errs, found.add(whole, path, path[0])...)
		declared := []Line{l}
		if style.Spread {
			if parts, known := l.spread(); known {
				declared = parts
			} else {
				s.Nested = include(s.Nested, path[0])
			}
		}
		for _, d := range declared {
			if !groups.add(d, style) {
				errs = append(errs, &LineError{path, "its masses are too large to add up"})
			}
		}
	}
	if err := errors.Join(errs...); err != nil {
		return Statement{}, err
	}
	for _, item := range groups {
		s.Items = append(s.Items, *item)
	}
	s.finish(found, style)
	return s, nil
}

// finish puts everything in order and writes the texts.
func (s *Statement) finish(found finder, style Style) {
	slices.SortFunc(s.Items, func(a, b Item) int {
		return cmp.Or(cmp.Compare(b.Mass, a.Mass), cmp.Compare(strings.ToLower(a.Text), strings.ToLower(b.Text)))
	})
	s.AtEnd = s.last(style)
	ordered := len(s.Items) - s.AtEnd
	times := map[string]int{}
	for i, item := range s.Items {
		if name := strings.ToLower(item.Name); times[name] == 1 {
			s.Unmerged = append(s.Unmerged, item.Name)
		}
		times[strings.ToLower(item.Name)]++
		if i == 0 || i >= ordered {
			continue
		}
		if by := s.Items[i-1].Mass - item.Mass; by <= s.Items[i-1].Mass/closeParts {
			s.Close = append(s.Close, CloseTie{First: s.Items[i-1].Name, Second: item.Name, By: by})
		}
	}
	s.Ingredients = "Ingredients: " + list(s.Items[:ordered]) + "."
	if s.AtEnd > 0 {
		s.Ingredients += " " + style.LastSays() + ": " + list(s.Items[ordered:]) + "."
	}
	slices.Sort(s.Unmerged)
	slices.SortFunc(s.Missing, func(a, b Missing) int { return slices.Compare(a.Path, b.Path) })
	s.Missing = slices.CompactFunc(s.Missing, func(a, b Missing) bool { return slices.Equal(a.Path, b.Path) })
	s.Found = found.list()
	if !s.Withheld() {
		s.Contains = contains(s.Found)
	}
}

func (l Line) asSub() Sub {
	return Sub{Name: l.Name, Function: l.Function, Sub: l.Sub, Allergens: l.Allergens, AllergensKnown: l.AllergensKnown}
}

// check finds parts without a name, and punctuation in a name that would break the brackets.
func (p Sub) check(path []string) []error {
	var errs []error
	switch name := tidy(p.Name); {
	case name == "":
		errs = append(errs, &LineError{path, "it has no name"})
	case strings.ContainsAny(name+p.Function, "()[],;\n"):
		errs = append(errs, &LineError{path, "brackets, commas and semicolons belong to parts, not to a name or function"})
	}
	for i, q := range p.Sub {
		errs = append(errs, q.check(q.under(path, i))...)
	}
	return errs
}

func (p Sub) under(path []string, i int) []string {
	return append(slices.Clone(path), cmp.Or(tidy(p.Name), fmt.Sprintf("part %d", i+1)))
}

func (p Sub) missing(path []string) []Missing {
	var m []Missing
	if !p.AllergensKnown {
		m = append(m, Missing{Path: path})
	}
	for i, q := range p.Sub {
		m = append(m, q.missing(q.under(path, i))...)
	}
	return m
}

// text is the part as it is declared: name, then function and parts in brackets. Round and square brackets take turns inwards.
func (p Sub) text(depth int, functionFirst bool) string {
	var inside []string
	for _, q := range p.Sub {
		inside = append(inside, q.text(depth+1, functionFirst))
	}
	body := strings.Join(inside, ", ")
	name := tidy(p.Name)
	if f := tidy(p.Function); f != "" && functionFirst {
		name = f + ": " + name
	} else if f != "" {
		if body != "" {
			f += ": "
		}
		body = f + body
	}
	if body == "" {
		return name
	}
	if depth%2 == 1 {
		return name + " [" + body + "]"
	}
	return name + " (" + body + ")"
}

// tidy is a name without spaces around it or doubled within it.
func tidy(name string) string { return strings.Join(strings.Fields(name), " ") }

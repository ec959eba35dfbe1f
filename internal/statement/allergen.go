package statement

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/allergen"
)

// AllergenError says in which line a word is no major allergen, or lacks its kind.
type AllergenError struct {
	Path []string // line, and part of it
	Err  *allergen.Error
}

func (e *AllergenError) Error() string {
	return fmt.Sprintf("statement: %s: %v", strings.Join(e.Path, " > "), e.Err)
}

func (e *AllergenError) Unwrap() error { return e.Err }

// finder collects allergens: index of the major, then species and lines.
type finder map[int]*Found

// add takes in the allergens of a part and all its parts; line is the line that brings them in.
func (f finder) add(p Sub, path []string, line string) []error {
	var errs []error
	for _, word := range p.Allergens {
		a, err := allergen.Parse(word)
		if bad := (*allergen.Error)(nil); errors.As(err, &bad) {
			errs = append(errs, &AllergenError{path, bad})
			continue
		}
		found := f[a.Major]
		if found == nil {
			found = &Found{Allergen: allergen.Majors()[a.Major].Label}
			f[a.Major] = found
		}
		found.Species = include(found.Species, a.Kind)
		found.From = include(found.From, line)
	}
	for i, q := range p.Sub {
		errs = append(errs, f.add(q, q.under(path, i), line)...)
	}
	return errs
}

// include adds a word to a list that is sorted without regard to capitals, unless it is empty or there already.
func include(list []string, word string) []string {
	if word == "" {
		return list
	}
	i, there := slices.BinarySearchFunc(list, word, func(a, b string) int {
		return strings.Compare(strings.ToLower(a), strings.ToLower(b))
	})
	if there {
		list[i] = min(list[i], word) // of two spellings always the same one, whatever the order of the lines
		return list
	}
	return slices.Insert(list, i, word)
}

func (f finder) list() []Found {
	var found []Found
	for i := range allergen.Majors() {
		if f[i] != nil {
			found = append(found, *f[i])
		}
	}
	return found
}

// contains is the "Contains" line, empty when nothing was found.
func contains(found []Found) string {
	if len(found) == 0 {
		return ""
	}
	names := make([]string, len(found))
	for i, f := range found {
		names[i] = f.Allergen
		if len(f.Species) > 0 {
			names[i] += " (" + strings.Join(f.Species, ", ") + ")"
		}
	}
	return "Contains: " + strings.Join(names, ", ") + "."
}

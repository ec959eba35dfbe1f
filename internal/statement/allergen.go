package statement

import (
	"fmt"
	"slices"
	"strings"
)

// major is one major food allergen, 21 U.S.C. 321(qq); sesame by the FASTER Act of 2021, in force from 1 January 2023.
type major struct {
	name    string   // as the "Contains" line says it
	words   []string // as it may be written in the book, all in lower case
	species bool     // the kind must be named: type of nut, species of fish or Crustacean shellfish, 21 U.S.C. 343(w)(2)
}

// majors are the nine, in the order of the statute. Which nuts and fish belong to a group is left to whoever fills in the book:
// the authority's list changes (FDA, January 2025, from memory). Molluscs are not Crustacean shellfish.
func majors() []major {
	return []major{
		{"Milk", []string{"milk"}, false},
		{"Egg", []string{"egg", "eggs"}, false},
		{"Fish", []string{"fish"}, true},
		{"Crustacean shellfish", []string{"crustacean shellfish", "crustacean", "crustaceans"}, true},
		{"Tree nuts", []string{"tree nuts", "tree nut"}, true},
		{"Wheat", []string{"wheat"}, false},
		{"Peanuts", []string{"peanuts", "peanut"}, false},
		{"Soybeans", []string{"soybeans", "soybean", "soy", "soya"}, false},
		{"Sesame", []string{"sesame"}, false},
	}
}

// AllergenError says which word is no major allergen, or lacks its species.
type AllergenError struct {
	Path   []string // line, and part of it
	Word   string   // as it was written
	Reason string
	Near   []string // what may have been meant; all nine when nothing is near
}

func (e *AllergenError) Error() string {
	text := fmt.Sprintf("statement: %s: allergen %q: %s", strings.Join(e.Path, " > "), e.Word, e.Reason)
	if len(e.Near) > 0 {
		text += ": did you mean " + strings.Join(e.Near, ", or ") + "?"
	}
	return text
}

// finder collects allergens: index of the major, then species and lines.
type finder map[int]*Found

// add takes in the allergens of a part and all its parts; line is the line that brings them in.
func (f finder) add(p Sub, path []string, line string) []error {
	var errs []error
	for _, word := range p.Allergens {
		i, species, err := read(word)
		if err != nil {
			err.Path = path
			errs = append(errs, err)
			continue
		}
		found := f[i]
		if found == nil {
			found = &Found{Allergen: majors()[i].name}
			f[i] = found
		}
		found.Species = include(found.Species, species)
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
	for i := range majors() {
		if f[i] != nil {
			found = append(found, *f[i])
		}
	}
	return found
}

// read takes "milk", or "fish: cod" where a species must be named.
func read(word string) (index int, species string, err *AllergenError) {
	name, species, given := strings.Cut(word, ":")
	name, species = strings.ToLower(tidy(name)), tidy(species)
	for i, m := range majors() {
		if !slices.Contains(m.words, name) {
			continue
		}
		switch {
		case m.species && species == "":
			return 0, "", &AllergenError{Word: word, Reason: fmt.Sprintf("the kind must be named, as in %q", m.words[0]+": ...")}
		case !m.species && given:
			return 0, "", &AllergenError{Word: word, Reason: "takes no kind"}
		case strings.ContainsAny(species, "()[],;:\n"):
			return 0, "", &AllergenError{Word: word, Reason: "one kind at a time"}
		}
		return i, species, nil
	}
	return 0, "", &AllergenError{Word: word, Reason: "is none of the nine major allergens", Near: near(name)}
}

// near is what a word may have meant: every allergen that has it as one of its words or is few letters away, else all nine.
func near(word string) []string {
	var close, all []string
	for _, m := range majors() {
		all = append(all, m.words[0])
		for _, w := range m.words {
			if word != "" && (strings.Contains(w, word) || letters(word, w) <= (len(w)+2)/3) {
				close = append(close, m.words[0])
				break
			}
		}
	}
	if len(close) > 0 {
		return close
	}
	return all
}

// letters is how many letters must be added, dropped or changed to make a of b (Levenshtein distance).
func letters(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := diagonal
			if a[i] != b[j] {
				cost = 1 + min(diagonal, row[j], row[j+1])
			}
			diagonal, row[j+1] = row[j+1], cost
		}
	}
	return row[len(b)]
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

// Package allergen is the nine major food allergens of United States law and how a book writes them: "milk", or "fish: trout" where the
// kind must be named.
//
// 21 U.S.C. 321(qq), with sesame by the FASTER Act of 2021, in force from 1 January 2023. Which nuts and fish belong to a group is left
// to whoever fills in the book: the authority's list changes (FDA, January 2025, from memory). Molluscs are not Crustacean shellfish.
package allergen

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/spelling"
)

// Major is one of the nine.
type Major struct {
	Word    string // as the book writes it
	Label   string // as the "Contains" line says it
	Example string // with a kind, when a label must name the nut or the species (21 U.S.C. 343(w)(2)); "" otherwise
}

var majors = [...]Major{
	{"milk", "Milk", ""},
	{"egg", "Egg", ""},
	{"fish", "Fish", "fish: trout"},
	{"crustacean shellfish", "Crustacean shellfish", "crustacean shellfish: shrimp"},
	{"tree nuts", "Tree nuts", "tree nuts: cashew"},
	{"wheat", "Wheat", ""},
	{"peanuts", "Peanuts", ""},
	{"soybeans", "Soybeans", ""},
	{"sesame", "Sesame", ""},
}

// Majors are the nine, in the order of the statute.
func Majors() []Major { return slices.Clone(majors[:]) }

// Words are how the book writes the nine.
func Words() []string {
	var words []string
	for _, m := range majors {
		words = append(words, m.Word)
	}
	return words
}

// Allergen is one answer: a major allergen and, for some, its kind.
type Allergen struct {
	Major int // index into Majors
	Kind  string
}

// Problem is what is wrong with a word.
type Problem int

const (
	Unknown       Problem = iota + 1 // none of the nine
	KindMissing                      // a label must name the nut or the species
	KindUnwanted                     // this one has no kinds
	KindMalformed                    // several kinds in one word, or brackets
)

// Error says which word is no major allergen, or lacks its kind.
type Error struct {
	Word    string // as it was written
	Problem Problem
	Near    []string // what may have been meant; all nine when nothing is near
}

func (e *Error) Error() string {
	return fmt.Sprintf("allergen %q %s: %s", e.Word, e.Reason(), e.Hint())
}

// Reason is the problem in words.
func (e *Error) Reason() string {
	switch e.Problem {
	case KindMissing:
		return "does not name its kind: a label must name the nut, or the species"
	case KindUnwanted:
		return "takes no kind"
	case KindMalformed:
		return "names more than one kind"
	default:
		return "is none of the major allergens"
	}
}

// Hint is what to write instead.
func (e *Error) Hint() string {
	switch {
	case e.Problem == KindMalformed:
		return "write each kind by itself"
	case e.Problem == KindMissing:
		return "write the kind behind it, as in " + strings.Join(e.Near, ", or ")
	case len(e.Near) == len(majors):
		return "write one of these: " + strings.Join(e.Near, ", ") + "; other things people react to go into the note"
	default:
		return "did you mean " + strings.Join(e.Near, ", or ") + "?"
	}
}

// Parse reads an allergen as the book writes it, capitals and spare spaces aside. The error is an *Error; with KindMissing the Major is
// right all the same.
func Parse(word string) (Allergen, error) {
	name, kind, colon := strings.Cut(word, ":")
	name, kind = strings.ToLower(tidy(name)), tidy(kind)
	i := slices.IndexFunc(majors[:], func(m Major) bool { return m.Word == name })
	if i < 0 {
		return Allergen{Major: -1}, &Error{Word: word, Problem: Unknown, Near: near(name)}
	}
	a := Allergen{Major: i, Kind: kind}
	switch m := majors[i]; {
	case m.Example != "" && kind == "":
		return a, &Error{Word: word, Problem: KindMissing, Near: []string{m.Example}}
	case m.Example == "" && colon:
		return a, &Error{Word: word, Problem: KindUnwanted, Near: []string{m.Word}}
	case strings.ContainsAny(kind, "()[],;:\n"):
		return a, &Error{Word: word, Problem: KindMalformed}
	}
	return a, nil
}

func tidy(text string) string { return strings.Join(strings.Fields(text), " ") }

// otherWords are what kitchens call some of them.
var otherWords = map[string]string{
	"dairy": "milk", "butter": "milk", "cream": "milk", "cheese": "milk", "lactose": "milk", "eggs": "egg",
	"soy": "soybeans", "soya": "soybeans", "soybean": "soybeans", "peanut": "peanuts", "groundnut": "peanuts",
	"gluten": "wheat", "flour": "wheat", "tahini": "sesame", "nuts": "tree nuts: almond", "shellfish": "crustacean shellfish: shrimp",
	"almond": "tree nuts: almond", "cashew": "tree nuts: cashew", "walnut": "tree nuts: walnut", "pecan": "tree nuts: pecan",
	"hazelnut": "tree nuts: hazelnut", "pistachio": "tree nuts: pistachio",
	"shrimp": "crustacean shellfish: shrimp", "prawn": "crustacean shellfish: shrimp", "crab": "crustacean shellfish: crab",
	"lobster": "crustacean shellfish: lobster", "anchovy": "fish: anchovy", "cod": "fish: cod", "salmon": "fish: salmon", "tuna": "fish: tuna",
}

// near is what a word may have meant, else all nine.
func near(word string) []string {
	if meant, ok := otherWords[word]; ok {
		return []string{meant}
	}
	if meant := spelling.Nearest(word, Words()); meant != "" {
		return []string{meant}
	}
	return Words()
}

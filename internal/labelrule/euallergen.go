package labelrule

import (
	_ "embed"
	"slices"
	"strings"

	"kettlefrost/internal/allergen"
	"kettlefrost/internal/sourced"
)

// EUAllergen is one of the fourteen of annex II.
type EUAllergen struct {
	Code    string   // "gluten"
	Name    string   // as annex II has it
	Words   []string // that name it; the first is not always the name
	Kinds   []string // of which one must be named in place of the group: cereals, nuts
	Major   string   // the major allergen of the United States that tells of it; "": none does
	Source  string
	Confirm string
}

// EUAsk is a word in the name of an ingredient that makes one ask about an allergen.
type EUAsk struct {
	Word, Allergen, Asks, Source string
}

var (
	//go:embed data/eu_allergens.csv
	euAllergenData string
	//go:embed data/eu_asks.csv
	euAskData string
)

var euAllergens = sourced.MustRead(euAllergenData, func(row sourced.Row) (EUAllergen, error) {
	return EUAllergen{Code: row["code"], Name: row["name"], Words: split(row["words"]), Kinds: split(row["kinds"]), Major: row["from_us"], Source: row["source"], Confirm: row["confirm"]}, nil
})

var euAsks = sourced.MustRead(euAskData, func(row sourced.Row) (EUAsk, error) {
	return EUAsk{row["word"], row["allergen"], row["asks"], row["source"]}, nil
})

func split(text string) []string {
	if text == "" {
		return nil
	}
	return strings.Split(text, "|")
}

// EUAllergens are the fourteen, in the order of annex II.
func EUAllergens() []EUAllergen { return slices.Clone(euAllergens) }

func euAllergenOf(code string) (EUAllergen, bool) {
	i := slices.IndexFunc(euAllergens, func(a EUAllergen) bool { return a.Code == code })
	if i < 0 {
		return EUAllergen{}, false
	}
	return euAllergens[i], true
}

// EUFound is one of the fourteen in a food.
type EUFound struct {
	Code string   // of EUAllergen
	Kind string   // the cereal or nut: "barley"; "" for the others
	From []string // the ingredients that bring it in
}

// Name is what is printed and emphasised.
func (f EUFound) Name() string {
	if f.Kind != "" {
		return f.Kind
	}
	a, _ := euAllergenOf(f.Code)
	return a.Name
}

// words are those that name it in a list of ingredients.
func (f EUFound) words() []string {
	a, _ := euAllergenOf(f.Code)
	if f.Kind != "" {
		return []string{f.Kind, plural(f.Kind), singular(f.Kind)}
	}
	return a.Words
}

// FromMajor is the allergen of annex II that a major allergen of the United States is. A nut that is none of the eight of annex II is none.
func FromMajor(a allergen.Allergen) (EUFound, bool) {
	majors := allergen.Majors()
	if a.Major < 0 || a.Major >= len(majors) {
		return EUFound{}, false
	}
	i := slices.IndexFunc(euAllergens, func(e EUAllergen) bool { return e.Major == majors[a.Major].Word })
	if i < 0 {
		return EUFound{}, false
	}
	f := EUFound{Code: euAllergens[i].Code}
	switch f.Code {
	case "gluten":
		f.Kind = "wheat"
	case "nuts":
		f.Kind = nut(euAllergens[i].Kinds, a.Kind)
		return f, f.Kind != ""
	}
	return f, true
}

// nut is the kind as annex II knows it.
func nut(kinds []string, kind string) string {
	for _, k := range kinds {
		for _, written := range []string{kind, kind + " nut", singular(kind)} {
			if strings.EqualFold(k, written) {
				return k
			}
		}
	}
	return ""
}

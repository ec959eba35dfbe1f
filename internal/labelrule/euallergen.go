package labelrule

import (
	"cmp"
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

// EUPart is an ingredient, or a part of one, with what was answered of it.
type EUPart struct {
	Name  string
	Major []string // as the book writes them
	Known bool     // somebody answered for the nine
	// More are codes of annex II that were answered on top ("celery", "gluten: barley"); Asked says that somebody looked for them.
	More  []string
	Asked bool
}

// EUQuestion is what must be asked before a label for the European Union can be written.
type EUQuestion struct {
	Part     string
	Allergen string // code; "" for all that the nine do not tell of
	Asks     string
	Source   string
}

// EUAnswer is which of the fourteen are in a food, as far as that is known.
type EUAnswer struct {
	Found     []EUFound
	Questions []EUQuestion // open ones: with any, Found is not the whole list
	NotThere  []string     // major allergens that annex II does not know: other nuts
}

// untold are the allergens of annex II that no answer about the nine tells of; of cereals it tells of wheat alone.
func untold() []string {
	names := []string{"rye, barley and oats"}
	for _, a := range euAllergens {
		if a.Major == "" {
			names = append(names, a.Name)
		}
	}
	return names
}

// EUAllergensOf finds the fourteen from what was answered. An allergen that nobody asked about is not an allergen that is absent: every part
// for which nobody looked beyond the nine is a question. Errors are *allergen.Error.
func EUAllergensOf(parts []EUPart) (EUAnswer, error) {
	var ans EUAnswer
	at := map[[2]string]*EUFound{}
	add := func(f EUFound, part string) {
		key := [2]string{f.Code, f.Kind}
		if at[key] == nil {
			at[key] = &EUFound{Code: f.Code, Kind: f.Kind}
		}
		if !slices.Contains(at[key].From, part) {
			at[key].From = append(at[key].From, part)
		}
	}
	for _, p := range parts {
		for _, word := range p.Major {
			a, err := allergen.Parse(word)
			if err != nil {
				return EUAnswer{}, err
			}
			if f, is := FromMajor(a); is {
				add(f, p.Name)
			} else {
				ans.NotThere = append(ans.NotThere, word)
			}
		}
		for _, word := range p.More {
			f, err := parseMore(word)
			if err != nil {
				return EUAnswer{}, err
			}
			add(f, p.Name)
		}
		ans.Questions = append(ans.Questions, p.questions()...)
	}
	for _, f := range at {
		ans.Found = append(ans.Found, *f)
	}
	slices.SortFunc(ans.Found, func(a, b EUFound) int {
		return cmp.Or(cmp.Compare(order(a.Code), order(b.Code)), cmp.Compare(a.Kind, b.Kind))
	})
	return ans, nil
}

func order(code string) int {
	return slices.IndexFunc(euAllergens, func(a EUAllergen) bool { return a.Code == code })
}

// MoreError is an answer beyond the nine that is none of the fourteen, or lacks its kind.
type MoreError struct {
	Word string
	Do   []string // instead
}

// Error is one line.
func (e *MoreError) Error() string {
	return "labelrule: " + e.Word + " is no allergen of annex II: write one of " + strings.Join(e.Do, ", ")
}

func parseMore(word string) (EUFound, error) {
	code, kind, _ := strings.Cut(word, ":")
	code, kind = strings.ToLower(strings.TrimSpace(code)), strings.TrimSpace(kind)
	a, ok := euAllergenOf(code)
	if !ok {
		var codes []string
		for _, a := range euAllergens {
			codes = append(codes, a.Code)
		}
		return EUFound{}, &MoreError{word, codes}
	}
	if len(a.Kinds) > 0 {
		if kind = nut(a.Kinds, kind); kind == "" {
			return EUFound{}, &MoreError{word, a.Kinds}
		}
		return EUFound{Code: code, Kind: kind}, nil
	}
	return EUFound{Code: code}, nil
}

// questions are what is open of a part: words of its name that are known for an allergen, or else all that the nine do not tell.
func (p EUPart) questions() []EUQuestion {
	var all []EUQuestion
	if !p.Known {
		all = append(all, EUQuestion{p.Name, "", "whether it has any of the nine major allergens", "21 U.S.C. 343(w) (read)"})
	}
	if p.Asked {
		return all
	}
	asked := map[string]bool{}
	for _, a := range euAsks {
		if says(p.Name, a.Word) && !asked[a.Allergen] && !p.answers(a.Allergen) {
			asked[a.Allergen] = true
			all = append(all, EUQuestion{p.Name, a.Allergen, a.Asks, a.Source})
		}
	}
	return append(all, EUQuestion{p.Name, "", "whether it has " + strings.Join(untold(), ", "), "Regulation (EU) 1169/2011, annex II (quoted)"})
}

// answers says whether the part has an answer about one of the fourteen already.
func (p EUPart) answers(code string) bool {
	for _, word := range p.More {
		if f, err := parseMore(word); err == nil && f.Code == code {
			return true
		}
	}
	for _, word := range p.Major {
		if a, err := allergen.Parse(word); err == nil {
			if f, is := FromMajor(a); is && f.Code == code && code != "gluten" {
				return true
			}
		}
	}
	return false
}

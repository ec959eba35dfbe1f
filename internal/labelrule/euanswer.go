package labelrule

import (
	"cmp"
	"slices"
	"strings"

	"kettlefrost/internal/allergen"
)

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

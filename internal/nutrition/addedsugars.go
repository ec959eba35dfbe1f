package nutrition

import (
	_ "embed"
	"slices"
	"strings"
	"unicode"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/sourced"
)

// AddedAnswer is what may be said of the added sugars of a food of the table, which has no figure for them.
type AddedAnswer struct {
	Per100g foodtable.Value // not given: ask
	Why     string          // "" where no rule knows the food
	Source  string
	Confirm string
}

// addedRule is one kind of food: of this group, with all these words in its description.
type addedRule struct {
	group, answer        string
	words                []string
	why, source, confirm string
}

//go:embed data/added_sugars.csv
var addedData string

var addedRules = sourced.MustRead(addedData, func(row sourced.Row) (addedRule, error) {
	return addedRule{row["group"], row["answer"], strings.Fields(row["words"]), row["why"], row["source"], row["confirm"]}, nil
})

// AddedSugarsOf says how much of a food's sugars were added, where its kind leaves no doubt: none in what is raw, all in sugar and honey. It is
// an answer to offer and not a figure: a cook takes it, or reads the package. Of all other foods it is not given.
func AddedSugarsOf(food foodtable.Food) AddedAnswer {
	words := strings.FieldsFunc(strings.ToLower(food.Description), func(r rune) bool { return !unicode.IsLetter(r) })
	for _, r := range addedRules {
		if r.group != "" && r.group != food.Group || slices.ContainsFunc(r.words, func(w string) bool { return !slices.Contains(words, w) }) {
			continue
		}
		a := AddedAnswer{Why: r.why, Source: r.source, Confirm: r.confirm}
		switch r.answer {
		case "none":
			a.Per100g = foodtable.Given(0)
		case "all":
			a.Per100g = food.Per100g.SugarsG
		}
		return a
	}
	return AddedAnswer{}
}

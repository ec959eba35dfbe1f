package draftdish

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"

	"kettlefrost/internal/sourced"
)

//go:embed data/verbs.csv
var verbsCSV string

// does is what a verb of a recipe does to food, as far as production minds.
type does string

const (
	cuts     does = "cut"
	rests    does = "rest"
	fries    does = "fry"
	heats    does = "heat"
	boils    does = "boil"
	simmers  does = "simmer"
	reduces  does = "reduce"
	bakes    does = "bake"
	blends   does = "blend"
	mixes    does = "mix"
	drains   does = "drain"
	preheats does = "preheat"
	leaves   does = "leave" // packing, chilling and eating: the plan's business, or nobody's here
)

// weight is which verb of a sentence the step goes by: what takes longest decides in what and how hot it is done.
var weight = map[does]int{leaves: 1, mixes: 2, cuts: 3, rests: 4, drains: 4, preheats: 5, heats: 6, blends: 7, boils: 7, fries: 8, bakes: 9, reduces: 9, simmers: 10}

// verb is a word of the table.
type verb struct {
	word    string
	does    does
	family  string // pot, pan, oven, blender, table, or what it is in already
	heatF   int    // 0: not heated, or nothing says how hot
	minutes int    // where the recipe says none
	paced   int    // min/kg of hands, instead
	open    bool   // lid off unless the recipe covers it
	source  string
}

var verbs = sourced.MustRead(verbsCSV, func(row sourced.Row) (verb, error) {
	v := verb{word: row["word"], does: does(row["does"]), family: row["family"], open: row["open"] == "yes", source: row["source"]}
	if weight[v.does] == 0 {
		return v, fmt.Errorf("%q does nothing that is known", v.word)
	}
	for column, into := range map[string]*int{"heat_f": &v.heatF, "minutes": &v.minutes, "paced": &v.paced} {
		if row[column] == "" {
			continue
		}
		n, err := strconv.Atoi(row[column])
		if err != nil {
			return v, err
		}
		*into = n
	}
	return v, nil
})

// verbsIn are the verbs of a sentence, in its order. A word that is none where it stands ("the heat", "brown sugar", "without browning") does not
// count.
func verbsIn(words []string) []verb {
	var found []verb
	for i, w := range words {
		before, after := "", ""
		if i > 0 {
			before = words[i-1]
		}
		if i+1 < len(words) {
			after = words[i+1]
		}
		for _, v := range verbs {
			if isForm(w, v.word) && !isNoun(v, before, after) {
				found = append(found, v)
				break
			}
		}
	}
	return found
}

// isNoun says whether a word that may be a verb is none between its neighbours.
func isNoun(v verb, before, after string) bool {
	switch {
	case slices.Contains([]string{"the", "this", "of", "your", "without", "not", "don't", "never", "its"}, before):
		return true
	case v.does == heats || v.does == cuts:
		return slices.Contains([]string{"a", "low", "medium", "high", "gentle", "moderate", "off"}, before)
	case v.word == "brown":
		return slices.Contains([]string{"sugar", "rice", "lentil", "lentils", "ale", "mushrooms", "mustard"}, after) || slices.Contains([]string{"golden", "light", "until"}, before)
	}
	return false
}

// isForm says whether a word is a verb as a recipe commands it, or in one of its forms: simmer, simmers, simmering.
func isForm(w, verb string) bool {
	return w == verb || w == verb+"s" || w == verb+"ing" || len(verb) > 3 && verb[len(verb)-1] == 'e' && w == verb[:len(verb)-1]+"ing"
}

// leading is the verb that a sentence goes by; false when it has none.
func leading(found []verb) (verb, bool) {
	if len(found) == 0 {
		return verb{}, false
	}
	best := found[0]
	for _, v := range found[1:] {
		if weight[v.does] > weight[best.does] || v.does == best.does && weight[v.does] > 5 {
			best = v
		}
	}
	return best, true
}

package draftdish

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
)

func itoa(n int) string { return strconv.Itoa(n) }

// Sure is how sure a match is.
type Sure int

const (
	Maybe   Sure = iota + 1 // some of its words fit
	Likely                  // all words of one of the two are in the other
	Certain                 // it is called so
)

var sureNames = map[Sure]string{Maybe: "maybe", Likely: "likely", Certain: "certain"}

// String is the word for it.
func (s Sure) String() string { return sureNames[s] }

// MarshalText writes the word.
func (s Sure) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// Candidate is something that a line of a recipe may mean.
type Candidate struct {
	Key  string `json:"key"` // what an answer says: book:milk, food:01077, new
	Name string `json:"name"`
	Sure Sure   `json:"sure"`
	Why  string `json:"why"`
}

// Keys of candidates.
const (
	inBook  = "book:"
	inTable = "food:"
	newFood = "new"
)

// mostFoods is how many foods of the table are offered for a line.
const mostFoods = 5

// candidates are what a line may mean, the likeliest first: the book before the table, where both are as sure.
func candidates(words string, book kitchen.Book, foods *foodtable.Table) []Candidate {
	asked := contentOf(words)
	var all []Candidate
	for _, id := range slices.Sorted(maps.Keys(book.Ingredients)) {
		ing := book.Ingredients[id]
		if sure, why := alike(asked, ing.Name, ing.Label, string(id)); sure > 0 {
			all = append(all, Candidate{inBook + string(id), ing.Name, sure, why})
		}
	}
	slices.SortStableFunc(all, func(a, b Candidate) int {
		return cmp.Or(cmp.Compare(b.Sure, a.Sure), cmp.Compare(len(wordsOf(a.Name)), len(wordsOf(b.Name))))
	})
	all = all[:min(len(all), mostFoods)]
	for _, m := range foods.Search(strings.Join(asked, " "), mostFoods) {
		all = append(all, Candidate{inTable + m.Food.NDB, m.Food.Name, sureOf(m, asked), fmt.Sprintf("%d of %d words fit the composition table", m.Words, m.Of)})
	}
	slices.SortStableFunc(all, func(a, b Candidate) int { return cmp.Compare(b.Sure, a.Sure) })
	return all
}

// alike is how sure the words of a line mean something that goes by some names.
func alike(asked []string, names ...string) (Sure, string) {
	best, why := Sure(0), ""
	for _, name := range names {
		has := contentOf(name)
		if name == "" || len(has) == 0 {
			continue
		}
		both := 0
		for _, w := range asked {
			if slices.Contains(has, w) {
				both++
			}
		}
		sure := Sure(0)
		switch {
		case both == len(asked) && both == len(has):
			sure = Certain
		case both == len(has) || both == len(asked) && len(asked) > 1:
			sure = Likely
		case 2*both >= len(asked) && both > 0 && slices.Contains(has, asked[len(asked)-1]):
			sure = Maybe
		}
		if sure > best {
			best, why = sure, fmt.Sprintf("the book calls it %s", name)
		}
	}
	return best, why
}

// sureOf is how sure a food of the table is meant: likely when it is called so, or so with one word more ("yellow onion", raw), and it is not
// something made of it: corn is no corn oil.
func sureOf(m foodtable.Match, asked []string) Sure {
	first, _, _ := strings.Cut(m.Food.Name, ",")
	name := contentOf(first)
	switch {
	case !m.All() || m.Near || len(name) == 0:
		return Maybe
	case slices.Equal(name, asked), name[len(name)-1] == asked[len(asked)-1] && len(name) <= len(asked)+1:
		return Likely
	}
	return Maybe
}

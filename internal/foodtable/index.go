package foodtable

import (
	"cmp"
	"slices"
	"strings"

	"kettlefrost/internal/spelling"
)

// How well a word of the query fits a word of the table.
type wordFit uint8

const (
	noFit     wordFit = iota
	nearFit           // a slip of the pen away
	prefixFit         // the beginning of it
	exactFit
)

// maxQueryWords bounds the work a query can ask for.
const maxQueryWords = 16

// index finds entries by words. Words are numbers in it: places in vocabulary.
type index struct {
	vocabulary []string
	number     map[string]int
	entries    []entry
}

// entry is what can be searched of one food or one yield.
type entry struct {
	name   string
	inName []int // words of the name, each once
	head   int   // how many of inName stand before the first comma of the name
	inMore []int // words of what else is known of it
}

func (x *index) add(name, more string) {
	if x.number == nil {
		x.number = map[string]int{}
	}
	head, _, _ := strings.Cut(name, ",")
	e := entry{name: name}
	e.inName = x.numbers(nil, head)
	e.head = len(e.inName)
	e.inName = x.numbers(e.inName, name)
	e.inMore = x.numbers(nil, more)
	x.entries = append(x.entries, e)
}

// numbers appends to known the words of a text that are not in it yet.
func (x *index) numbers(known []int, text string) []int {
	for _, w := range wordsOf(text) {
		n, ok := x.number[w]
		if !ok {
			n = len(x.vocabulary)
			x.number[w] = n
			x.vocabulary = append(x.vocabulary, w)
		}
		if !slices.Contains(known, n) {
			known = append(known, n)
		}
	}
	return known
}

// hit is an entry that answers a query, with what decides its rank.
type hit struct {
	entry     int
	words     int // words of the query that fit
	inName    int // of these, in the name
	fits      int // sum of the fits
	inHead    int // words that fit before the first comma of the name
	otherHead int // words there that the query does not ask for
	near      bool
}

// search are the entries that at least half of the query's words fit, the best first, and how many words the query has.
func (x *index) search(query string) (hits []hit, of int) {
	var words []string
	for _, w := range wordsOf(query) {
		if !slices.Contains(words, w) && len(words) < maxQueryWords {
			words = append(words, w)
		}
	}
	if len(words) == 0 {
		return nil, 0
	}
	fits := make([][]wordFit, len(words))
	for i, w := range words {
		fits[i] = x.fitsOf(w)
	}
	x.joinNeighbours(words, fits)
	for i := range x.entries {
		if h := x.entries[i].rank(fits); h.words > 0 && 2*h.words >= len(words) {
			h.entry = i
			hits = append(hits, h)
		}
	}
	slices.SortFunc(hits, func(a, b hit) int {
		return cmp.Or(
			cmp.Compare(b.words, a.words),
			cmp.Compare(b.inName, a.inName),
			cmp.Compare(b.fits, a.fits),
			cmp.Compare(b.inHead, a.inHead),
			cmp.Compare(a.otherHead, b.otherHead),
			cmp.Compare(len(x.entries[a.entry].name), len(x.entries[b.entry].name)),
			cmp.Compare(x.entries[a.entry].name, x.entries[b.entry].name),
			cmp.Compare(a.entry, b.entry),
		)
	})
	return hits, len(words)
}

// fitsOf says how well one word fits each word of the vocabulary. Slips of the pen are looked for only when the word fits none
// as it stands: "rice" is not a slip of "spice".
func (x *index) fitsOf(word string) []wordFit {
	fits := make([]wordFit, len(x.vocabulary))
	found := false
	for _, w := range []string{word, alsoCalled(word)} {
		if w == "" {
			continue
		}
		for n, known := range x.vocabulary {
			switch {
			case known == w:
				fits[n], found = exactFit, true
			case len(w) > 1 && strings.HasPrefix(known, w):
				fits[n], found = max(fits[n], prefixFit), true
			}
		}
	}
	if found || strings.ContainsAny(word, "0123456789") {
		return fits
	}
	if allowed := slips(len(word)); allowed > 0 {
		for n, known := range x.vocabulary {
			if _, near := spelling.Slips(word, known, allowed); near {
				fits[n] = nearFit
			}
		}
	}
	return fits
}

// joinNeighbours lets two words of the query fit where the table writes them as one: "corn starch".
func (x *index) joinNeighbours(words []string, fits [][]wordFit) {
	for i := range len(words) - 1 {
		if n, ok := x.number[words[i]+words[i+1]]; ok {
			fits[i][n], fits[i+1][n] = exactFit, exactFit
		}
	}
}

func (e *entry) rank(fits [][]wordFit) hit {
	var h hit
	asked := make([]bool, e.head)
	for _, fitsOf := range fits {
		best, where := noFit, -1
		for i, n := range e.inName {
			if fitsOf[n] > best {
				best, where = fitsOf[n], i
			}
		}
		if where >= 0 {
			h.inName++
			if where < e.head {
				h.inHead++
				asked[where] = true
			}
		} else {
			for _, n := range e.inMore {
				best = max(best, fitsOf[n])
			}
		}
		if best != noFit {
			h.words++
			h.fits += int(best)
			h.near = h.near || best == nearFit
		}
	}
	for _, a := range asked {
		if !a {
			h.otherHead++
		}
	}
	return h
}

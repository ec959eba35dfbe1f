package find

import (
	"slices"
	"strings"
)

// Index is entries, ready to be searched. It does not change: who has other entries makes another one.
type Index struct {
	entries []Entry
	called  [][2]string // code and name of each, as they are compared
	others  []int       // how many words the name of each has
	words   []string    // in their order
	places  [][]place   // of each word
}

// place is where a word stands.
type place struct {
	entry int32
	where where
}

// where a word stands in an entry. In several places, it counts where it counts most.
type where uint8

const (
	elsewhere where = iota
	inName
	inCode
)

// NewIndex makes entries ready to be searched.
func NewIndex(entries []Entry) *Index {
	x := &Index{entries: entries, called: make([][2]string, len(entries)), others: make([]int, len(entries))}
	at := map[string][]place{}
	for i, e := range entries {
		x.called[i] = [2]string{called(e.ID), called(e.Name)}
		x.others[i] = len(strings.Fields(x.called[i][1]))
		for _, w := range append(indexed(e.ID), lastNumber(e.ID)...) {
			add(at, w, place{int32(i), inCode})
		}
		for _, w := range indexed(e.Name) {
			add(at, w, place{int32(i), inName})
		}
		for _, text := range append([]string{e.About, e.Day}, e.Also...) {
			for _, w := range indexed(text) {
				add(at, w, place{int32(i), elsewhere})
			}
		}
	}
	for w := range at {
		x.words = append(x.words, w)
	}
	slices.Sort(x.words)
	x.places = make([][]place, len(x.words))
	for i, w := range x.words {
		x.places[i] = at[w]
	}
	return x
}

// add notes a place of a word, once an entry: where it stands first, which is where it counts most.
func add(at map[string][]place, word string, p place) {
	all := at[word]
	if len(all) == 0 || all[len(all)-1].entry != p.entry {
		at[word] = append(all, p)
	}
}

// lastNumber is the number that a code ends with, as it is asked for with the sign: O-17 is #17.
func lastNumber(code string) []string {
	all := chunks(code)
	if len(all) == 0 {
		return nil
	}
	parts := all[len(all)-1].parts
	if last := parts[len(parts)-1]; isNumeral(last) {
		return []string{number(last)}
	}
	return nil
}

// seen says whether any entry that may be seen has a word.
func (x *Index) seen(word int, see Areas) bool {
	return slices.ContainsFunc(x.places[word], func(p place) bool { return see.Has(x.entries[p.entry].Area) })
}

// begun are the words that begin with another, as numbers from the first to before the last.
func (x *Index) begun(with string) (from, before int) {
	from, _ = slices.BinarySearch(x.words, with)
	for before = from; before < len(x.words) && strings.HasPrefix(x.words[before], with); before++ {
	}
	return from, before
}

package phrasebook

import (
	"cmp"
	"slices"
	"strings"
)

// index finds sentences with gaps by a word that they must have: their first, else their last, else the longest of those within. A text that
// fits nothing costs a look for each of its words.
type index struct{ first, last, within map[string][]*pattern }

func newIndex() index {
	return index{map[string][]*pattern{}, map[string][]*pattern{}, map[string][]*pattern{}}
}

func (x index) add(p *pattern) {
	first, last := p.literals[0], p.literals[len(p.gaps)]
	if word, _, whole := strings.Cut(first, " "); whole && word != "" {
		x.first[word] = append(x.first[word], p)
	} else if i := strings.LastIndexByte(last, ' '); i >= 0 && last[i+1:] != "" {
		x.last[last[i+1:]] = append(x.last[last[i+1:]], p)
	} else if word := p.inner(); word != "" {
		x.within[word] = append(x.within[word], p)
	}
}

// inner is the longest word within the literals that has a space on both sides.
func (p *pattern) inner() string {
	longest := ""
	for _, l := range p.literals {
		words := strings.Split(l, " ")
		for i := 1; i < len(words)-1; i++ {
			if len(words[i]) > len(longest) {
				longest = words[i]
			}
		}
	}
	return longest
}

func (x index) sort() {
	for _, of := range []map[string][]*pattern{x.first, x.last, x.within} {
		for _, all := range of {
			slices.SortFunc(all, func(a, b *pattern) int {
				return cmp.Or(cmp.Compare(b.letters, a.letters), cmp.Compare(a.english, b.english))
			})
		}
	}
}

// candidates calls for every sentence that a text may be.
func (x index) candidates(text string, try func(*pattern)) {
	first, rest, more := strings.Cut(text, " ")
	if !more {
		return
	}
	for _, p := range x.first[first] {
		try(p)
	}
	for _, p := range x.last[text[strings.LastIndexByte(text, ' ')+1:]] {
		try(p)
	}
	if len(x.within) == 0 {
		return
	}
	for {
		word, after, more := strings.Cut(rest, " ")
		if !more {
			return
		}
		for _, p := range x.within[word] {
			try(p)
		}
		rest = after
	}
}

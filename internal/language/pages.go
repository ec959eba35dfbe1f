package language

import (
	"fmt"
	"io/fs"
	"maps"
	"regexp"
	"strings"
	"sync"
)

// Where the catalogues of the pages lie: those of their templates, by the template's name, and of the sentences of the code, by its package.
const (
	PagesFiles = "data/pages/*.csv"
	CodeFiles  = "data/pages/code/*.csv"
)

// Phrases are what the pages say in one language: English to what is said, where that is known. A cell that is empty is said in English.
type Phrases struct {
	Templates map[string]string // messages of templates; "[board] Open" is said on that template only
	Code      map[string]string // sentences that the code makes, with the verbs of package fmt
}

// pages are read once, when somebody first asks for a page in another language. What is wrong in them is a mistake in the program.
var pages = sync.OnceValue(func() map[string]Phrases {
	all, err := readPages(files)
	if err != nil {
		panic(err)
	}
	return all
})

func readPages(from fs.FS) (map[string]Phrases, error) {
	b, err := read(from)
	if err != nil {
		return nil, err
	}
	code, paper := map[string]map[string]string{}, map[string]map[string]string{}
	for _, l := range columns {
		code[l], paper[l] = map[string]string{}, map[string]string{}
		for english, said := range b.sentences[l] {
			if strings.Count(english, " ") >= fewestSpaces {
				paper[l][english] = said
			}
		}
	}
	for pattern, into := range map[string]map[string]map[string]string{PagesFiles: b.sentences, CodeFiles: code} {
		names, err := fs.Glob(from, pattern)
		if err != nil {
			return nil, err
		}
		for _, name := range names {
			if err := readFile(from, name, into); err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
		}
	}
	all := map[string]Phrases{}
	for _, l := range columns {
		for english, said := range code[l] {
			if was := b.sentences[l][english]; was != "" && said != "" && was != said {
				return nil, fmt.Errorf("%q is %q in one catalogue and %q in another", english, was, said)
			}
			if said == "" {
				code[l][english] = b.sentences[l][english]
			} else {
				b.sentences[l][english] = said
			}
		}
		for english, said := range paper[l] {
			if as, saidAs := asPhrase(english, said); code[l][as] == "" {
				code[l][as] = saidAs
			}
		}
		all[l] = Phrases{Templates: b.sentences[l], Code: code[l]}
	}
	return all, nil
}

// fewestSpaces are in a sentence of paper that pages may show too: a card is read on both. Shorter ones mean something else on a page.
const fewestSpaces = 3

var inBraces = regexp.MustCompile(`\{[A-Za-z]+\}`)

// asPhrase is a sentence with figures in braces as one with verbs.
func asPhrase(english, said string) (string, string) {
	if !inBraces.MatchString(english) {
		return english, said
	}
	numbers := map[string]int{}
	number := func(name string) string {
		if numbers[name] == 0 {
			numbers[name] = len(numbers) + 1
		}
		return fmt.Sprintf("%%[%d]s", numbers[name])
	}
	percent := strings.NewReplacer("%", "%%")
	english = inBraces.ReplaceAllStringFunc(percent.Replace(english), number)
	return english, inBraces.ReplaceAllStringFunc(percent.Replace(said), number)
}

// PhrasesOf are the phrases of a language; none for English, which pages are written in.
func PhrasesOf(l Language) Phrases {
	p := pages()[l.Base()]
	return Phrases{maps.Clone(p.Templates), maps.Clone(p.Code)}
}

// Translated tells whether pages have to be put into a language.
func (l Language) Translated() bool { return l != "" && l.Base() != English.Base() }

// Package help is what a cook is told about the figures that the pages show, and the words of the trade: entries and terms, written as text
// in data/en, one file for each place of the kitchen. It knows nothing of the program: a test holds the keys to the pages, and the formulas
// are those of the packages that compute the figures.
//
// To put a text right, change its file. To translate all of it, copy the folder, translate what stands behind the colons, and leave the keys,
// the signs of formulas and the addresses as they are.
package help

import (
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"strings"
)

//go:embed data
var data embed.FS

// Entry is what is to be known of one figure, or of figures that go together.
type Entry struct {
	Key       string
	Place     string   // of the kitchen: Plan, Cook, Chill …
	Title     string   // "How packs are counted": it names the link too
	What      string   // in one sentence
	How       []string // formulas, as they are computed
	NoFormula string   // why there is none, where there is none
	Letters   []Letter // what the letters of the formulas mean, with their units
	Needs     []Link   // what it is made from, and where that is written
	Sure      string   // how sure it is: its range, what is left out
	Sources   []string // published, or what else it rests on
	Cares     []string // where it can hurt
	More      []string // keys of entries and terms
	Pages     []Link   // where it is shown, or read about
}

// Letter is a letter of a formula.
type Letter struct{ Sign, Means string }

// Link leads to a page of the program.
type Link struct{ Text, URL string }

// Term is a word of the trade.
type Term struct {
	Slug  string // of its address
	Name  string
	Also  []string // other words for it
	Means string
	More  []string // keys of entries and terms
}

// Help is all entries and terms.
type Help struct {
	entries []Entry // by place, in the order of their files
	terms   []Term  // by name
}

// Open reads what is built in. A mistake in it is an error with file and line.
func Open() (*Help, error) {
	texts, err := fs.Sub(data, "data/en")
	if err != nil {
		return nil, err
	}
	return Read(texts)
}

// files are the texts of the entries, in the order in which their places stand on the page of contents.
var files = []string{"plan.txt", "day.txt", "cook.txt", "chill.txt", "freeze.txt", "stock.txt", "orders.txt", "money.txt", "safety.txt", "workshop.txt", "labels.txt", "records.txt"}

const termsFile = "terms.txt"

// Read reads the texts of a folder.
func Read(texts fs.FS) (*Help, error) {
	h := &Help{}
	for _, name := range files {
		text, err := fs.ReadFile(texts, name)
		if err != nil {
			return nil, err
		}
		entries, err := parseEntries(name, string(text))
		if err != nil {
			return nil, err
		}
		h.entries = append(h.entries, entries...)
	}
	text, err := fs.ReadFile(texts, termsFile)
	if err != nil {
		return nil, err
	}
	if h.terms, err = parseTerms(termsFile, string(text)); err != nil {
		return nil, err
	}
	slices.SortFunc(h.terms, func(a, b Term) int { return strings.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)) })
	return h, h.check()
}

// check says whether everything that is pointed at is there, and each entry and term once. A word may be both: what is pointed at is then
// the entry.
func (h *Help) check() error {
	entries, terms := map[string]bool{}, map[string]bool{}
	for _, e := range h.entries {
		if entries[e.Key] {
			return fmt.Errorf("help: %q is there twice", e.Key)
		}
		entries[e.Key] = true
	}
	for _, t := range h.terms {
		if terms[t.Slug] {
			return fmt.Errorf("help: the term %q is there twice", t.Slug)
		}
		terms[t.Slug] = true
	}
	for _, e := range h.entries {
		for _, key := range e.More {
			if key == e.Key || !entries[key] && !terms[key] {
				return fmt.Errorf("help: %q points at %q, which is not there or is itself", e.Key, key)
			}
		}
	}
	for _, t := range h.terms {
		for _, key := range t.More {
			if !entries[key] && (key == t.Slug || !terms[key]) {
				return fmt.Errorf("help: the term %q points at %q, which is not there or is itself", t.Slug, key)
			}
		}
	}
	return nil
}

// Entries are all entries by place, in the order of the kitchen.
func (h *Help) Entries() []Entry { return h.entries }

// Terms are all words of the trade in the order of the alphabet.
func (h *Help) Terms() []Term { return h.terms }

// Entry is the entry of a key.
func (h *Help) Entry(key string) (Entry, bool) {
	i := slices.IndexFunc(h.entries, func(e Entry) bool { return e.Key == key })
	if i < 0 {
		return Entry{}, false
	}
	return h.entries[i], true
}

// Term is the term of a slug.
func (h *Help) Term(slug string) (Term, bool) {
	i := slices.IndexFunc(h.terms, func(t Term) bool { return t.Slug == slug })
	if i < 0 {
		return Term{}, false
	}
	return h.terms[i], true
}

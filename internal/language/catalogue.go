package language

import (
	"embed"
	"encoding/csv"
	"fmt"
	"io/fs"
	"sync"
)

//go:embed data
var files embed.FS

// book is all catalogues together, by language and English sentence.
type book struct{ sentences, units map[string]map[string]string }

// columns are the languages of the catalogues besides English, in the order of their columns.
var columns = []string{"es", "fr"}

// unitsFile holds words for units, which stand within what package unit shows.
const unitsFile = "units.csv"

// catalogue is read once, when somebody first speaks. What is wrong in it is a mistake in the program, and stops it.
var catalogue = sync.OnceValue(func() book {
	b, err := read(files)
	if err != nil {
		panic(err)
	}
	return b
})

func read(from fs.FS) (book, error) {
	b := book{map[string]map[string]string{}, map[string]map[string]string{}}
	for _, l := range columns {
		b.sentences[l], b.units[l] = map[string]string{}, map[string]string{}
	}
	names, err := fs.Glob(from, "data/*.csv")
	if err != nil {
		return b, err
	}
	for _, name := range names {
		into := b.sentences
		if name == "data/"+unitsFile {
			into = b.units
		}
		if err := readFile(from, name, into); err != nil {
			return b, fmt.Errorf("%s: %w", name, err)
		}
	}
	return b, nil
}

// readFile reads one catalogue. A sentence that stands in two with two translations is an error: people would read both.
func readFile(from fs.FS, name string, into map[string]map[string]string) error {
	f, err := from.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	rows := csv.NewReader(f)
	rows.FieldsPerRecord = 1 + len(columns)
	all, err := rows.ReadAll()
	if err != nil {
		return err
	}
	for i, row := range all[min(1, len(all)):] {
		for c, l := range columns {
			english, said := row[0], row[c+1]
			was, twice := into[l][english]
			if twice && said == "" { // not translated yet here
				continue
			}
			if twice && was != "" && was != said {
				return fmt.Errorf("row %d: %q is %q in one catalogue and %q in another", i+2, english, was, said)
			}
			into[l][english] = said
		}
	}
	return nil
}

// translate is a sentence in a language, or in English when there is none.
func (b book) translate(english, base string) string {
	if said := b.sentences[base][english]; said != "" {
		return said
	}
	return english
}

func (b book) unit(word, base string) (string, bool) {
	said, ok := b.units[base][word]
	return said, ok && said != ""
}

// Knows tells whether a sentence has a translation into every language.
func Knows(english string) bool {
	for _, l := range columns {
		if catalogue().sentences[l][english] == "" {
			return false
		}
	}
	return true
}

package law

import (
	"encoding/csv"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/language"
	"kettlefrost/internal/pagetext"
)

var update = flag.Bool("update", false, "write what the pages say and no catalogue has yet into the catalogues, to be translated")

const catalogues = "../language/data/"

// catalogued is one file of a catalogue.
type catalogued map[string][2]string

func readCatalogue(t *testing.T, path string) catalogued {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	all := catalogued{}
	for _, row := range rows[min(1, len(rows)):] {
		all[row[0]] = [2]string{row[1], row[2]}
	}
	return all
}

func (c catalogued) write(t *testing.T, path string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	w := csv.NewWriter(f)
	w.Write([]string{"english", "es", "fr"})
	for _, english := range slices.Sorted(maps.Keys(c)) {
		w.Write([]string{english, c[english][0], c[english][1]})
	}
	if w.Flush(); w.Error() != nil {
		t.Fatal(w.Error())
	}
}

// TestPagesAreCatalogued finds every message of the templates and every sentence of the code that may reach a page in the catalogues: with
// its translations, or with empty cells for whoever translates. Run with -update it adds what is missing to the file of its area, and takes
// out what nobody says any more unless it was translated.
func TestPagesAreCatalogued(t *testing.T) {
	files := map[string]catalogued{}
	for _, pattern := range []string{language.PagesFiles, language.CodeFiles} {
		names, err := filepath.Glob("../language/" + pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			files[strings.TrimPrefix(filepath.ToSlash(name), catalogues)] = readCatalogue(t, name)
		}
	}
	messages, err := pagetext.Messages(os.DirFS("../web/templates"), "shared/*.html", "*.html")
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{} // English to the file of its area
	code := codeSentences(t)
	for _, pkg := range slices.Sorted(maps.Keys(code)) {
		for english := range code[pkg] {
			if _, twice := want["code "+english]; !twice {
				want["code "+english] = "pages/code/" + pkg + ".csv"
			}
		}
	}
	for _, m := range messages {
		if _, twice := want["page "+m.English]; !twice && want["code "+m.English] == "" {
			want["page "+m.English] = "pages/" + areaOf(m.File) + ".csv"
		}
	}
	has := map[string]bool{}
	translated := map[string][2]string{}
	for file, c := range files {
		kind := "page "
		if strings.HasPrefix(file, "pages/code/") {
			kind = "code "
		}
		for english, said := range c {
			has[kind+english] = true
			for i, s := range said {
				if was := translated[english]; s != "" {
					was[i] = s
					translated[english] = was
				}
			}
			_, wanted := want[kind+english]
			if !wanted && file != "pages/code/byhand.csv" && !strings.HasPrefix(english, "[") && said == [2]string{} {
				if *update {
					delete(c, english)
				} else {
					t.Errorf("%s has %q, which is said nowhere: take it out with -update", file, english)
				}
			}
		}
	}
	missing := 0
	for key, file := range want {
		english := key[len("page "):]
		if has[key] {
			continue
		}
		missing++
		if *update {
			if files[file] == nil {
				files[file] = catalogued{}
			}
			said := translated[english]
			for i, l := range []language.Language{language.Spanish, language.French} {
				if s := language.In(l).Say(english); said[i] == "" && language.Knows(english) {
					said[i] = s
				}
			}
			files[file][english] = said
		} else if missing <= 20 {
			t.Errorf("%q is in no catalogue: add it to %s with -update, and translate it", english, file)
		}
	}
	if *update {
		for file, c := range files {
			c.write(t, catalogues+file)
		}
	} else if missing > 20 {
		t.Errorf("%d in all are in no catalogue", missing)
	}
	coverage(t, files)
}

// coverage says how many words of each area are translated.
func coverage(t *testing.T, files map[string]catalogued) {
	var total, done [2]int
	for _, file := range slices.Sorted(maps.Keys(files)) {
		words, empty, said := 0, [2]int{}, [2]int{}
		for english, row := range files[file] {
			n := len(strings.Fields(english))
			words += n
			for i := range row {
				if row[i] == "" {
					empty[i]++
				} else {
					said[i] += n
				}
			}
		}
		for i := range total {
			total[i] += words
			done[i] += said[i]
		}
		t.Logf("%-34s %4d lines, %5d words; empty: es %4d, fr %4d", file, len(files[file]), words, empty[0], empty[1])
	}
	if total[0] > 0 {
		t.Log(fmt.Sprintf("all: es %d of %d words, fr %d of %d", done[0], total[0], done[1], total[1]))
	}
}

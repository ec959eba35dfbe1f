package language

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

var markOfPages = regexp.MustCompile(`\{\d+\}|</?\d+>`)

// What is translated keeps the verbs and marks of its English, has no markup, and no space at its ends.
func TestPhrasesFit(t *testing.T) {
	for base, p := range pages() {
		for _, of := range []map[string]string{p.Templates, p.Code} {
			for english, said := range of {
				if said == "" {
					continue
				}
				if want, got := verbs(english), verbs(said); !slices.Equal(want, got) {
					t.Errorf("%s: %q takes %v, and %q takes %v", base, english, want, said, got)
				}
				if strings.TrimSpace(said) != said || strings.ContainsAny(markOfPages.ReplaceAllString(said, ""), "\n\t") || strings.Contains(said, "{{") {
					t.Errorf("%s: %q is said as %q, with space or braces that do not belong there", base, english, said)
				}
				if bare := markOfPages.ReplaceAllString(said, ""); strings.ContainsAny(bare, "<>") && !strings.ContainsAny(markOfPages.ReplaceAllString(english, ""), "<>") {
					t.Errorf("%s: %q is said as %q, with markup", base, english, said)
				}
				for _, m := range markOfPages.FindAllString(english, -1) {
					if strings.Count(said, m) != strings.Count(english, m) {
						t.Errorf("%s: %q has %s, and %q not so", base, english, m, said)
					}
				}
			}
		}
	}
}

func TestPhrasesAreReadByFiles(t *testing.T) {
	head := "english,es,fr\n"
	all, err := readPages(fstest.MapFS{
		"data/labels.csv":          {Data: []byte(head + "Packs,Envases,Sachets\n")},
		"data/pages/board.csv":     {Data: []byte(head + "Do now,Hacer ahora,\n[board] Open,Abrir,Ouvrir\n")},
		"data/pages/code/plan.csv": {Data: []byte(head + "Packs,,\n%d packs,%d envases,%d sachets\n")},
	})
	if err != nil {
		t.Fatal(err)
	}
	if es := all["es"]; es.Templates["Do now"] != "Hacer ahora" || es.Code["Do now"] != "" || es.Code["%d packs"] != "%d envases" || es.Code["Packs"] != "Envases" || es.Templates["[board] Open"] != "Abrir" {
		t.Errorf("read as %v", es)
	}
	if fr := all["fr"]; fr.Templates["Do now"] != "" {
		t.Error("what is empty is said")
	}
	if _, err := readPages(fstest.MapFS{"data/labels.csv": {Data: []byte(head + "Packs,Envases,Sachets\n")}, "data/pages/code/a.csv": {Data: []byte(head + "Packs,Bolsas,Sachets\n")}}); err == nil || !strings.Contains(err.Error(), "Bolsas") {
		t.Errorf("one sentence said in two ways: %v", err)
	}
	heat, err := readPages(fstest.MapFS{"data/cards.csv": {Data: []byte(head + "Heat all of it to {temp} in {minutes}.,\"En {minutes}, todo a {temp}.\",Tout à {temp} en {minutes}.\n")}})
	if got := heat["es"].Code["Heat all of it to %[1]s in %[2]s."]; err != nil || got != "En %[2]s, todo a %[1]s." {
		t.Errorf("a sentence of a card is %q on a page (%v)", got, err)
	}
	if English.Translated() || BritishEnglish.Translated() || Language("").Translated() || !French.Translated() {
		t.Error("pages are put into the wrong languages")
	}
}

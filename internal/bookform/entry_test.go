package bookform_test

import (
	"net/url"
	"slices"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/bookform"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Taking an entry out leaves a name without its thing exactly where it is said to be used: checked by the book's own checks, which know nothing
// of this.
func TestUsesAreWhatTheChecksMiss(t *testing.T) {
	book, folder := demoBook(t)
	n := 0
	for _, section := range []string{"suppliers", "ingredients", "equipment", "bags", "dishes", "packs", "tax-rates"} {
		for _, e := range bookform.Entries(book, section) {
			uses := bookform.Uses(book, e.Path)
			edited, err := bookfile.Edit(folder, bookfile.Delete(e.Path))
			if err != nil {
				t.Fatal(err)
			}
			missing := 0
			for _, f := range kitchen.Check(edited.Book, func(string) bool { return true }) {
				if f.Code == string(kitchen.UnknownReference) {
					missing++
					if !slices.ContainsFunc(uses, func(u bookform.Use) bool {
						return u.Path == f.Path || strings.HasPrefix(f.Path, kitchen.PathTo(u.Section, u.ID))
					}) {
						t.Errorf("%s: %s names it, and no use says so", e.Path, f.Path)
					}
				}
			}
			if len(uses) > 0 && missing == 0 || len(uses) == 0 && missing > 0 {
				t.Errorf("%s: %d uses, and %d names without a thing", e.Path, len(uses), missing)
			}
			n += missing
		}
	}
	if n < 100 {
		t.Errorf("%d names were tried only", n)
	}
}

func TestReach(t *testing.T) {
	book, _ := demoBook(t)
	runs := bookform.NamesIn(book).Reach("ingredients.cheddar", "runs")
	if !slices.Contains(runs, "tuesday") || len(runs) == len(book.Runs) {
		t.Errorf("cheddar goes into %v", runs)
	}
}

// A copy has everything but what belongs to the one alone, and goes into the files.
func TestCopy(t *testing.T) {
	book, folder := demoBook(t)
	for _, path := range entries(book) {
		section, _, isEntry := strings.Cut(path, ".")
		if !isEntry {
			continue
		}
		to := bookform.New(book, section, "Another one")
		changes, err := bookform.Copy(book, path, to, "")
		if err != nil {
			t.Fatal(err)
		}
		edited, err := bookfile.Edit(folder, changes...)
		if err != nil {
			t.Errorf("%s: %v", path, err)
			continue
		}
		a, _ := bookfile.Look(book, path)
		b, _ := bookfile.Look(edited.Book, to)
		for _, p := range bookform.Compare(a.Value.Interface(), b.Value.Interface(), bookform.House{}) {
			if p.Differs() && p.B != "" {
				t.Errorf("%s: %s is %q in the copy", path, p.Path, p.B)
			}
		}
	}
	if _, err := bookform.Copy(book, "bags.bag-6x9", "bags.bag-6x9", ""); err == nil {
		t.Error("a copy takes the place of what it was made of")
	}
	if _, err := bookform.Copy(book, "bags.nothing", "bags.other", ""); err == nil {
		t.Error("nothing was copied")
	}
}

func TestNewNames(t *testing.T) {
	book, _ := demoBook(t)
	for name, want := range map[string]string{"Smoked Paprika, hot": "ingredients.smoked-paprika-hot", "Crème fraîche": "ingredients.creme-fraiche", "onion": "ingredients.onion-2", "  ": "ingredients.entry", "汤": "ingredients.entry", "Salt & pepper": "ingredients.salt-and-pepper"} {
		if got := bookform.New(book, "ingredients", name); got != want {
			t.Errorf("%q is %s, want %s", name, got, want)
		}
	}
}

// A new entry is one change of the book, and what was typed stands in the file as a cook would write it.
func TestNewEntry(t *testing.T) {
	book, _ := demoBook(t)
	typed := url.Values{".name": {"Gouda"}, ".class": {"dairy"}, ".storage": {"chilled"}, ".allergens": {"", "milk", ""}, ".buy": {""}, ".buy[0]@": {""}, ".buy[0].pack": {"2.5 lbs"}, ".buy[0].price": {"$14"}, ".buy[3]@": {""}, ".buy[3].price": {""},
		".measures": {""}, ".measures[0]@": {""}, ".measures[0]#": {"cup, shredded"}, ".measures[0]": {"113g"}}
	changes, problems, err := bookform.Changes(book, "ingredients.gouda", typed)
	if err != nil || len(problems) > 0 {
		t.Fatal(problems, err)
	}
	edited, err := bookfile.Edit(demo.Book(), changes...)
	if err != nil {
		t.Fatal(err)
	}
	text := string(edited.Files["ingredients/dairy.yaml"])
	for _, want := range []string{"  gouda:\n    name: Gouda\n", "2.5 lb", "cup, shredded", "113 g", "allergens: [milk]"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text[max(0, strings.Index(text, "  gouda:")):])
		}
	}
	if got := edited.Book.Ingredients["gouda"]; len(got.Buy) != 1 || got.Buy[0].Pack.Mass != 2*unit.Pound+8*unit.Ounce {
		t.Errorf("%+v", got)
	}
	if _, problems, _ := bookform.Changes(book, "ingredients.gouda", url.Values{".name": {""}}); len(problems) != 1 {
		t.Errorf("%v", problems)
	}
}

// Rows go and move; the others keep their text in the file.
func TestRowsOfAList(t *testing.T) {
	book, folder := demoBook(t)
	form, _ := bookform.Make(book, "packs.meatballs-six", nil)
	swapped := bookform.Reorder(form.Values(), "up .fill[1]")
	changes, problems, err := bookform.Changes(book, "packs.meatballs-six", swapped)
	if err != nil || len(problems) > 0 || len(changes) != 1 || changes[0].Path != "packs.meatballs-six.fill" {
		t.Fatal(changes, problems, err)
	}
	edited, err := bookfile.Edit(folder, changes...)
	if err != nil {
		t.Fatal(err)
	}
	was, now := book.Packs["meatballs-six"].Fill, edited.Book.Packs["meatballs-six"].Fill
	if len(now) != 2 || now[0] != was[1] || now[1] != was[0] {
		t.Errorf("%v became %v", was, now)
	}
	none := bookform.Reorder(bookform.Reorder(form.Values(), "drop .fill[0]"), "drop .fill[1]")
	if _, problems, _ := bookform.Changes(book, "packs.meatballs-six", none); len(problems) != 1 || problems[0].Name != ".fill" {
		t.Errorf("%v", problems)
	}
}

// Findings stand beside the field that they are about, or the nearest around it.
func TestPlace(t *testing.T) {
	book, _ := demoBook(t)
	form, _ := bookform.Make(book, "ingredients.cheddar", nil)
	rest := form.Place(finding.List{{Path: "ingredients.cheddar.buy[0].price", Message: "dear"}, {Path: "ingredients.cheddar.allergens[0]", Message: "near"}, {Path: "ingredients.cheddar", Message: "whole"}, {Path: "packs.x", Message: "other"}})
	if len(rest) != 2 || rest[0].Message != "whole" {
		t.Errorf("%v", rest)
	}
	for name, want := range map[string]string{".buy[0].price": "dear", ".allergens": "near"} {
		if f, _ := form.Field(name); len(f.Found) != 1 || f.Found[0].Message != want {
			t.Errorf("%s: %v", name, f.Found)
		}
	}
}

func BenchmarkMake(b *testing.B) {
	book, _ := demoBook(b)
	for b.Loop() {
		if _, err := bookform.Make(book, "ingredients.cheddar", nil); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkNamesIn(b *testing.B) {
	book, _ := demoBook(b)
	for b.Loop() {
		bookform.NamesIn(book)
	}
}

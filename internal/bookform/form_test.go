package bookform_test

import (
	"io/fs"
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/bookform"
	"kettlefrost/internal/kitchen"
)

// demoBook is the demo's book.
func demoBook(t testing.TB) (kitchen.Book, fs.FS) {
	t.Helper()
	book := bookfile.Read(demo.Book()).Book
	return book, demo.Book()
}

// entries are the paths of all entries of a book, and of its single nouns.
func entries(book kitchen.Book) []string {
	var all []string
	v := reflect.ValueOf(book)
	for _, k := range bookfile.Keys(v.Type()) {
		if k.Type.Kind() != reflect.Map {
			all = append(all, k.Name)
			continue
		}
		for _, key := range v.Field(k.Index).MapKeys() {
			all = append(all, kitchen.PathTo(k.Name, key.String()))
		}
	}
	slices.Sort(all)
	return all
}

// The values of every form of the demo, sent back as they stand, change nothing.
func TestUnchanged(t *testing.T) {
	book, _ := demoBook(t)
	paths := entries(book)
	if len(paths) < 100 {
		t.Fatalf("the demo has %d entries only", len(paths))
	}
	for _, path := range paths {
		form, err := bookform.Make(book, path, nil)
		if err != nil {
			t.Fatal(err)
		}
		changes, problems, err := bookform.Changes(book, path, form.Values())
		if err != nil || len(problems) > 0 || len(changes) > 0 {
			t.Errorf("%s: %v, %v, %v", path, changes, problems, err)
		}
		again, _ := bookform.Make(book, path, form.Values())
		if a, b := form.Values().Encode(), again.Values().Encode(); a != b {
			t.Errorf("%s: the form sent back is another:\n%s\n%s", path, a, b)
		}
	}
}

// A field set to another value changes this path of the book and nothing else, and the file is written.
func TestOneFieldChangesOnePath(t *testing.T) {
	book, folder := demoBook(t)
	paths := entries(book)
	typed := map[bookform.Kind][]string{
		bookform.Text: {"other", "No. 7"}, bookform.Long: {"Other.\nLines."}, bookform.Money: {"3.25"}, bookform.Number: {"7", "12"}, bookform.Quantity: {"2 lb 3", "45 min", "12 in", "7 %", "61 °F", "31 kW"},
		bookform.Clock: {"7.45"}, bookform.Day: {"3 May 2027"},
	}
	rapid.Check(t, func(t *rapid.T) {
		path := rapid.SampledFrom(paths).Draw(t, "path")
		form, err := bookform.Make(book, path, nil)
		if err != nil {
			t.Fatal(err)
		}
		values := form.Values()
		name := rapid.SampledFrom(slices.Sorted(maps.Keys(values))).Draw(t, "name")
		f, ok := form.Field(name)
		if !ok || typed[f.Kind] == nil || strings.HasSuffix(name, "#") { // another name moves all of a row
			return
		}
		values.Set(name, rapid.SampledFrom(typed[f.Kind]).Draw(t, "typed"))
		changes, problems, err := bookform.Changes(book, path, values)
		if err != nil {
			t.Fatal(err)
		}
		if len(problems) > 0 { // a unit of another kind, or a group that needs more
			if problems[0].Text == "" || problems[0].Label == "" || len(changes) > 0 {
				t.Fatalf("%s: %v, %v", name, problems, changes)
			}
			return
		}
		if len(changes) == 0 {
			return
		}
		edited, err := bookfile.Edit(folder, changes...)
		if err != nil {
			t.Fatalf("%s %s=%q: %v: %v", path, name, values.Get(name), changes, err)
		}
		was, _ := bookfile.Look(book, path)
		now, _ := bookfile.Look(edited.Book, path)
		different := 0
		for _, p := range bookform.Compare(was.Value.Interface(), now.Value.Interface(), bookform.House{}) {
			if !p.Differs() {
				continue
			}
			different++
			if was.Path+p.Path != f.Path {
				t.Errorf("%s: %s changed to %q, not %s", path, p.Path, p.B, name)
			}
		}
		if different > 1 {
			t.Errorf("%s: %s set, %d fields are otherwise", path, name, different)
		}
	})
}

package bookfile_test

import (
	"io/fs"
	"reflect"
	"strings"
	"testing"

	"go.yaml.in/yaml/v4"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
)

// demoTexts is the files of the demo book.
func demoTexts(t testing.TB) map[string][]byte {
	texts := map[string][]byte{}
	err := fs.WalkDir(demo.Book(), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(name, ".yaml") {
			return err
		}
		texts[name], err = fs.ReadFile(demo.Book(), name)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return texts
}

// Whatever a file holds: no panic, the same answer twice, and every finding stands on a line that the file has.
func FuzzRead(f *testing.F) {
	for _, text := range demoTexts(f) {
		if len(text) < 1500 { // longer ones slow the search down
			f.Add(string(text))
		}
	}
	for _, text := range []string{
		house, dal, fullDay, "", "a: [", "? [a]\n: b", "kitchen: !!map {}", "a: &a *a", "<<: {a: 1}", "{", "- - -", "a: |\n  b\n c", "\x85a: b\u2028c: d", "kitchen: {name: '\\0'}",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		files := folder(text)
		l := bookfile.Read(files)
		if again := bookfile.Read(files); !reflect.DeepEqual(l, again) {
			t.Errorf("read twice, got\n%s\nthen\n%s", lines(l.Findings), lines(again.Findings))
		}
		most := 1 + strings.Count(text, "\n") + strings.Count(text, "\r")
		for _, found := range l.Findings {
			if found.Code == "" || found.Message == "" || found.Fix == "" || found.Where == "" {
				t.Errorf("a finding that says too little: %+v", found)
			}
			if found.At != nil && (found.At.File != "book.yaml" || found.At.Line < 0 || found.At.Line > most || found.At.Line > 0 && found.At.Column < 1) {
				t.Errorf("a place that the file of %d lines does not have: %+v", most, found)
			}
		}
		if r, found := bookfile.ReadRequest("r.yaml", []byte(text)); len(found) == 0 && r.Want == nil && !strings.Contains(text, "want") {
			t.Errorf("a request for nothing is read without a word: %+v", r)
		}
	})
}

func BenchmarkReadBook(b *testing.B) {
	files := demo.Book()
	for b.Loop() {
		if l := bookfile.Read(files); len(l.Findings) != 0 {
			b.Fatal(lines(l.Findings))
		}
	}
}

// BenchmarkYAMLOnly is the part of BenchmarkReadBook that the YAML library takes.
func BenchmarkYAMLOnly(b *testing.B) {
	texts := demoTexts(b)
	for b.Loop() {
		for name, text := range texts {
			var root yaml.Node
			if err := yaml.Load(text, &root); err != nil {
				b.Fatal(name, err)
			}
		}
	}
}

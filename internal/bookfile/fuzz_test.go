package bookfile_test

import (
	"errors"
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

// Whatever is to be changed in whatever file: no panic; what cannot be done is said with what would help; what is done is read back, and
// made again it changes nothing.
func FuzzEdit(f *testing.F) {
	for _, c := range [][3]string{
		{house, "kitchen.name", "Mill Lane: the kitchen"}, {dal, "dishes.dal.steps[0].use[0].amount", "1 lb"}, {dal, "dishes/dal/name", "dal # 2"},
		{"kitchen: {name: a, note: 'b', air: 20 °C}", "kitchen.note", ""}, {"kitchen:\r\n  name: >-\r\n    a\r\n    b\r\n", "kitchen.name", "c d"},
		{"kitchen:\n  name: a # b\npeople:\n  x: {name: y, shift: {from: 08:00, to: 16:00}, can: kettle}\n", "people.x.can", "kettle, sealing"},
		{"kitchen:\n  name: |+\n    a\n\n  place: b", "kitchen.place", "c\nd\n"}, {"? kitchen\n: ? name\n  : a", "kitchen.name", "b"},
	} {
		f.Add(c[0], c[1], c[2])
	}
	f.Fuzz(func(t *testing.T, text, path, value string) {
		files := folder(text)
		for _, c := range []bookfile.Change{bookfile.Set(path, value), bookfile.Append(path, value), bookfile.Before(path, value), bookfile.Delete(path)} {
			got, err := bookfile.Edit(files, c)
			if err != nil {
				if wrong, ok := errors.AsType[*bookfile.EditError](err); !ok || wrong.Message == "" {
					t.Errorf("%v: %v", c, err)
				}
				continue
			}
			if c.Do != bookfile.DoSet || got.Files["book.yaml"] == nil {
				continue
			}
			again, err := bookfile.Edit(folder(string(got.Files["book.yaml"])), c)
			if err != nil || len(again.Files) > 0 {
				t.Errorf("%v made twice: %v %s", c, err, again.Files["book.yaml"])
			}
		}
	})
}

package heatcase

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
)

// The example files are read, make sense, and are answered.
func TestExampleFiles(t *testing.T) {
	names, err := filepath.Glob("testdata/*.yaml")
	if err != nil || len(names) < 3 {
		t.Fatalf("%v: %v", names, err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		file, found := Read(name, text)
		if len(found) > 0 {
			t.Errorf("%s: %v", name, found)
			continue
		}
		if _, err := file.Case.Answer(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What is wrong in a file is said with its line and column, all of it at once.
func TestReadSaysWhere(t *testing.T) {
	for _, r := range []struct{ text, says string }{
		{"pan: 2 in\nflim: 3 W/m2K\n", `case.yaml:2:1: stop: the case: there is no key "flim" (did you mean film?)`},
		{"pan: 2\n", `case.yaml:1:6: stop: the case: pan: "2" has no unit`},
		{"pan: 2 in\npan: 3 in\n", "case.yaml:2:1: stop: the case: pan stands at case.yaml:1:6 already"},
		{"pan: 2 in\nbag: 1 in\n", "case.yaml:2:1: stop: the case: it has a shape already: pan"},
		{"pan:\n", "case.yaml:1:1: stop: the case: pan has nothing after it"},
		{"pan: [2 in]\n", "case.yaml:1:6: stop: the case: pan is not a single value"},
		{"name: &a x\n", "case.yaml:1:7: stop: the case: name is not a single value"},
		{"in: walkin-fan\n", `did you mean walk-in-fan?`},
		{"- pan\n", "case.yaml:1:1: stop: the case: there are no keys in it"},
		{"pan: 2 in\n---\nbag: 1 in\n", "a second document begins at line 2"},
		{"pan: 2 in\n\tbag: 1 in\n", "case.yaml:2:"},
		{"name: \xff\n", "not text in UTF-8"},
		{strings.Repeat("#", maxFileBytes+1), "larger than the 64 kB"},
		{"water: 80 kg\n", "case.yaml:1:8: stop: the case: water: "},
		{"open: perhaps\n", `"perhaps" is neither yes nor no`},
		{"stack: two\n", `"two" is not a whole number`},
		{"pot: 22 in\n", `"22 in" has 1 sizes, want 2`},
	} {
		_, found := Read("case.yaml", []byte(r.text))
		if len(found) != 1 || !strings.Contains(found[0].String(), r.says) {
			t.Errorf("%.40q: found %v, want one with %q", r.text, found, r.says)
		}
	}
	if _, found := Read("case.yaml", []byte(strings.Repeat("a: b\n", 100))); len(found) != mostFound {
		t.Errorf("%d mistakes of a hopeless file are said, want %d", len(found), mostFound)
	}
	file, found := Read("case.yaml", []byte("food: 16070\npan: 0 in\n"))
	located := file.Locate(file.Case.Check())
	if len(found) > 0 || len(located) == 0 {
		t.Fatalf("found %v, %v", found, located)
	}
	for _, f := range located { // that there is no process is nowhere in the file
		if f.Path == "pan" && (f.At == nil || f.At.Line != 2 || f.At.Column != 6) {
			t.Errorf("pan is at %v", f.At)
		}
	}
}

// Every key takes its own example, and says it again in words that mean the same.
func TestFieldExamples(t *testing.T) {
	for _, f := range Fields() {
		for _, text := range append([]string{f.Example}, f.Choices...) {
			var c, again Case
			if err := c.Set(f.Key, text); err != nil {
				t.Errorf("%s %q: %v", f.Key, text, err)
				continue
			}
			said := c.Text(f.Key)
			if err := again.Set(f.Key, said); err != nil || said == "" || again.Text(f.Key) != said {
				t.Errorf("%s %q is said as %q, then as %q: %v", f.Key, text, said, again.Text(f.Key), err)
			}
		}
	}
	if err := new(Case).Set("watr", "86"); err == nil || !strings.Contains(err.Error(), "did you mean water?") {
		t.Errorf("a key that is not there: %v", err)
	}
	var c Case
	if err := c.Set("water", "86"); err != nil || c.Food.Composition.Water != 86*unit.PerCent {
		t.Errorf("water 86 is %v: %v", c.Food.Composition.Water, err)
	}
}

// An answer says its own question, so that it can be asked again.
func TestAnswerCanBeAskedAgain(t *testing.T) {
	for _, p := range Processes() {
		first, err := Example(p).Answer()
		if err != nil {
			t.Fatal(err)
		}
		var c Case
		for key, text := range first.Case {
			if err := c.Set(key, text); err != nil {
				t.Fatalf("%s %q: %v", key, text, err)
			}
		}
		again, err := c.Answer()
		if err != nil || again.Time != first.Time || again.Question != first.Question {
			t.Errorf("%s: %s, %+v, then %s, %+v: %v", p, first.Question, first.Time, again.Question, again.Time, err)
		}
	}
}

package heatcase

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"kettlefrost/internal/heat"
)

// Any text is either refused with a place in the file and a fix, or gives a case that is refused with its key, or is answered whole.
func FuzzRead(f *testing.F) {
	files, err := filepath.Glob("testdata/*.yaml")
	if err != nil || len(files) == 0 {
		f.Fatalf("no example files: %v", err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	for _, text := range []string{"pan: [2 in]", "a: &x 1\nb: *x", "---\n---\n", "pan: 2 in\npan: 3 in", "\xff", "pot: 1 in x", "- 1", "? [a]\n: b", "stack: -3", "water: 1e400"} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		file, found := Read("case.yaml", text)
		for _, x := range found {
			if x.Fix == "" || x.Message == "" || x.At == nil || x.At.File != "case.yaml" {
				t.Fatalf("%q: a finding without its place or fix: %+v", text, x)
			}
		}
		if len(found) > 0 || !file.Case.Shape.flat() || file.Case.Shape.Stack > 4 {
			return // blocks take too long for a fuzzer
		}
		answered(t, file.Case)
	})
}

func answered(t *testing.T, c Case) {
	t.Helper()
	for _, x := range c.Check() {
		if x.Path == "" || x.Fix == "" {
			t.Fatalf("%v: a finding without its key or fix: %+v", c.Given(), x)
		}
	}
	a, err := c.Answer()
	if refused, ok := errors.AsType[*CaseError](err); ok {
		if len(refused.Found) == 0 {
			t.Fatalf("%v: refused without a word", c.Given())
		}
		return
	}
	if errors.As(err, new(*heat.NeverError)) || errors.As(err, new(*heat.RangeError)) {
		t.Fatalf("%v: Check let through what cannot be computed: %v", c.Given(), err)
	}
	if err != nil {
		t.Fatalf("%v: %v", c.Given(), err)
	}
	whole(t, a)
}

// Any numbers, however mad, are refused or answered in finite ones.
func FuzzCase(f *testing.F) {
	f.Add(uint8(0), 50.8, 20.0, 3.0, 93.0, 5.0, 86.0, 3.0, uint8(0), true)
	f.Add(uint8(1), 25.4, 8.0, -18.0, 5.0, -15.0, 72.0, 7.0, uint8(3), false)
	f.Add(uint8(2), 25.4, 200.0, 15.0, -18.0, 0.0, 40.0, 50.0, uint8(1), false)
	f.Add(uint8(3), 1.0, 20000.0, 150.0, -40.0, 119.0, 5.0, 95.0, uint8(1), false)
	f.Fuzz(func(t *testing.T, process uint8, thickMm, film, mediumC, fromC, toC, water, fat float64, stack uint8, open bool) {
		c := New(Processes()[int(process)%4])
		c.Shape = Shape{Kind: Bag, Thickness: lengthMm(thickMm), Stack: int(stack) % 5}
		if open {
			c.Shape.Kind, c.Shape.Stack, c.Open = Pan, 0, true
		}
		c.Around.Film, c.Around.At = new(filmOf(film)), new(tempC(mediumC))
		c.From, c.To = new(tempC(fromC)), new(tempC(toC))
		c.Food.Composition = Composition{Water: shareOf(water), Fat: shareOf(fat), Carbohydrate: shareOf(100 - water - fat)}
		answered(t, c)
	})
}

package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// What is left over, by hand, from packs of 650 g of soup, which bring $6.00 less bag and label: 5.85. A pack of the rest, a quarter of a
// whole one at least, brings its share by weight; where labels run out the whole packs are offered first, and what must be found.
func TestWhatIsLeftOverIsOfferedAUse(t *testing.T) {
	for _, c := range []struct {
		name   string
		there  string
		labels int
		left   kitchen.LeftUse
		want   string
	}{
		{"nothing is left", "6.5 kg", 0, "", ""},
		{"enough for a small pack", "6.8 kg", 0, "", "smaller-pack 1 × 300 g 2.70"},
		{"too little for one", "6.6 kg", 0, "", "crew 100 g"},
		{"too little, kept", "6.6 kg", 0, kitchen.NextRun, "next-run 100 g"},
		{"too little, thrown away", "6.6 kg", 0, kitchen.Discard, "discard 100 g"},
		{"labels run out", "6.6 kg", 8, "", "more-packs 2 × 650 g 11.70 if 2 × labels of Carrot soup; crew 100 g"},
		{"labels run out, and a rest", "6.8 kg", 9, "", "more-packs 1 × 650 g 5.85 if 1 × labels of Carrot soup; smaller-pack 1 × 300 g 2.70 if 1 × labels of Carrot soup"},
	} {
		book := soupKitchen(t)
		pack := book.Packs["soup-650"]
		pack.Labels = c.labels
		book.Packs["soup-650"] = pack
		last := len(book.Dishes["soup"].Steps) - 1
		book.Dishes["soup"].Steps[last].Gives[0].Left = c.left
		s := sealed(t, book, soups(10), weighed(c.there))
		var told []string
		for _, u := range s.Uses {
			words := fmt.Sprintf("%s %s", u.Use, u.Takes[0].Target.Show(unit.Metric))
			if u.Count > 0 {
				words = fmt.Sprintf("%s %d × %s %.2f", u.Use, u.Count, u.Takes[0].Target.Show(unit.Metric), u.Brings.Units())
			}
			if len(u.Wants) > 0 {
				words += " if " + strings.Join(u.Wants, ", ")
			}
			told = append(told, words)
		}
		if got := strings.Join(told, "; "); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// Whatever is left of an output is in its uses, to the last nanogram, but for a trace.
func TestEverythingLeftHasAUse(t *testing.T) {
	book := soupKitchen(t)
	for grams := 6500; grams < 7150; grams += 37 {
		s := sealed(t, book, soups(10), weighed(fmt.Sprintf("%d g", grams)))
		sum := unit.Mass(0)
		for _, u := range s.Uses {
			for _, part := range u.Takes {
				sum += part.Target * unit.Mass(max(1, u.Count))
			}
		}
		if off := s.Outputs[0].Left - sum; off < -unit.Milligram || off > unit.Milligram {
			t.Errorf("%d g: %s left, uses for %s", grams, s.Outputs[0].Left, sum)
		}
		if slices.ContainsFunc(s.Uses, func(u plan.SealUse) bool { return u.Use == plan.UseMore }) {
			t.Errorf("%d g: more packs are offered though nothing but soup is short", grams)
		}
	}
}

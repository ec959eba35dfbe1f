package spelling

import (
	"testing"

	"pgregory.net/rapid"
)

// Counted by hand.
func TestSlips(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"", "", 0}, {"", "abc", 3}, {"kitten", "sitting", 3}, {"dal", "lad", 2}, {"ab", "ba", 1}, {"purée", "puree", 1}} {
		if got, near := Slips(c.a, c.b, 99); got != c.want || !near {
			t.Errorf("%q to %q: %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

func TestNearest(t *testing.T) {
	names := []string{"", "amount", "carrot", "garlic", "onion", "red-lentils"}
	for word, want := range map[string]string{"onoin": "onion", "carot": "carrot", "Garlic": "garlic", "red-lentil": "red-lentils", "amonut": "amount", "amt": "", "beetroot": "", "": ""} {
		if got := Nearest(word, names); got != want {
			t.Errorf("%q: got %q, want %q", word, got, want)
		}
	}
}

// Slips agrees with a plain recursion on what the distance is, and on who is near.
func TestSlipsAgainstTheSlowTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[a-d]{0,7}`)
		a, b, most := word.Draw(t, "a"), word.Draw(t, "b"), rapid.IntRange(0, 4).Draw(t, "most")
		want := distance(a, b)
		if got, near := Slips(a, b, most); near != (want <= most) || got != min(want, most+1) {
			t.Fatalf("Slips(%q, %q, %d) = %d, %v; the distance is %d", a, b, most, got, near, want)
		}
	})
}

// distance is the slow twin: try everything from the end.
func distance(a, b string) int {
	if a == "" || b == "" {
		return len(a) + len(b)
	}
	la, lb := len(a)-1, len(b)-1
	change := 1
	if a[la] == b[lb] {
		change = 0
	}
	best := min(distance(a[:la], b)+1, distance(a, b[:lb])+1, distance(a[:la], b[:lb])+change)
	if la > 0 && lb > 0 && a[la] == b[lb-1] && a[la-1] == b[lb] {
		best = min(best, distance(a[:la-1], b[:lb-1])+1)
	}
	return best
}

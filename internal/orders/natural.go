package orders

import (
	"cmp"
	"strings"

	"kettlefrost/internal/record"
)

// natural compares texts as people do: without minding capitals, and numbers in them by their size, so that box 2 comes before box 10.
func natural(a, b string) int {
	x, y := strings.ToLower(a), strings.ToLower(b)
	for x != "" && y != "" {
		m, n := digits(x), digits(y)
		if m > 0 && n > 0 {
			p, q := strings.TrimLeft(x[:m], "0"), strings.TrimLeft(y[:n], "0")
			if c := cmp.Or(cmp.Compare(len(p), len(q)), cmp.Compare(p, q)); c != 0 {
				return c
			}
			x, y = x[m:], y[n:]
			continue
		}
		if x[0] != y[0] {
			return cmp.Compare(x[0], y[0])
		}
		x, y = x[1:], y[1:]
	}
	return cmp.Compare(len(x), len(y))
}

// digits is how many digits a text begins with.
func digits(s string) int { return len(s) - len(strings.TrimLeft(s, "0123456789")) }

// ComparePlaces compares places from the large to the small, so that everything in one freezer comes together, shelf by shelf.
func ComparePlaces(a, b record.Place) int {
	x, y := strings.Split(string(a), "/"), strings.Split(string(b), "/")
	for i := range min(len(x), len(y)) {
		if c := natural(strings.TrimSpace(x[i]), strings.TrimSpace(y[i])); c != 0 {
			return c
		}
	}
	return cmp.Compare(len(x), len(y))
}

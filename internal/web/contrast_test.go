package web

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// pairs are the tokens that text stands on each other with.
var pairs = [][2]string{
	{"ink", "paper"}, {"ink", "sheet"}, {"ink", "wash"}, {"quiet", "paper"}, {"quiet", "sheet"}, {"accent", "paper"}, {"accent", "sheet"}, {"on-accent", "accent"},
	{"stop", "stop-ground"}, {"caution", "caution-ground"}, {"note", "note-ground"}, {"ink", "stop-ground"}, {"ink", "caution-ground"}, {"ink", "note-ground"},
	{"quiet", "stop-ground"}, {"quiet", "caution-ground"}, {"quiet", "note-ground"}, {"stop", "sheet"}, {"stop", "paper"}, {"stop", "note-ground"},
	{"yes", "sheet"}, {"yes", "note-ground"},
	{"caution", "sheet"}, {"caution", "paper"}, {"quiet", "wash"}, {"accent", "stop-ground"}, {"accent", "caution-ground"}, {"accent", "note-ground"}, {"accent", "wash"},
}

// WCAG 2.1, 1.4.3 (AA): 4.5 to 1 for text; 1.4.11: 3 to 1 for the lines of a field (both from memory of the recommendation).
func TestContrast(t *testing.T) {
	light, dark := tokens(t)
	for name, scheme := range map[string]map[string]string{"light": light, "dark": dark} {
		for _, p := range pairs {
			if got := contrast(t, scheme[p[0]], scheme[p[1]]); got < 4.5 {
				t.Errorf("%s: %s on %s has a contrast of %.2f, want 4.5", name, p[0], p[1], got)
			}
		}
		if got := contrast(t, scheme["line"], scheme["sheet"]); got < 3 {
			t.Errorf("%s: the line around a field has a contrast of %.2f, want 3", name, got)
		}
	}
}

// Known ratios: black on white is 21 to 1 by definition; #767676 on white is the often quoted limit of 4.54 (from memory).
func TestContrastFormula(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want float64
	}{{"#000000", "#ffffff", 21}, {"#ffffff", "#ffffff", 1}, {"#767676", "#ffffff", 4.54}, {"#777777", "#ffffff", 4.48}} {
		if got := contrast(t, c.a, c.b); math.Abs(got-c.want) > 0.01 {
			t.Errorf("%s on %s: %.3f, want %.2f", c.a, c.b, got, c.want)
		}
	}
}

var token = regexp.MustCompile(`--([a-z-]+):\s*(#[0-9a-f]{6});`)

func tokens(t *testing.T) (light, dark map[string]string) {
	data, err := static.ReadFile("static/tokens.css")
	if err != nil {
		t.Fatal(err)
	}
	before, after, found := strings.Cut(string(data), "@media (prefers-color-scheme: dark)")
	if !found {
		t.Fatal("tokens.css has no dark scheme")
	}
	read := func(css string) map[string]string {
		m := map[string]string{}
		for _, f := range token.FindAllStringSubmatch(css, -1) {
			m[f[1]] = f[2]
		}
		return m
	}
	light, dark = read(before), read(after)
	if len(light) < 15 || len(light) != len(dark) {
		t.Fatalf("%d light and %d dark colours: a scheme has too few", len(light), len(dark))
	}
	return light, dark
}

// contrast is the ratio of WCAG 2.1 for two colours such as #1a2b3c.
func contrast(t *testing.T, a, b string) float64 {
	la, lb := luminance(t, a), luminance(t, b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(t *testing.T, colour string) float64 {
	if len(colour) != 7 {
		t.Fatalf("%q is no colour", colour)
	}
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(colour[1+2*i:3+2*i], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		c := float64(n) / 255
		if c <= 0.03928 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}

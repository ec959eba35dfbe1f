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
	{"yes", "sheet"}, {"yes", "note-ground"}, {"sheet", "yes"}, {"paper", "ink"}, {"quiet", "paper"},
	{"caution", "sheet"}, {"caution", "paper"}, {"quiet", "wash"}, {"accent", "stop-ground"}, {"accent", "caution-ground"}, {"accent", "note-ground"}, {"accent", "wash"},
}

// WCAG 2.1, 1.4.3 (AA): 4.5 to 1 for text; 1.4.6 (AAA): 7 to 1, which high contrast is held to; 1.4.11: 3 to 1 for the lines of a field (all
// from memory of the recommendation).
func TestContrast(t *testing.T) {
	for name, scheme := range themes(t) {
		text, line := 4.5, 3.0
		if strings.HasPrefix(name, "high") {
			text, line = 7, 7
		}
		for _, p := range pairs {
			if got := contrast(t, scheme[p[0]], scheme[p[1]]); got < text {
				t.Errorf("%s: %s on %s has a contrast of %.2f, want %.1f", name, p[0], p[1], got, text)
			}
		}
		for _, ground := range []string{"sheet", "paper"} {
			if got := contrast(t, scheme["line"], scheme[ground]); got < line {
				t.Errorf("%s: the line around a field on %s has a contrast of %.2f, want %.0f", name, ground, got, line)
			}
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

// fixedTokens are what stays as it is in every theme: what is black on white as on paper.
const fixedTokens = "print-"

// themes are the colours of each theme, as a browser would take them from tokens.css: what a theme does not name it has from the one before.
func themes(t *testing.T) map[string]map[string]string {
	data, err := static.ReadFile("static/tokens.css")
	if err != nil {
		t.Fatal(err)
	}
	css := string(data)
	light := colours(css[:strings.Index(css, "@media")])
	for name := range light {
		if strings.HasPrefix(name, fixedTokens) {
			delete(light, name)
		}
	}
	all := map[string]map[string]string{"light": light}
	for name, condition := range map[string]string{"dark": whenDark, "high light": whenHigh, "high dark": whenHigh + " and " + whenDark} {
		_, block, found := strings.Cut(css, "@media "+condition+" {")
		if !found {
			t.Fatalf("tokens.css has no theme %s", condition)
		}
		block, _, _ = strings.Cut(block, "@media")
		all[name] = colours(block)
		if len(all[name]) != len(light) || len(light) < 15 {
			t.Errorf("%s has %d colours, light has %d: a theme has too few", name, len(all[name]), len(light))
		}
	}
	return all
}

func colours(css string) map[string]string {
	m := map[string]string{}
	for _, f := range token.FindAllStringSubmatch(css, -1) {
		m[f[1]] = f[2]
	}
	return m
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

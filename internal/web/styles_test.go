package web

import (
	"io/fs"
	"path"
	"regexp"
	"strings"
	"testing"
)

// literal finds a colour that is written out: a number, a function or a name of CSS Color 4 (the names that people write, from memory).
var literal = regexp.MustCompile(`(?i)#[0-9a-f]{3,8}\b|\b(rgba?|hsla?|hwb|lab|lch|oklab|oklch|color)\(|[:\s](white|black|red|green|blue|yellow|orange|purple|pink|brown|gr[ae]y|silver|navy|teal|maroon|olive|lime|aqua|fuchsia|gold|tomato|crimson)\s*[;,)} ]`)

// outside is the text of a style sheet without its comments and without what is no value of a colour: selectors and texts.
func outside(css string) string {
	css = regexp.MustCompile(`(?s)/\*.*?\*/`).ReplaceAllString(css, "")
	css = regexp.MustCompile(`"[^"]*"`).ReplaceAllString(css, `""`)
	var values strings.Builder
	for _, rule := range regexp.MustCompile(`\{([^{}]*)\}`).FindAllStringSubmatch(css, -1) {
		values.WriteString(rule[1] + ";\n")
	}
	return values.String()
}

// Colours are named in one file: a theme that is added there holds everywhere.
func TestColoursAreTokens(t *testing.T) {
	names, err := fs.Glob(static, "static/*.css")
	if err != nil || len(names) < 10 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		data, err := static.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		found := literal.FindAllString(outside(string(data)), -1)
		if own := path.Base(name) == "tokens.css"; own != (len(found) > 0) {
			t.Errorf("%s names the colours %q, want them in tokens.css alone", name, found)
		}
	}
}

// What the test above would find and what it would not.
func TestColourLiterals(t *testing.T) {
	for css, want := range map[string]bool{
		"a { color: #fff; }": true, "a { background: rgb(0 0 0 / 50%); }": true, "a { border: 1px solid black; }": true, "a { color:white }": true,
		"a { white-space: nowrap; }": false, "#fade { color: var(--ink); }": false, `a::before { content: "red"; }`: false, "/* #fff */ a { margin: 0 }": false, "a { border: 1px solid transparent; color: currentcolor; }": false,
	} {
		if got := literal.MatchString(outside(css)); got != want {
			t.Errorf("%s: found %v, want %v", css, got, want)
		}
	}
}

// Every variable that a style sheet uses is a token, or is set in that sheet itself.
func TestTokensExist(t *testing.T) {
	set := func(css string) map[string]bool {
		m := map[string]bool{}
		for _, f := range regexp.MustCompile(`--([a-z0-9-]+)\s*:`).FindAllStringSubmatch(css, -1) {
			m[f[1]] = true
		}
		return m
	}
	tokens, _ := static.ReadFile("static/tokens.css")
	known := set(string(tokens))
	names, _ := fs.Glob(static, "static/*.css")
	uses := 0
	for _, name := range names {
		data, _ := static.ReadFile(name)
		own := set(string(data))
		for _, f := range regexp.MustCompile(`var\(--([a-z0-9-]+)\)`).FindAllStringSubmatch(string(data), -1) {
			uses++
			if !known[f[1]] && !own[f[1]] {
				t.Errorf("%s uses --%s, which nothing sets", name, f[1])
			}
		}
	}
	if uses < 100 {
		t.Errorf("only %d uses of tokens were found", uses)
	}
}

// Each look has its own bundle under an address of its content, kept for ever; what a device decided is no condition any more.
func TestBundles(t *testing.T) {
	h := demoKitchen(t)
	seen := map[string]bool{}
	for _, look := range []deviceLook{{}, {Scheme: lightLook}, {Scheme: darkLook}, {High: true}, {Scheme: lightLook, High: true}, {Scheme: darkLook, High: true}} {
		url := stylesFor(look)
		if seen[url] {
			t.Errorf("%v shares the address %s", look, url)
		}
		seen[url] = true
		w := get(h, url)
		css := w.Body.String()
		if w.Code != 200 || w.Header().Get("Content-Type") != "text/css; charset=utf-8" || !strings.Contains(w.Header().Get("Cache-Control"), "immutable") {
			t.Errorf("%s: %d %v", url, w.Code, w.Header())
		}
		if strings.Contains(css, whenDark) != (look.Scheme == "") || strings.Contains(css, whenHigh) == look.High {
			t.Errorf("%v: the conditions are not decided as it says", look)
		}
	}
	if w := get(h, "/static/all-0000000000000000.css"); w.Code != 404 {
		t.Errorf("an address of no bundle answers %d", w.Code)
	}
	if stylesFor(deviceLook{Type: largestLook}) != stylesFor(deviceLook{}) {
		t.Error("the size of the type makes other styles")
	}
}

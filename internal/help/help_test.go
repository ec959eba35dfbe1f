package help_test

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"kettlefrost/internal/help"
)

func open(t *testing.T) *help.Help {
	t.Helper()
	h, err := help.Open()
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// Every entry has what a cook needs of it; letters of a formula stand in it; what can hurt says who decides.
func TestEveryEntry(t *testing.T) {
	h := open(t)
	if n := len(h.Entries()); n < 80 {
		t.Errorf("%d entries", n)
	}
	for _, e := range h.Entries() {
		if len(e.Needs) == 0 || len(e.More) == 0 {
			t.Errorf("%s says neither what it needs nor what to read", e.Key)
		}
		if words := len(strings.Fields(e.What)); words < 6 || words > 50 {
			t.Errorf("%s is told in %d words: %q", e.Key, words, e.What)
		}
		formulas := strings.Join(e.How, " ")
		for _, l := range e.Letters {
			for sign := range strings.SplitSeq(l.Sign, ",") {
				if sign = strings.TrimSpace(sign); !strings.Contains(formulas, sign) && !strings.Contains(e.What, sign) && !told(e, sign) {
					t.Errorf("%s: %q stands in no formula: %q", e.Key, sign, formulas)
				}
			}
		}
		for _, l := range append(slices.Clone(e.Needs), e.Pages...) {
			if l.Text == "" || l.URL != "" && !strings.HasPrefix(l.URL, "/") {
				t.Errorf("%s leads to %+v", e.Key, l)
			}
		}
	}
}

// told says whether a word that a letter explains stands in another letter or in what is needed.
func told(e help.Entry, sign string) bool {
	return slices.ContainsFunc(e.Letters, func(l help.Letter) bool { return l.Sign != sign && strings.Contains(l.Means, sign) })
}

// What can make somebody ill, or is law, says that a local code or a person decides.
func TestWhatCanHurtSaysWhoDecides(t *testing.T) {
	h := open(t)
	for _, key := range []string{"cooling-times", "cooling-rule", "cooling-verdict", "cooking-verdict", "reheating-time", "allergens", "hold", "hazard-plan", "growth", "lethality", "freezer-warm", "warm-hours", "step-temperature", "label-withheld", "critical-record", "rules-kept"} {
		e, ok := h.Entry(key)
		if !ok || len(e.Cares) == 0 {
			t.Errorf("%s has no caution", key)
		}
	}
}

func TestEveryTerm(t *testing.T) {
	h := open(t)
	if n := len(h.Terms()); n < 80 {
		t.Errorf("%d terms", n)
	}
	if !slices.IsSortedFunc(h.Terms(), func(a, b help.Term) int { return strings.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)) }) {
		t.Error("the terms are not in order")
	}
	for _, term := range h.Terms() {
		if len(term.More) == 0 {
			t.Errorf("%s leads nowhere", term.Name)
		}
		if !strings.HasSuffix(term.Means, ".") {
			t.Errorf("%s: %q is no sentence", term.Name, term.Means)
		}
	}
}

// What a cook types leads to what explains it, first of all.
func TestFind(t *testing.T) {
	h := open(t)
	for words, want := range map[string]string{"slack": "slack", "cost of a pack": "pack-cost", "haccp": "haccp", "ice": "ice", "evaporation": "evaporation", "roux": "roux"} {
		if found := h.Find(words); len(found) == 0 || found[0].Key != want {
			t.Errorf("%q finds %v first", words, found[:min(2, len(found))])
		}
	}
	if found := h.Find("zebra crossing"); len(found) != 0 {
		t.Errorf("%v", found)
	}
}

func TestMistakesAreTold(t *testing.T) {
	const whole = "title: A\nwhat: b\nhow: c\nsure: d\nsource: e\nneeds: f\n"
	for name, c := range map[string]struct{ text, terms, want string }{
		"no source":         {text: "# P\n## a\ntitle: A\nwhat: b\nhow: c\nsure: d\n", want: "source"},
		"formula and none":  {text: "# P\n## a\n" + whole + "no-formula: x\n", want: "formula"},
		"unknown field":     {text: "# P\n## a\nwhy: x\n", want: "no field"},
		"title twice":       {text: "# P\n## a\ntitle: x\ntitle: y\n", want: "twice"},
		"key twice":         {text: "# P\n## a\n" + whole + "## a\n" + whole, want: "twice"},
		"points nowhere":    {text: "# P\n## a\n" + whole + "more: b\n", want: "not there"},
		"no place":          {text: "## a\n" + whole, want: "no place"},
		"neither":           {text: "# P\nhello\n", want: "neither"},
		"letter":            {text: "# P\n## a\nlet: x\n", want: "letter"},
		"before any":        {text: "# P\ntitle: x\n", want: "before"},
		"term says nothing": {terms: "## Roux\nalso: x\n", want: "says nothing"},
		"term twice":        {terms: "## Roux\nmeans: x.\n## roux\nmeans: x.\n", want: "twice"},
	} {
		texts := fstest.MapFS{}
		for _, file := range []string{"plan", "day", "cook", "chill", "freeze", "stock", "orders", "money", "safety", "workshop", "labels", "records"} {
			texts[file+".txt"] = &fstest.MapFile{}
		}
		texts["plan.txt"], texts["terms.txt"] = &fstest.MapFile{Data: []byte(c.text)}, &fstest.MapFile{Data: []byte(c.terms)}
		if _, err := help.Read(texts); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestTutorial(t *testing.T) {
	x, err := help.OpenTutorial()
	if err != nil {
		t.Fatal(err)
	}
	h := open(t)
	if n := len(x.Steps); n < 8 || n > 12 || x.Kitchen == "" {
		t.Errorf("%d steps in %q", n, x.Kitchen)
	}
	for _, s := range x.Steps {
		for _, key := range s.More {
			_, entry := h.Entry(key)
			if _, term := h.Term(key); !entry && !term {
				t.Errorf("%s points at %q", s.Key, key)
			}
		}
	}
	look, count := x.Steps[0], x.Steps[1]
	if !look.DoneBy("/run/tuesday", nil) || look.DoneBy("/run/kettle", nil) {
		t.Error("another run than Tuesday's does the first step")
	}
	if count.DoneBy("/run/tuesday", nil) || count.DoneBy("/run/tuesday", map[string][]string{"count.x": {""}}) || !count.DoneBy("/run/tuesday", map[string][]string{"count.x": {"12"}}) {
		t.Error("a count is changed when the address says so")
	}
}

// Whatever is in the files, it is read or refused.
func FuzzRead(f *testing.F) {
	f.Add("# P\n## a\ntitle: x\n")
	f.Add("## \n: \n  x\n")
	f.Fuzz(func(t *testing.T, text string) {
		texts := fstest.MapFS{}
		for _, file := range []string{"plan", "day", "cook", "chill", "freeze", "stock", "orders", "money", "safety", "workshop", "labels", "records", "terms"} {
			texts[file+".txt"] = &fstest.MapFile{Data: []byte(text)}
		}
		if h, err := help.Read(texts); err == nil {
			for _, e := range h.Entries() {
				if e.Title == "" || len(e.Sources) == 0 {
					t.Errorf("%+v", e)
				}
			}
		}
	})
}

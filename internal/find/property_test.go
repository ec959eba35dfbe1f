package find_test

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"kettlefrost/internal/find"
	"kettlefrost/internal/spelling"
)

var kitchenWords = []string{"ale", "cheddar", "soup", "crème", "bean", "pot", "2 lb", "P-1201-3", "O-17", "2026-12-01", "12/1/2026", "Joe's", "CAFÉ", "#17", "a", "of", "leek", "lentils", "Smørrebrød", "R2-D2", "007", "½", "ale-cheddar-2lb", "0.5", "x_y"}

// entries are of words of the trade, and of whatever can be typed.
func entries(t *rapid.T) []find.Entry {
	text := rapid.OneOf(rapid.StringN(0, 20, 60), rapid.Custom(func(t *rapid.T) string {
		return strings.Join(rapid.SliceOfN(rapid.SampledFrom(kitchenWords), 0, 5).Draw(t, "words"), " ")
	}))
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) find.Entry {
		return find.Entry{Kind: rapid.SampledFrom(find.Kinds).Draw(t, "kind"), ID: text.Draw(t, "id"), Name: text.Draw(t, "name"), About: text.Draw(t, "about"), Area: find.Area(rapid.IntRange(0, 2).Draw(t, "area"))}
	}), 0, 8).Draw(t, "entries")
}

func results(f find.Found) []find.Result {
	var all []find.Result
	for _, g := range f.Groups {
		all = append(all, g.Results...)
	}
	return all
}

// Whatever is there is found by its own name and its own code, if there is a letter or a digit in it, and stands before what is not called so.
func TestFoundByItsOwnName(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := entries(t)
		x := find.NewIndex(all)
		for _, e := range all {
			for _, name := range []string{e.Name, e.ID, strings.ToUpper(e.Name)} {
				f := find.Search(name, find.All, "", x)
				found := results(f)
				if len(f.Words) == 0 || name == strings.ToUpper(e.Name) && strings.ToLower(name) != strings.ToLower(e.Name) { // ß in capitals is another word
					continue
				}
				if !slices.ContainsFunc(found, func(r find.Result) bool { return r.Kind == e.Kind && r.ID == e.ID && r.Name == e.Name }) {
					t.Fatalf("%+v is not found by %q (%q)", e, name, f.Words)
				}
			}
		}
	})
}

// Nothing is found that may not be seen, nothing twice, and nothing without all the words: each is in it, begins one in it, or is near to one.
func TestNothingElseIsFound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := entries(t)
		see := find.Areas(rapid.Uint32Range(0, 7).Draw(t, "see"))
		asked := strings.Join(rapid.SliceOfN(rapid.SampledFrom([]string{"chedar", "ale", "sou", "creme", "leeks", "joes", "beam", "lentl", "smorrebrod"}), 1, 3).Draw(t, "asked"), " ")
		f := find.Search(asked, see, "", find.NewIndex(all))
		if len(results(f)) != f.Total || f.Total > len(all) {
			t.Fatalf("%d are listed of %d", len(results(f)), f.Total)
		}
		for _, r := range results(f) {
			if !see.Has(r.Area) {
				t.Fatalf("%+v may not be seen", r)
			}
			for _, w := range f.Words {
				if !within(w, r.ID+" "+r.Name+" "+r.About) {
					t.Fatalf("%+v has no %q", r, w)
				}
			}
		}
	})
}

// within says, by another way than the index goes, whether a text has a word or nearly: its letters alone are compared, without what stands
// between them.
func within(word, text string) bool {
	plain := strings.NewReplacer("è", "e", "é", "e", "ø", "o", "'", "", "’", "", "½", " ", "\u0300", "", "\u0301", "", "\u0302", "").Replace(strings.ToLower(text))
	if strings.Contains(plain, strings.TrimSuffix(word, "s")) {
		return true
	}
	for part := range strings.FieldsFuncSeq(plain, func(r rune) bool { return r < 'a' || r > 'z' }) {
		if _, near := spelling.Slips(word, part, 2); near {
			return true
		}
	}
	return false
}

// The order in which entries are given makes no difference to what comes first.
func TestTheOrderIsSettled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := entries(t)
		asked := rapid.SampledFrom(kitchenWords).Draw(t, "asked")
		back := slices.Clone(all)
		slices.Reverse(back)
		keys := func(all []find.Entry) (keys []string) {
			for _, r := range results(find.Search(asked, find.All, "", find.NewIndex(all))) {
				keys = append(keys, string(r.Kind)+"|"+r.ID+"|"+r.Name)
			}
			return keys
		}
		if a, b := keys(all), keys(back); !slices.Equal(a, b) {
			t.Fatalf("%q and %q", a, b)
		}
	})
}

// Any text is looked for, whatever it is, and what is read as a scan has a lot or an item.
func FuzzSearch(f *testing.F) {
	for _, seed := range append(kitchenWords, "(01)09501101530003(10)P-1", "https://id.example.org/01/09501101530003/10/P-1", "]C110P-1", "01\x1d", "(", "https://%zz/01", "\xff\xfe", "é\u0300", strings.Repeat("1-", 300)) {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		x := find.NewIndex([]find.Entry{{Kind: find.Dish, ID: "own", Name: text}})
		r := find.Search(text, find.All, "", x)
		if len(text) < 100 && utf8.ValidString(text) && len(r.Words) > 0 && r.Total != 1 {
			t.Errorf("%q does not find itself: %q", text, r.Words)
		}
		for _, w := range r.Words {
			if w == "" {
				t.Errorf("%q has an empty word", text)
			}
		}
		if s, is := find.Scanned(text); is && s.Lot == "" && s.GTIN == "" {
			t.Errorf("%q is read as nothing", text)
		}
	})
}

func TestScanned(t *testing.T) {
	for text, want := range map[string]string{
		"(01)09501101530003(15)270601(10)P-1201-3":                                     "P-1201-3",
		"(10)P-1201-3(21)17":                                                           "P-1201-3#17",
		"(01)09501101530003(10)P(a)3":                                                  "P(a)3", // a bracket of the lot's own
		"]C10109501101530003" + "10P-1201-3":                                           "P-1201-3",
		"]d2010950110153000310P-1201-3\x1d2117":                                        "P-1201-3#17",
		"https://kitchen.example/labels/01/09501101530003/10/P-1201-3/21/17?15=270601": "P-1201-3#17",
		"http://kitchen.example/01/09501101530003/10/P%2F1":                            "P/1",
		"10P-1201-3":              "none", // might be typed
		"0109501101530004":        "none", // the check digit is wrong
		"https://kitchen.example": "none",
		"P-1201-3":                "none",
		"":                        "none",
	} {
		s, is := find.Scanned(text)
		if !is {
			s.Lot = "none"
		}
		if s.Code() != want {
			t.Errorf("%q is %q, not %q", text, s.Code(), want)
		}
	}
}

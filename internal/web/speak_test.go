package web

import (
	"bytes"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/language"
)

// foreign are the languages that pages are put into.
var foreign = []language.Language{language.SpanishOfTheUS, language.FrenchOfCanada}

var (
	aTag  = regexp.MustCompile(`<[a-zA-Z/!][^>]*>`)
	heard = regexp.MustCompile(`\b(aria-label|aria-description|aria-roledescription|aria-valuetext|title|placeholder|alt|label|data-label|data-queue|data-confirm|data-done|data-say[a-z-]*)="[^"]*"`)
)

// skeleton are the tags of a page with all that is not read by people, in the order of the alphabet: a sentence may have its parts elsewhere.
func skeleton(page string) []string {
	tags := aTag.FindAllString(page, -1)
	for i, t := range tags {
		tags[i] = heard.ReplaceAllString(t, `$1`)
		if strings.HasPrefix(t, "<html") {
			tags[i] = "<html>"
		}
	}
	slices.Sort(tags)
	return tags
}

// sameElsewhere fails when a page in another language is not the same page: other tags, ids, names, addresses, or a text that became markup.
func sameElsewhere[T any](t *testing.T, p page[T], full T) {
	t.Helper()
	var english bytes.Buffer
	if err := p.t.ExecuteTemplate(&english, "page", full); err != nil {
		t.Fatal(err)
	}
	want := skeleton(english.String())
	for _, l := range foreign {
		var out, none bytes.Buffer
		translated, err := p.translations[l.Base()]()
		if err != nil {
			t.Errorf("%s: %v", l, err)
			continue
		}
		if translated == p.t {
			t.Errorf("%s is the English page", l)
		}
		var empty T
		if err := translated.ExecuteTemplate(&none, "page", empty); err != nil {
			t.Errorf("%s, empty: %v", l, err)
		}
		if err := translated.ExecuteTemplate(&out, "page", full); err != nil {
			t.Errorf("%s: %v", l, err)
			continue
		}
		if !strings.Contains(out.String(), `lang="`+l.Base()+`"`) {
			t.Errorf("the page does not say that it is in %s", l)
		}
		if strings.Contains(out.String(), "<evil") {
			t.Errorf("%s: a text became markup", l)
		}
		if got := skeleton(out.String()); !slices.Equal(got, want) {
			t.Errorf("%s: the page is built otherwise: %s", l, firstDifference(got, want))
		}
	}
}

func firstDifference(got, want []string) string {
	for i := range min(len(got), len(want)) {
		if got[i] != want[i] {
			return got[i] + " and in English " + want[i]
		}
	}
	return "it has more or fewer tags"
}

// spokenTargets are pages of the demo kitchen.
var spokenTargets = []string{"/", "/run/tuesday", "/run/tuesday/findings", "/run/tuesday/buy", "/run/tuesday/day", "/run/tuesday/next?now=11:20", "/run/tuesday/cook", "/run/tuesday/chill", "/run/tuesday/seal", "/run/tuesday/freeze",
	"/run/tuesday/cards", "/run/tuesday/labels", "/run/tuesday/money", "/run/tuesday/papers", "/week", "/filling", "/filling/ale-cheddar-lb", "/cool", "/cool?of=bean-pot/pot&much=30+gal", "/heat", "/foods?q=lentil", "/no/such/page", "/run/tuesday/day?finish=late"}

var (
	betweenTags = regexp.MustCompile(`>[^<]+<`)
	unseenText  = regexp.MustCompile(`(?s)<(script|style|svg|code|pre|textarea|noscript)\b.*?</(script|style|svg|code|pre|textarea|noscript)>`)
	drawn       = regexp.MustCompile(`value="[0-9a-f-]{32,36}"`) // the number of an entry, drawn for each page
)

// The demo kitchen's pages are the same in every language but for what they say: the names that the book gives stay, and so do all figures.
func TestTheDemoInOtherLanguages(t *testing.T) {
	h := demoKitchen(t)
	names := namesOfDemo(t)
	for _, l := range foreign {
		all, english := 0, 0
		for _, target := range spokenTargets {
			want := drawn.ReplaceAllString(get(h, target).Body.String(), "")
			w := getIn(h, target, l)
			got := drawn.ReplaceAllString(w.Body.String(), "")
			if a, b := skeleton(unseenText.ReplaceAllString(got, "")), skeleton(unseenText.ReplaceAllString(want, "")); !slices.Equal(a, b) {
				t.Errorf("%s in %s is built otherwise: %s", target, l, firstDifference(a, b))
			}
			for _, name := range names {
				if strings.Count(got, ">"+name+"<") < strings.Count(want, ">"+name+"<") {
					t.Errorf("%s in %s: the book's %q is said otherwise", target, l, name)
				}
			}
			was := map[string]bool{}
			for _, text := range betweenTags.FindAllString(unseenText.ReplaceAllString(want, ""), -1) {
				was[text] = true
			}
			for _, text := range betweenTags.FindAllString(unseenText.ReplaceAllString(got, ""), -1) {
				n := len(words.FindAllString(text, -1))
				all += n
				if was[text] {
					english += n
				}
			}
		}
		t.Logf("%s: of %d words on these pages %d are as in English, names of the book among them", l, all, english)
		if all == 0 || english == all {
			t.Errorf("nothing is said in %s", l)
		}
	}
}

var words = regexp.MustCompile(`[A-Za-zÀ-ÿ]{2,}`)

// getIn asks for a page as a device that was told a language.
func getIn(h http.Handler, target string, l language.Language) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodGet, target, nil)
	r.Host = "localhost"
	r.AddCookie(&http.Cookie{Name: languageCookie, Value: string(l)})
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// namesOfDemo are the names that the demo book gives to what it has.
func namesOfDemo(t *testing.T) (names []string) {
	t.Helper()
	house, err := app.New(demo.Book(), someDay)
	if err != nil {
		t.Fatal(err)
	}
	book, _ := house.Book()
	for _, d := range book.Dishes {
		names = append(names, d.Name)
		for _, s := range d.Steps {
			names = append(names, string(s.ID))
		}
	}
	for _, x := range book.Ingredients {
		names = append(names, x.Name)
	}
	for _, x := range book.Equipment {
		names = append(names, x.Name)
	}
	for _, x := range book.Packs {
		names = append(names, x.Name)
	}
	for _, x := range book.People {
		names = append(names, x.Name)
	}
	for _, x := range book.Suppliers {
		names = append(names, x.Name)
	}
	return slices.DeleteFunc(names, func(n string) bool { return n == "" })
}

// A dish that is called as a page is called stays what it is: what is said otherwise is as much as with another name.
func TestADishNamedLikeAPage(t *testing.T) {
	renamed := fstest.MapFS{}
	err := fs.WalkDir(demo.Book(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(demo.Book(), name)
		renamed[name] = &fstest.MapFile{Data: []byte(strings.ReplaceAll(strings.ReplaceAll(string(text), "Ale and cheddar sauce", "Stock"), "sharp cheddar", "Start"))}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	house, err := app.New(renamed, someDay)
	if err != nil {
		t.Fatal(err)
	}
	odd, usual := New(house, Options{}), demoKitchen(t)
	if page := getIn(odd, "/run/tuesday/cook", language.Spanish).Body.String(); !strings.Contains(page, "Stock") || !strings.Contains(page, "Start") {
		t.Fatal("the names of this kitchen are not on its pages")
	}
	for _, target := range spokenTargets {
		got, want := getIn(odd, target, language.Spanish).Body.String(), getIn(usual, target, language.Spanish).Body.String()
		for _, word := range []string{"Existencias", "Empezar"} {
			if strings.Count(got, word) > strings.Count(want, word) {
				t.Errorf("%s: a name is said as %s", target, word)
			}
		}
	}
}

// A page in another language beside the English one: what the translation costs is the difference.
func BenchmarkSpoken(b *testing.B) {
	house, err := app.New(demo.Book(), someDay)
	if err != nil {
		b.Fatal(err)
	}
	h := New(house, Options{})
	for _, target := range []string{"/", "/run/tuesday/cook", "/foods?q=a"} {
		for _, l := range []language.Language{language.English, language.SpanishOfTheUS} {
			getIn(h, target, l)
			b.Run(target+" "+string(l), func(b *testing.B) {
				for b.Loop() {
					getIn(h, target, l)
				}
			})
		}
	}
}

// A drawing that is asked for by its address is said too, and is still a drawing.
func TestDrawingsAreSaid(t *testing.T) {
	const target = "/run/tuesday/cooling/0/1.svg"
	english, said := get(demoKitchen(t), target).Body.String(), getIn(demoKitchen(t), target, language.SpanishOfTheUS).Body.String()
	if !strings.Contains(said, ">punto más caliente<") || strings.Contains(said, ">hottest point<") {
		t.Errorf("the drawing is not said: %.2000s", said)
	}
	if a, b := aTag.FindAllString(english, -1), aTag.FindAllString(said, -1); !slices.Equal(a, b) {
		t.Errorf("it is drawn otherwise: %s", firstDifference(b, a))
	}
}

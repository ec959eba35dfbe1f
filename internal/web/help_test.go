package web

import (
	"html"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"net/url"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
)

var whyCall = regexp.MustCompile(`template "why" "([^"]*)"`)

// shows is what a figure stands in: a mass or temperature in both units, or the figures at the head of a page.
var shows = regexp.MustCompile(`template "fig"|class="head`)

// explainedElsewhere are pages with figures that were explained where they come from.
var explainedElsewhere = map[string]string{"carried": "what was typed", "look": "examples of each part of the pages"}

// Every key that a template asks for is there, and every page that shows figures leads to what at least one of them is.
func TestEveryPageExplainsItsFigures(t *testing.T) {
	files, err := fs.Glob(templates, "templates/*.html")
	if err != nil {
		t.Fatal(err)
	}
	parts, err := fs.Glob(templates, "templates/shared/*.html")
	if err != nil {
		t.Fatal(err)
	}
	explains := map[string]bool{} // parts that are called as their files are
	for _, path := range append(parts, files...) {
		text, err := fs.ReadFile(templates, path)
		if err != nil {
			t.Fatal(err)
		}
		calls := whyCall.FindAllStringSubmatch(string(text), -1)
		for _, call := range calls {
			if _, ok := helpTexts.Entry(call[1]); !ok {
				t.Errorf("%s asks for %q, which is not there", path, call[1])
			}
		}
		name := strings.TrimSuffix(path[strings.LastIndexByte(path, '/')+1:], ".html")
		if strings.Contains(path, "/shared/") {
			explains[name] = len(calls) > 0
			continue
		}
		silent := shows.Match(text) && len(calls) == 0 && !(explains[name] && strings.Contains(string(text), `template "`+name+`"`))
		if _, known := explainedElsewhere[name]; silent != known {
			t.Errorf("%s has figures that nothing explains: %v; it is among those that need not: %v", path, silent, known)
		}
	}
}

func TestAKeyThatIsNotThereIsAMistake(t *testing.T) {
	if _, err := whyTitle("nothing-of-the-kind"); err == nil {
		t.Error("it has a title")
	}
}

// Whatever the texts lead to is a page of the demo kitchen.
func TestHelpLeadsSomewhere(t *testing.T) {
	h, _ := larder(t)
	sections := map[string]bool{}
	for f := range reflect.TypeFor[kitchen.Book]().Fields() {
		name, _, _ := strings.Cut(f.Tag.Get("yaml"), ",")
		sections[name] = true
	}
	seen := map[string]bool{}
	var look func(from, at string)
	look = func(from, at string) {
		if seen[at] || at == "" {
			return
		}
		seen[at] = true
		if section, is := strings.CutPrefix(at, "/book/"); is {
			if !sections[section] {
				t.Errorf("%s leads to %s: the book has no such section", from, at)
			}
			return
		}
		w := get(h, strings.SplitN(at, "#", 2)[0])
		if w.Code != http.StatusOK {
			t.Errorf("%s leads to %s: status %d", from, at, w.Code)
		}
	}
	for _, e := range helpTexts.Entries() {
		look("the contents", helpURL(e.Key))
		page := get(h, helpURL(e.Key)).Body.String()
		for _, link := range regexp.MustCompile(`class="reach" href="([^"]+)"`).FindAllStringSubmatch(page, -1) {
			look(e.Key, html.UnescapeString(link[1]))
		}
	}
	for _, x := range tutorial.Steps {
		look("the tutorial", x.Page.URL)
	}
	for _, term := range helpTexts.Terms() {
		for _, link := range moreHelp(term.More) {
			look(term.Name, link.URL)
		}
	}
	if w := get(h, "/help/nothing"); w.Code != http.StatusNotFound {
		t.Errorf("help of nothing: status %d", w.Code)
	}
	if w := get(h, "/help/roux"); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/glossary#roux" {
		t.Errorf("a word of the trade: %d to %s", w.Code, w.Header().Get("Location"))
	}
}

// Other kitchens than the demo have no run of Tuesday.
func TestHelpLeadsToARunOfThisKitchen(t *testing.T) {
	bare := kitchenOf(t, "kitchen: {name: Test}\n")
	if page := get(bare, "/help/timetable-slack").Body.String(); strings.Contains(page, "/run/") {
		t.Error("a kitchen without runs is led to one")
	}
	other := kitchenOf(t, "kitchen: {name: Test}\nruns:\n  monday:\n    want: []\n")
	if page := get(other, "/help/timetable-slack").Body.String(); !strings.Contains(page, `href="/run/monday/day"`) {
		t.Error("the run of this kitchen is not linked")
	}
}

func TestHelpPages(t *testing.T) {
	rendered(t, "help", helpTemplate)
	rendered(t, "helpentry", helpEntryTemplate)
	rendered(t, "glossary", glossaryTemplate)
	rendered(t, "tutorial", tutorialTemplate, func(p *tutorialPage) { p.Begun = false }, func(p *tutorialPage) { p.Begun, p.Elsewhere = false, "" })
	h := demoKitchen(t)
	for target, want := range map[string][]string{
		"/help":               {`href="/help/packs"`, `id="at-chill"`},
		"/help?q=slack":       {"What slack and critical mean", `href="/glossary#slack"`},
		"/help?q=zebra":       {"Try fewer or simpler ones"},
		"/help/cooling-times": {"How sure it is", "Your local code decides", "Choi and Okos", `href="/help/surface-coefficient"`},
		"/glossary":           {`id="haccp"`, `href="#letter-R"`, "Flour cooked in as much fat"},
		"/find?q=break+even":  {`href="/help/break-even"`, "Help"},
		"/find?q=roux":        {`href="/glossary#roux"`},
	} {
		body := get(h, target).Body.String()
		for _, text := range want {
			if !strings.Contains(body, text) {
				t.Errorf("%s does not have %q", target, text)
			}
		}
	}
	part := get(h, "/help/packs?part=1").Body.String()
	if strings.Contains(part, "<html") || !strings.Contains(part, `id="why-title"`) || !strings.Contains(part, "N = floor(M / m)") {
		t.Errorf("the first lines are %q", part)
	}
}

// tour is a browser that has begun the tutorial, or has not.
type tour struct {
	h      http.Handler
	cookie *http.Cookie
}

func (x *tour) ask(t *testing.T, method, target, form string) string {
	t.Helper()
	r := httptest.NewRequest(method, target, strings.NewReader(form))
	r.Host = "localhost"
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	if x.cookie != nil {
		r.AddCookie(x.cookie)
	}
	w := httptest.NewRecorder()
	x.h.ServeHTTP(w, r)
	for _, c := range w.Result().Cookies() {
		if c.Name == tutorialCookie {
			x.cookie = c
		}
	}
	return w.Body.String()
}

// done counts the tasks that are ticked off.
func (x *tour) done(t *testing.T) int {
	t.Helper()
	return strings.Count(x.ask(t, http.MethodGet, tutorialPath, ""), `<li class="done">`)
}

// What is looked at counts from when the tutorial was begun on this device; what is entered counts by the records alone.
func TestTutorialTicksItselfOff(t *testing.T) {
	h, records := larder(t)
	x := &tour{h: h}
	x.ask(t, http.MethodGet, "/run/tuesday", "")
	if x.cookie != nil {
		t.Fatal("somebody who never began is followed")
	}
	x.ask(t, http.MethodPost, tutorialPath, "do=begin")
	kinds, err := records.Kinds(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	before := x.done(t)
	entered := 0
	for _, s := range tutorial.Steps {
		if s.Entry != "" {
			for k := range kinds {
				if string(k) == s.Entry {
					entered++
				}
			}
		}
	}
	if before != entered {
		t.Errorf("%d tasks are done at first, and %d were entered", before, entered)
	}
	for i, target := range []string{"/run/tuesday", "/run/tuesday?count.ale-cheddar-lb=120", "/run/tuesday/buy"} {
		x.ask(t, http.MethodGet, target, "")
		if got := x.done(t); got != before+i+1 {
			t.Errorf("after %s %d tasks are done, not %d", target, got, before+i+1)
		}
	}
	r := httptest.NewRequest(http.MethodGet, "/", nil)
	r.AddCookie(x.cookie)
	s := &server{house: &shelf{}, records: records}
	if c, ok := s.tutorialCard(r, kitchen.Kitchen{Name: tutorial.Kitchen}); !ok || !strings.Contains(strings.Join(c.Says, " "), "of "+times(len(tutorial.Steps), "task", "tasks")) {
		t.Errorf("the card says %v", c)
	}
	x.ask(t, http.MethodPost, tutorialPath, "do=leave")
	if x.cookie.MaxAge >= 0 {
		t.Error("the tutorial cannot be left")
	}
}

// A kitchen of one's own is told so, is not followed, and is asked to enter nothing.
func TestTutorialElsewhere(t *testing.T) {
	x := &tour{h: kitchenOf(t, "kitchen: {name: My own}\n")}
	x.ask(t, http.MethodPost, tutorialPath, "do=begin")
	page := x.ask(t, http.MethodGet, tutorialPath, "")
	if x.cookie != nil || !strings.Contains(page, "a kitchen of your own") || strings.Contains(page, `value="begin"`) || strings.Contains(page, `href="/orders/new"`) {
		t.Errorf("%v %s", x.cookie, page)
	}
}

// The tutorial knows the demo kitchen by its name.
func TestTutorialKitchen(t *testing.T) {
	house, err := app.New(demo.Book(), someDay)
	if err != nil {
		t.Fatal(err)
	}
	book, _ := house.Book()
	if !inTutorialKitchen(book.Kitchen) || !strings.Contains(book.Kitchen.Note, "invented") {
		t.Errorf("the demo is called %q", book.Kitchen.Name)
	}
	for _, s := range tutorial.Steps {
		if u, err := url.Parse(s.Page.URL); err != nil || s.Visit != "" && s.Asks == "" && !s.DoneBy(u.Path, nil) {
			t.Errorf("the page of %s does not do it: %s", s.Key, s.Page.URL)
		}
	}
}

package web

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"testing"

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

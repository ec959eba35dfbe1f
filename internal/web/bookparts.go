package web

import (
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/bookform"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/people"
)

func sectionURL(section string) string { return bookPath + "/" + section }

// entryURL is where an entry of the book is looked at and changed.
func entryURL(section, id string) string {
	switch {
	case id == "":
		return sectionURL(section)
	case section == "dishes":
		return "/dish/" + url.PathEscape(id)
	}
	return sectionURL(section) + "/" + url.PathEscape(id)
}

// nounAsked is what an address is about: an entry of a section, or a single noun.
type nounAsked struct {
	section bookform.Section
	id      string
	path    string // in the book
	there   bool
	name    string
	value   any
	url     string
}

// nounOf is what an address is about; false when it was answered because there is no such thing.
func (s *server) nounOf(w http.ResponseWriter, r *http.Request, book kitchen.Book) (x nounAsked, ok bool) {
	if x.section, ok = bookform.SectionOf(r.PathValue("section")); !ok {
		s.missing(w, r, book, "The book has no such section.")
		return x, false
	}
	if x.id = r.PathValue("id"); x.section.Single != (x.id == "") {
		s.missing(w, r, book, "The book has no such entry.")
		return x, false
	}
	for _, e := range bookform.Entries(book, x.section.Key) {
		if e.ID == x.id {
			x.path, x.there, x.name, x.value = e.Path, true, e.Name, e.Value
		}
	}
	x.url = sectionURL(x.section.Key)
	if x.section.Single {
		x.name = x.section.Name
		return x, true
	}
	x.url += "/" + url.PathEscape(x.id)
	if !x.there {
		x.path = kitchen.PathTo(x.section.Key, x.id)
	}
	return x, true
}

// within are the findings about what stands at a path.
func within(found finding.List, path string) finding.List {
	return slices.DeleteFunc(slices.Clone(found), func(f finding.Finding) bool {
		rest, in := strings.CutPrefix(f.Path, path)
		return !in || rest != "" && rest[0] != '.' && rest[0] != '['
	})
}

// worstMark is the class and the sign of the gravest of some findings; notes alone have none.
func worstMark(found finding.List) (class, sign string) {
	if worst := found.Worst(); len(found) > 0 && worst > finding.Note {
		return worst.String(), signs[worst]
	}
	return "", ""
}

// hiddenMoney says which fields somebody does not see who may not see what things cost.
func hiddenMoney(r *http.Request) func(bookform.Field) bool {
	may := sees(r, people.Money)
	return func(f bookform.Field) bool { return !may && f.Kind == bookform.Money }
}

// markOfNoun is one word for what stands at a path: a form carries it, so that what somebody else changed meanwhile is not lost.
func markOfNoun(book kitchen.Book, path string) string {
	form, err := bookform.Make(book, path, nil)
	if err != nil {
		return ""
	}
	sum := sha256.Sum256([]byte(form.Values().Encode()))
	return hex.EncodeToString(sum[:8])
}

// bookUse is a place of the book that names an entry.
type bookUse struct{ Where, URL string }

func usesOf(names bookform.Names, path string) []bookUse {
	var all []bookUse
	for _, u := range names.Of(path) {
		x := bookUse{capital(u.Where), entryURL(u.Section, u.ID)}
		if !slices.Contains(all, x) {
			all = append(all, x)
		}
	}
	return all
}

// runLinks are runs with their addresses.
func runLinks(book kitchen.Book, names []string) []bookUse {
	var all []bookUse
	for _, n := range names {
		x := bookUse{n, runPath(n)}
		if name := book.Runs[n].Name; name != "" {
			x.Where = name
		}
		all = append(all, x)
	}
	return all
}

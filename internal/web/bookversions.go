package web

import (
	"errors"
	"net/http"
	"slices"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/bookform"
	"kettlefrost/internal/kitchen"
)

// versionsPage is all that templates/bookversions.html may show: what an entry was, and who changed it.
type versionsPage struct {
	shell
	Of      navLink
	Action  string
	None    string // why there is nothing to show
	Problem string
	Rows    []nounVersion
}

// nounVersion is one change of an entry.
type nounVersion struct {
	When, Who, File string
	Begun           bool // the first of it
	Gone            bool
	Now             bool
	Fields          []changedField
	Seq, Entry      string // to bring it back; "" for what it is now
	Compare         string
}

func (s *server) showEntryVersions(w http.ResponseWriter, r *http.Request) {
	s.versions(w, r, http.StatusOK, "")
}

func (s *server) versions(w http.ResponseWriter, r *http.Request, status int, problem string) {
	book, _ := s.house.Book()
	x, ok := s.nounOf(w, r, book)
	if !ok {
		return
	}
	v := versionsPage{shell: s.inShell(r, book.Kitchen, "Versions of "+named(x), "book"), Of: navLink{Name: named(x), URL: entryPageURL(x.section.Key, x.id)}, Action: x.url + "/versions", Problem: problem}
	all, none, err := s.versionsOf(r, x)
	if v.None = none; err != nil {
		v.Problem = sentence(err)
	}
	if err == nil && none == "" && len(all) == 0 && !x.there {
		s.missing(w, r, book, "The book has no such entry, and never had.")
		return
	}
	before := any(nil)
	for i, e := range all {
		row := nounVersion{When: s.toldAt(e.When), Who: e.Who, File: e.File, Begun: i == 0 || before == nil, Gone: e.Value == nil, Now: i == len(all)-1}
		if !row.Begun && !row.Gone {
			row.Fields = s.changedFields(r, before, e.Value, houseOf(book.Kitchen))
		}
		if !row.Now && e.Value != nil {
			row.Seq, row.Entry = strconv.FormatUint(e.Seq, 10), newEntryID()
		}
		if !row.Now && e.Value != nil && x.there {
			row.Compare = x.url + "/compare?version=" + strconv.FormatUint(e.Seq, 10)
		}
		before = e.Value
		v.Rows = append(v.Rows, row)
	}
	slices.Reverse(v.Rows)
	bookVersionsTemplate.show(w, status, v)
}

// named is what an entry is called, though it may be gone.
func named(x nounAsked) string {
	if x.name != "" {
		return x.name
	}
	return x.id
}

// versionsOf are the changes of an entry, or why there are none to be seen.
func (s *server) versionsOf(r *http.Request, x nounAsked) ([]app.EntryVersion, string, error) {
	house, can := s.house.(nounHouse)
	if !can || s.records == nil || !house.InRecords() {
		return nil, "The book is a folder of text files, whose versions are not kept here. In the records every change of it is kept, with who made it and when.", nil
	}
	all, err := s.records.EntryVersions(r.Context(), x.path)
	return all, "", err
}

// versionAsked is the version of an entry that an address or a form names.
func versionAsked(all []app.EntryVersion, seq string) (app.EntryVersion, bool) {
	i := slices.IndexFunc(all, func(v app.EntryVersion) bool { return strconv.FormatUint(v.Seq, 10) == seq && v.Value != nil })
	if i < 0 {
		return app.EntryVersion{}, false
	}
	return all[i], true
}

// bringBack makes an entry what it was, as a change of the book.
func (s *server) bringBack(w http.ResponseWriter, r *http.Request) {
	if _, ok := s.typed(w, r); !ok {
		return
	}
	book, _ := s.house.Book()
	x, ok := s.nounOf(w, r, book)
	if !ok {
		return
	}
	to := entryPageURL(x.section.Key, x.id) + "?" + savedKey + "=back"
	all, none, err := s.versionsOf(r, x)
	old, there := versionAsked(all, r.PostFormValue("version"))
	switch {
	case err != nil || none != "" || !there:
		s.versions(w, r, http.StatusUnprocessableEntity, "There is no such version of it: nothing was changed.")
		return
	case s.tookIn(r):
		http.Redirect(w, r, to, http.StatusSeeOther)
		return
	}
	edit, err := s.editNoun(w, r, []bookfile.Change{bookfile.Set(x.path, old.Value)})
	switch {
	case errors.Is(err, errAnswered):
	case err != nil:
		s.versions(w, r, http.StatusUnprocessableEntity, s.bookTrouble(err))
	case edit.Saved:
		http.Redirect(w, r, to, http.StatusSeeOther)
	}
}

// pairsPage is all that templates/bookcompare.html may show: two entries of a kind, or one at two times, field by field.
type pairsPage struct {
	shell
	Of       navLink
	Action   string
	Choices  []option // entries to compare with
	Versions []option // earlier versions of this one
	A, B     string   // what stands at the head of each side
	Rows     []sideRow
	Tally    string
	All      string // address with the fields that are the same, or without
	AllName  string
}

// sideRow is one field on both sides.
type sideRow struct {
	Label, A, B string
	Sign, Class string
}

func (s *server) showEntryCompare(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	x, ok := s.known(w, r, book)
	if !ok {
		return
	}
	query := r.URL.Query()
	v := pairsPage{shell: s.inShell(r, book.Kitchen, "Compare "+x.name, "book"), Of: navLink{Name: x.name, URL: entryPageURL(x.section.Key, x.id)}, Action: x.url + "/compare"}
	other, otherName := any(nil), ""
	for _, e := range bookform.Entries(book, x.section.Key) {
		if e.ID != x.id {
			here := query.Get("with") == e.ID
			if v.Choices = append(v.Choices, option{e.ID, e.Name, here}); here {
				other, otherName = e.Value, e.Name
			}
		}
	}
	all, _, err := s.versionsOf(r, x)
	for i, e := range slices.Backward(all) {
		if e.Value == nil || i == len(all)-1 {
			continue
		}
		seq := strconv.FormatUint(e.Seq, 10)
		here := query.Get("version") == seq
		name := s.toldAt(e.When) + ", " + e.Who
		if v.Versions = append(v.Versions, option{seq, name, here}); here {
			other, otherName = e.Value, x.name+" on "+name
		}
	}
	if err == nil && other != nil {
		s.pairs(r, &v, book, x, other, otherName)
	}
	bookCompareTemplate.show(w, http.StatusOK, v)
}

// pairs puts the fields side by side; those that are the same only where it is asked.
func (s *server) pairs(r *http.Request, v *pairsPage, book kitchen.Book, x nounAsked, other any, otherName string) {
	query := r.URL.Query()
	v.A, v.B = x.name, otherName
	same, differ := 0, 0
	for _, p := range bookform.Compare(x.value, other, houseOf(book.Kitchen)) {
		if hiddenMoney(r)(bookform.Field{Kind: p.Kind}) {
			continue
		}
		row := sideRow{Label: p.Label, A: orNone(p.A), B: orNone(p.B), Sign: "=", Class: "same"}
		if p.Differs() {
			row.Sign, row.Class = "≠", "differs"
			differ++
		} else if same++; query.Get("all") == "" {
			continue
		}
		v.Rows = append(v.Rows, row)
	}
	v.Tally = times(differ, "field differs", "fields differ") + ", " + times(same, "is the same", "are the same")
	v.AllName = "Show what is the same, too"
	if query.Get("all") != "" {
		query.Del("all")
		v.AllName = "Show only what differs"
	} else {
		query.Set("all", "1")
	}
	v.All = x.url + "/compare" + queryOf(query)
}

var (
	bookVersionsTemplate = parse[versionsPage]("bookversions")
	bookCompareTemplate  = parse[pairsPage]("bookcompare")
)

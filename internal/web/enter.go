package web

import (
	"cmp"
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"unicode"

	"kettlefrost/internal/app"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
)

// Fields that every form which enters something may have.
const (
	entryField = "entry" // the entry's id, drawn when the form was shown: a form that is sent twice is taken in once
	whoField   = "who"
	backField  = "back"
)

// mostForm is more than any form of ours sends, in bytes.
const mostForm = 1 << 20

// newEntryID draws the id of what a form will enter.
func newEntryID() string {
	var id record.ID
	rand.Read(id[:]) // never fails (crypto/rand)
	return id.String()
}

// enter takes in what a form says, all of it or nothing, as said by whoever acts on this device, and sends the browser on to a page of ours,
// which says what was entered and lets it be taken back. The form has a hidden field with newEntryID.
func (s *server) enter(w http.ResponseWriter, r *http.Request, back string, bodies ...record.Body) {
	said := make([]app.Said, len(bodies))
	for i, b := range bodies {
		said[i].Body = b
	}
	s.enterSaid(w, r, back, said...)
}

// correct takes in what a form says in place of an earlier entry.
func (s *server) correct(w http.ResponseWriter, r *http.Request, back string, wrong record.ID, body record.Body) {
	s.enterSaid(w, r, back, app.Said{Corrects: wrong, Body: body})
}

func (s *server) enterSaid(w http.ResponseWriter, r *http.Request, back string, said ...app.Said) {
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	for i := range said {
		said[i].ID, said[i].Who, said[i].Device, said[i].At = app.PartID(by.ID, i), by.Who, by.Device, by.At
	}
	if _, err := s.records.Enter(r.Context(), said...); err != nil {
		if _, denied := errors.AsType[*people.DeniedError](err); denied {
			s.deny(w, r, r, sentence(err)+" Nothing was entered.")
			return
		}
		status, text := trouble(err)
		s.refuse(w, r, status, text)
		return
	}
	http.Redirect(w, r, withDid(back, fmt.Sprintf("%s-%d", by.ID, len(said))), http.StatusSeeOther)
}

// sender is who sends a form, with its number and the time, and false when it was answered because nobody can be told or it has no number.
func (s *server) sender(w http.ResponseWriter, r *http.Request) (app.Said, bool) {
	id, err := record.ParseID(r.PostFormValue(entryField))
	if err != nil || id == (record.ID{}) {
		s.refuse(w, r, http.StatusBadRequest, "This form was sent without its number: load the page again.")
		return app.Said{}, false
	}
	who := s.who(w, r)
	if who == "" {
		s.askWho(w, r)
		return app.Said{}, false
	}
	return app.Said{ID: id, Who: who, Device: device(r), At: s.house.Now()}, true
}

// trouble is the status and the words for what kept an entry out.
func trouble(err error) (int, string) {
	if app.IsConflict(err) {
		return http.StatusConflict, "This form was sent before with something else in it. What was sent first is kept: load the page again and look."
	}
	if app.IsTrouble(err) {
		return http.StatusServiceUnavailable, sentence(err) + " Nothing was entered: go back and send it again."
	}
	return http.StatusUnprocessableEntity, sentence(err) + " Nothing was entered."
}

// withDid is an address of ours that tells what was just entered.
func withDid(back, did string) string {
	u, err := url.Parse(ours(back))
	if err != nil {
		u = &url.URL{Path: "/"}
	}
	q := u.Query()
	q.Set("did", did)
	u.RawQuery = q.Encode()
	return u.String()
}

// ours is an address below this one, or the home page: a form cannot send a browser elsewhere.
func ours(address string) string {
	if !strings.HasPrefix(address, "/") || strings.HasPrefix(address, "//") || strings.ContainsAny(address, "\\\r\n") {
		return "/"
	}
	return address
}

// didView is what was entered just now.
type didView struct {
	Says  []string
	Entry string // its number, with how many came with it
	Back  string
}

// didKey is where a request keeps what was just entered.
type didKey struct{}

// telling looks up what was just entered before a page is made: a page may be made while the records are lent to it.
func (s *server) telling(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if v := s.lookUpDid(r); v != nil {
			r = r.WithContext(context.WithValue(r.Context(), didKey{}, v))
		}
		next.ServeHTTP(w, r)
	})
}

// did is what was entered just before this page was asked for; nil for nothing.
func did(r *http.Request) *didView {
	v, _ := r.Context().Value(didKey{}).(*didView)
	return v
}

// lookUpDid is what an address says was just entered, if it stands.
func (s *server) lookUpDid(r *http.Request) *didView {
	first, n, ok := readDid(r.URL.Query().Get("did"))
	if !ok || s.records == nil {
		return nil
	}
	book, _ := s.house.Book()
	rd := readerOf(book.Kitchen, r)
	query := r.URL.Query()
	query.Del("did")
	v := &didView{Entry: r.URL.Query().Get("did"), Back: r.URL.EscapedPath() + queryOf(query)}
	for i := range n {
		e, there, err := s.records.Entry(r.Context(), app.PartID(first, i))
		if err != nil || !there {
			return nil
		}
		body, err := record.Decode(e.Kind, e.Body)
		if err != nil {
			return nil
		}
		v.Says = append(v.Says, sheet.EntryText(body, rd.units))
	}
	return v
}

// mostDone is more than any form enters at once.
const mostDone = 500

func readDid(text string) (record.ID, int, bool) {
	hex, count, ok := strings.Cut(text, "-")
	id, err := record.ParseID(hex)
	n, err2 := strconv.Atoi(count)
	return id, n, ok && cmp.Or(err, err2) == nil && id != (record.ID{}) && n > 0 && n <= mostDone
}

// takeBack takes back what a form entered: by entries that void it.
func (s *server) takeBack(w http.ResponseWriter, r *http.Request) {
	first, n, ok := readDid(r.PostFormValue(entryField))
	if !ok {
		s.refuse(w, r, http.StatusBadRequest, "It is not said what is to be taken back.")
		return
	}
	who := s.who(w, r)
	if who == "" {
		s.askWho(w, r)
		return
	}
	why := cmp.Or(tidy(r.PostFormValue("why")), "entered by mistake")
	var said []app.Said
	for i := range n {
		id := app.PartID(first, i)
		said = append(said, app.Said{ID: app.VoidID(id), Who: who, Device: device(r), At: s.house.Now(), Corrects: id, Body: record.Voided{Why: why}})
	}
	if _, err := s.records.Enter(r.Context(), said...); err != nil {
		status, text := trouble(err)
		s.refuse(w, r, status, text)
		return
	}
	http.Redirect(w, r, ours(r.PostFormValue(backField)), http.StatusSeeOther)
}

// enterRoutes are the ways in for entries of any kind.
func (s *server) enterRoutes(mux *http.ServeMux) {
	mux.HandleFunc("POST /undo", s.entering(s.takeBack))
	mux.HandleFunc("POST /enter", s.entering(s.takeQueue))
}

// entering is a handler of a form that enters something: there are records, and the form is not too long.
func (s *server) entering(next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if s.records == nil {
			s.refuse(w, r, http.StatusConflict, "No records are kept here, so nothing can be entered. Start with kettlefrost serve --records kitchen.records.")
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, mostForm)
		if strings.HasPrefix(r.Header.Get("Content-Type"), "application/x-www-form-urlencoded") {
			if err := r.ParseForm(); err != nil {
				s.refuse(w, r, http.StatusBadRequest, "The form cannot be read: load the page again.")
				return
			}
			printable(r.Form)
			printable(r.PostForm)
			s.answered.once(w, r, next)
			return
		}
		next(w, r)
	}
}

// printable takes out of what was typed what nobody sees: characters that came along when a text was pasted.
func printable(form url.Values) {
	for _, values := range form {
		for i, text := range values {
			values[i] = strings.Map(func(r rune) rune {
				if unicode.IsControl(r) && r != '\n' && r != '\r' && r != '\t' {
					return -1
				}
				return r
			}, text)
		}
	}
}

// refuse says why nothing was entered.
func (s *server) refuse(w http.ResponseWriter, r *http.Request, status int, text string) {
	book, _ := s.house.Book()
	refusedTemplate.show(w, status, refusedPage{shell: s.inShell(r, book.Kitchen, "Not entered", ""), Message: text})
}

// refusedPage is all that templates/refused.html may show.
type refusedPage struct {
	shell
	Message string
}

var refusedTemplate = parse[refusedPage]("refused")

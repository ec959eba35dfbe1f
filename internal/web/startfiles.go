package web

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"mime/multipart"
	"net/http"
	"path"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// startCheck is what was sent to begin with, looked at before anything of it is taken.
type startCheck struct {
	Upload  string // what it is found by
	Files   []string
	Left    []string // what is no part of a book
	More    string   // of those, not shown
	Found   findingsView
	Good    bool // it can be taken
	Entries bool // all entries of other records are among it
	Whole   bool // and they can be taken: these records hold nothing
}

// Most that is listed on the page.
const (
	mostFilesShown = 60
	filesField     = "files"
	wholeKey       = "whole"
)

// beginFromFiles looks at what was sent, and takes it when that is asked for.
func (s *server) beginFromFiles(w http.ResponseWriter, r *http.Request, u *uploads) {
	if s.noRecords(w, r) {
		return
	}
	r.Body = http.MaxBytesReader(w, r.Body, mostSheet)
	house, can := s.house.(beginHouse)
	if !can {
		s.refuse(w, r, http.StatusConflict, "No kitchen can begin here.")
		return
	}
	sent, key, problem := sentFiles(r, u)
	v := s.startOf(r)
	switch {
	case problem != "":
		v.Problem = problem
		startTemplate.show(w, http.StatusUnprocessableEntity, v)
		return
	case !v.May && s.sentAlready(r):
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return
	case !v.May:
		v.Problem = "A kitchen has begun here already. Nothing was taken."
		if v.Own == "" {
			v.Problem = "These records hold the demo already. Nothing was taken: begin with a new file for the records."
		}
		startTemplate.show(w, http.StatusConflict, v)
		return
	}
	all := app.ReadSent(sent)
	found, err := house.CheckFiles(r.Context(), all.Files)
	if err != nil {
		s.beginAgain(w, r, v, err)
		return
	}
	v.Check = s.viewSent(r, all, found, key)
	switch {
	case r.PostFormValue(enterField) == "" || !v.Check.Good:
		startTemplate.show(w, checkStatus(v.Check), v)
	case v.Passing && !v.Ask.Try:
		v.Problem = passingProblem
		startTemplate.show(w, http.StatusUnprocessableEntity, v)
	default:
		s.takeFiles(w, r, house, v, all)
	}
}

// sentAlready says that a form was sent before and did what it says.
func (s *server) sentAlready(r *http.Request) bool {
	id, err := record.ParseID(r.PostFormValue(entryField))
	if err != nil {
		return false
	}
	_, there, err := s.records.Entry(r.Context(), id)
	return there && err == nil
}

func checkStatus(c *startCheck) int {
	if !c.Good {
		return http.StatusUnprocessableEntity
	}
	return http.StatusOK
}

// viewSent is what was sent, in words.
func (s *server) viewSent(r *http.Request, all app.Sent, found finding.List, key string) *startCheck {
	c := &startCheck{Upload: key, Left: all.Left, Entries: all.HasEntries()}
	if len(all.Files) > 0 {
		all.Found = append(all.Found, found...)
	}
	all.Found.Sort()
	c.Found, c.Good = viewFindings(all.Found), all.Found.Worst() < finding.Stop
	for name := range all.Files {
		c.Files = append(c.Files, name)
	}
	slices.Sort(c.Files)
	if n := len(c.Left) - mostFilesShown; n > 0 {
		c.Left, c.More = c.Left[:mostFilesShown], times(n, "more file", "more files")
	}
	if whole, err := s.records.MayRestore(r.Context()); err == nil {
		c.Whole = whole && c.Entries
	}
	return c
}

// takeFiles puts what was sent into the records.
func (s *server) takeFiles(w http.ResponseWriter, r *http.Request, house beginHouse, v startPage, all app.Sent) {
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	author := app.Author{Who: by.Who, Device: by.Device, At: by.At}
	if v.Check.Whole && r.PostFormValue(wholeKey) != "" {
		if _, err := house.Restore(r.Context(), author, all); err != nil {
			s.beginAgain(w, r, v, err)
			return
		}
		if named, err := s.records.People().SetUp(r.Context()); err != nil || named {
			v = s.startOf(r)
			v.Problem = "Taken. Its entries name who works here, and passwords are not in such a file: set one with kettlefrost people password NAME, then sign in."
			startTemplate.show(w, http.StatusOK, v)
			return
		}
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return
	}
	if err := house.Begin(r.Context(), by.ID, author, v.Ask.Ours, all.Files); err != nil {
		s.beginAgain(w, r, v, err)
		return
	}
	http.Redirect(w, r, "/", http.StatusSeeOther)
}

// sentFiles are the files that were sent with a form, or with one before it: several are kept as one zip.
func sentFiles(r *http.Request, u *uploads) (files []app.SentFile, key, problem string) {
	err := r.ParseMultipartForm(mostSheet)
	if tooBig := (*http.MaxBytesError)(nil); errors.As(err, &tooBig) {
		return nil, "", "That is more than can be sent at once. Send only the book, or use kettlefrost import on this computer."
	}
	if err == nil && r.MultipartForm != nil && len(r.MultipartForm.File[filesField]) > 0 {
		return keepSent(r.MultipartForm.File[filesField], u)
	}
	if err != nil && !errors.Is(err, http.ErrNotMultipart) {
		return nil, "", "The form cannot be read: send it again."
	}
	key = r.PostFormValue(uploadField)
	f, ok := u.find(key)
	switch {
	case key == "":
		return nil, "", "Choose a file first."
	case !ok:
		return nil, "", "The files are not here any more: choose them again. Nothing was taken."
	}
	return []app.SentFile{{Name: f.name, Data: f.data}}, key, ""
}

// keepSent keeps what was sent until it is taken.
func keepSent(heads []*multipart.FileHeader, u *uploads) (files []app.SentFile, key, problem string) {
	for _, h := range heads {
		f, err := h.Open()
		if err != nil {
			return nil, "", "A file did not come through whole: send it again."
		}
		data, err := io.ReadAll(f)
		f.Close()
		if err != nil {
			return nil, "", "A file did not come through whole: send it again."
		}
		files = append(files, app.SentFile{Name: path.Base(strings.ReplaceAll(h.Filename, `\`, "/")), Data: data})
	}
	if len(files) == 1 {
		return files, u.keep(upload{name: files[0].Name, data: files[0].Data}), ""
	}
	var all bytes.Buffer
	z := zip.NewWriter(&all)
	for _, f := range files {
		w, err := z.CreateHeader(&zip.FileHeader{Name: f.Name, Method: zip.Store})
		if err == nil {
			_, err = w.Write(f.Data)
		}
		if err != nil {
			return nil, "", "The files cannot be kept together: send them as one zip."
		}
	}
	if err := z.Close(); err != nil {
		return nil, "", "The files cannot be kept together: send them as one zip."
	}
	one := upload{name: "files.zip", data: all.Bytes()}
	return []app.SentFile{{Name: one.name, Data: one.data}}, u.keep(one), ""
}

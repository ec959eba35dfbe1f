package web

import (
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
)

// dishSaw is the mark of the files as they were when a form was shown.
const dishSaw = "mark"

// dishUnsaved is what is changed and not saved, and the way to save it.
type dishUnsaved struct {
	Says    string
	Action  string
	Entry   string
	Mark    string
	Draft   []kept // hidden fields that keep what is changed
	Discard string // address of the dish without it
	Changes []string
	Stops   []reminder  // why it cannot be saved yet
	Files   []draftFile // to be written by somebody, of a book that is a folder
	Kept    bool        // it can be saved from here
}

// unsaved is what saving would do; nil when nothing is changed.
func (s *server) unsaved(a dishAsked) *dishUnsaved {
	house, can := s.house.(bookEditor)
	if len(a.draft.changes) == 0 || !can || a.problem != "" {
		return nil
	}
	v := &dishUnsaved{Says: unsavedSays(len(a.draft.changes)), Action: dishPath + "/" + url.PathEscape(string(a.id)) + "/save", Mark: a.edit.Mark(), Draft: a.kept(), Discard: dishURL(a.id, dishDraft{}, a.query.Get(dishScale), nil)}
	for _, c := range a.draft.changes {
		v.Changes = append(v.Changes, changeSays(c))
	}
	if a.edit.Stops {
		for _, f := range a.edit.Found {
			if f.Severity == finding.Stop {
				v.Stops = append(v.Stops, remind(f))
			}
		}
	}
	if house.InRecords() && s.records != nil {
		v.Kept, v.Entry = true, newEntryID()
		return v
	}
	for _, f := range a.edit.Files {
		v.Files = append(v.Files, fileLines(f))
	}
	return v
}

// fileLines are the lines of a file that come and go.
func fileLines(f app.FileEdit) draftFile {
	file := draftFile{Name: f.Name}
	for _, l := range f.Lines() {
		if class := map[rune]string{'+': "added", '-': "removed", ' ': "same"}[l.Sign]; class != "" {
			file.Lines = append(file.Lines, draftFileLine{class, strings.TrimSpace(string(l.Sign)), l.Text})
		}
	}
	return file
}

// changeSays is a change in short.
func changeSays(c bookfile.Change) string {
	value := ""
	if c.Value != nil {
		value, _ = bookfile.Text(c.Value) // what has no text is told by its place
	}
	if r := []rune(value); len(r) > 90 {
		value = string(r[:90]) + "…"
	}
	switch c.Do {
	case bookfile.DoDelete:
		return c.Path + ": taken out"
	case bookfile.DoSet:
		return c.Path + ": " + value
	}
	return c.Path + ": put in " + value
}

// saveDish puts what was changed into the book.
func (s *server) saveDish(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form could not be read: it may be too long.")
		return
	}
	house, can := s.house.(bookEditor)
	if !can || !house.InRecords() {
		s.refuse(w, r, http.StatusConflict, "The book is a folder, which these pages do not write.")
		return
	}
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	a, ok := s.askDishSent(w, r, by)
	if !ok {
		return
	}
	switch {
	case a.problem != "":
		s.dishPage(w, r, http.StatusConflict, a, "", "")
		return
	case len(a.draft.changes) == 0:
		s.dishPage(w, r, http.StatusUnprocessableEntity, a, "Nothing is changed, so nothing was saved.", "")
		return
	case a.edit.Mark() != r.PostFormValue(dishSaw):
		s.dishPage(w, r, http.StatusConflict, a, "The book was changed by somebody meanwhile. Nothing was saved: look at the dish as it would be now.", "Press save again if it is right.")
		return
	}
	if _, err := house.EditBook(r.Context(), by.ID, app.Author{Who: by.Who, Device: by.Device, At: by.At}, a.draft.changes...); err != nil {
		s.dishPage(w, r, http.StatusUnprocessableEntity, a, s.bookTrouble(err), "")
		return
	}
	http.Redirect(w, r, withDid(dishURL(a.id, dishDraft{}, a.query.Get(dishScale), nil), by.ID.String()), http.StatusSeeOther)
}

// askDishSent reads a form that saves. One that was taken in before leads to the dish.
func (s *server) askDishSent(w http.ResponseWriter, r *http.Request, by app.Said) (dishAsked, bool) {
	if _, there, err := s.records.Entry(r.Context(), app.PartID(by.ID, 0)); there && err == nil {
		http.Redirect(w, r, withDid(dishPath+"/"+url.PathEscape(r.PathValue("id")), by.ID.String()), http.StatusSeeOther)
		return dishAsked{}, false
	}
	return s.askDish(w, r)
}

package web

import (
	"context"
	"net/http"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// keepingWriter writes how long packs keep into the book; *app.App is one.
type keepingWriter interface {
	TakeOverKeeping(ctx context.Context, id record.ID, by app.Author, pack kitchen.PackID, k kitchen.Keeping) (app.BookEdit, error)
}

// acceptOf is the form by which what is supported is written into the book; nil when that is not even a week, or stands there already.
func acceptOf(p app.PackKeeping, action, problem string) *acceptForm {
	k, ok := p.Accepted()
	if !ok || k.Weeks == p.Weeks && k.Source == p.Source {
		return nil
	}
	f := &acceptForm{Action: action, Entry: newEntryID(), Pack: p.Pack, Weeks: strconv.Itoa(k.Weeks), Source: k.Source, Problem: problem}
	switch {
	case p.Proposal.Alone:
		f.Says = "It is what is published, alone: nobody here has opened a pack."
	case p.Proposal.Against:
		f.Says = "Packs of your own that were opened do not support more."
	case p.Proposal.Further:
		f.Says = "Nobody has looked further yet: nothing that was found speaks against waiting for the next opening."
	}
	return f
}

// takeOverBest writes how long packs are at their best into the book: one of the times that the form offered, as things stand now.
func (s *server) takeOverBest(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	pack := kitchen.PackID(tidy(r.PostFormValue("pack")))
	sheet, err := s.records.Keeping(r.Context(), book, s.instant(), app.KeepingAsk{Pack: string(pack), As: classNamed(r.URL.Query()), Storage: true})
	if err != nil || len(sheet.Packs) != 1 {
		s.showBestWith(w, r, http.StatusUnprocessableEntity, "The book has no pack of that name.", nil)
		return
	}
	form := acceptOf(sheet.Packs[0], "", "")
	if form == nil || form.Weeks != r.PostFormValue("weeks") {
		s.showBestWith(w, r, http.StatusUnprocessableEntity, "What is supported has changed since this page was made: look again.", nil)
		return
	}
	k, _ := sheet.Packs[0].Accepted()
	house, ok := s.house.(keepingWriter)
	if !ok {
		s.refuse(w, r, http.StatusConflict, "The book cannot be changed from here: write the weeks into it by hand.")
		return
	}
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	edit, err := house.TakeOverKeeping(r.Context(), by.ID, app.Author{Who: by.Who, Device: by.Device, At: by.At}, pack, k)
	switch {
	case err != nil:
		status, text := trouble(err)
		s.refuse(w, r, status, text)
	case edit.Saved:
		http.Redirect(w, r, coldURL(bestPath, r.URL.Query(), "pack", string(pack)), http.StatusSeeOther)
	default:
		s.showBestWith(w, r, http.StatusOK, "", editOf(edit))
	}
}

// editOf is what has to be written into the files of a book that is a folder.
func editOf(b app.BookEdit) *editView {
	v := &editView{}
	for _, f := range b.Files {
		v.Files = append(v.Files, editFile{f.Name, diffLines(f.Lines())})
	}
	return v
}

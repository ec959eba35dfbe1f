package web

import (
	"context"
	"fmt"
	"net/http"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/keeping"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// keepingWriter writes how long packs keep into the book; *app.App is one.
type keepingWriter interface {
	TakeOverKeeping(ctx context.Context, id record.ID, by app.Author, pack kitchen.PackID, k kitchen.Keeping) (app.BookEdit, error)
}

// mostSource is as long as the source in the book may be.
const mostSource = 200

// acceptOf is the form by which a time is written into the book: what is supported, and what is published alone where nothing that was found
// speaks against it.
func acceptOf(p app.PackKeeping, action, problem string) *acceptForm {
	f := &acceptForm{Action: action, Entry: newEntryID(), Pack: p.Pack, Problem: problem}
	q := p.Proposal
	if by, ok := q.Limiting(); ok && q.Weeks > 0 {
		says := "what is supported"
		if q.Alone {
			says = "what is published alone; nobody here has opened a pack"
		} else if !q.Ends {
			says = "the oldest pack that was opened and found good; nobody has looked further yet"
		}
		f.Choices = append(f.Choices, bestChoice{Weeks: strconv.Itoa(q.Weeks), Says: says, Source: sourceOf(by), Here: true})
	}
	if row := q.Row; row != nil && !q.Ends && q.Until > q.Weeks {
		f.Choices = append(f.Choices, bestChoice{Weeks: strconv.Itoa(q.Until), Says: "what is published alone; no pack of yours was opened so late, and none that was speaks against it", Source: clipped(fmt.Sprintf("published alone: %s, %s (%s)", row.Name, row.MonthsText(), row.Source))})
	}
	if len(f.Choices) == 0 {
		return nil
	}
	return f
}

// sourceOf is the source of a time as the book keeps it.
func sourceOf(by keeping.Support) string {
	if by.Basis == keeping.ByPublished {
		return clipped(by.Name + ": " + by.Source)
	}
	return clipped(by.Says + " (" + by.Source + ")")
}

func clipped(text string) string {
	runes := []rune(text)
	if len(runes) <= mostSource {
		return text
	}
	return string(runes[:mostSource-1]) + "…"
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
	k, ok := chosen(acceptOf(sheet.Packs[0], "", ""), r.PostFormValue("weeks"))
	if !ok {
		s.showBestWith(w, r, http.StatusUnprocessableEntity, "Choose one of them: what is supported may have changed since this page was made.", nil)
		return
	}
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

// chosen is the time that was chosen among those of a form.
func chosen(f *acceptForm, weeks string) (kitchen.Keeping, bool) {
	if f == nil {
		return kitchen.Keeping{}, false
	}
	for _, c := range f.Choices {
		if n, err := strconv.Atoi(c.Weeks); err == nil && c.Weeks == weeks {
			return kitchen.Keeping{Weeks: n, Source: c.Source}, true
		}
	}
	return kitchen.Keeping{}, false
}

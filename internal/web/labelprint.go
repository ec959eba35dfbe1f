package web

import (
	"cmp"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/record"
)

// labelFormOf is the form that prints, with what was typed and what is wrong with it.
func (s *server) labelFormOf(a *labelAsked, form url.Values, wrong error) *labelForm {
	value := func(key string) string { return tidy(form.Get(key)) }
	left := max(0, -a.count.Difference)
	f := &labelForm{Action: packLabelPath, Entry: cmp.Or(value(entryField), newEntryID()), Kept: keepOf(form, labelKeys...), Counts: countWords(a.count), Off: offWords(a.count), Button: "Enter them and print"}
	if slices.ContainsFunc(a.sheet.Printed, func(p app.LabelPrint) bool { return p.Differs }) {
		f.Old = "Labels of this lot were printed before that are not the same as today's: look at what stands on the packs. To put new ones on, print as many again and say so."
	}
	if value(packKey) == "" {
		f.Kept = append(f.Kept, kept{packKey, string(a.made.Ask.Pack)})
	}
	f.Fields = []field{{Key: labelCount, Label: "How many", Hint: fmt.Sprintf("%s; more than that is a reprint", times(int(left), "pack has no label yet", "packs have no label yet")), Value: value(labelCount), Number: true},
		{Key: labelWhy, Label: "Why again", Hint: "of a reprint: torn, lost, misprinted, new label; else empty", Value: value(labelWhy)}}
	if !form.Has(labelCount) && left > 0 {
		f.Fields[0].Value = strconv.FormatInt(left, 10)
	}
	if per := a.made.Label.Stock.Per(); per > 1 {
		f.Fields = append(f.Fields, field{Key: labelStart, Label: "Begin at place", Hint: fmt.Sprintf("of a sheet that was begun: 1 to %d, row by row; empty: 1", per), Value: value(labelStart), Number: true},
			field{Key: labelSkip, Label: "Leave out places", Hint: "of the first sheet, that are spoilt: 3, 5-6", Value: value(labelSkip)})
	}
	if wrong != nil {
		f.Problem = beside(f.Fields, wrong)
	}
	return f
}

// ontoTyped is where on the sheet is printed, as typed.
func ontoTyped(get func(string) string) (o app.Onto, err error) {
	if text := tidy(get(labelStart)); text != "" {
		if o.Start, err = strconv.Atoi(text); err != nil || o.Start < 1 {
			return o, &coldstore.Refusal{Field: labelStart, Problem: fmt.Sprintf("%q is no place on a sheet", text), Fix: "count them row by row, from 1"}
		}
	}
	if text := tidy(get(labelSkip)); text != "" {
		n, err := record.ParseNumbers(text)
		if err != nil || n.Count() > 1000 {
			return o, &coldstore.Refusal{Field: labelSkip, Problem: fmt.Sprintf("%q are no places on a sheet", text), Fix: "write 3, 5-6"}
		}
		for x := range n.Ranges() {
			for k := x.First; k <= x.Last; k++ {
				o.Skip = append(o.Skip, int(k))
			}
		}
	}
	return o, nil
}

// printLabels enters labels that are to be printed, and leads to their file.
func (s *server) printLabels(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	form := r.PostForm
	back := labelURL(packLabelPath, form, labelStart, tidy(form.Get(labelStart)), labelSkip, tidy(form.Get(labelSkip)))
	if s.labelsSent(w, r, back) {
		return
	}
	ask, bad := labelTyped(form.Get)
	if bad != nil {
		s.packLabel(w, r, http.StatusUnprocessableEntity, form, nil)
		return
	}
	book, _ := s.house.Book()
	a, err := s.labelAsked(r.Context(), book, ask)
	if err != nil {
		s.packLabel(w, r, http.StatusUnprocessableEntity, form, err)
		return
	}
	bodies, err := labelBodies(a, form)
	if err != nil {
		status := http.StatusUnprocessableEntity
		if stop := (*app.LabelStop)(nil); errors.As(err, &stop) {
			status = http.StatusConflict
		}
		s.packLabel(w, r, status, form, err)
		return
	}
	s.enter(w, r, back, bodies...)
}

func labelBodies(a *labelAsked, form url.Values) ([]record.Body, error) {
	if stop := a.made.Stops(); stop != nil {
		return nil, stop
	}
	text := tidy(form.Get(labelCount))
	count, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		return nil, &coldstore.Refusal{Field: labelCount, Problem: fmt.Sprintf("%q is no number of labels", text), Fix: "write how many, such as 40"}
	}
	onto, err := ontoTyped(form.Get)
	if err != nil {
		return nil, err
	}
	if _, err := a.made.Sheets(1, onto, 0); err != nil {
		return nil, err
	}
	return a.made.Print(app.LabelJob{Count: count, Why: tidy(form.Get(labelWhy))}, a.count)
}

// labelsSent leads on when the form was sent before: it counts once.
func (s *server) labelsSent(w http.ResponseWriter, r *http.Request, back string) bool {
	id, err := record.ParseID(r.PostFormValue(entryField))
	if err != nil || id == (record.ID{}) {
		return false
	}
	n := 0
	for ; n < 2; n++ {
		if _, there, err := s.records.Taken(r.Context(), app.PartID(id, n)); err != nil || !there {
			break
		}
	}
	if n == 0 {
		return false
	}
	http.Redirect(w, r, withDid(back, fmt.Sprintf("%s-%d", id, n)), http.StatusSeeOther)
	return true
}

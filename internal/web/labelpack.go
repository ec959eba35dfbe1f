package web

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"html/template"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/language"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/record"
)

// packLabelPage is all that templates/packlabel.html may show: the label of a pack.
type packLabelPage struct {
	shell
	Name     string
	State    verdictView
	Ask      []field // which label
	Small    smallForm
	Problem  string
	Shown    *labelShown
	Print    *labelForm
	Ready    *labelReady // labels were entered just now: their file
	AllURL   string
	JSON     string
	Printing string // who may, and why not here
}

// labelReady is the file of labels that were entered.
type labelReady struct{ URL, Says string }

// labelForm prints labels.
type labelForm struct {
	Action, Entry string
	Kept          []kept
	Fields        []field
	Counts, Off   string
	Old           string // labels that were printed before are not those of today
	Problem       string
	Button        string
}

var packLabelTemplate = parse[packLabelPage]("packlabel")

func (s *server) showPackLabel(w http.ResponseWriter, r *http.Request) {
	s.packLabel(w, r, http.StatusOK, r.URL.Query(), nil)
}

// labelAsked is the label that was asked for, with what was printed of its lot.
type labelAsked struct {
	made  *app.LabelMade
	sheet app.LabelSheet
	count app.LabelCount
}

func (s *server) labelAsked(ctx context.Context, book kitchen.Book, ask app.LabelAsk) (*labelAsked, error) {
	made, err := s.labels.Make(ctx, book, ask)
	if err != nil {
		return nil, err
	}
	a := &labelAsked{made: made}
	var printed []app.LabelPrint
	var count *app.LabelCount
	if !made.Draft() {
		err = s.records.Labelled(ctx, func(p *app.LabelsPrinted, _ *lots.State, _ finding.List) error {
			printed, a.count = slices.Clone(p.Of(ask.Lot)), p.Count(ask.Lot, made.Packs.Count())
			return nil
		})
		count = &a.count
	}
	a.sheet = made.Sheet(printed, count)
	return a, err
}

// packLabel shows a label, or what is wrong with what was asked; form is what was typed to print, with what kept that out.
func (s *server) packLabel(w http.ResponseWriter, r *http.Request, status int, form url.Values, wrong error) {
	book, _ := s.house.Book()
	v := packLabelPage{shell: s.inShell(r, book.Kitchen, "Label", "labels"), AllURL: labelURL(packLabelsPath, form, packKey, "", labelLot, "", labelTongue, "", labelStock, "", labelRules, "", labelRun, "", labelWithout, ""), JSON: labelURL(packLabelPath+".json", form)}
	ask, bad := labelTyped(form.Get)
	var a *labelAsked
	var err error
	if bad == nil {
		a, err = s.labelAsked(r.Context(), book, ask)
	}
	if r.Context().Err() != nil {
		return // nobody waits for it any more
	}
	v.Ask, v.Small = s.labelFields(r.Context(), book, form), smallFormOf(form, bad)
	v.Small.Kept = keepOf(form, packKey, labelLot, labelRun, labelTongue, labelStock, labelRules)
	if bad != nil {
		v.Problem, status = bad.Says, http.StatusUnprocessableEntity
	}
	if err != nil {
		var known bool
		v.Problem = beside(v.Ask, err)
		if known, status = labelStatus(err, ask); !known {
			v.Problem = "No label can be made: " + sentence(err)
		}
	}
	v.Name = cmp.Or(book.Packs[ask.Pack].Name, "Label")
	if a != nil {
		s.fillPackLabel(&v, r, a, form, wrong)
	}
	v.Title = v.Name + ", label"
	packLabelTemplate.show(w, status, v)
}

// labelStatus is the status for why no label was made, and whether it was asked for wrongly.
func labelStatus(err error, ask app.LabelAsk) (bool, int) {
	var why *coldstore.Refusal
	var unknown *packlabel.AskedError
	switch {
	case errors.As(err, &why) && (why.Field == packKey || why.Field == labelLot && ask.Lot != ""):
		return true, http.StatusNotFound
	case errors.As(err, &why):
		return true, http.StatusUnprocessableEntity
	case errors.As(err, &unknown):
		return true, http.StatusNotFound
	}
	return false, http.StatusUnprocessableEntity
}

// keepOf is some of what was typed, to be sent again.
func keepOf(form url.Values, keys ...string) (all []kept) {
	for _, key := range append([]string{"units"}, keys...) {
		if text := tidy(form.Get(key)); text != "" {
			all = append(all, kept{key, text})
		}
	}
	return all
}

func (s *server) fillPackLabel(v *packLabelPage, r *http.Request, a *labelAsked, form url.Values, wrong error) {
	m := a.made
	v.Name = cmp.Or(m.Book.Packs[m.Label.Pack].Name, string(m.Label.Pack))
	v.State = madeVerdict(a)
	v.Shown = s.labelShown(a, form)
	if m.Draft() {
		v.Printing = "A draft is never printed: choose a lot that was packed."
	}
	if m.Stops() != nil || s.records == nil {
		return
	}
	v.Print = s.labelFormOf(a, form, wrong)
	if did := r.URL.Query().Get("did"); did != "" {
		if first, n, ok := readDid(did); ok && s.labelsEntered(r.Context(), first, n, m.Ask.Lot) > 0 {
			v.Ready = &labelReady{URL: labelURL(labelPDFPath, r.URL.Query(), packKey, string(m.Ask.Pack), "did", did, labelStart, tidy(r.URL.Query().Get(labelStart)), labelSkip, tidy(r.URL.Query().Get(labelSkip))),
				Says: times(int(s.labelsEntered(r.Context(), first, n, m.Ask.Lot)), "label", "labels")}
		}
	}
}

// labelsEntered is how many labels of a lot some entries are.
func (s *server) labelsEntered(ctx context.Context, first record.ID, n int, lot record.Lot) (count int64) {
	for i := range n {
		e, there, err := s.records.Entry(ctx, app.PartID(first, i))
		if err != nil || !there {
			return 0
		}
		body, _ := record.Decode(e.Kind, e.Body)
		b, is := body.(record.Labelled)
		if !is || b.Lot != lot {
			return 0
		}
		count += b.Count
	}
	return count
}

// madeVerdict is how a label stands.
func madeVerdict(a *labelAsked) verdictView {
	stop := a.made.Stops()
	switch {
	case a.made.Draft() && a.made.Withheld():
		return verdictView{Class: "stop", Sign: signs[finding.Stop], Word: "DRAFT, WITHHELD", Says: "something stops it: see below"}
	case a.made.Draft():
		return verdictView{Class: "caution", Sign: signs[finding.Caution], Word: "DRAFT", Says: "of no lot: never printed"}
	case len(a.made.Held) > 0:
		return verdictView{Class: "stop", Sign: signs[finding.Stop], Word: "ON HOLD", Says: sentence(stop)}
	case stop != nil:
		return verdictView{Class: "stop", Sign: signs[finding.Stop], Word: "WITHHELD", Says: capital(strings.TrimPrefix(stop.Problem, "the label is withheld: ")) + ". What to do stands below."}
	case a.sheet.Open.Worst() == finding.Caution:
		return verdictView{Class: "caution", Sign: signs[finding.Caution], Word: "PRINTS", Says: "look at what is asked below first"}
	}
	return verdictView{Class: "note", Sign: signs[finding.Note], Word: "PRINTS", Says: "nothing is missing that the program knows of; an authority's approval it is not"}
}

// labelFields are which label: lot, language, labels and rules.
func (s *server) labelFields(ctx context.Context, book kitchen.Book, form url.Values) []field {
	value := func(key string) string { return tidy(form.Get(key)) }
	packs := field{Key: packKey, Label: "Pack", Hint: "of the book", Value: value(packKey)}
	known := false
	for _, id := range slices.SortedFunc(maps.Keys(book.Packs), func(a, b kitchen.PackID) int { return cmp.Compare(book.Packs[a].Name, book.Packs[b].Name) }) {
		packs.Options = append(packs.Options, option{string(id), book.Packs[id].Name, string(id) == packs.Value})
		known = known || string(id) == packs.Value
	}
	if !known {
		packs.Options = append([]option{{packs.Value, cmp.Or(packs.Value, "choose one"), true}}, packs.Options...)
	}
	lot := field{Key: labelLot, Label: "Lot", Hint: "that was packed; a draft is of none", Value: value(labelLot), Options: []option{{"", "none: a draft", value(labelLot) == ""}}}
	lot.Options = append(lot.Options, s.lotOptions(ctx, value(packKey), value(labelLot))...)
	in := field{Key: labelTongue, Label: "Language", Hint: "names of ingredients stay as the book has them", Value: value(labelTongue), Options: []option{{"", "the kitchen's", value(labelTongue) == ""}}}
	for _, l := range language.Languages() {
		in.Options = append(in.Options, option{string(l), l.Name(), string(l) == in.Value})
	}
	stock := field{Key: labelStock, Label: "Labels in the printer", Hint: "as the kitchen has them, or others", Value: value(labelStock), Options: []option{{"", "the kitchen's", value(labelStock) == ""}}}
	chosen := stock.Value == ""
	for _, x := range labelmaker.Stocks() {
		here := strings.EqualFold(x.Name, stock.Value)
		chosen = chosen || here
		stock.Options = append(stock.Options, option{x.Name, stockWords(x), here})
	}
	if !chosen {
		stock.Options = append(stock.Options, option{stock.Value, stock.Value, true})
	}
	rules := field{Key: labelRules, Label: "Rules", Hint: "of which market", Value: value(labelRules)}
	for _, o := range []option{{"", "the kitchen's", false}, {"us", "United States", false}, {"eu", "European Union", false}} {
		o.Here = o.Value == rules.Value
		rules.Options = append(rules.Options, o)
	}
	return []field{packs, lot, stock, in, rules}
}

func stockWords(s labelmaker.Stock) string {
	if s.Sheet == nil {
		return s.Name + ", roll"
	}
	return fmt.Sprintf("%s, %d to a sheet", s.Name, s.Per())
}

// mostLotOptions is how many lots there are to choose from: the last ones.
const mostLotOptions = 40

func (s *server) lotOptions(ctx context.Context, pack, chosen string) (all []option) {
	if s.records == nil {
		return nil
	}
	var of []*lots.Lot
	err := s.records.Lots(ctx, func(state *lots.State, _ finding.List) error {
		for l := range state.All() {
			if l.Sort == lots.Packs && (l.What == pack || pack == "" && string(l.ID) == chosen) {
				of = append(of, l)
			}
		}
		slices.SortStableFunc(of, func(a, b *lots.Lot) int { return cmp.Compare(b.Born, a.Born) })
		for i, l := range of {
			if here := string(l.ID) == chosen; here || i < mostLotOptions {
				all = append(all, option{string(l.ID), fmt.Sprintf("%s: %s, packed %s, best before %s, %s net", l.ID, times(int(l.Numbers.Count()), "pack", "packs"), s.dateText(l.Born), cmp.Or(string(l.BestBefore), "not told"), l.Label), here})
			}
		}
		return nil
	})
	if err != nil {
		return nil // what is wrong with the records is told where the lot is read
	}
	return all
}

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

func (s *server) showPackLabelJSON(w http.ResponseWriter, r *http.Request) {
	if a, ok := s.labelForFile(w, r); ok {
		writeJSON(w, http.StatusOK, a.sheet)
	}
}

// labelForFile is the label that an address asks for, and false when it was answered because there is none.
func (s *server) labelForFile(w http.ResponseWriter, r *http.Request) (*labelAsked, bool) {
	book, _ := s.house.Book()
	ask, bad := labelTyped(r.URL.Query().Get)
	if bad != nil {
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: bad.Says})
		return nil, false
	}
	a, err := s.labelAsked(r.Context(), book, ask)
	if err != nil {
		_, status := labelStatus(err, ask)
		writeJSON(w, status, refusal{Error: sentence(err)})
		return nil, false
	}
	return a, true
}

// pngDPI is that of a picture that is looked at: fine enough for the smallest type.
const pngDPI = 200

func (s *server) showLabelPNG(w http.ResponseWriter, r *http.Request) {
	a, ok := s.labelForFile(w, r)
	if !ok {
		return
	}
	pictures := a.made.Pictures()
	side, err := strconv.Atoi(cmp.Or(r.URL.Query().Get("side"), "1"))
	if err != nil || side < 1 || side > len(pictures) {
		writeJSON(w, http.StatusNotFound, refusal{Error: "There is no such picture: " + cmp.Or(a.sheet.Stops, "the label has fewer sides.")})
		return
	}
	var out bytes.Buffer
	if err := labelmaker.PNG(&out, pictures[side-1], pngDPI); err != nil {
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: sentence(err)})
		return
	}
	labelFile(w, "image/png", fmt.Sprintf("label-%s-%d.png", fileWord(string(a.made.Ask.Pack)), side), out.Bytes())
}

// labelFile answers with a file to be kept.
func labelFile(w http.ResponseWriter, kind, name string, data []byte) {
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Disposition", `attachment; filename="`+name+`"`)
	w.Header().Set("Cache-Control", "no-store")
	w.Write(data)
}

// fileWord is a text fit for the name of a file.
func fileWord(text string) string {
	return strings.Map(func(r rune) rune {
		if r < 128 && (r == '-' || r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z') {
			return r
		}
		return '-'
	}, text)
}

// showLabelPDF is the file of labels that were entered.
func (s *server) showLabelPDF(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		s.refuse(w, r, http.StatusConflict, "No records are kept here, so no label can be printed. Start with kettlefrost serve --records kitchen.records.")
		return
	}
	a, ok := s.labelForFile(w, r)
	if !ok {
		return
	}
	first, n, ok := readDid(r.URL.Query().Get("did"))
	onto, err := ontoTyped(r.URL.Query().Get)
	if err == nil && !ok {
		err = &app.LabelStop{Problem: "no entry says that these labels are printed", Fix: "enter how many on the page of the label"}
	}
	var job labelmaker.Job
	if err == nil {
		job, err = s.labels.Printed(r.Context(), a.made, first, n, onto)
	}
	var out bytes.Buffer
	if err == nil {
		err = labelmaker.PDF(&out, job)
	}
	if err != nil {
		s.refuse(w, r, http.StatusConflict, sentence(err))
		return
	}
	labelFile(w, "application/pdf", "labels-"+fileWord(string(a.made.Ask.Lot))+".pdf", out.Bytes())
}

// labelSides are the pictures of a label, drawn by labelmaker, which escapes every text.
func labelSides(a *labelAsked, query url.Values) (all []labelSideView) {
	for i, p := range a.made.Pictures() {
		name := "Label"
		if a.sheet.Sides > 1 {
			name = []string{"Front", "Back"}[min(i, 1)]
		}
		all = append(all, labelSideView{Name: name, Size: fmt.Sprintf("%.4g × %.4g mm", a.sheet.Stock.WideMm, a.sheet.Stock.HighMm), Picture: template.HTML(labelmaker.SVG(p, fmt.Sprintf("label%d", i))),
			PNG: labelURL(labelPNGPath, query, packKey, string(a.made.Ask.Pack), "side", strconv.Itoa(i+1))})
	}
	return all
}

// labelSideView is one side, to be looked at.
type labelSideView struct {
	Name, Size string
	Picture    template.HTML
	PNG        string
}

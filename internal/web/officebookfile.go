package web

import (
	"errors"
	"net/http"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// bookFilePage is all that templates/officefile.html may show: one file of the book, to be changed.
type bookFilePage struct {
	shell
	File      string // "" for a new one
	Name      string // of a new one, as typed
	Entry     string // number of the form
	Base      string // of the version that is worked on
	DraftOf   string // of the draft, when there is one
	Text      string
	Saved     string
	Problem   string
	Stops     bool // it can only be kept as a draft
	Draft     string
	Late      string // who changed the file since the draft was kept
	Found     []lineFinding
	Others    string // findings in other files
	Theirs    []textLine
	Versions  []bookVersionRow
	More      string
	Elsewhere string // these pages use another book
}

// lineFinding is a finding with the lines around it.
type lineFinding struct {
	Finding findingView
	Line    string // its number
	Lines   []textLine
}

// textLine is one line of a text that is shown with its number or its sign.
type textLine struct {
	Class string // came, went, here, apart or ""
	No    string
	Sign  string
	Text  string
}

var bookFileTemplate = parse[bookFilePage]("officefile")

func numeral(n int) string { return strconv.Itoa(n) }

// fileAsked is the file of an address or a form, and whether it can be one of the book.
func fileAsked(r *http.Request) (string, bool) {
	file := r.URL.Query().Get("file")
	if r.Method == http.MethodPost {
		file = strings.TrimSpace(r.PostFormValue("file"))
	}
	return file, app.IsBookFile(file)
}

func (s *server) showBookFile(w http.ResponseWriter, r *http.Request) {
	if s.noRecords(w, r) {
		return
	}
	file, good := fileAsked(r)
	v, err := s.bookFile(r, file)
	switch {
	case err != nil:
		v.Problem = sentence(err)
		bookFileTemplate.show(w, http.StatusInternalServerError, v)
	case file != "" && !good && v.Base == "0":
		book, _ := s.house.Book()
		s.missing(w, r, book, "The book has no such file.")
	default:
		s.judge(r, &v)
		bookFileTemplate.show(w, http.StatusOK, v)
	}
}

// bookFile is a file as it is, or its draft if there is one.
func (s *server) bookFile(r *http.Request, file string) (v bookFilePage, err error) {
	book, _ := s.house.Book()
	title := file
	if file == "" {
		title = "A new file"
	}
	v = bookFilePage{shell: s.inShell(r, book.Kitchen, title, "files"), File: file, Entry: newEntryID(), Base: "0", Saved: savedText(r.URL.Query())}
	if keeper, can := s.house.(bookKeeper); !can || !keeper.InRecords() {
		v.Elsewhere = s.bookPlace(r.Context())
	}
	files, err := s.records.BookFiles(r.Context())
	if err != nil {
		return v, err
	}
	if now, there := files.Version(file); there {
		v.Base, v.Text = strconv.FormatUint(now.Seq, 10), now.Text
	}
	drafts, err := s.records.Drafts(r.Context())
	if err != nil {
		return v, err
	}
	for _, d := range drafts {
		if d.File != file {
			continue
		}
		v.DraftOf, v.Text, v.Draft = strconv.FormatUint(d.Draft.Seq, 10), d.Draft.Text, s.toldAt(d.Draft.When)+" by "+d.Draft.Who
		if d.Late() {
			v.Late = d.Now.Who
			v.Theirs = diffLines(app.Diff(d.Draft.Text, d.Now.Text))
		}
	}
	log, err := s.records.BookLog(r.Context(), file)
	if file != "" {
		v.Versions, v.More = s.bookVersionRows(log)
	}
	return v, err
}

// judge puts what is found in a file beside its lines.
func (s *server) judge(r *http.Request, v *bookFilePage) {
	keeper, can := s.house.(bookKeeper)
	if !can || !keeper.InRecords() || v.File == "" {
		return
	}
	check, err := keeper.CheckEdits(r.Context(), s.records, app.Edit{Path: v.File, Text: v.Text})
	if err != nil {
		v.Problem = sentence(err)
		return
	}
	v.Stops = check.Stops
	v.place(check.Found)
}

// place shows the findings of the file with their lines, and counts the others.
func (v *bookFilePage) place(found finding.List) {
	lines := strings.Split(v.Text, "\n")
	others := finding.List{}
	for _, f := range found {
		if f.At == nil || f.At.File != v.File {
			if f.Severity > finding.Note {
				others = append(others, f)
			}
			continue
		}
		x := lineFinding{Finding: viewFinding(f), Line: numeral(f.At.Line)}
		for i := max(0, f.At.Line-3); i < min(len(lines), f.At.Line+2) && f.At.Line > 0; i++ {
			line := textLine{No: numeral(i + 1), Text: strings.TrimSuffix(lines[i], "\r")}
			if i == f.At.Line-1 {
				line.Class, line.Sign = "here", "►"
			}
			x.Lines = append(x.Lines, line)
		}
		v.Found = append(v.Found, x)
	}
	if len(others) > 0 {
		v.Others = viewFindings(others).Tally + " in other files. The first: " + others[0].String()
	}
}

// Actions of the form of a file.
const (
	doSave   = "save"
	doDraft  = "draft"
	doDrop   = "drop"
	doDelete = "delete"
	doCheck  = "check"
)

// changeBookFile does with a file what its form says.
func (s *server) changeBookFile(w http.ResponseWriter, r *http.Request, keeper bookKeeper) {
	file, good := fileAsked(r)
	id, err := record.ParseID(r.PostFormValue(entryField))
	if err != nil || id == (record.ID{}) {
		s.refuse(w, r, http.StatusBadRequest, "This form was sent without its number: load the page again.")
		return
	}
	do, text := r.PostFormValue("do"), unixEnds(r.PostFormValue("text"), r.PostFormValue("ends"))
	base, _ := strconv.ParseUint(r.PostFormValue("base"), 10, 64)
	draft, _ := strconv.ParseUint(r.PostFormValue("draft"), 10, 64)
	by := s.author(w, r)
	edit := app.Edit{Path: file, Text: text, Base: base, Deleted: do == doDelete}
	done := map[string]string{doSave: "saved", doDraft: "draft", doDrop: "dropped", doDelete: "deleted"}[do]
	switch {
	case !good:
		err = errors.New("a file of the book has a name that ends in .yaml, such as dishes/leek-soup.yaml, and no part of it begins with a point")
	case do == doCheck:
	case do == doDraft, do == doDrop:
		err = s.records.KeepDraft(r.Context(), id, by, app.Edit{Path: file, Text: text, Base: draft, Deleted: do == doDrop})
	case do == doSave || do == doDelete:
		if edit.Deleted {
			edit.Text = ""
		}
		err = keeper.SaveBook(r.Context(), s.records, id, by, edit)
	default:
		err = errors.New("it is not said what to do with the file")
	}
	switch {
	case err != nil || done == "":
		s.changeAgain(w, r, file, text, good, err)
	case do == doDelete:
		http.Redirect(w, r, savedAt(bookFilesPath, done, file), http.StatusSeeOther)
	default:
		http.Redirect(w, r, savedAt(bookFilePath, done, file), http.StatusSeeOther)
	}
}

// changeAgain shows the form again with what was typed, and why it was not saved.
func (s *server) changeAgain(w http.ResponseWriter, r *http.Request, file, text string, good bool, err error) {
	v, trouble := s.bookFile(r, file)
	if !good {
		v.File, v.Name = "", file
	}
	v.Text, v.Saved = text, ""
	changed := (*app.ChangedError)(nil)
	stops := (*app.StopsError)(nil)
	switch {
	case trouble != nil:
		v.Problem = sentence(trouble)
	case errors.As(err, &changed) && changed.Now.Seq > 0:
		v.Problem = s.bookTrouble(err) + " What differs from your text is below: save again to have yours in place of it."
		v.Theirs = diffLines(app.Diff(text, changed.Now.Text))
	case errors.As(err, &stops):
		v.Stops, v.Problem = true, sentence(err)
	case !good:
		v.Problem = sentence(err)
	case err != nil:
		v.Problem = s.bookTrouble(err)
	}
	if good {
		s.judge(r, &v)
	}
	status := http.StatusUnprocessableEntity
	if err == nil {
		status = http.StatusOK
	}
	bookFileTemplate.show(w, status, v)
}

// unixEnds gives a text its line ends back: a browser sends every one as CRLF.
func unixEnds(text, ends string) string {
	text = strings.ReplaceAll(text, "\r\n", "\n")
	if ends == "crlf" {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	return text
}

// Ends is how the lines of the file end.
func (v bookFilePage) Ends() string {
	if strings.Contains(v.Text, "\r\n") {
		return "crlf"
	}
	return "lf"
}

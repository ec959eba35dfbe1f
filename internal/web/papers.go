package web

import (
	"cmp"
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/language"
	"kettlefrost/internal/papers"
	"kettlefrost/internal/pdf"
)

// papersPage is the sheets of a run that can be printed.
type papersPage struct {
	runHead
	Form   []field
	Kept   []kept
	Sheets []paperView
}

type paperView struct{ Name, For, URL string }

var papersTemplate = parse[papersPage]("papers")

// showPapers lists the sheets, each as PDF in the language and on the paper asked for.
func (s *server) showPapers(w http.ResponseWriter, r *http.Request, d runDay, head runHead) {
	query := r.URL.Query()
	in, sort := printedIn(r), paperSort(query, d.book.Kitchen.Units.String())
	v := papersPage{runHead: head, Kept: keep(query, "language", "paper"), Form: []field{
		{Key: "language", Label: "Language", Hint: "of headings and cautions; names and steps stay as the book has them", Value: string(in)},
		{Key: "paper", Label: "Paper", Hint: "black and white, to be read at arm's length", Value: sort, Options: []option{{"letter", "Letter", sort == "letter"}, {"a4", "A4", sort == "a4"}}}}}
	for _, l := range language.Languages() {
		v.Form[0].Options = append(v.Form[0].Options, option{string(l), l.Name(), l == in})
	}
	asked := across(query)
	asked.Set("language", string(in))
	asked.Set("paper", sort)
	for _, p := range papers.Sheets() {
		v.Sheets = append(v.Sheets, paperView{p.Name, p.For, runPath(d.name) + "/papers/" + string(p.Kind) + ".pdf" + queryOf(asked)})
	}
	papersTemplate.show(w, http.StatusOK, v)
}

// showPaper answers with one sheet.
func (s *server) showPaper(w http.ResponseWriter, r *http.Request, d runDay, _ runHead) {
	kind, isPDF := strings.CutSuffix(r.PathValue("file"), ".pdf")
	o, err := app.PaperFor(d.book, d.run, printedIn(r))
	if err != nil {
		writeJSON(w, http.StatusInternalServerError, refusal{Error: err.Error()})
		return
	}
	query := r.URL.Query()
	o.Units = readerOf(d.book.Kitchen, r).units
	o.Paper = map[string]pdf.Paper{"letter": pdf.Letter, "a4": pdf.A4}[paperSort(query, o.Units.String())]
	doc, err := papers.Document(papers.Kind(kind), d.plan, o)
	if err != nil || !isPDF {
		s.missing(w, r, d.book, "There is no sheet of that name.")
		return
	}
	doc.MadeMs = int64(s.nowMs())
	writePDF(w, kind+".pdf", doc)
}

// showRunReport answers with what a production came to, as far as it was entered.
func (s *server) showRunReport(w http.ResponseWriter, r *http.Request) {
	report, p, err := s.boards.RunReport(r.Context(), r.PathValue("run"))
	if err != nil {
		writeJSON(w, http.StatusNotFound, refusal{Error: sentence(err)})
		return
	}
	o := app.ReportFor(p, printedIn(r))
	o.Paper = map[string]pdf.Paper{"letter": pdf.Letter, "a4": pdf.A4}[paperSort(r.URL.Query(), o.Units.String())]
	doc := report.Document(o)
	doc.MadeMs = int64(s.nowMs())
	writePDF(w, "run-report.pdf", doc)
}

// printedIn is the language asked for, or else the one that the browser's owner reads best.
func printedIn(r *http.Request) language.Language {
	if in, err := language.Parse(r.URL.Query().Get("language")); err == nil {
		return in
	}
	return language.Match(r.Header.Get("Accept-Language"))
}

// paperSort is the paper asked for, or else what goes with the units.
func paperSort(query url.Values, units string) string {
	asked := strings.ToLower(query.Get("paper"))
	if asked != "letter" && asked != "a4" {
		asked = ""
	}
	return cmp.Or(asked, map[string]string{"us": "letter"}[units], "a4")
}

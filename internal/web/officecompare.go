package web

import (
	"net/http"
	"strings"

	"kettlefrost/internal/app"
)

// comparePage is all that templates/officecompare.html may show: two versions of a file.
type comparePage struct {
	shell
	File     string
	URL      string
	From, To string
	Tally    string
	Lines    []textLine
	Versions []option
	Later    []option
}

var compareTemplate = parse[comparePage]("officecompare")

func (s *server) showBookCompare(w http.ResponseWriter, r *http.Request) {
	if s.noRecords(w, r) {
		return
	}
	book, _ := s.house.Book()
	query := r.URL.Query()
	file := query.Get("file")
	log, err := s.records.BookLog(r.Context(), file)
	from, okFrom := versionOf(log, query.Get("from"))
	to, okTo := versionOf(log, query.Get("to"))
	if err != nil || !okFrom || !okTo {
		s.missing(w, r, book, "The book has no such versions of a file.")
		return
	}
	v := comparePage{shell: s.inShell(r, book.Kitchen, file, "files"), File: file, URL: bookFileURL(file), From: s.versionText(from), To: s.versionText(to)}
	lines := app.Diff(from.Text, to.Text)
	added, removed := app.Counts(lines)
	v.Lines, v.Tally = diffLines(lines), times(added, "line came", "lines came")+", "+times(removed, "line went", "lines went")
	for _, x := range log {
		v.Versions = append(v.Versions, option{numeral(x.Number), s.versionText(x), x.Number == from.Number})
		v.Later = append(v.Later, option{numeral(x.Number), s.versionText(x), x.Number == to.Number})
	}
	compareTemplate.show(w, http.StatusOK, v)
}

func versionOf(log []app.BookVersion, text string) (v app.BookVersion, ok bool) {
	for _, x := range log {
		if numeral(x.Number) == text {
			return x, true
		}
	}
	return v, false
}

func (s *server) versionText(v app.BookVersion) string {
	return versionSays(v) + ", " + s.toldAt(v.When) + ", " + v.Who
}

// diffLines are the lines of a comparison, each with a sign and not by colour alone.
func diffLines(lines []app.DiffLine) []textLine {
	var all []textLine
	for _, l := range lines {
		switch l.Sign {
		case '+':
			all = append(all, textLine{Class: "came", Sign: "+", Text: l.Text})
		case '-':
			all = append(all, textLine{Class: "went", Sign: "−", Text: l.Text})
		case '@':
			all = append(all, textLine{Class: "apart", Sign: "…", Text: strings.Trim(l.Text, "@ ")})
		default:
			all = append(all, textLine{Text: l.Text})
		}
	}
	return all
}

package web

import (
	"cmp"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/sheet"
)

// recallReportPage is all that templates/recallreport.html may show: a recall to print, a page for each customer.
type recallReportPage struct {
	shell
	Made   string    // when
	Drill  *drillRow // that it belongs to
	Report *recallView
	Back   string
}

var recallReportTemplate = parse[recallReportPage]("recallreport")

func (s *server) showRecallReport(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	report, ok := s.reportFor(w, r)
	if !ok {
		return
	}
	query := r.URL.Query()
	query.Del("did")
	x := recallShower{readerOf(book.Kitchen, r), query, s.recallTime}
	v := recallReportPage{shell: s.inShell(r, book.Kitchen, "Recall report", "recall"), Made: s.recallTime(report.At), Report: x.view(report, report.Asked), Back: recallPath + queryOf(query)}
	v.Report.Picture, v.Report.Links = drawingAt(recallPath, query, "What contains any of it"), recallLinks(query)
	if d, ok := s.drillOf(r, query.Get(drillKey)); ok {
		row := s.drillRow(d)
		v.Drill = &row
	}
	recallReportTemplate.show(w, http.StatusOK, v)
}

// rulePage is all that templates/rule.html may show: the tables of the traceability rule.
type rulePage struct {
	shell
	None   bool
	About  string
	Tables []ruleTable
	Source string
	Back   string
}

type ruleTable struct {
	Event  string
	CSV    string
	Counts string
	Head   []string
	Rows   []ruleRow
	More   string // rows that are only in the file
}

type ruleRow struct {
	Cells   []ruleCell
	Missing string
}

type ruleCell struct{ Name, Value string }

var ruleTemplate = parse[rulePage]("rule")

// mostRuleRows is how many rows of a table stand on the page; the file has all.
const mostRuleRows = 100

func (s *server) showRule(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	query.Del("did")
	v := rulePage{shell: s.inShell(r, book.Kitchen, "Traceability rule", "recall"), None: s.records == nil, About: "all lots", Source: lots.RuleSource, Back: recallPath + queryOf(query)}
	if s.records == nil {
		ruleTemplate.show(w, http.StatusOK, v)
		return
	}
	tables, a, ok := s.rule(w, r)
	if !ok {
		return
	}
	if !a.Empty() {
		v.About = a.words()
	}
	for _, t := range tables {
		v.Tables = append(v.Tables, viewRule(t, query))
	}
	ruleTemplate.show(w, http.StatusOK, v)
}

// rule is the tables that an address asks for; false when it was answered with why there are none.
func (s *server) rule(w http.ResponseWriter, r *http.Request) ([]lots.RuleTable, lotsAsked, bool) {
	book, _ := s.house.Book()
	a := askLots(r.URL.Query(), s.house.Now().Location())
	if a.wrong || s.records == nil {
		s.missing(w, r, book, "The question which lots are meant cannot be read, or no records are kept.")
		return nil, a, false
	}
	tables, err := s.records.Rule(r.Context(), a.Ask, lots.House{Name: cmp.Or(book.Seller.Name, book.Kitchen.Name), Address: strings.Join(book.Seller.Address, ", "), Date: s.recallDay})
	if err != nil {
		s.missing(w, r, book, sentence(err))
		return nil, a, false
	}
	return tables, a, true
}

func (s *server) showRuleCSV(w http.ResponseWriter, r *http.Request) {
	tables, _, ok := s.rule(w, r)
	if !ok {
		return
	}
	book, _ := s.house.Book()
	event, isCSV := strings.CutSuffix(r.PathValue("event"), ".csv")
	i := slices.IndexFunc(tables, func(t lots.RuleTable) bool { return t.Event == event })
	if i < 0 || !isCSV {
		s.missing(w, r, book, "There is no such table.")
		return
	}
	writeCSV(w, event+".csv", sheet.RuleCSV(tables[i]))
}

func viewRule(t lots.RuleTable, query url.Values) ruleTable {
	v := ruleTable{Event: capital(t.Event), CSV: recallRulePath + "/" + t.Event + ".csv" + queryOf(query)}
	names := map[string]string{}
	for _, x := range t.Head {
		v.Head = append(v.Head, capital(x.Name))
		names[x.Key] = x.Name
	}
	lacking := 0
	for i, r := range t.Rows {
		if len(r.Missing) > 0 {
			lacking++
		}
		if i >= mostRuleRows {
			continue
		}
		var row ruleRow
		for k, x := range t.Head {
			row.Cells = append(row.Cells, ruleCell{v.Head[k], r.Values[x.Key]})
		}
		for _, key := range r.Missing {
			row.Missing = joined(row.Missing, names[key])
		}
		v.Rows = append(v.Rows, row)
	}
	v.Counts = times(len(t.Rows), "row", "rows")
	if lacking > 0 {
		v.Counts += ", " + times(lacking, "lacks", "lack") + " something"
	}
	if n := len(t.Rows) - mostRuleRows; n > 0 {
		v.More = times(n, "more row is", "more rows are") + " in the file."
	}
	return v
}

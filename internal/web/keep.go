package web

import (
	"cmp"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/keeping"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/retained"
)

// Places of packs that are kept for tasting, and of best-before, among the pages.
const (
	retainedPath  = "/workshop/retained"
	keepPath      = "/workshop/retained/keep"
	keptTastePath = "/workshop/retained/taste"
	giveBackPath  = "/workshop/retained/give-back"
	keepingPath   = "/workshop/keeping"
	bestPath      = "/workshop/keeping/pack"
)

func (s *server) keepRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+retainedPath, s.showRetained)
	mux.HandleFunc("GET /workshop/retained.json", s.showRetainedJSON)
	mux.HandleFunc("GET "+keepPath, s.showKeep)
	mux.HandleFunc("POST "+keepPath, s.entering(s.keepPacks))
	mux.HandleFunc("GET "+keptTastePath, s.showKeptTaste)
	mux.HandleFunc("POST "+keptTastePath, s.entering(s.tastePacks))
	mux.HandleFunc("POST "+giveBackPath, s.entering(s.giveBack))
	mux.HandleFunc("GET "+keepingPath, s.showKeeping)
	mux.HandleFunc("GET /workshop/keeping.json", s.showKeepingJSON)
	mux.HandleFunc("GET "+bestPath, s.showBest)
	mux.HandleFunc("POST "+bestPath, s.entering(s.takeOverBest))
}

// retainedPage is all that templates/keepretained.html may show: packs that are kept for tasting, and what was found.
type retainedPage struct {
	shell
	None     bool // no records are kept
	Problem  string
	Findings findingsView
	Due      []keptRow
	Ahead    []keptRow
	Lost     []unopenedRow
	Back     []giveBackRow // one of each set, of which all that were not opened may go back into the stock
	Tasted   []tastedRow
	More     int // that are not shown
	KeepURL  string
	BestURL  string
	JSON     string
	Safety   string
}

// keptRow is packs that are to be opened on a day.
type keptRow struct {
	Day, Late     string
	What, Lot     string
	LotURL, URL   string
	Which, Where  string
	Gone, Why     string
	ByWhom, Since string
}

// unopenedRow is an opening for which no pack is left.
type unopenedRow struct{ Day, What, Lot, LotURL, Gone string }

// giveBackRow is a set of packs that may go back into the stock.
type giveBackRow struct{ What, Lot, Entry, Set string }

// tastedRow is what was found in packs.
type tastedRow struct {
	When, Who   string
	What        string
	Lot, LotURL string
	Which       string
	Weeks       string
	Sign, Class string
	Verdict     string
	Measured    string
	Note        string
}

var retainedTemplate = parse[retainedPage]("keepretained")

// mostTasted is how many tastings a page lists; the JSON has all.
const mostTasted = 60

func (s *server) showRetained(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	v := retainedPage{shell: s.inShell(r, book.Kitchen, "Packs kept for tasting", "retained"), None: s.records == nil, KeepURL: coldURL(keepPath, query), BestURL: coldURL(keepingPath, query), JSON: coldURL("/workshop/retained.json", query), Safety: app.KeepingNotSafety}
	if v.None {
		retainedTemplate.show(w, http.StatusOK, v)
		return
	}
	sheet, err := s.records.Retained(r.Context(), s.stockDay(), "")
	if err != nil {
		v.Problem = sentence(err)
		retainedTemplate.show(w, http.StatusInternalServerError, v)
		return
	}
	v.Findings = viewFindings(sheet.Findings)
	k := keptView{s, book, readerOf(book.Kitchen, r), query}
	v.Due, v.Ahead, v.Back = k.rows(sheet.Due), k.rows(sheet.Ahead), k.back(slices.Concat(sheet.Due, sheet.Ahead))
	for _, o := range sheet.Lost {
		v.Lost = append(v.Lost, unopenedRow{string(o.Day), k.name(o.Set.Pack), string(o.Set.Lot), lotURL(lotPath, o.Set.Lot, query), goneWords(o.Gone)})
	}
	v.Tasted, v.More = k.tasted(sheet.Tasted)
	retainedTemplate.show(w, http.StatusOK, v)
}

// goneWords are packs that were meant for an opening and are not there any more.
func goneWords(n int64) string {
	return times(int(n), "pack that was", "packs that were") + " meant for it: gone"
}

func (s *server) showRetainedJSON(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		writeJSON(w, http.StatusConflict, refusal{Error: noRecords})
		return
	}
	sheet, err := s.records.Retained(r.Context(), s.stockDay(), tidy(r.URL.Query().Get("pack")))
	if err != nil {
		writeJSON(w, http.StatusInternalServerError, refusal{Error: err.Error()})
		return
	}
	writeJSON(w, http.StatusOK, sheet)
}

// keptView puts kept packs into words.
type keptView struct {
	s     *server
	book  kitchen.Book
	rd    reader
	query url.Values
}

func (k keptView) name(pack string) string {
	return cmp.Or(k.book.Packs[kitchen.PackID(pack)].Name, pack)
}

func (k keptView) rows(all []retained.Opening) []keptRow {
	layout := app.PlacesOf(k.book)
	rows := make([]keptRow, 0, len(all))
	for _, o := range all {
		row := keptRow{Day: string(o.Day), What: k.name(o.Set.Pack), Lot: string(o.Set.Lot), LotURL: lotURL(lotPath, o.Set.Lot, k.query), Which: theirNumbers(o.Which.String()), Why: string(o.Set.Why),
			ByWhom: o.Set.Who, Since: k.s.dateText(o.Set.At)}
		if !o.Which.Empty() {
			row.URL = coldURL(keptTastePath, k.query, "code", row.Lot+"#"+lowest(o.Which))
		}
		if days, ok := kitchen.DaysUntil(row.Day, string(k.s.stockDay())); ok && days > 0 {
			row.Late = times(days, "day", "days") + " late"
		}
		if o.Gone > 0 {
			row.Gone = goneWords(o.Gone)
		}
		var places []string
		for _, p := range o.Places {
			if p != "" {
				places = append(places, layout.FullName(p))
			}
		}
		row.Where = strings.Join(places, ", ")
		rows = append(rows, row)
	}
	return rows
}

// back is one row of each set.
func (k keptView) back(all []retained.Opening) []giveBackRow {
	var rows []giveBackRow
	for _, o := range all {
		if id := o.Set.Entry.String(); !slices.ContainsFunc(rows, func(x giveBackRow) bool { return x.Set == id }) {
			rows = append(rows, giveBackRow{k.name(o.Set.Pack), string(o.Set.Lot), newEntryID(), id})
		}
	}
	return rows
}

// tasteSigns are how verdicts are marked.
var tasteSigns = map[record.Verdict]struct{ sign, class string }{record.StillGood: {"●", "note"}, record.Fading: {"▲", "caution"}, record.Bad: {"■", "stop"}}

// tasted are tastings, the latest first, and how many are not among them.
func (k keptView) tasted(all []retained.Tasting) (rows []tastedRow, more int) {
	for i := len(all) - 1; i >= 0 && len(rows) < mostTasted; i-- {
		t := all[i]
		sign := tasteSigns[t.Verdict]
		row := tastedRow{When: k.s.dateText(t.At), Who: t.Who, What: k.name(t.Pack), Lot: string(t.Lot), LotURL: lotURL(lotPath, t.Lot, k.query), Which: theirNumbers(t.Numbers.String()), Sign: sign.sign, Class: sign.class, Verdict: string(t.Verdict), Note: oneLine(string(t.Note)), Weeks: "not known"}
		if t.Weeks >= 0 {
			row.Weeks = weeksWord(t.Weeks)
		}
		row.Measured = measured(t)
		rows = append(rows, row)
	}
	return rows, len(all) - len(rows)
}

func measured(t retained.Tasting) string {
	var parts []string
	if share, ok := t.DripShare(); ok {
		parts = append(parts, fmt.Sprintf("%.1f g ran out (%.1f %%)", *t.DripG, 100*share))
	}
	if t.Separation != nil {
		parts = append(parts, t.Separation.String()+" separated")
	}
	for _, x := range t.Scores {
		parts = append(parts, fmt.Sprintf("%s %.3g", x.Figure, x.Points))
	}
	return strings.Join(parts, "; ")
}

func weeksWord(n int) string { return times(n, "week", "weeks") }

// beside puts what is wrong beside its field; it is returned when it is of none.
func beside(fields []field, err error) string {
	why := (*coldstore.Refusal)(nil)
	if !errors.As(err, &why) {
		return sentence(err)
	}
	for i := range fields {
		if fields[i].Key == why.Field {
			fields[i].Problem = sentence(why)
			return ""
		}
	}
	return sentence(why)
}

// classNamed is the row of the published table that a query asks for; "" for none.
func classNamed(query url.Values) keeping.Class {
	row, ok := keeping.Of(keeping.Class(query.Get("as")))
	if !ok || row.Memory {
		return ""
	}
	return row.Class
}

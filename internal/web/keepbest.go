package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/keeping"
)

// keepingPage is all that templates/keepbest.html may show: for how long packs are at their best.
type keepingPage struct {
	shell
	None     bool // no records are kept
	Problem  string
	Findings findingsView
	Rows     []bestRow
	Kept     string // address of what is kept
	JSON     string
	Safety   string
}

// bestRow is one kind of pack in short.
type bestRow struct {
	URL, Name   string
	Book        string
	Supported   string
	Sign, Class string
	Stands      string // how the two stand to each other
	By          string
	Beyond      string // packs in stock that say more
}

var keepingTemplate = parse[keepingPage]("keepbest")

func (s *server) showKeeping(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	v := keepingPage{shell: s.inShell(r, book.Kitchen, "Best before", "keeping"), None: s.records == nil, Kept: coldURL(retainedPath, query), JSON: coldURL("/workshop/keeping.json", query), Safety: app.KeepingNotSafety}
	if v.None {
		keepingTemplate.show(w, http.StatusOK, v)
		return
	}
	sheet, err := s.records.Keeping(r.Context(), book, s.instant(), app.KeepingAsk{Storage: true})
	if err != nil {
		v.Problem = sentence(err)
		keepingTemplate.show(w, http.StatusInternalServerError, v)
		return
	}
	v.Findings = viewFindings(sheet.Findings)
	for _, p := range sheet.Packs {
		v.Rows = append(v.Rows, bestRowOf(p, query))
	}
	keepingTemplate.show(w, http.StatusOK, v)
}

func bestRowOf(p app.PackKeeping, query url.Values) bestRow {
	row := bestRow{URL: coldURL(bestPath, query, "pack", p.Pack), Name: cmp.Or(p.Name, p.Pack), Book: "not said", Supported: "nothing is known"}
	if p.Weeks > 0 {
		row.Book = weeksWord(p.Weeks)
	}
	row.Sign, row.Class, row.Stands = standsOf(p)
	if by, ok := p.Proposal.Limiting(); ok {
		row.Supported, row.By = weeksWord(p.Proposal.Weeks), by.Name
		switch {
		case p.Proposal.Alone && by.Basis == keeping.ByStorage:
			row.By = "what is published alone, and " + by.Name
		case p.Proposal.Alone:
			row.By = "what is published alone: " + by.Name
		}
	}
	packs := int64(0)
	for _, l := range p.Lots {
		if l.Beyond > 0 {
			packs += l.Packs
		}
	}
	if packs > 0 {
		row.Beyond = times(int(packs), "pack says", "packs say") + " more"
	}
	return row
}

// standsOf is how the book's time stands to what is supported, in a word.
func standsOf(p app.PackKeeping) (sign, class, words string) {
	switch {
	case !p.Proposal.Known && p.Weeks == 0:
		return "●", "note", "nobody has said anything"
	case !p.Proposal.Known:
		return "▲", "caution", "nothing supports the book's time"
	case p.Weeks == 0:
		return "●", "note", "the book does not say"
	case p.Longer() && p.Proposal.Against:
		return "▲", "caution", "your own packs do not keep so long as the book says"
	case p.Longer() && p.Proposal.Alone:
		return "▲", "caution", "the book says more than is published, and nobody has opened one"
	case p.Longer():
		return "▲", "caution", "the book says more than is supported so far"
	case p.Weeks < p.Proposal.Weeks:
		return "●", "note", "more is supported than the book says"
	}
	return "●", "note", "as the book says"
}

func (s *server) showKeepingJSON(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		writeJSON(w, http.StatusConflict, refusal{Error: noRecords})
		return
	}
	book, _ := s.house.Book()
	query := r.URL.Query()
	sheet, err := s.records.Keeping(r.Context(), book, s.instant(), app.KeepingAsk{Pack: tidy(query.Get("pack")), As: classNamed(query), Storage: true})
	if err != nil {
		writeJSON(w, http.StatusInternalServerError, refusal{Error: err.Error()})
		return
	}
	writeJSON(w, http.StatusOK, sheet)
}

// bestPage is all that templates/keepbestone.html may show: for how long packs of one kind are at their best, and why.
type bestPage struct {
	shell
	Name, Book  string
	BookSource  string
	Supported   string
	Known       bool
	Sign, Class string
	Stands      string
	By, Source  string // what it is held back by
	Further     string // what could carry it further
	Supports    []supportRow
	Unread      string // that nobody knows how warm the freezers were
	Accept      *acceptForm
	Lots        []bestLot
	Tasted      []tastedRow
	More        int
	Classes     []classRow
	Fits        []string
	KeepURL     string
	ListURL     string
	JSON        string
	Safety      string
	Edit        *editView // what to write into the book's folder by hand
}

// supportRow is what one thing says.
type supportRow struct {
	What, Weeks, Says, Source string
	Limits, Counts            bool
}

// acceptForm writes a time into the book.
type acceptForm struct {
	Action, Entry string
	Pack          string
	Weeks, Source string // as the book will have them
	Says          string
	Problem       string
}

// bestLot is packs of a lot that are on hand.
type bestLot struct {
	Lot, URL            string
	Packed, Best, Until string
	Packs, Kept         string
	Beyond              string
	Past                bool
	Promised            []promisedRow
	Storage             string
	HoldURL, LabelURL   string
}

// promisedRow is packs that a customer is to get.
type promisedRow struct{ Says, URL string }

// classRow is a row of the published table.
type classRow struct {
	Name, Months, Note, Source string
	URL                        string
	Here, Memory               bool
}

// editView is what a file of the book has to be, when it is a folder that is not written here.
type editView struct {
	Files []editFile
}

// editFile is a file with the lines that come and go.
type editFile struct {
	Name  string
	Lines []textLine
}

var bestTemplate = parse[bestPage]("keepbestone")

func (s *server) showBest(w http.ResponseWriter, r *http.Request) {
	s.showBestWith(w, r, http.StatusOK, "", nil)
}

// showBestWith shows one kind of pack, with what became of a form.
func (s *server) showBestWith(w http.ResponseWriter, r *http.Request, status int, problem string, edit *editView) {
	book, _ := s.house.Book()
	pack := tidy(r.FormValue("pack"))
	if s.records == nil {
		keepingTemplate.show(w, http.StatusOK, keepingPage{shell: s.inShell(r, book.Kitchen, "Best before", "keeping"), None: true, Safety: app.KeepingNotSafety})
		return
	}
	query := r.URL.Query()
	sheet, err := s.records.Keeping(r.Context(), book, s.instant(), app.KeepingAsk{Pack: pack, As: classNamed(query), Storage: true})
	switch {
	case err != nil:
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return
	case len(sheet.Packs) != 1:
		s.missing(w, r, book, "The book has no pack of that name.")
		return
	}
	kept, err := s.records.Retained(r.Context(), s.stockDay(), pack)
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return
	}
	p := sheet.Packs[0]
	v := bestPage{shell: s.inShell(r, book.Kitchen, "Best before: "+cmp.Or(p.Name, p.Pack), "keeping"), Name: cmp.Or(p.Name, p.Pack), Book: "not said", BookSource: p.Source, KeepURL: coldURL(keepPath, query), ListURL: coldURL(keepingPath, query),
		JSON: coldURL("/workshop/keeping.json", query, "pack", pack), Safety: app.KeepingNotSafety, Edit: edit}
	if p.Weeks > 0 {
		v.Book = weeksWord(p.Weeks)
	}
	v.Sign, v.Class, v.Stands = standsOf(p)
	v.proposal(p)
	if v.Further = furtherOf(p, kept); v.Known {
		v.Accept = acceptOf(p, coldURL(bestPath, query, "pack", pack, "as", string(classNamed(query))), problem)
	}
	k := keptView{s, book, readerOf(book.Kitchen, r), query}
	v.Tasted, v.More = k.tasted(kept.Tasted)
	for _, l := range p.Lots {
		v.Lots = append(v.Lots, bestLotOf(l, query))
	}
	v.table(p, query)
	bestTemplate.show(w, status, v)
}

func (v *bestPage) proposal(p app.PackKeeping) {
	v.Known = p.Proposal.Known
	if v.Known {
		v.Supported = weeksWord(p.Proposal.Weeks)
	}
	if by, ok := p.Proposal.Limiting(); ok {
		v.By, v.Source = by.Says, by.Source
	}
	for _, x := range p.Proposal.Supports {
		v.Supports = append(v.Supports, supportRow{What: x.Name, Weeks: weeksWord(x.Weeks), Says: x.Says, Source: x.Source, Limits: x.Limits, Counts: x.Counts})
	}
	if p.Proposal.Row != nil && !slices.ContainsFunc(p.Proposal.Supports, func(x keeping.Support) bool { return x.Basis == keeping.ByStorage }) {
		v.Unread = "How warm the freezers were was not read for any pack in stock: nothing is taken off for it."
	}
	for _, c := range p.Fits {
		if row, ok := keeping.Of(c.Class); ok {
			v.Fits = append(v.Fits, row.Name+": "+c.Why)
		}
	}
}

// furtherOf is what could carry the proposal further.
func furtherOf(p app.PackKeeping, kept app.RetainedSheet) string {
	next := ""
	for _, o := range append(kept.Due, kept.Ahead...) {
		if next == "" {
			next = string(o.Day)
		}
	}
	says := ""
	if next != "" {
		says = "The next pack is to be opened on " + next + ". "
	}
	switch {
	case !p.Proposal.Further && p.Proposal.Known:
		return strings.TrimSpace(says)
	case p.Proposal.Against:
		return says + "Only packs that are opened between those weeks and found good could carry it a little further."
	case p.Proposal.Most > 0:
		says += fmt.Sprintf("Packs that are opened later than %s and found good carry this further, to %s at most by what is published.", weeksWord(p.Proposal.Weeks), weeksWord(p.Proposal.Most))
	default:
		says += "Packs that are opened later and found good carry this further."
	}
	if next == "" {
		says += " None is kept: keep some of the next run for tasting."
	}
	return says
}

func (v *bestPage) table(p app.PackKeeping, query url.Values) {
	for _, row := range keeping.Table() {
		x := classRow{Name: row.Name, Months: row.MonthsText(), Note: row.Note, Source: row.Source, Memory: row.Memory, Here: p.Proposal.Row != nil && p.Proposal.Row.Class == row.Class}
		if !row.Memory {
			x.URL = coldURL(bestPath, query, "pack", p.Pack, "as", string(row.Class))
		}
		v.Classes = append(v.Classes, x)
	}
}

func bestLotOf(l app.LotKeeping, query url.Values) bestLot {
	x := bestLot{Lot: string(l.Lot), URL: lotURL(lotPath, l.Lot, query), Packed: string(l.Packed), Best: string(l.BestBefore), Until: string(l.Until), Packs: times(int(l.Packs), "pack", "packs"), Past: l.Past,
		HoldURL: coldURL(handlePath, query, "do", "hold", "code", string(l.Lot)), LabelURL: coldURL(labelPath, query, "lot", string(l.Lot))}
	if l.Kept > 0 {
		x.Kept = fmt.Sprintf("and %d kept for tasting", l.Kept)
	}
	if l.Beyond > 0 {
		x.Beyond = times(l.Beyond, "day", "days") + " more than is supported"
	}
	for _, o := range l.Promised {
		x.Promised = append(x.Promised, promisedRow{Says: fmt.Sprintf("%s to %s, %s", times(int(o.Numbers.Count()), "pack", "packs"), o.Name, o.Due), URL: orderURL(o.Order)})
	}
	if t := l.Storage; t != nil {
		x.Storage = fmt.Sprintf("%.0f days read took %.0f days' life at 0 °F (%.0f to %.0f)", t.ReadDays, t.Days, t.Low, t.High)
		if t.WarmDays > 0 {
			x.Storage += fmt.Sprintf("; %.1f days above -5 °C (23 °F): look at them", t.WarmDays)
		}
	}
	return x
}

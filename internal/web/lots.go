package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trace"
)

// stockPage is all that templates/stock.html may show: what is on hand by the records.
type stockPage struct {
	shell
	Units    []unitLink
	None     bool   // no records are kept
	Problem  string // why they cannot be read
	Findings findingsView
	Rows     []stockRow
	Asked    string // a lot that was looked for and is not there
}

// stockRow is so much of a lot at a place.
type stockRow struct {
	URL, Lot, What string
	Place          string
	Count          string // of packs
	Numbers        string
	Mass           figure // in bulk
	Until          string
	Held           string
}

// lotPage is all that templates/lot.html may show: where a lot came from and where it went.
type lotPage struct {
	shell
	Units    []unitLink
	Lot      string
	Is       []string
	Recall   string // address
	Held     []string
	Balance  []factRow
	Back     []reachedRow
	Forward  []reachedRow
	Findings findingsView // about the lot
}

// reachedRow is a lot that a trace leads to.
type reachedRow struct {
	URL, Lot, What        string
	Steps                 string
	Expected, Least, Most figure
}

// recallPage is all that templates/recall.html may show: where every pack is that contains any of a lot.
type recallPage struct {
	shell
	Units   []unitLink
	Of      string
	Share   string
	Counts  string
	Whole   bool // everything is accounted for
	Trouble []string
	Packs   []recallRow
	Bulk    []bulkRow
}

type recallRow struct {
	URL, Lot, Numbers, Count, Where, Tell string
	Mass                                  figure
}

type bulkRow struct {
	URL, Lot, What                         string
	Came, OnHand, Used, Waste, Unaccounted figure
}

const (
	stockPath  = "/stock"
	lotPath    = "/lot"
	recallPath = "/recall"
)

func lotURL(base string, id record.Lot, query url.Values) string {
	q := url.Values{"lot": {string(id)}}
	if units := query.Get("units"); units != "" {
		q.Set("units", units)
	}
	return base + "?" + q.Encode()
}

// ofLots shows something of the lots. What is looked at is lent: at returns what then shows it, to however slow a browser. Without records the
// page of the stock says how to keep them.
func (s *server) ofLots(w http.ResponseWriter, r *http.Request, at func(*lots.State, finding.List) (show func())) {
	book, _ := s.house.Book()
	v := stockPage{shell: s.inShell(r, book.Kitchen, "Stock", "stock"), None: s.records == nil}
	if s.records == nil {
		stockTemplate.show(w, http.StatusOK, v)
		return
	}
	var show func()
	err := s.records.Lots(r.Context(), func(state *lots.State, found finding.List) error {
		show = at(state, found)
		return nil
	})
	if err != nil {
		v.Problem = sentence(err)
		stockTemplate.show(w, http.StatusInternalServerError, v)
		return
	}
	show()
}

func (s *server) showStock(w http.ResponseWriter, r *http.Request) {
	s.ofLots(w, r, func(state *lots.State, found finding.List) func() { return s.stockOf(w, r, state, found, "") })
}

// stockOf shows the stock, after a lot was looked for in vain if it says so.
func (s *server) stockOf(w http.ResponseWriter, r *http.Request, state *lots.State, found finding.List, asked string) (show func()) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	rd := readerOf(book.Kitchen, query)
	query.Del("lot")
	v := stockPage{shell: s.inShell(r, book.Kitchen, "Stock", "stock"), Units: unitLinks(stockPath, query, rd.units), Findings: viewFindings(found), Asked: asked}
	for _, x := range state.Stock() {
		row := stockRow{URL: lotURL(lotPath, x.Lot.ID, query), Lot: string(x.Lot.ID), What: x.Lot.What, Place: cmp.Or(string(x.Place), "nobody said where"), Until: string(x.Lot.Last())}
		if x.Numbers.Empty() {
			row.Mass = rd.fig(x.Mass)
		} else {
			row.Count, row.Numbers = times(int(x.Numbers.Count()), "pack", "packs"), x.Numbers.String()
		}
		switch {
		case !x.Held.Empty():
			row.Held = "packs " + x.Held.String()
		case x.Numbers.Empty() && x.Lot.Held():
			row.Held = "all of it"
		}
		v.Rows = append(v.Rows, row)
	}
	status := http.StatusOK
	if asked != "" {
		status = http.StatusNotFound
	}
	return func() { stockTemplate.show(w, status, v) }
}

func (s *server) showLot(w http.ResponseWriter, r *http.Request) {
	s.ofLots(w, r, func(state *lots.State, found finding.List) func() { return s.lotOf(w, r, state, found) })
}

func (s *server) lotOf(w http.ResponseWriter, r *http.Request, state *lots.State, found finding.List) (show func()) {
	id := record.Lot(tidy(r.URL.Query().Get("lot")))
	l := state.Lot(id)
	if l == nil {
		return s.stockOf(w, r, state, found, string(id))
	}
	book, _ := s.house.Book()
	query := r.URL.Query()
	rd := readerOf(book.Kitchen, query)
	v := lotPage{shell: s.inShell(r, book.Kitchen, "Lot "+string(id), "stock"), Units: unitLinks(lotPath, query, rd.units), Lot: string(id), Is: lotWords(l), Recall: lotURL(recallPath, id, query), Findings: viewFindings(aboutLot(found, id))}
	for _, h := range l.Holds {
		of := "all of it"
		if !h.Numbers.Empty() {
			of = "packs " + h.Numbers.String()
		}
		text := fmt.Sprintf("%s: %s (%s)", capital(of), h.Why, h.Who)
		if h.Decided != "" {
			text += "; decided: " + string(h.Decided)
		}
		v.Held = append(v.Held, text)
	}
	b, err := state.Balance(id)
	back, err2 := state.Backward(id)
	forward, err3 := state.Forward(id)
	if err := cmp.Or(err, err2, err3); err != nil { // the lot is there
		return func() { s.missing(w, r, book, sentence(err)) }
	}
	v.Balance, v.Back, v.Forward = balanceRows(b, rd), reachedRows(back, rd, query), reachedRows(forward, rd, query)
	return func() { lotTemplate.show(w, http.StatusOK, v) }
}

// aboutLot are the findings about one lot.
func aboutLot(found finding.List, id record.Lot) finding.List {
	var mine finding.List
	for _, f := range found {
		if strings.HasPrefix(f.Where, "lot "+string(id)+",") {
			mine = append(mine, f)
		}
	}
	return mine
}

// lotWords is what a lot is, in short.
func lotWords(l *lots.Lot) []string {
	var words []string
	for _, w := range []struct{ lead, text string }{{"", string(l.Sort)}, {"", l.What}, {"run ", l.Run}, {"from ", l.Supplier}, {"their lot ", l.SupplierLot}, {"use by ", string(l.UseBy)}, {"best before ", string(l.BestBefore)}} {
		if w.text != "" {
			words = append(words, w.lead+w.text)
		}
	}
	return words
}

func balanceRows(b trace.Balance, rd reader) []factRow {
	row := func(name string, f figure, says string) factRow {
		if f.Second != "" {
			says = strings.TrimPrefix(f.Second+", "+says, ", ")
		}
		return factRow{name, f.First, strings.TrimSuffix(says, ", ")}
	}
	return []factRow{row("Came", rd.fig(b.Came), ""), row("Used", rd.fig(b.Used), "into other lots"), row("On hand", rd.fig(b.OnHand), ""), row("Written off", rd.fig(b.Waste), ""), row("Handed over", rd.fig(b.Dispatched), ""),
		row("Unaccounted", rd.fig(b.Unaccounted), fmt.Sprintf("%.2f %% of what came", 100*b.UnaccountedShare))}
}

func reachedRows(reach []lots.Reached, rd reader, query url.Values) []reachedRow {
	var rows []reachedRow
	for _, x := range reach {
		if !x.Asked {
			rows = append(rows, reachedRow{lotURL(lotPath, x.ID, query), string(x.ID), strings.TrimSpace(x.What + " " + x.Run), fmt.Sprint(x.Layer), rd.fig(x.Content.Expected), rd.fig(x.Content.Least), rd.fig(x.Content.Most)})
		}
	}
	return rows
}

func (s *server) showRecall(w http.ResponseWriter, r *http.Request) {
	s.ofLots(w, r, func(state *lots.State, found finding.List) func() { return s.recallOf(w, r, state, found) })
}

func (s *server) recallOf(w http.ResponseWriter, r *http.Request, state *lots.State, found finding.List) (show func()) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	rd := readerOf(book.Kitchen, query)
	id := record.Lot(tidy(query.Get("lot")))
	recall, err := state.Recall(id)
	if err != nil {
		return s.stockOf(w, r, state, found, cmp.Or(string(id), "?"))
	}
	v := recallPage{shell: s.inShell(r, book.Kitchen, "Recall of "+string(id), "stock"), Units: unitLinks(recallPath, query, rd.units), Of: string(id), Whole: recall.Complete(),
		Share: fmt.Sprintf("%.2f %%", 100*recall.Ratio()), Counts: fmt.Sprintf("%d of %s", recall.Found.Count, times(int(recall.Made.Count), "pack", "packs"))}
	for _, p := range recall.Packs {
		if !p.Missing.Empty() {
			v.Trouble = append(v.Trouble, fmt.Sprintf("Lot %s: no place is known of no. %s.", p.Lot.ID, p.Missing))
		}
		if !p.Twice.Empty() {
			v.Trouble = append(v.Trouble, fmt.Sprintf("Lot %s: two places are told of no. %s.", p.Lot.ID, p.Twice))
		}
	}
	for _, l := range recall.Lines {
		v.Packs = append(v.Packs, recallRow{lotURL(lotPath, l.Lot.ID, query), string(l.Lot.ID), l.Packs.String(), fmt.Sprint(l.Packs.Count()), strings.TrimSpace(l.State.String() + " " + l.Where), l.Tell, rd.fig(l.Mass)})
	}
	for _, b := range recall.Bulk {
		v.Bulk = append(v.Bulk, bulkRow{lotURL(lotPath, b.Lot.ID, query), string(b.Lot.ID), b.Lot.What, rd.fig(b.Came), rd.fig(b.OnHand), rd.fig(b.Used), rd.fig(b.Waste), rd.fig(b.Unaccounted)})
		if b.Unaccounted != 0 {
			v.Trouble = append(v.Trouble, fmt.Sprintf("Lot %s: %s unaccounted for.", b.Lot.ID, rd.fig(b.Unaccounted).First))
		}
	}
	return func() { recallTemplate.show(w, http.StatusOK, v) }
}

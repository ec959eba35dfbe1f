package web

import (
	"cmp"
	"net/http"
	"net/url"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
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

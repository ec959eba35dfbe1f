package web

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// openingRow is packs that are to be opened: on the page of the day, the board and the first page alike.
type openingRow struct {
	Says, From string
	Where      string
	Due        string // the day, when it is not over
	Late       string // since when, when it is
	URL        string
}

// openings are the packs that are to be opened on a day, or were to be before, of whatever they are. What cannot be read is said in its place.
func (s *server) openings(r *http.Request, book kitchen.Book, day record.Day) []openingRow {
	if s.records == nil {
		return nil
	}
	all, err := s.records.Openings(r.Context(), book, day)
	if err != nil {
		return []openingRow{{Says: "packs that are to be opened cannot be read", From: sentence(err), URL: retainedPath}}
	}
	rows := make([]openingRow, 0, len(all))
	for _, o := range all {
		rows = append(rows, s.openingRow(r, book, o))
	}
	return rows
}

func (s *server) openingRow(r *http.Request, book kitchen.Book, o app.Opening) openingRow {
	row := openingRow{Says: o.Says, URL: openingURL(o, r.URL.Query())}
	layout := app.PlacesOf(book)
	var places []string
	for _, p := range o.Places {
		if p != "" {
			places = append(places, layout.FullName(p))
		}
	}
	row.Where = strings.Join(places, ", ")
	switch o.Of {
	case app.OfTrial:
		row.From = "trial " + o.Name
	default:
		row.From = "lot " + o.Name + ", kept for tasting"
	}
	today := s.stockDay()
	switch days := orders.Days(o.Due, today); {
	case days > 0:
		row.Late = fmt.Sprintf("since %s, %s", o.Due, times(days, "day", "days"))
	case days == 0:
		row.Due = "today"
	default:
		row.Due = "on " + string(o.Due)
	}
	return row
}

// openingURL is where what is found in packs is entered.
func openingURL(o app.Opening, query url.Values) string {
	if o.Of == app.OfTrial {
		return coldURL(trialsPath+"/"+url.PathEscape(o.Name), query)
	}
	return coldURL(keptTastePath, query, "code", o.Name+"#"+lowest(o.Numbers))
}

// lowest is the lowest of some numbers.
func lowest(n record.Numbers) string {
	first, _ := n.Take(1)
	return first.String()
}

// openingsToday says which packs are to be opened; nothing where none is.
func (s *server) openingsToday(r *http.Request, day record.Day) (todayCard, error) {
	book, _ := s.house.Book()
	all, err := s.records.Openings(r.Context(), book, day)
	if err != nil || len(all) == 0 {
		return todayCard{}, err
	}
	c := todayCard{URL: retainedPath, Name: "Open and taste"}
	if len(all) == 1 || all[0].Of == app.OfTrial && all[len(all)-1].Of == app.OfTrial {
		c.URL = openingURL(all[0], r.URL.Query())
	}
	for _, o := range all[:min(len(all), mostAlarms)] {
		says := o.Says
		if o.Late > 0 {
			says, c.Grave = says+", since "+string(o.Due), true
		}
		c.Says = append(c.Says, says)
	}
	if n := len(all) - mostAlarms; n > 0 {
		c.Says = append(c.Says, fmt.Sprintf("and %d more", n))
	}
	return c, nil
}

// bestFindings are about packs in stock whose best-before day is later than is supported; of one lot when it is named. What cannot be read is said
// in its place.
func (s *server) bestFindings(r *http.Request, lot record.Lot) findingsView {
	if s.records == nil {
		return findingsView{}
	}
	book, _ := s.house.Book()
	found, err := s.records.KeepingFindings(r.Context(), book, s.instant(), lot)
	if err != nil {
		found = finding.List{{Code: "best-before-unread", Severity: finding.Caution, Where: "best before", Message: err.Error(), Fix: "load the page again"}}
	}
	return viewFindings(found)
}

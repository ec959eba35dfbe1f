package web

import (
	"cmp"
	"fmt"
	"net/http"
	"strings"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// mostListed is how many lots a page lists; the page of a place has all of those there.
const mostListed = 60

// stockPage is all that templates/stock.html may show: what is where by the records.
type stockPage struct {
	shell
	None      bool   // no records are kept
	Problem   string // why they cannot be read
	Findings  findingsView
	MoreFound string       // findings that are not shown
	Best      findingsView // packs that say best before a day that is not supported
	BestURL   string
	Map       pictureView
	Places    []placeRow
	Rows      []stockRow
	More      int    // lots that are not listed
	Asks      bool   // whether there is a form
	Receive   string // addresses
	Count     string
	Put       string
}

// placeRow is one place in short.
type placeRow struct {
	URL, Name, Code string
	Depth           int
	Kind            string
	Packs           string
	Holds           figure
	Left, Free      figure // by mass and by volume
	Over            string
	Unlisted        bool
}

// stockRow is so much of a lot at a place.
type stockRow struct {
	URL, Lot, What string
	Handle         string // address
	Place          string
	PlaceURL       string
	Count          string // of packs
	Numbers        string
	Mass           figure
	Until          string
	Held           string
	Past, Oldest   bool
	Taste          string // packs that are kept for tasting
}

func (s *server) showStock(w http.ResponseWriter, r *http.Request) {
	best := s.bestFindings(r, "")
	s.ofCold(w, r, func(c cold) func() { return s.stockIn(w, r, c, best) })
}

func (s *server) stockIn(w http.ResponseWriter, r *http.Request, c cold, best findingsView) (show func()) {
	found := append(c.store.Findings(c.rd.units), c.found...)
	found.Sort()
	v := stockPage{shell: s.inShell(r, c.book.Kitchen, "Stock", "stock"), Findings: viewFindings(found[:min(len(found), mostFindings)]), Map: mapView(c.query, "What is where"),
		Asks: true, Best: best, BestURL: coldURL(keepingPath, c.query), Receive: coldURL(receivePath, c.query), Count: coldURL(countPath, c.query), Put: coldURL(putPath, c.query)}
	if n := len(found) - mostFindings; n > 0 {
		v.Findings.Tally = viewFindings(found).Tally // of all of them
		v.MoreFound = fmt.Sprintf("and %d more, the gravest first", n)
	}
	for _, p := range c.store.Spots {
		if p.Listed || p.AllLots > 0 {
			v.Places = append(v.Places, c.placeRow(p))
		}
	}
	all := c.store.OldestFirst()
	for _, g := range all[:min(len(all), mostListed)] {
		v.Rows = append(v.Rows, c.stockRow(g))
	}
	v.More = len(all) - len(v.Rows)
	return func() { stockTemplate.show(w, http.StatusOK, v) }
}

func (c cold) placeRow(p coldstore.Spot) placeRow {
	row := placeRow{URL: coldURL(placePath, c.query, "place", string(p.ID)), Name: cmp.Or(p.Name, "nobody said where"), Code: string(p.ID), Depth: p.Depth, Holds: c.rd.mass(p.All), Unlisted: !p.Listed && p.ID != ""}
	if p.Depth == 0 {
		row.Kind = string(p.Kind) // parts are as their whole
	}
	if p.AllPacks > 0 {
		row.Packs = times(int(p.AllPacks), "pack", "packs")
	}
	if p.Rest.MassKnown {
		row.Left = c.rd.fig(p.Rest.Mass)
	}
	if p.Rest.VolumeKnown {
		row.Free = c.rd.fig(p.Rest.Volume)
	}
	var over []string
	if p.Rest.OverMass > 0 {
		over = append(over, c.rd.fig(p.Rest.OverMass).First+" too much")
	}
	if p.Rest.OverVolume > 0 {
		over = append(over, c.rd.fig(p.Rest.OverVolume).First+" too much")
	}
	row.Over = strings.Join(over, ", ")
	return row
}

func (c cold) stockRow(g coldstore.Goods) stockRow {
	row := stockRow{URL: lotURL(lotPath, g.Lot.ID, c.query), Lot: string(g.Lot.ID), What: c.whatIs(g.Lot), Handle: coldURL(handlePath, c.query, "code", string(g.Lot.ID), "from", string(g.Place)),
		Place: c.placeName(g.Place), PlaceURL: coldURL(placePath, c.query, "place", string(g.Place)), Mass: c.rd.fig(g.Net), Until: string(g.Lot.Last()), Past: g.Past, Oldest: g.Oldest}
	if n := g.Numbers.Count(); n > 0 {
		row.Count, row.Numbers = times(int(n), "pack", "packs"), g.Numbers.String()
	}
	if !g.Taste.Empty() {
		row.Taste = theirNumbers(g.Taste.String())
	}
	switch {
	case g.Kept:
		row.Held = "all of it"
	case !g.Held.Empty():
		row.Held = theirNumbers(g.Held.String())
	}
	return row
}

func (c cold) placeName(p record.Place) string {
	if p == "" {
		return "nobody said where"
	}
	return c.store.Layout.FullName(p)
}

// whatIs is what a lot is, as the book calls it.
func (c cold) whatIs(l *lots.Lot) string { return whatIs(c.book, l) }

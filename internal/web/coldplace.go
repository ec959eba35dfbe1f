package web

import (
	"net/http"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// whatIs is what a lot is, as the book calls it, or as it was entered.
func whatIs(book kitchen.Book, l *lots.Lot) string {
	if p, ok := book.Packs[kitchen.PackID(l.What)]; ok && l.Sort == lots.Packs {
		return p.Name
	}
	if g, ok := book.Ingredients[kitchen.IngredientID(l.What)]; ok && l.Sort == lots.Goods {
		return g.Name
	}
	return l.What
}

// placePage is all that templates/place.html may show: one place, its parts and everything in them.
type placePage struct {
	shell
	Name, Code, Kind, Packs, Over string
	Holds, Left, Free             figure
	Says                          string // its stowing
	Findings                      findingsView
	Map                           pictureView
	Parts                         []placeRow
	Rows                          []stockRow
	More                          int
	StockURL, PutURL, CountURL    string
}

var placeTemplate = parse[placePage]("place")

// mostHere is how many lots the page of one place lists.
const mostHere = 250

func (s *server) showPlace(w http.ResponseWriter, r *http.Request) {
	s.ofCold(w, r, func(c cold) func() {
		p, ok := c.store.Layout.Find(c.query.Get("place"))
		if !ok {
			return func() { s.missing(w, r, c.book, "There is no such place in the book, and no entry names one.") }
		}
		id := p.ID
		spot, _ := c.store.Spot(id)
		row := c.placeRow(spot)
		v := placePage{shell: s.inShell(r, c.book.Kitchen, c.placeName(id), "stock"), Name: c.placeName(id), Code: row.Code, Kind: row.Kind, Packs: row.Packs, Over: row.Over, Holds: row.Holds, Left: row.Left, Free: row.Free, Map: mapView(c.query, "What is in it", string(id)), StockURL: coldURL(stockPath, c.query), PutURL: coldURL(putPath, c.query), CountURL: coldURL(countPath, c.query, "place", string(id))}
		if spot.Rest.VolumeKnown {
			v.Says = stowWords(p)
		}
		report, _ := c.store.Report(c.rd.units, nil).Only(id)
		v.Findings = viewFindings(report.Findings)
		inIt := map[record.Place]bool{}
		for _, x := range report.Places {
			part, _ := c.store.Spot(x.ID)
			if inIt[x.ID] = true; x.ID != id {
				v.Parts = append(v.Parts, c.placeRow(part))
			}
		}
		for _, g := range c.store.OldestFirst() {
			switch {
			case !inIt[g.Place]:
			case len(v.Rows) == mostHere:
				v.More++
			default:
				v.Rows = append(v.Rows, c.stockRow(g))
			}
		}
		return func() { placeTemplate.show(w, http.StatusOK, v) }
	})
}

func stowWords(p coldstore.Place) string {
	if p.Stow > 0 {
		return "Space is reckoned at " + p.Stow.String() + " of what lies there, as the book says."
	}
	st := coldstore.StowOf(p.Kind)
	return "Space is reckoned at " + st.Usual.String() + " of what lies there, which may be " + st.Low.String() + " to " + st.High.String() + " (" + st.Source + "). Weigh what is in it when it is full, and write that into the book after stow:."
}

package web

import (
	"cmp"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/kitchen"
)

// putPage is all that templates/put.html may show: where new packs could go.
type putPage struct {
	shell
	Kept     []kept
	Fields   []field
	Runs     []link
	Of       string // what is put away
	Loads    []string
	Rows     []putRow
	Findings findingsView
	StockURL string
}

// putRow is so many packs to a place.
type putRow struct {
	Place, PlaceURL, Code string
	Packs                 string
	What                  string
	Mass                  figure
	Why                   string
}

var putTemplate = parse[putPage]("put")

// showPut proposes places: for the packs of a run, or for so many of a pack.
func (s *server) showPut(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	v := putPage{Kept: keep(query, "pack", "count", "run"), Fields: putFields(book, tidy(query.Get("pack")), tidy(query.Get("count")))}
	var loads []coldstore.Load
	switch run := query.Get("run"); {
	case run != "":
		req, err := app.Request(book, run)
		if err != nil {
			s.missing(w, r, book, sentence(errNoRun))
			return
		}
		v.Of, loads = "the run "+cmp.Or(req.Name, run), app.LoadsOf(s.house.Plan(r.Context(), book, req))
	case query.Has("pack"):
		loads = v.read(book, query.Get("pack"), query.Get("count"))
		if len(loads) > 0 {
			v.Of = "these packs"
		}
	}
	s.ofCold(w, r, func(c cold) func() {
		v.shell = s.inShell(r, book.Kitchen, "Where to put packs", "put")
		v.StockURL = coldURL(stockPath, c.query)
		for _, name := range slices.Sorted(maps.Keys(book.Runs)) {
			v.Runs = append(v.Runs, link{cmp.Or(book.Runs[name].Name, name), coldURL(putPath, c.query, "run", name)})
		}
		p, found := c.store.RoomFor(loads, c.rd.units)
		v.Findings = viewFindings(found)
		for _, l := range loads {
			v.Loads = append(v.Loads, fmt.Sprintf("%s of %s, %s each", times(int(l.Packs), "pack", "packs"), l.Name, c.rd.fig(l.Each).First))
		}
		for _, x := range p.Puts {
			v.Rows = append(v.Rows, putRow{Place: c.placeName(x.Place), PlaceURL: coldURL(placePath, c.query, "place", string(x.Place)), Code: string(x.Place), Packs: times(int(x.Packs), "pack", "packs"), What: loads[x.Load].Name, Mass: c.rd.fig(x.Mass), Why: strings.Join(x.Why, "; ")})
		}
		status := http.StatusOK
		if wrong(v.Fields) {
			status = http.StatusUnprocessableEntity
		}
		return func() { putTemplate.show(w, status, v) }
	})
}

func putFields(book kitchen.Book, pack, count string) []field {
	options := []option{{"", "choose", pack == ""}}
	for _, id := range slices.Sorted(maps.Keys(book.Packs)) {
		options = append(options, option{string(id), book.Packs[id].Name, string(id) == pack})
	}
	return []field{{Key: "pack", Label: "Pack", Hint: "Of the book.", Value: pack, Options: options}, {Key: "count", Label: "How many", Hint: "Such as 60.", Value: count, Number: true}}
}

// read is the load that was typed; none when something is wrong, which stands beside its field.
func (v *putPage) read(book kitchen.Book, id, count string) []coldstore.Load {
	pack, there := book.Packs[kitchen.PackID(id)]
	if !there {
		v.Fields[0].Problem = "Choose which pack it is."
	}
	n, err := strconv.ParseInt(strings.TrimSpace(count), 10, 64)
	if err != nil || n < 1 || n > mostPacks {
		v.Fields[1].Problem = "Write how many packs there are, such as 60."
	}
	each := app.NetOf(book, kitchen.PackID(id))
	if there && each == 0 {
		v.Fields[0].Problem = "The book does not say what a pack of it weighs."
	}
	if wrong(v.Fields) {
		return nil
	}
	return []coldstore.Load{{What: id, Name: pack.Name, Packs: n, Each: each, Keep: coldstore.Frozen}}
}

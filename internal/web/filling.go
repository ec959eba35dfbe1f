package web

import (
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
)

// fillingsPage is all that templates/fillings.html may show: the packs of the book and who has weighed them.
type fillingsPage struct {
	shell
	Blocked findingsView // what is wrong with the book
	Packs   []fillingCard
}

// fillingCard leads to a pack's check-weights.
type fillingCard struct{ URL, Name, Says string }

// fillingPage is all that templates/filling.html may show: check-weights, and how to fill next time.
type fillingPage struct {
	shell
	Name string
	Of   string // what the weights are of
	JSON string
	Form fillingForm
	Seen *fillingView // nil when the weights cannot be read
}

const fillingPath = "/filling"

func fillingURL(id kitchen.PackID) string { return fillingPath + "/" + url.PathEscape(string(id)) }

func (s *server) showFillings(w http.ResponseWriter, r *http.Request) {
	book, found := s.house.Book()
	v := fillingsPage{shell: s.inShell(r, book.Kitchen, "Check-weights", "filling")}
	if found.Worst() >= finding.Stop {
		v.Blocked = viewFindings(found)
	}
	for _, id := range slices.Sorted(maps.Keys(book.Packs)) {
		pack := book.Packs[id]
		says := "nobody has weighed it"
		if n := len(pack.Checks); n > 0 {
			last := pack.Checks[n-1]
			says = fmt.Sprintf("%s weighed on %s", times(len(last.Gross), "pack", "packs"), last.Date)
		}
		v.Packs = append(v.Packs, fillingCard{fillingURL(id), pack.Name, says})
	}
	fillingsTemplate.show(w, http.StatusOK, v)
}

// noPack is what stands on the page of a pack that is not there.
const noPack = "There is no such pack, or the book has to be put right first."

// showFilling answers with a pack's check-weights, or with the same as data.
func (s *server) showFilling(w http.ResponseWriter, r *http.Request) {
	name, isJSON := strings.CutSuffix(r.PathValue("pack"), ".json")
	book, found := s.house.Book()
	pack, ok := book.Packs[kitchen.PackID(name)]
	switch ok = ok && found.Worst() < finding.Stop; {
	case isJSON && !ok:
		writeJSON(w, http.StatusNotFound, refusal{Error: noPack})
	case isJSON:
		s.showFillingJSON(w, r, book, kitchen.PackID(name))
	case !ok:
		s.missing(w, r, book, noPack)
	default:
		s.showFillingPage(w, r, book, kitchen.PackID(name), pack)
	}
}

func (s *server) showFillingPage(w http.ResponseWriter, r *http.Request, book kitchen.Book, id kitchen.PackID, pack kitchen.Pack) {
	query := r.URL.Query()
	rd := readerOf(book.Kitchen, r)
	v := fillingPage{shell: s.inShell(r, book.Kitchen, "Check-weights of "+pack.Name, "filling"), Name: pack.Name, JSON: fillingURL(id) + ".json" + queryOf(query)}
	f, form, err := s.weighed(book, id, query)
	v.Form, v.Of = form, form.of(pack)
	if err != nil {
		fillingTemplate.show(w, http.StatusUnprocessableEntity, v)
		return
	}
	v.Seen = viewFilling(f, rd, form.scale)
	fillingTemplate.show(w, http.StatusOK, v)
}

func (s *server) showFillingJSON(w http.ResponseWriter, r *http.Request, book kitchen.Book, id kitchen.PackID) {
	f, form, err := s.weighed(book, id, r.URL.Query())
	if err != nil {
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: err.Error(), Fields: badFields(form.fields())})
		return
	}
	writeJSON(w, http.StatusOK, f)
}

// weighed is the answer to a query, with the form that asks for it. An error stands beside the field that it is about.
func (s *server) weighed(book kitchen.Book, id kitchen.PackID, query url.Values) (plan.LotWeights, fillingForm, error) {
	form, weighing, err := readFilling(book.Packs[id], id, query)
	if err != nil {
		return plan.LotWeights{}, form, err
	}
	f, err := s.house.Filling(book, id, weighing)
	if err != nil {
		form.Problem = sentence(err)
		return f, form, err
	}
	return f, form, form.doubt(f)
}

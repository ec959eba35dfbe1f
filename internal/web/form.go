package web

import (
	"net/http"
	"net/url"

	"kettlefrost/internal/heatcase/heatshow"
	"kettlefrost/internal/reheating"
	"kettlefrost/internal/unit"
)

// formPage is a form to print: a heating time is measured with it.
type formPage struct {
	shell
	Pack   string
	Method string
	Rules  []string
	Runs   []string // the heads of the columns
	Rows   []string // what is filled in
	Source string
}

const formPath = "/form"

// formMethods are the ways of heating that are measured, by what stands in an address.
var formMethods = map[string]reheating.Method{"microwave": reheating.Microwave, "oven": reheating.Oven, "water": reheating.Simmering}

// formLink is the address of the form for a pack.
func formLink(method, pack string, mass unit.Mass) string {
	return formPath + "?" + url.Values{"method": {method}, "pack": {pack}, "mass": {mass.String()}}.Encode()
}

// showForm prints the form for one way of heating one pack: its mass is in the address.
func (s *server) showForm(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	rd := readerOf(book.Kitchen, r)
	method, known := formMethods[query.Get("method")]
	mass, err := unit.ParseMass(query.Get("mass"))
	if !known || err != nil {
		s.missing(w, r, book, "A form needs a way of heating (microwave, oven or water) and the mass of the pack, such as /form?method=microwave&mass=2 lb.")
		return
	}
	form, err := reheating.ValidationForm(method, mass.Kg(), unit.TempF(5).C())
	if err != nil {
		s.missing(w, r, book, "There is no form for a pack of that mass.")
		return
	}
	p := formPage{shell: s.inShell(r, book.Kitchen, "Heating time by measurement", ""), Pack: tidy(query.Get("pack")), Method: form.Method.String(), Source: form.Source}
	for _, l := range form.Rules {
		p.Rules = append(p.Rules, l.English(rd.units))
	}
	for i := range form.LeastRuns {
		p.Runs = append(p.Runs, "Run "+string(rune('1'+i)))
	}
	for _, f := range form.Fields {
		p.Rows = append(p.Rows, heatshow.FormLabel(f, rd.units))
	}
	formTemplate.show(w, http.StatusOK, p)
}

package web

import (
	"bytes"
	"embed"
	"html/template"
	"net/http"
	"regexp"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

//go:embed templates
var templates embed.FS

// page is one page's template, bound to the one struct that it may show.
type page[T any] struct {
	t *template.Template // in English
	translations
}

// parse reads a page's template with the parts that all pages share. A mistake in them stops the program as it starts.
func parse[T any](name string) page[T] {
	parsed := func() *template.Template {
		t := template.New("").Option("missingkey=error").Funcs(helpFuncs)
		return template.Must(t.ParseFS(templates, "templates/shared/*.html", "templates/"+name+".html"))
	}
	return page[T]{parsed(), translate(parsed)}
}

var (
	homeTemplate     = parse[homePage]("home")
	glanceTemplate   = parse[glancePage]("glance")
	findingsTemplate = parse[findingsPage]("findings")
	cookTemplate     = parse[cookPage]("cook")
	chillTemplate    = parse[chillPage]("chill")
	freezeTemplate   = parse[freezePage]("freeze")
	cardsTemplate    = parse[cardsPage]("cards")
	labelsTemplate   = parse[labelsPage]("labels")
	bookTemplate     = parse[bookPage]("book")
	foodsTemplate    = parse[foodsPage]("foods")
	dayTemplate      = parse[dayPage]("day")
	sheetTemplate    = parse[sheetPage]("sheet")
	shoppingTemplate = parse[shoppingPage]("shopping")
	sealTemplate     = parse[sealPage]("seal")
	moneyTemplate    = parse[moneyPage]("money")
	weekTemplate     = parse[weekPage]("week")
	nextTemplate     = parse[nextPage]("next")
	heatTemplate     = parse[heatPage]("heat")
	fillingsTemplate = parse[fillingsPage]("fillings")
	fillingTemplate  = parse[fillingPage]("filling")
	stockTemplate    = parse[stockPage]("stock")
	lotTemplate      = parse[lotPage]("lot")
	recallTemplate   = parse[recallPage]("recall")
	coolTemplate     = parse[coolPage]("cool")
	formTemplate     = parse[formPage]("form")
	missingTemplate  = parse[missingPage]("missing")
)

// show writes a page, or nothing of it when it cannot be written whole.
func (p page[T]) show(w http.ResponseWriter, status int, data T) {
	p.write(w, status, "page", data)
}

// showPart writes a part of a page, by the name of its template, for a page that asks for it.
func (p page[T]) showPart(w http.ResponseWriter, part string, data T) {
	p.write(w, http.StatusOK, part, data)
}

func (p page[T]) write(w http.ResponseWriter, status int, part string, data T) {
	var out bytes.Buffer
	v, ok := any(data).(interface{ frame() shell })
	t := p.t
	if ok {
		t = p.in(v.frame().spoken)
	}
	if err := t.ExecuteTemplate(&out, part, data); err != nil {
		http.Error(w, "This page cannot be shown: "+err.Error(), http.StatusInternalServerError)
		return
	}
	html := out.Bytes()
	if ok {
		html = formsSay(html, v.frame().OnDevice.system())
		if look := v.frame().OnDevice.look; look != (deviceLook{}) {
			html = []byte(look.decide(string(html))) // pictures have a dark twin under the same condition
		}
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	w.Write(html)
}

// sendingForm begins a form that sends something. User text has no angle brackets: package html/template escapes them.
var sendingForm = regexp.MustCompile(`<form [^>]*method="post"[^>]*>`)

// formsSay has every form that sends something say in which units its page was shown. Somebody may switch the units elsewhere on the device
// while a form is filled in: 165 typed below °F must not be taken for 165 °C.
func formsSay(html []byte, system string) []byte {
	if system == "" {
		return html
	}
	return sendingForm.ReplaceAll(html, []byte(`${0}<input type="hidden" name="`+shownUnits+`" value="`+system+`">`))
}

// readerOf is the cook for whom a page is written: in the units that the address asks for, or else in those that the form which was sent was
// shown in, that this device keeps, or that are the kitchen's.
func readerOf(k kitchen.Kitchen, r *http.Request) reader {
	rd := reader{units: k.Units, currency: k.Currency}
	if rd.currency == "" {
		rd.currency = "$"
	}
	for _, says := range []string{r.URL.Query().Get(unitsKey), r.PostForm.Get(shownUnits), cookie(r, unitsCookie)} {
		if s, err := unit.ParseSystem(says); err == nil {
			rd.units = s
			break
		}
	}
	return rd
}

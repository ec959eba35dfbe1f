package web

import (
	"bytes"
	"cmp"
	"embed"
	"html/template"
	"net/http"
	"net/url"
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

//go:embed templates
var templates embed.FS

// page is one page's template, bound to the one struct that it may show.
type page[T any] struct{ t *template.Template }

// parse reads a page's template with the parts that all pages share. A mistake in them stops the program as it starts.
func parse[T any](name string) page[T] {
	t := template.New("").Option("missingkey=error")
	return page[T]{template.Must(t.ParseFS(templates, "templates/shared/*.html", "templates/"+name+".html"))}
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
	var out bytes.Buffer
	if err := p.t.ExecuteTemplate(&out, "page", data); err != nil {
		http.Error(w, "This page cannot be shown: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	w.Write(out.Bytes())
}

// shell is what stands around every page.
type shell struct {
	Title   string
	Kitchen string
	Home    string // how the kitchen's page is marked: page for itself, true for what lies below it, or nothing
	Nav     []navLink
	Within  []navLink   // the pages of its place, where there are several
	Around  string      // the name of that place
	Refresh int         // seconds after which a page that follows the clock is asked for again; 0 for never
	Did     *didView    // what was entered just now
	Acting  *actingView // who acts; nil where nobody signs in
}

// navLink leads to one of the places that are never more than one step away.
type navLink struct {
	Name, URL string
	Here      bool
}

// navPlace is where the navigation leads to, by the key that a page gives of itself.
type navPlace struct {
	key, name, url string
	pages          *[]navPlace // of a place with several: the first is where it leads to
}

// navigation are the places that are one step away.
var navigation = []navPlace{
	{key: "board", name: "Board", url: boardPath},
	{key: "stock", name: "Stock", url: stockPath},
	{key: "orders", name: "Orders", url: ordersPath},
	{key: "bills", name: "Bills", url: billsPath},
	{key: "nextrun", name: "Next run", url: nextRunPath},
	{key: "week", name: "Week", url: "/week"},
	{key: "cool", name: "Cool", url: coolPath},
	{key: "heat", name: "Heat", url: heatPath},
	{key: "filling", name: "Weigh", url: "/filling"},
	{key: "labels", name: "Labels", url: packLabelsPath},
	{name: "Workshop", pages: &workshopPlaces},
	{name: "Safety", pages: &safetyPlaces},
	{key: "recall", name: "Recall", url: recallPath},
	{key: "book", name: "Book", url: "/book"},
	{key: "foods", name: "Foods", url: "/foods"},
	{key: "office", name: "Office", url: officePath},
}

// safetyPlaces are the pages about food safety: one place of the navigation.
var safetyPlaces = []navPlace{
	{key: "safety", name: "What is open", url: "/safety"},
	{key: "cooling", name: "Cooling now", url: "/cooling"},
	{key: "watch", name: "Freezers", url: "/freezers/watch"},
	{key: "logs", name: "Logs", url: "/logs"},
	{key: "thermometers", name: "Thermometers", url: "/thermometers"},
	{key: "hazards", name: "Hazard plans", url: "/hazards"},
	{key: "rules", name: "Rules", url: "/rules"},
	{key: "folder", name: "Inspector's folder", url: "/folder"},
}

// workshopPlaces are the pages about how a dish is made up and how it keeps: one place of the navigation. A page adds its line when it is there.
var workshopPlaces = []navPlace{
	{key: "workshop", name: "Review", url: workshopPath},
	{key: "trials", name: "Trials", url: trialsPath},
	{key: "disperse", name: "Getting it in", url: dispersePath},
	{key: "retained", name: "Retained packs", url: retainedPath},
	{key: "keeping", name: "Best before", url: keepingPath},
	{key: "learned", name: "What runs have shown", url: learnedPath},
	{key: "homecard", name: "Home card", url: homeCardPath},
	{key: "draft", name: "From a recipe", url: draftPath},
}

// unitLink switches between the systems of units.
type unitLink struct {
	Name string
	Here bool
	URL  string
}

// inShell makes the shell of a page. Here is the key of its place, "home", "run" below home, or nothing.
func (s *server) inShell(r *http.Request, k kitchen.Kitchen, title, here string) shell {
	v := shell{Title: title, Kitchen: cmp.Or(k.Name, "Kitchen"), Home: map[string]string{"home": "page", "run": "true"}[here], Did: did(r), Acting: s.acting(r)}
	for _, p := range navigation {
		if p.pages == nil {
			v.Nav = append(v.Nav, navLink{p.name, p.url, p.key == here})
			continue
		}
		pages := *p.pages
		if len(pages) == 0 {
			continue
		}
		within := slices.ContainsFunc(pages, func(x navPlace) bool { return x.key == here })
		v.Nav = append(v.Nav, navLink{p.name, pages[0].url, within})
		if within {
			v.Around = p.name
			for _, x := range pages {
				v.Within = append(v.Within, navLink{x.name, x.url, x.key == here})
			}
		}
	}
	return v
}

// readerOf is the cook for whom a page is written: in the kitchen's units unless the query asks for others.
func readerOf(k kitchen.Kitchen, query url.Values) reader {
	rd := reader{units: k.Units, currency: k.Currency}
	if rd.currency == "" {
		rd.currency = "$"
	}
	if s, err := unit.ParseSystem(query.Get("units")); err == nil {
		rd.units = s
	}
	return rd
}

// unitLinks are the links to the same page in each system of units; its path is as it stands in an address.
func unitLinks(path string, query url.Values, now unit.System) []unitLink {
	var links []unitLink
	for _, u := range []struct {
		system unit.System
		name   string
	}{{unit.US, "US first"}, {unit.Metric, "Metric first"}} {
		links = append(links, unitLink{Name: u.name, Here: u.system == now, URL: withUnits(path, query, u.system)})
	}
	return links
}

// withUnits is the address of the same page in another system of units.
func withUnits(path string, query url.Values, s unit.System) string {
	q := url.Values{}
	for k, v := range query {
		q[k] = v
	}
	q.Set("units", s.String())
	return path + "?" + q.Encode()
}

package web

import (
	"fmt"
	"html/template"
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/help"
	"kettlefrost/internal/kitchen"
)

const (
	helpPath     = "/help"
	glossaryPath = "/glossary"
)

// helpTexts are built in and held to their shape by a test: a mistake in them stops the program as it starts.
var helpTexts = func() *help.Help {
	h, err := help.Open()
	if err != nil {
		panic(err)
	}
	return h
}()

// whyTitle names the link to an entry, in templates as {{template "why" "key"}}.
func whyTitle(key string) (string, error) {
	e, ok := helpTexts.Entry(key)
	if !ok {
		return "", fmt.Errorf("there is no help for %q", key)
	}
	return e.Title, nil
}

// helpFuncs are what the templates ask of the help.
var helpFuncs = template.FuncMap{"whytitle": whyTitle}

func helpURL(key string) string { return helpPath + "/" + url.PathEscape(key) }

// foundHelpURL is where something of the help that was found is read.
func foundHelpURL(id, of string) string {
	if of == help.OfTerm {
		return termURL(id)
	}
	return helpURL(id)
}

func termURL(slug string) string { return glossaryPath + "#" + slug }

// helpPage is all that templates/help.html may show.
type helpPage struct {
	shell
	Query  string
	Tally  string
	Found  []helpFound
	None   string // what to do when nothing was found
	Places []helpPlace
	Tour   string // address
}

// helpPlace is the entries of one place of the kitchen.
type helpPlace struct {
	ID, Name string
	Entries  []helpLink
}

// helpLink leads to an entry, a term or a page.
type helpLink struct{ URL, Title string }

// helpFound is an entry or a term that was looked for, with what it is in short.
type helpFound struct{ URL, Title, Says string }

// helpEntryPage is all that templates/helpentry.html may show.
type helpEntryPage struct {
	shell
	Of helpView
}

// helpView is one entry.
type helpView struct {
	Place, PlaceURL   string
	Title, What, Sure string
	How               []string
	NoFormula         string
	Letters           []helpLetter
	Needs             []helpLink
	Sources, Cares    []string
	More, Pages       []helpLink
	ID                string // its key
}

type helpLetter struct{ Sign, Means string }

var (
	helpTemplate      = parse[helpPage]("help")
	helpEntryTemplate = parse[helpEntryPage]("helpentry")
)

// helpRoutes are the pages that explain.
func (s *server) helpRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+helpPath, s.showHelp)
	mux.HandleFunc("GET "+helpPath+"/{key}", s.showHelpEntry)
	mux.HandleFunc("GET "+glossaryPath, s.showGlossary)
	s.tutorialRoutes(mux)
}

func (s *server) showHelp(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	v := helpPage{shell: s.inShell(r, book.Kitchen, "Help", "help"), Query: tidy(r.URL.Query().Get(findKey)), Tour: tutorialPath}
	if v.Query != "" {
		found := helpTexts.Find(v.Query)
		for _, x := range found {
			v.Found = append(v.Found, foundHelp(x))
		}
		v.Tally = times(len(found), "thing explained", "things explained")
		if len(found) == 0 {
			v.None = "No text has all of these words. Try fewer or simpler ones, or look through the places below."
		}
	}
	for _, e := range helpTexts.Entries() {
		if n := len(v.Places); n == 0 || v.Places[n-1].Name != e.Place {
			v.Places = append(v.Places, helpPlace{ID: "at-" + help.Slug(e.Place), Name: e.Place})
		}
		p := &v.Places[len(v.Places)-1]
		p.Entries = append(p.Entries, helpLink{URL: helpURL(e.Key), Title: e.Title})
	}
	helpTemplate.show(w, http.StatusOK, v)
}

func foundHelp(x help.Found) helpFound {
	v := helpFound{URL: helpURL(x.Key), Title: x.Title, Says: x.Says}
	if x.Term {
		v.URL = termURL(x.Key)
	}
	return v
}

// showHelpEntry answers with the page of an entry, or with its first lines when a page asks for them to show in place.
func (s *server) showHelpEntry(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	key := r.PathValue("key")
	e, ok := helpTexts.Entry(key)
	if !ok {
		if _, term := helpTexts.Term(key); term {
			http.Redirect(w, r, termURL(key), http.StatusSeeOther)
			return
		}
		s.missing(w, r, book, "There is no help of that name.")
		return
	}
	v := helpEntryPage{shell: s.inShell(r, book.Kitchen, e.Title, "help"), Of: viewHelp(book, e)}
	if r.URL.Query().Get("part") != "" {
		helpEntryTemplate.showPart(w, "helppart", v)
		return
	}
	helpEntryTemplate.show(w, http.StatusOK, v)
}

func viewHelp(book kitchen.Book, e help.Entry) helpView {
	v := helpView{Place: e.Place, PlaceURL: helpPath + "#at-" + help.Slug(e.Place), Title: e.Title, What: e.What, Sure: e.Sure, How: e.How, NoFormula: e.NoFormula, Sources: e.Sources, Cares: e.Cares, ID: e.Key}
	for _, l := range e.Letters {
		v.Letters = append(v.Letters, helpLetter(l))
	}
	v.Needs, v.Pages = linksIn(book, e.Needs), linksIn(book, e.Pages)
	v.More = moreHelp(e.More)
	return v
}

// anyRun stands in the texts for a run of the book, whichever there is.
const anyRun = "/run/*"

// linksIn are links of the texts in a kitchen: those to a run lead to its first one, and nowhere when it has none.
func linksIn(book kitchen.Book, links []help.Link) []helpLink {
	var all []helpLink
	for _, l := range links {
		if part, is := strings.CutPrefix(l.URL, anyRun); is {
			l.URL = ""
			if runs := runCards(book); len(runs) > 0 {
				l.URL = runs[0].URL + part
			}
		}
		all = append(all, helpLink{URL: l.URL, Title: l.Text})
	}
	return all
}

// moreHelp are links to entries and terms by their keys.
func moreHelp(keys []string) []helpLink {
	var all []helpLink
	for _, key := range keys {
		if e, ok := helpTexts.Entry(key); ok {
			all = append(all, helpLink{URL: helpURL(key), Title: e.Title})
		} else if t, ok := helpTexts.Term(key); ok {
			all = append(all, helpLink{URL: termURL(key), Title: t.Name})
		}
	}
	return all
}

// glossaryPage is all that templates/glossary.html may show.
type glossaryPage struct {
	shell
	Letters []string
	Groups  []glossaryGroup
}

// glossaryGroup is the terms under one letter.
type glossaryGroup struct {
	Letter string
	Terms  []glossaryTerm
}

type glossaryTerm struct {
	ID, Name, Also, Means string
	More                  []helpLink
}

var glossaryTemplate = parse[glossaryPage]("glossary")

func (s *server) showGlossary(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	v := glossaryPage{shell: s.inShell(r, book.Kitchen, "Words of the trade", "glossary")}
	for _, t := range helpTexts.Terms() {
		letter := strings.ToUpper(t.Name[:1])
		if n := len(v.Groups); n == 0 || v.Groups[n-1].Letter != letter {
			v.Letters, v.Groups = append(v.Letters, letter), append(v.Groups, glossaryGroup{Letter: letter})
		}
		g := &v.Groups[len(v.Groups)-1]
		g.Terms = append(g.Terms, glossaryTerm{ID: t.Slug, Name: t.Name, Also: strings.Join(t.Also, ", "), Means: t.Means, More: moreHelp(t.More)})
	}
	glossaryTemplate.show(w, http.StatusOK, v)
}

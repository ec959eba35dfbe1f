package web

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/homecard"
	"kettlefrost/internal/homepaper"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
	"kettlefrost/internal/pdf"
)

// Places of home cards.
const (
	homeCardPath     = "/workshop/home"
	homeCardJSONPath = "/workshop/home.json"
	homeCardPDFPath  = "/workshop/home.pdf"
)

// homeCardRoutes are dishes written for a home.
func (s *server) homeCardRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+homeCardPath, s.showHomeCard)
	mux.HandleFunc("GET "+homeCardJSONPath, s.showHomeCardJSON)
	mux.HandleFunc("GET "+homeCardPDFPath, s.showHomeCardPDF)
}

// homeCardPage is all that templates/homecard.html may show.
type homeCardPage struct {
	shell
	Blocked findingsView // what is wrong with the book
	Packs   []homeChoice
	Folk    []homeChoice
	Tongues []homeChoice
	In      string // the system of units that was asked for, to be kept
	Problem string // why there is no card
	Fix     string
	Card    *homeCardView
}

// homeChoice is an option of a list.
type homeChoice struct {
	Key, Name string
	Here      bool
}

// homeCardView is a card in words.
type homeCardView struct {
	Language              string
	Words                 homepaper.Words
	Name, About, Headline string
	Findings              findingsView
	Items                 []homeItem
	Need                  []string
	Steps                 []homeStep
	Keep                  []homeKeep
	Facts                 string
	FactsSource           string
	Allergens             string
	Ratios                []homeRatio
	Letter, A4, JSON      string
}

type homeItem struct {
	Step                 string
	Amount, Name, About  string
	Weigh, Rounded, Size string // by what scale; how far off, of how much; as purchased
}

type homeStep struct {
	Number, Do, How, Under, Left string
	In                           []string
}

type homeKeep struct {
	Name string
	Says []homeAdvice
}

type homeAdvice struct{ Text, Source string }

type homeRatio struct{ Of, Off, Bound string }

var homeCardTemplate = parse[homeCardPage]("homecard")

// homeCardWithin is how long a page waits for a card: it takes a fifth of a second when it is not remembered.
const homeCardWithin = 20 * time.Second

// homeCardAsk is what is asked for: the first pack of the book and six people when nothing is.
func homeCardAsk(book kitchen.Book, query url.Values) (kitchen.PackID, int) {
	packs := slices.Sorted(maps.Keys(book.Packs))
	pack := kitchen.PackID(query.Get("pack"))
	if pack == "" && len(packs) > 0 {
		pack = packs[0]
	}
	people, err := strconv.Atoi(query.Get("people"))
	if err != nil {
		people = 6
	}
	return pack, people
}

// homeCard is the card that is asked for, in the units that the reader wants and in a language.
func (s *server) homeCard(r *http.Request, book kitchen.Book, in language.Language) (homecard.Card, error) {
	ctx, stop := context.WithTimeout(r.Context(), homeCardWithin)
	defer stop()
	pack, people := homeCardAsk(book, r.URL.Query())
	book.Kitchen.Units = readerOf(book.Kitchen, r).units
	return s.homeCards.Make(ctx, book, s.house.Foods(), pack, people, in)
}

func (s *server) showHomeCard(w http.ResponseWriter, r *http.Request) {
	book, found := s.house.Book()
	query := r.URL.Query()
	pack, people := homeCardAsk(book, query)
	in := printedIn(r)
	v := homeCardPage{shell: s.inShell(r, book.Kitchen, "Home card", "homecard"), In: query.Get("units")}
	for _, id := range slices.Sorted(maps.Keys(book.Packs)) {
		v.Packs = append(v.Packs, homeChoice{string(id), book.Packs[id].Name, id == pack})
	}
	for n := homecard.Fewest; n <= homecard.Most; n++ {
		v.Folk = append(v.Folk, homeChoice{strconv.Itoa(n), fmt.Sprintf("%d people", n), n == people})
	}
	for _, l := range language.Languages() {
		v.Tongues = append(v.Tongues, homeChoice{string(l), l.Name(), l == in})
	}
	status := http.StatusOK
	switch card, err := s.homeCard(r, book, in); {
	case found.Worst() >= finding.Stop:
		v.Blocked = viewFindings(found)
	case len(book.Packs) == 0:
		v.Problem, v.Fix = "the book has no packs yet", "write a dish and a pack of it"
	case err != nil:
		status = http.StatusUnprocessableEntity
		v.Problem, v.Fix = homeCardProblem(err)
	default:
		v.Card = viewHomeCard(card, pack, people, query)
		v.Title = card.Name + ", for a home"
	}
	homeCardTemplate.show(w, status, v)
}

// homeCardProblem is why there is no card, and what would help.
func homeCardProblem(err error) (what, fix string) {
	var ask *homecard.AskError
	var dish *homecard.DishError
	switch {
	case errors.As(err, &ask):
		return ask.Field + " " + ask.Reason, ask.Fix
	case errors.As(err, &dish):
		return dish.Reason, dish.Fix
	}
	return err.Error(), ""
}

func viewHomeCard(c homecard.Card, pack kitchen.PackID, people int, query url.Values) *homeCardView {
	in := language.In(c.Language)
	at := func(path, paper string) string {
		q := url.Values{"pack": {string(pack)}, "people": {strconv.Itoa(people)}}
		if u := query.Get("units"); u != "" {
			q.Set("units", u)
		}
		if paper != "" {
			q.Set("paper", paper)
			q.Set("language", string(c.Language))
		}
		return path + "?" + q.Encode()
	}
	v := &homeCardView{Language: string(c.Language), Words: homepaper.WordsOf(c), Name: c.Name, About: c.About, Headline: homepaper.Headline(c), Findings: viewFindings(c.Findings), Need: c.Need, Facts: homepaper.Facts(c), FactsSource: c.FactsSource,
		Allergens: homepaper.Allergens(c), Letter: at(homeCardPDFPath, "letter"), A4: at(homeCardPDFPath, "a4"), JSON: at(homeCardJSONPath, "")}
	for _, x := range c.Items {
		v.Items = append(v.Items, homeItem{Step: strconv.Itoa(x.Step), Amount: x.Amount.Text, Name: x.Called(in), About: x.Amount.About,
			Weigh: homepaper.Weigh(c, x), Rounded: homepaper.Rounded(c, x), Size: homepaper.Bought(c, x)})
	}
	for _, s := range c.Steps {
		v.Steps = append(v.Steps, homeStep{Number: strconv.Itoa(s.Number), Do: s.Do, How: s.How, Under: homepaper.Under(s), In: s.In, Left: homepaper.LeftOut(c, s)})
	}
	for _, section := range homecard.Sections() {
		k := homeKeep{Name: in.Say(section.Name)}
		for _, a := range c.Keep {
			if a.Section == section.ID {
				k.Says = append(k.Says, homeAdvice{a.Text, a.Source})
			}
		}
		v.Keep = append(v.Keep, k)
	}
	for _, x := range c.Ratios {
		v.Ratios = append(v.Ratios, homeRatio{x.Of, homepaper.Off(c, x.Off), in.Measure(x.Bound.Show(c.Units))})
	}
	return v
}

// showHomeCardJSON answers with a card as data, in English.
func (s *server) showHomeCardJSON(w http.ResponseWriter, r *http.Request) {
	if card, ok := s.homeCardOrRefusal(w, r, language.English); ok {
		writeJSON(w, http.StatusOK, card)
	}
}

// showHomeCardPDF answers with a card for paper: one page.
func (s *server) showHomeCardPDF(w http.ResponseWriter, r *http.Request) {
	card, ok := s.homeCardOrRefusal(w, r, printedIn(r))
	if !ok {
		return
	}
	paper := pdf.Letter
	if r.URL.Query().Get("paper") == "a4" {
		paper = pdf.A4
	}
	writePDF(w, "home-card.pdf", homepaper.Document(card, paper, s.house.Now().UnixMilli()))
}

func (s *server) homeCardOrRefusal(w http.ResponseWriter, r *http.Request, in language.Language) (homecard.Card, bool) {
	book, found := s.house.Book()
	if found.Worst() >= finding.Stop {
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: "the book has to be put right first"})
		return homecard.Card{}, false
	}
	card, err := s.homeCard(r, book, in)
	if err != nil {
		what, fix := homeCardProblem(err)
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: what + ": " + fix})
		return card, false
	}
	return card, true
}

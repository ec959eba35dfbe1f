package web

import (
	"cmp"
	"maps"
	"net/http"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

// homePage is all that templates/home.html may show.
type homePage struct {
	shell
	Place     string
	Note      string
	Saved     string // what was done just now
	Boards    []boardNow
	Today     []todayCard // nil when no records are kept
	Empty     []emptyNote // what the book does not have yet
	Plan      planForm
	Begin     bool // a demo is shown, and a kitchen can begin
	CanPlan   bool
	NoRecords bool
	Next      []runCard     // today's and those to come, and those of any day
	Past      []runCard     // the last first
	Grave     []findingView // about the book
	Notes     int
}

// runCard is one run of the book.
type runCard struct {
	URL   string
	Name  string
	Day   string
	Wants []string
}

// emptyNote says of what there is none yet, what that is, and what comes next.
type emptyNote struct {
	Name, Says string
	Next       []link
}

func (s *server) showHome(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	s.home(w, r, http.StatusOK, s.planForm(r, book))
}

// home is the home page with the form that plans a run as it was filled in.
func (s *server) home(w http.ResponseWriter, r *http.Request, status int, plan planForm) {
	book, found := s.house.Book()
	all := viewFindings(found)
	v := homePage{shell: s.inShell(r, book.Kitchen, "Today", "home"), Place: book.Kitchen.Place, Note: book.Kitchen.Note, Saved: homeSaved(r), Grave: all.Grave, Notes: len(all.Notes),
		Plan: plan, CanPlan: len(book.Packs) > 0, NoRecords: s.records == nil, Begin: s.mayBegin(), Empty: emptyNotes(book)}
	if found.Worst() < finding.Stop {
		v.Boards = s.boardsNow(r, book)
	}
	v.Today = append(s.todayCards(r), append(s.hazardCard(r, book), s.workshopCard(book)...)...)
	if low := lowCard(book); low.Name != "" {
		v.Today = append(v.Today, low)
	}
	if card, ok := s.tutorialCard(r, book.Kitchen); ok {
		v.Today = append(v.Today, card)
	}
	v.Today = atAGlance(v.Today)
	v.Next, v.Past = runsFrom(runCards(book), string(app.Today(s.house.Now())))
	homeTemplate.show(w, status, v)
}

// homeSaved says which run was retired just now.
func homeSaved(r *http.Request) string {
	if name := tidy(r.URL.Query().Get("retired")); name != "" {
		return "The run " + shorten(name) + " is out of the book. What it said stands in the versions of its file."
	}
	return ""
}

// emptyNotes say what a book does not have yet, the first thing to do first.
func emptyNotes(book kitchen.Book) []emptyNote {
	var notes []emptyNote
	if len(book.Dishes) == 0 {
		notes = append(notes, emptyNote{"No dishes yet", "A dish says what goes into the kettle, step by step, and what comes out. Everything is reckoned from it: what to buy, how long it takes, what a pack costs.",
			[]link{{"Write the first dish", dishFirstPath}, {"Begin from a home recipe", draftPath}}})
	}
	if len(book.Packs) == 0 && len(book.Dishes) > 0 {
		notes = append(notes, emptyNote{"No packs yet", "A pack is what is sold: so much of a dish, in a bag. A run is planned by the number of packs.", []link{{"Write a pack", "/book/packs/new"}}})
	}
	return notes
}

// runsFrom are the runs of a day and after it, those of no day among them, and those before it, the last first.
func runsFrom(cards []runCard, today string) (next, past []runCard) {
	var undated []runCard
	for _, c := range cards {
		switch {
		case c.Day == "":
			undated = append(undated, c)
		case c.Day < today:
			past = append(past, c)
		default:
			next = append(next, c)
		}
	}
	slices.Reverse(past)
	return append(next, undated...), past
}

// runCards are the runs of a book, the earliest day first.
func runCards(book kitchen.Book) []runCard {
	names := slices.SortedFunc(maps.Keys(book.Runs), func(a, b string) int {
		return cmp.Or(cmp.Compare(book.Runs[a].Day, book.Runs[b].Day), cmp.Compare(a, b))
	})
	var cards []runCard
	for _, name := range names {
		run := book.Runs[name]
		cards = append(cards, runCard{URL: runPath(name), Name: cmp.Or(run.Name, name), Day: run.Day, Wants: wants(book, run)})
	}
	return cards
}

// wants says in words what a run should make.
func wants(book kitchen.Book, run kitchen.Request) []string {
	_, fields := retarget(book, run, nil)
	var lines []string
	for _, f := range fields {
		switch {
		case f.Number:
			lines = append(lines, f.Value+" × "+f.Label)
		case strings.HasPrefix(f.Key, useKey):
			lines = append(lines, f.Label+", "+f.Value)
		}
	}
	return append(lines, fixed(book, run)...)
}

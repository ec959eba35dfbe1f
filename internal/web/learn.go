package web

import (
	"cmp"
	"fmt"
	"math"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/learned"
)

// Places of what runs have shown, among the pages.
const (
	learnedPath = "/workshop/learned"
	lessonPath  = "/workshop/learned/figure"
)

// learner is a house of whose figures runs can say something; *app.App is one.
type learner interface {
	Learning(*app.Records, *app.Boards) *app.Learning
}

// learnRoutes are what runs say of the figures of the book.
func (s *server) learnRoutes(mux *http.ServeMux) {
	if house, can := s.house.(learner); can && s.records != nil {
		s.learning = house.Learning(s.records, s.boards)
	}
	mux.HandleFunc("GET "+learnedPath, s.showLearned)
	mux.HandleFunc("GET /workshop/learned.json", s.showLearnedJSON)
	mux.HandleFunc("GET "+lessonPath, s.showLesson)
	mux.HandleFunc("GET /workshop/learned/chart/{file}", s.showLessonChart)
	mux.HandleFunc("POST /workshop/learned/accept", s.entering(s.acceptLesson))
	mux.HandleFunc("POST /workshop/learned/refuse", s.entering(s.refuseLesson))
	mux.HandleFunc("POST /workshop/learned/leave-out", s.entering(s.leaveRunOut))
}

// learnedPage is all that templates/learned.html may show: what runs say of the figures of the book, dish by dish.
type learnedPage struct {
	shell
	Units    []unitLink
	None     bool // no records are kept
	Problem  string
	Findings findingsView
	Runs     string // how many runs were read
	Ready    []lessonCard
	Waiting  []lessonCard
	Dishes   []lessonDish
	Unread   []lessonExcluded
	Rules    []string
	JSON     string
}

// lessonCard is a figure that somebody is to decide on.
type lessonCard struct {
	Dish, What, Of, URL string
	Before, After       string
	True, From          string // where it truly is, and of how many runs
	Asked               string
	Shared              string
	matters             float64 // by how much it changes, as a share; less of what only says how sure a plan is
}

// lessonDish is what was seen of one dish.
type lessonDish struct {
	Name, Tally string
	Seen        []lessonRow
	Not         []lessonNot // of which nothing can be said
}

// lessonRow is a figure in short.
type lessonRow struct{ What, Of, URL, Before, Runs, Truth, State string }

// lessonNot is a figure of which no run says anything, and why.
type lessonNot struct{ What, Of, Why, URL string }

// lessonExcluded is a run, or a load, that is not learned from.
type lessonExcluded struct{ Run, Why string }

var learnedTemplate = parse[learnedPage]("learned")

func (s *server) showLearned(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	query.Del("did")
	v := learnedPage{shell: s.inShell(r, book.Kitchen, "What runs have shown", "learned"), None: s.learning == nil, JSON: coldURL("/workshop/learned.json", query)}
	rd := readerOf(book.Kitchen, query)
	v.Units = unitLinks(learnedPath, query, rd.units)
	if v.None {
		learnedTemplate.show(w, http.StatusOK, v)
		return
	}
	x, err := s.learning.Lessons(r.Context())
	if err != nil {
		v.Problem = sentence(err)
		learnedTemplate.show(w, http.StatusInternalServerError, v)
		return
	}
	v.fill(lessonView{x, rd, query})
	learnedTemplate.show(w, http.StatusOK, v)
}

// lessonView puts figures into words.
type lessonView struct {
	x     app.Lessons
	rd    reader
	query url.Values
}

func (v *learnedPage) fill(l lessonView) {
	v.Findings, v.Runs, v.Rules = viewFindings(l.x.Found), manyOf(len(l.x.Runs), "run that is over", "runs that are over"), lessonRules
	for _, f := range l.x.Figures {
		switch f.State {
		case learned.Ready:
			v.Ready = append(v.Ready, l.card(f))
		case learned.Waiting:
			v.Waiting = append(v.Waiting, l.card(f))
		}
	}
	slices.SortStableFunc(v.Ready, func(a, b lessonCard) int { return cmp.Compare(b.matters, a.matters) })
	for _, dish := range l.dishes() {
		v.Dishes = append(v.Dishes, l.dish(dish))
	}
	for _, e := range l.x.Unread {
		v.Unread = append(v.Unread, lessonExcluded(e))
	}
}

// dishes are those of which there is a figure, by their names; what belongs to none comes last.
func (l lessonView) dishes() []string {
	var all []string
	for _, f := range l.x.Figures {
		if !slices.Contains(all, f.Dish) {
			all = append(all, f.Dish)
		}
	}
	slices.SortFunc(all, func(a, b string) int {
		if (a == "") != (b == "") {
			return len(b) - len(a)
		}
		return strings.Compare(l.dishName(a), l.dishName(b))
	})
	return all
}

func (l lessonView) dishName(id string) string {
	if id == "" {
		return "Ingredients"
	}
	if d, ok := l.x.Book.Dishes[kitchen.DishID(id)]; ok {
		return capital(d.Name)
	}
	return id
}

func (l lessonView) card(f learned.Figure) lessonCard {
	what, of := f.Words(l.x.Book)
	c := lessonCard{Dish: l.dishName(f.Dish), What: capital(what), Of: of, URL: l.url(f.Key), Before: l.before(f), After: l.after(f), True: l.truth(f), From: l.rests(f), matters: math.Abs(f.Mean()-f.Value) / max(1e-9, f.Value)}
	if f.Kind == learned.Spread || f.Kind == learned.Fills {
		c.matters /= 1000
	}
	if n := len(f.Asked); n > 0 {
		c.Asked = manyOf(n, "run lies", "runs lie") + " far off and " + map[bool]string{true: "counts", false: "count"}[n == 1] + ": look whether something went wrong"
	}
	if len(f.With) > 0 {
		c.Shared = "the same weighings may mean another figure"
	}
	return c
}

func (l lessonView) url(key string) string { return coldURL(lessonPath, l.query, "figure", key) }

func (l lessonView) value(f learned.Figure, x float64) string {
	return together(f.Show(x, l.rd.units))
}

// before is the figure as the book has it; where it has none, as the plan takes it.
func (l lessonView) before(f learned.Figure) string {
	text := l.value(f, f.Value)
	if f.Before == "" {
		text += " (not in the book)"
	}
	return text
}

func (l lessonView) after(f learned.Figure) string {
	if f.State == learned.Waiting {
		return f.Said[0].Body.After
	}
	return l.value(f, f.Rounded)
}

func (l lessonView) truth(f learned.Figure) string {
	low, high, cover := f.True()
	if f.State == learned.TooFew || cover == 0 || low == high {
		return ""
	}
	return fmt.Sprintf("truly between %s and %s, nine times of ten", l.value(f, low), l.value(f, high))
}

// rests is what a proposal rests on, in a few words.
func (l lessonView) rests(f learned.Figure) string {
	n := f.Counted()
	if n == 0 {
		return "no run counts"
	}
	weigh := map[bool]string{true: "weighs", false: "weigh"}[n == 1]
	if f.Kind == learned.Fills || f.Kind == learned.Spread {
		if l.ofRuns(f) == nothingYet {
			return "one run scatters about nothing"
		}
		return fmt.Sprintf("%s scatter by %s, which weighs %.0f %% against %s", manyOf(n, "run", "runs"), l.value(f, f.OfRuns()), 100*f.Weight(), f.Source)
	}
	return fmt.Sprintf("%s of %s, which %s %.0f %% against %s", manyOf(n, "run", "runs"), l.value(f, f.OfRuns()), weigh, 100*f.Weight(), f.Source)
}

func (l lessonView) dish(id string) lessonDish {
	d := lessonDish{Name: l.dishName(id)}
	ready := 0
	for _, f := range l.x.Figures {
		if f.Dish != id {
			continue
		}
		what, of := f.Words(l.x.Book)
		if len(f.Seen) == 0 {
			d.Not = append(d.Not, lessonNot{capital(what), of, whyNothing(f), l.url(f.Key)})
			continue
		}
		if f.State == learned.Ready {
			ready++
		}
		d.Seen = append(d.Seen, lessonRow{capital(what), of, l.url(f.Key), l.before(f), numeral(f.Counted()), l.ofRuns(f), l.state(f)})
	}
	d.Tally = manyOf(len(d.Seen), "figure was seen", "figures were seen")
	if ready > 0 {
		d.Tally += fmt.Sprintf(", %d to decide on", ready)
	}
	return d
}

// nothingYet stands where there is no figure.
const nothingYet = "—"

func (l lessonView) ofRuns(f learned.Figure) string {
	if f.Counted() == 0 || f.Kind == learned.Spread && f.Counted() < 2 {
		return nothingYet
	}
	return l.value(f, f.OfRuns())
}

func (l lessonView) state(f learned.Figure) string {
	switch f.State {
	case learned.Ready:
		return "proposed: " + l.after(f)
	case learned.Waiting:
		return "accepted, not in the book’s file yet"
	case learned.TooFew:
		return fmt.Sprintf("too few runs: %d are needed", learned.LeastRuns)
	case learned.NoPlace:
		return "to know, not for the book"
	case learned.Declined:
		return "refused; asked again after the next run"
	}
	if f.Before == "" {
		return "as the table or the burner has it"
	}
	return string(f.State)
}

// whyNothing is why no run says anything of a figure: the same for all, or the last reason of several.
func whyNothing(f learned.Figure) string {
	if f.WhyNot != "" {
		return f.WhyNot
	}
	if n := len(f.Excluded); n > 0 {
		return f.Excluded[n-1].Why
	}
	return "no run has anything to do with it"
}

// lessonRules is how it is learned, for who wants to know.
var lessonRules = []string{
	fmt.Sprintf("A figure that somebody has written into the book is worth 4 runs, one from a published table 2; one that was learned as many as it rests on, at most %d. The proposal is the mean of the book and the runs, each with its worth. That is a convention of this program.", learned.MostWorth),
	fmt.Sprintf("Nothing is proposed from fewer than %d runs; check-weights of one filling are enough, as they are many packs.", learned.LeastRuns),
	"Masses: what was weighed, against what went in: as entered, or as planned. Steps between two weighings are taken together; what of them a weighing means is the figure that takes most of what is lost there, and where none does, that is said.",
	"A loss is seen when it is three times what the masses are good for: a thousandth of what was weighed, and a fiftieth of each thing that went in and nobody entered. Entering the goods that go in shows smaller losses.",
	"Times: from begun to done. No beginning or end, a break, a task begun too early or several at once teach nothing: each such run is listed with its reason.",
	"A run counts for a figure only if the step was then what it is now, but for the figure. Runs before somebody wrote the figure anew do not count.",
	"Far-off runs are asked about and count until somebody leaves them out and says why. The book is changed when somebody accepts, and not before.",
}

func (s *server) showLearnedJSON(w http.ResponseWriter, r *http.Request) {
	if s.learning == nil {
		writeJSON(w, http.StatusConflict, refusal{Error: noRecords})
		return
	}
	x, err := s.learning.Lessons(r.Context())
	if err != nil {
		writeJSON(w, http.StatusInternalServerError, refusal{Error: err.Error()})
		return
	}
	writeJSON(w, http.StatusOK, x.Report(tidy(r.URL.Query().Get("dish"))))
}

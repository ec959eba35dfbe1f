package web

import (
	"cmp"
	"fmt"
	"net/http"
	"slices"

	"kettlefrost/internal/app"
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
	rd := readerOf(book.Kitchen, r)
	if v.None {
		learnedTemplate.show(w, http.StatusOK, v)
		return
	}
	x, err, ok := long(s, w, r, app.JobAsk{Key: "learning", Name: "Reading what runs have shown", Lane: app.HeavyLane}, s.learning.Lessons)
	if !ok {
		return
	}
	if err != nil {
		v.Problem = sentence(err)
		learnedTemplate.show(w, http.StatusInternalServerError, v)
		return
	}
	v.fill(lessonView{x, rd, query})
	learnedTemplate.show(w, http.StatusOK, v)
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

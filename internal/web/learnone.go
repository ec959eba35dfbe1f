package web

import (
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/learned"
	"kettlefrost/internal/record"
)

// lessonPage is all that templates/lesson.html may show: one figure, and what each run says of it.
type lessonPage struct {
	shell
	Problem   string
	Done      string // it was accepted just now
	Back      string
	What, Of  string
	Dish      string
	Key       string
	Before    string
	After     string
	Proposed  bool // it may be accepted
	Waiting   bool // it was accepted, and somebody has to write the file
	State     string
	Rests     string
	Truth     string
	Next      string // where the next run will be
	WhyNot    string
	With      []string // figures that the same weighings may mean
	Careful   string   // what to think of before it is accepted
	Chart     *pictureView
	Asked     []lessonAsk
	Runs      []lessonRun
	Excluded  []lessonExcluded
	More      int // excluded that are not shown
	Files     []lessonFile
	Kept      bool // the book is in the records: accepting changes it
	Offered   string
	Entry     string // numbers of the two forms
	NoEntry   string
	Decisions []lessonSaid
	JSON      string
}

// lessonAsk is a run that lies far off.
type lessonAsk struct {
	Run, Value, Why, Without string
	URL, Entry               string
}

// lessonRun is a run that says something of the figure.
type lessonRun struct {
	No                   int
	Name, Day, Value, Of string
	URL                  string
	Notes                []string
	LeftOut              string
	Entry                string // of the form that leaves it out
}

// lessonFile is what accepting changes in a file of the book.
type lessonFile struct {
	Name  string
	Lines []lessonLine
}

// lessonLine is a line that goes or comes.
type lessonLine struct{ Class, Sign, Text string }

// lessonSaid is what somebody said of the figure before.
type lessonSaid struct{ When, Who, Says string }

var lessonTemplate = parse[lessonPage]("lesson")

func (s *server) showLesson(w http.ResponseWriter, r *http.Request) {
	s.lesson(w, r, http.StatusOK, "")
}

// lesson shows one figure, with what kept an entry out.
func (s *server) lesson(w http.ResponseWriter, r *http.Request, status int, problem string) {
	book, _ := s.house.Book()
	if s.learning == nil {
		s.missing(w, r, book, "No records are kept here, so nothing is learned from them.")
		return
	}
	key := tidy(r.FormValue("figure"))
	x, f, edit, err := s.learning.Try(r.Context(), key)
	unknown := (*app.LessonError)(nil)
	switch {
	case errors.As(err, &unknown):
		s.missing(w, r, book, sentence(err))
		return
	case err != nil && f.Key == "":
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return
	}
	query := r.URL.Query()
	query.Del("did")
	shown := query.Get("accepted")
	query.Del("accepted")
	l := lessonView{x, readerOf(book.Kitchen, r), query}
	what, of := f.Words(x.Book)
	v := lessonPage{shell: s.inShell(r, book.Kitchen, capital(what)+": "+of, "learned"), Problem: problem, Back: coldURL(learnedPath, query), JSON: coldURL("/workshop/learned.json", query, "dish", f.Dish)}
	if err != nil {
		v.Problem = sentence(err)
	}
	if keeper, can := s.house.(bookKeeper); can {
		v.Kept = keeper.InRecords()
	}
	v.fill(l, f, edit)
	v.Decisions = s.lessonsSaid(f)
	if shown != "" && len(v.Decisions) > 0 {
		v.Done = "Accepted"
		if v.Kept && !v.Waiting {
			v.Done = "Accepted: the book has it now. To have it otherwise again, change the book; its earlier versions are kept"
		}
	}
	lessonTemplate.show(w, status, v)
}

// mostExcluded is how many runs that are not learned from a page lists; the JSON has all.
const mostExcluded = 40

func (v *lessonPage) fill(l lessonView, f learned.Figure, edit app.BookEdit) {
	what, of := f.Words(l.x.Book)
	v.What, v.Of, v.Dish, v.Key = capital(what), of, l.dishName(f.Dish), f.Key
	v.Before, v.After, v.State, v.Rests, v.Truth, v.WhyNot = l.before(f), l.after(f), l.state(f), l.rests(f), l.truth(f), f.WhyNot
	v.Proposed, v.Waiting, v.Offered = f.Changes(), f.State == learned.Waiting, f.After
	v.Entry, v.NoEntry = newEntryID(), newEntryID()
	if p := f.Proposal; f.State != learned.TooFew && p.Runs > 0 {
		v.Next = fmt.Sprintf("the next run lies between %s and %s, nine times of ten", l.value(f, p.Next.Low), l.value(f, p.Next.High))
	}
	for _, other := range f.With {
		v.With = append(v.With, l.called(other))
	}
	v.Careful = careful[f.Kind]
	v.runs(l, f)
	if len(f.Seen) > 0 {
		chart := pictures{path: learnedPath, rest: coldURL("", l.query, "figure", f.Key)}.at("chart/lesson")
		chart.Alt = lessonChart(l, f, 0).Picture().Desc
		v.Chart = &chart
	}
	for _, e := range f.Excluded[:min(len(f.Excluded), mostExcluded)] {
		v.Excluded = append(v.Excluded, lessonExcluded(e))
	}
	v.More = max(0, len(f.Excluded)-mostExcluded)
	for _, x := range edit.Files {
		v.Files = append(v.Files, lessonFileOf(x))
	}
}

// careful is what to think of before a figure of a kind is accepted.
var careful = map[learned.Kind]string{
	learned.Time:        "Cooks are told this time too: accept it only if the food really needs it, not because it waited.",
	learned.Evaporation: "It holds for the pot at this fire: with the lid on, or in a draught, it is another.",
	learned.Fills:       "Accepting puts the check-weights of these runs into the book, from which the plan learns how full to fill.",
	learned.Spread:      "It is how far pots lie from their own mean; if they all lie to one side, a figure of a step is wrong.",
}

// called is a figure by its place, in words.
func (l lessonView) called(key string) string {
	for _, f := range l.x.Figures {
		if f.Key == key {
			what, of := f.Words(l.x.Book)
			return what + " (" + of + ")"
		}
	}
	return key
}

func (v *lessonPage) runs(l lessonView, f learned.Figure) {
	for i, s := range f.Seen {
		r := lessonRun{No: i + 1, Name: s.Run, Day: s.Day, Value: l.value(f, s.Value), Of: s.Of, URL: boardURL(s.Run), Notes: s.Notes, LeftOut: s.LeftOut}
		if s.LeftOut == "" {
			r.Entry = newEntryID()
		}
		if f.Kind == learned.Spread {
			r.Value = fmt.Sprintf("%+.1f %%", 100*s.Value)
		}
		v.Runs = append(v.Runs, r)
	}
	for _, a := range f.Asked {
		i := slices.IndexFunc(f.Seen, func(s learned.Seen) bool { return s.Run == a.Run })
		v.Asked = append(v.Asked, lessonAsk{a.Run, l.value(f, f.Seen[i].Value), strings.Join(a.Why, ", and "), l.value(f, a.Without), boardURL(a.Run), newEntryID()})
	}
}

func lessonFileOf(x app.FileEdit) lessonFile {
	f := lessonFile{Name: x.Name}
	for _, line := range x.Lines() {
		switch line.Sign {
		case '+':
			f.Lines = append(f.Lines, lessonLine{"added", "+", line.Text})
		case '-':
			f.Lines = append(f.Lines, lessonLine{"removed", "−", line.Text})
		case ' ':
			f.Lines = append(f.Lines, lessonLine{"same", "", line.Text})
		}
	}
	return f
}

func (s *server) lessonsSaid(f learned.Figure) []lessonSaid {
	var all []lessonSaid
	for _, d := range f.Said {
		word := "accepted"
		if d.Body.Outcome == record.Refused {
			word = "refused"
		}
		all = append(all, lessonSaid{s.toldAt(d.Entry.Happened), d.Entry.Who, fmt.Sprintf("%s: %s in place of %s, from %s", word, d.Body.After, d.Body.Before, manyOf(len(d.Body.Runs), "run", "runs"))})
	}
	return all
}

// manyOf is a number of things.
func manyOf(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

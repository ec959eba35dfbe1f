package web

import (
	"context"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/firstdish"
	"kettlefrost/internal/kitchen"
)

// firstAt is the question that is asked; all answers are in the address, so that nothing is lost by going back.
const firstAt = "at"

// firstEnd is the place after the last question.
const firstEnd = "end"

// firstPage is all that templates/dishfirst.html may show: one question of the way to a first dish, or what they came to.
type firstPage struct {
	shell
	Problem string
	Steps   []firstStep
	Asks    string
	Why     string
	Fields  []firstField
	Draft   *firstLines
	Kept    []kept // the other answers
	Before  string // the question before; "" at the first
	Next    string
	Facts   []firstdish.Fact
	Missing []firstMissing
	Done    *firstDone
	Recipe  string // address for a recipe that is to be pasted
}

// firstStep is a question in the row of all.
type firstStep struct {
	Asks, URL string
	Here      bool
	Open      bool // something of it is missing
}

// firstField is a field with what stands in it.
type firstField struct {
	field
	Lines bool
}

// firstLines is how the lines were understood.
type firstLines struct {
	Lines []lineRead
	Asks  []field
}

// lineRead is one of them.
type lineRead struct{ Text, Problem, Is, Sure, Amount, Mass, Class, Sign string }

// firstMissing leads to the question of something that is missing.
type firstMissing struct{ Label, Says, URL string }

// firstDone is the end of the way: the plan, and putting all of it into the book.
type firstDone struct {
	Head  []keyFigure
	Grave []reminder
	Entry string // "" where it cannot be saved from here
	Files []draftFile
}

var firstTemplate = parse[firstPage]("dishfirst")

// firstAnswers are the answers of an address or a form.
func firstAnswers(form url.Values) firstdish.Answers {
	answers := firstdish.Answers{}
	for key, values := range form {
		text := strings.ToValidUTF8(values[0], "\uFFFD")
		if len(answers) == 400 || len(text) > mostForm {
			break
		}
		if name, is := strings.CutPrefix(key, draftAnswer); is {
			answers[tidy(name)] = tidy(text)
		} else if slices.Contains(firstKeys, key) {
			answers[key] = text
		}
	}
	return answers
}

// firstKeys are the fields of all questions.
var firstKeys = func() (keys []string) {
	for _, s := range firstdish.Screens {
		for _, f := range s.Fields {
			keys = append(keys, f.Key)
		}
	}
	return keys
}()

// showFirst asks the next question, or shows what all of them came to.
func (s *server) showFirst(w http.ResponseWriter, r *http.Request) {
	s.firstPage(w, r, http.StatusOK, r.URL.Query(), "")
}

func (s *server) firstPage(w http.ResponseWriter, r *http.Request, status int, form url.Values, problem string) {
	book, _ := s.house.Book()
	reading := firstdish.Read(firstAnswers(form), book, s.house.Foods())
	v := firstPage{shell: s.inShell(r, book.Kitchen, "A first dish", "book"), Problem: problem, Facts: reading.Facts, Recipe: draftPath}
	now := form.Get(firstAt)
	at := slices.IndexFunc(firstdish.Screens, func(x firstdish.Screen) bool { return x.Key == now })
	if at < 0 && now != firstEnd {
		at = 0
	}
	for i, x := range firstdish.Screens {
		open := slices.ContainsFunc(reading.Missing, func(m firstdish.Missing) bool { return m.Screen == x.Key })
		v.Steps = append(v.Steps, firstStep{x.Asks, firstURL(form, x.Key), i == at, open})
	}
	for _, m := range reading.Missing {
		if at < 0 || m.Screen != firstdish.Screens[at].Key || m.Says != "" {
			v.Missing = append(v.Missing, firstMissing{m.Label, m.Says, firstURL(form, m.Screen)})
		}
	}
	if at >= 0 {
		v.ask(at, form, reading, book)
	} else {
		v.Before = firstdish.Screens[len(firstdish.Screens)-1].Key
		v.keep(form, nil)
		s.firstEnd(r.Context(), &v, reading, book, readerOf(book.Kitchen, r))
	}
	firstTemplate.show(w, status, v)
}

// firstURL is the address of a question with all answers.
func firstURL(form url.Values, at string) string {
	q := url.Values{}
	for key, values := range form {
		if key != entryField && key != whoField {
			q[key] = values
		}
	}
	q.Set(firstAt, at)
	return dishFirstPath + "?" + q.Encode()
}

// keep carries all answers but those that are asked now.
func (v *firstPage) keep(form url.Values, asked []string) {
	for key, values := range form {
		if key != firstAt && !slices.Contains(asked, key) && (slices.Contains(firstKeys, key) || strings.HasPrefix(key, draftAnswer)) {
			v.Kept = append(v.Kept, kept{key, values[0]})
		}
	}
	slices.SortFunc(v.Kept, func(a, b kept) int { return strings.Compare(a.Key, b.Key) })
}

// ask fills in one question.
func (v *firstPage) ask(at int, form url.Values, reading firstdish.Reading, book kitchen.Book) {
	screen := firstdish.Screens[at]
	v.Asks, v.Why, v.Next = screen.Asks, screen.Why, firstEnd
	if at > 0 {
		v.Before = firstdish.Screens[at-1].Key
	}
	if at+1 < len(firstdish.Screens) {
		v.Next = firstdish.Screens[at+1].Key
	}
	answers := firstAnswers(form)
	var asked []string
	for _, f := range screen.Fields {
		x := firstField{field: field{Key: f.Key, Label: f.Label, Hint: f.Hint, Value: answers.Value(f.Key)}, Lines: f.Lines}
		for _, c := range f.Choices {
			x.Options = append(x.Options, option{c.Is, c.Says, x.Value == c.Is})
		}
		for _, m := range reading.Missing {
			if m.Key == f.Key && m.Says != "" {
				x.Problem = capital(m.Says) + "."
			}
		}
		asked = append(asked, f.Key)
		v.Fields = append(v.Fields, x)
	}
	if screen.Key == "lines" && reading.Draft != nil {
		v.Draft = &firstLines{}
		for _, l := range reading.Draft.Lines {
			x := viewDraftLine(l, book.Kitchen.Units)
			v.Draft.Lines = append(v.Draft.Lines, lineRead{x.Text, x.Problem, x.Is, x.Sure, x.Amount, x.Mass, x.Class, x.Sign})
		}
		for _, q := range reading.Draft.Asks {
			if f := askField(q); strings.HasPrefix(q.Key, "what-") || strings.HasPrefix(q.Key, "much-") || q.Grave {
				v.Draft.Asks = append(v.Draft.Asks, f)
				asked = append(asked, f.Key)
			}
		}
	}
	v.keep(form, asked)
}

// firstEnd shows what the answers came to, with a plan.
func (s *server) firstEnd(ctx context.Context, v *firstPage, reading firstdish.Reading, book kitchen.Book, rd reader) {
	house, can := s.house.(bookEditor)
	if reading.Run == "" || len(reading.Missing) > 0 || !can {
		return
	}
	edit, err := house.TryBook(bookfile.Between(book, reading.Book)...)
	if err != nil {
		v.Problem = sentence(err)
		return
	}
	done := &firstDone{}
	v.Done = done
	for _, f := range edit.Found {
		if f.Severity == finding.Stop {
			done.Grave = append(done.Grave, remind(f))
		}
	}
	if len(done.Grave) == 0 {
		ctx, cancel := context.WithTimeout(ctx, longestLook)
		defer cancel()
		run, err := app.Request(edit.Book, reading.Run)
		if err != nil {
			v.Problem = sentence(err)
			return
		}
		p := s.house.Plan(ctx, edit.Book, run)
		done.Head = viewSummary(p, rd)
		for _, f := range p.Findings {
			if f.Severity > finding.Note {
				done.Grave = append(done.Grave, remind(f))
			}
		}
	}
	if house.InRecords() && s.records != nil {
		done.Entry = newEntryID()
		return
	}
	for _, f := range edit.Files {
		done.Files = append(done.Files, fileLines(f))
	}
}

// saveFirst puts a first dish into the book, with all that it needs, and leads to its run.
func (s *server) saveFirst(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form could not be read: it may be too long.")
		return
	}
	r.PostForm.Set(firstAt, firstEnd)
	house, can := s.house.(bookEditor)
	if !can || !house.InRecords() {
		s.firstPage(w, r, http.StatusConflict, r.PostForm, "The book is a folder, which these pages do not write.")
		return
	}
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	if s.tookIn(r) { // sent twice: it is there already
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return
	}
	book, _ := s.house.Book()
	reading := firstdish.Read(firstAnswers(r.PostForm), book, s.house.Foods())
	if reading.Run == "" {
		s.firstPage(w, r, http.StatusUnprocessableEntity, r.PostForm, "Something is missing still. Nothing was saved.")
		return
	}
	if _, err := house.EditBook(r.Context(), by.ID, app.Author{Who: by.Who, Device: by.Device, At: by.At}, bookfile.Between(book, reading.Book)...); err != nil {
		s.firstPage(w, r, http.StatusUnprocessableEntity, r.PostForm, s.bookTrouble(err))
		return
	}
	http.Redirect(w, r, withDid(runPath(reading.Run), by.ID.String()), http.StatusSeeOther)
}

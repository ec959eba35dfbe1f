package web

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
)

// logImportPage is all that templates/logimport.html may show: a logger's file on its way in.
type logImportPage struct {
	shell
	None     bool
	Problem  string
	File     string
	Action   string
	Busy     *busyView
	Asked    []logQuestionView
	Columns  []logColumnView
	Skipped  string
	Before   []string // when it was taken in before
	CanTake  bool     // all is answered
	Tally    string
	Taken    *logTakenView
	LogsPath string
}

// busyView is how far a file is.
type busyView struct {
	Says     string
	Done, Of int // lines; Of is 0 where nobody knows
}

// logQuestionView is a question with its possible answers.
type logQuestionView struct {
	Key, ID   string
	Asks      string
	Example   string // the cell that leaves it open
	Options   []logOptionView
	Other     string // what was answered beside the options
	OtherHint string
	Problem   string
	Hint      string // what speaks against the answer
	Open      bool   // it has no answer yet
}

type logOptionView struct {
	Value, Says string
	Here        bool
}

// logColumnView is a column of the file, as it was read.
type logColumnView struct {
	Name, Probe string
	Readings    string
	From, To    string
	Low, High   figure
	Every       string
	Flags       []logFlagView
}

// logFlagView is how often something is odd, and where.
type logFlagView struct{ Says, Count, Lines string }

// logTakenView is what was taken in.
type logTakenView struct {
	Says, Entry, Hash string
	Days              []link
}

var logImportTemplate = parse[logImportPage]("logimport")

const (
	answerUnit, answerZone, answerOrder = "unit", "zone", "order"
	answerProbe                         = "probe." // and the name of the column
	answerOther                         = "other." // and the key of the question: an answer beside the options
	otherAnswer                         = "other"
	takeField                           = "take"
	takeAgain                           = "again"
)

func (s *server) logImportShell(r *http.Request) logImportPage {
	book, _ := s.house.Book()
	return logImportPage{shell: s.inShell(r, book.Kitchen, "A logger's file", "logs"), LogsPath: logsPath}
}

func (s *server) showLogImport(w http.ResponseWriter, r *http.Request) {
	v := s.logImportShell(r)
	v.None = s.records == nil
	logImportTemplate.show(w, http.StatusOK, v)
}

// takeLogFile takes a file that was chosen, and begins to read it.
func (s *server) takeLogFile(w http.ResponseWriter, r *http.Request, jobs *logJobs) {
	v := s.logImportShell(r)
	if v.None = s.records == nil; v.None {
		logImportTemplate.show(w, http.StatusConflict, v)
		return
	}
	r.Body = http.MaxBytesReader(w, r.Body, mostLogFile+mostForm)
	f, problem := sentLog(r)
	if problem != "" {
		v.Problem = problem
		logImportTemplate.show(w, http.StatusUnprocessableEntity, v)
		return
	}
	book, _ := s.house.Book()
	job := jobs.add(r.Context(), book, f, s.house.Now())
	http.Redirect(w, r, logImportPath+"/"+job.key, http.StatusSeeOther)
}

func sentLog(r *http.Request) (f app.LogFile, problem string) {
	file, head, err := r.FormFile(fileField) // reads the whole form
	if _, big := errors.AsType[*http.MaxBytesError](err); big {
		return f, "The file is too large: cut it into several."
	}
	if err != nil {
		return f, "Choose a file first."
	}
	defer file.Close()
	f.Name = tidy(head.Filename)
	if f.Data, err = io.ReadAll(file); err != nil {
		return f, "The file did not come through whole: send it again."
	}
	return f, ""
}

// logJobOf is the file of an address, or the page that says that it is not here.
func (s *server) logJobOf(w http.ResponseWriter, r *http.Request, jobs *logJobs) (*logJob, bool) {
	job, ok := jobs.find(r.PathValue("key"))
	if !ok {
		v := s.logImportShell(r)
		v.None, v.Problem = s.records == nil, "That file is not here any more: choose it again. What was taken in stays."
		logImportTemplate.show(w, http.StatusNotFound, v)
	}
	return job, ok
}

func (s *server) showLogJob(w http.ResponseWriter, r *http.Request, jobs *logJobs) {
	if job, ok := s.logJobOf(w, r, jobs); ok {
		s.showLog(w, r, job, http.StatusOK)
	}
}

// showLog shows how far a file is: being read, with its questions, or taken in.
func (s *server) showLog(w http.ResponseWriter, r *http.Request, job *logJob, status int) {
	x := job.wait()
	v := s.logImportShell(r)
	v.File, v.Action, v.Problem = job.file.Name, logImportPath+"/"+job.key, x.problem
	switch x.state {
	case logBeingRead:
		v.Busy = &busyView{"Reading the file: " + thousands(x.done) + " of " + thousands(x.of) + " lines", x.done, x.of}
		if x.of == 0 {
			v.Busy.Says = "Reading the file"
		}
	case logBeingTaken:
		v.Busy = &busyView{Says: "Taking in " + thousands(readingsOf(x.reading)) + " readings"}
	case logTaken:
		v.Taken = s.logTaken(x, r.URL.Query())
	default:
		s.fillLog(&v, x, r)
	}
	if v.Busy != nil {
		v.Refresh = 1
	}
	if v.Problem != "" && status == http.StatusOK {
		status = http.StatusUnprocessableEntity
	}
	logImportTemplate.show(w, status, v)
}

func readingsOf(x *app.LogReading) (n int) {
	if x == nil {
		return 0
	}
	for _, c := range x.Channels {
		n += c.Readings
	}
	return n
}

// fillLog shows a file that was read.
func (s *server) fillLog(v *logImportPage, x logLook, r *http.Request) {
	if x.reading == nil {
		return
	}
	v.Problem = cmp.Or(v.Problem, x.reading.Problem)
	book, _ := s.house.Book()
	rd := readerOf(book.Kitchen, r.URL.Query())
	for i, q := range x.reading.Questions {
		v.Asked = append(v.Asked, logQuestion(q, i))
	}
	flagged := 0
	for _, c := range x.reading.Channels {
		flagged += c.Flagged
		v.Columns = append(v.Columns, s.logColumn(c, rd))
	}
	if n := readingsOf(x.reading); n > 0 {
		v.Tally = fmt.Sprintf("%s readings, %s of them flagged. All are taken in as they are: nothing is dropped or put right.", thousands(n), thousands(flagged))
	}
	if n := len(x.reading.Skipped); n > 0 {
		v.Skipped = times(n, "line holds", "lines hold") + " no reading (empty, or words before the table): " + linesText(x.reading.Skipped, n)
	}
	for _, d := range x.reading.Done {
		v.Before = append(v.Before, fmt.Sprintf("This file was taken in on %s by %s.", s.wall(d.At).Format("2 Jan 2006 15:04"), d.Who))
	}
	done := slices.ContainsFunc(x.reading.Done, func(d app.LogDone) bool { return d.Batch == x.reading.Batch })
	v.CanTake = x.reading.Ready() && !done
}

func logQuestion(q app.LogQuestion, nth int) logQuestionView {
	v := logQuestionView{Key: q.Key, ID: fmt.Sprintf("q%d", nth), Asks: q.Asks, Example: q.Example, Problem: q.Problem, Hint: q.Hint, Open: q.Answer == ""}
	switch q.Key {
	case app.LogProbe:
		v.Key, v.OtherHint = answerProbe+q.Of, "as the probe is to be called"
	case app.LogZone:
		v.OtherHint = "such as America/New_York or −05:00"
	}
	known := false
	for _, o := range q.Options {
		v.Options = append(v.Options, logOptionView{o.Value, o.Says, o.Value == q.Answer})
		known = known || o.Value == q.Answer
	}
	if !known {
		v.Other = q.Answer
	}
	return v
}

func (s *server) logColumn(c app.LogChannel, rd reader) logColumnView {
	v := logColumnView{Name: c.Column, Probe: c.Probe, Readings: fmt.Sprintf("%s, %s with a temperature and a time", thousands(c.Readings), thousands(c.Valued))}
	if c.Valued > 0 {
		v.From, v.To = s.wall(c.From).Format("2 Jan 2006 15:04"), s.wall(c.To).Format("2 Jan 2006 15:04")
		v.Low, v.High = rd.readTemp(c.LowC), rd.readTemp(c.HighC)
	}
	if c.TypicalS > 0 {
		v.Every = secondsText(c.TypicalS)
	}
	for _, f := range c.Flags {
		v.Flags = append(v.Flags, logFlagView{f.Says, thousands(f.Count), linesText(f.Lines, f.Count)})
	}
	return v
}

// linesText is lines of a file, the first of them.
func linesText(lines []int, of int) string {
	var words []string
	for _, n := range lines[:min(len(lines), 12)] {
		words = append(words, strconv.Itoa(n))
	}
	text := "line " + strings.Join(words, ", ")
	if len(words) != 1 {
		text = "lines " + strings.Join(words, ", ")
	}
	if more := of - len(words); more > 0 {
		text += " and " + thousands(more) + " more"
	}
	return text
}

// secondsText is how often a reading came.
func secondsText(s float64) string {
	if s < 120 {
		return strconv.FormatFloat(s, 'f', -1, 64) + " s"
	}
	return strconv.FormatFloat(s/60, 'f', -1, 64) + " min"
}

// thousands is a number with spaces that make it readable.
func thousands(n int) string {
	text := strconv.Itoa(n)
	for at := len(text) - 3; at > 0; at -= 3 {
		text = text[:at] + "," + text[at:]
	}
	return text
}

// answerLogJob reads a file again with what was answered, or takes it in.
func (s *server) answerLogJob(w http.ResponseWriter, r *http.Request, jobs *logJobs) {
	job, ok := s.logJobOf(w, r, jobs)
	if !ok {
		return
	}
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "The form cannot be read: load the page again.")
		return
	}
	x := job.look()
	answers := logAnswers(r.PostForm)
	takes := r.PostForm.Get(takeField) != "" && x.state == logRead && x.reading != nil && x.reading.Ready() && sameAnswers(x.reading, answers)
	if takes {
		by := s.author(w, r)
		if by.Who == "" {
			s.askWho(w, r)
			return
		}
		jobs.take(r.Context(), job, by, r.PostForm.Get(takeAgain) != "")
	} else if x.state == logRead {
		book, _ := s.house.Book()
		jobs.read(r.Context(), book, job, answers, s.house.Now())
	}
	http.Redirect(w, r, logImportPath+"/"+job.key, http.StatusSeeOther)
}

// logAnswers are what was answered: an option, or something else that was typed.
func logAnswers(form url.Values) app.LogAnswers {
	pick := func(key string) string {
		answer := form.Get(key)
		if answer == otherAnswer || answer == "" {
			answer = strings.ReplaceAll(tidy(form.Get(answerOther+key)), "−", "-")
		}
		return answer
	}
	a := app.LogAnswers{Unit: pick(answerUnit), Zone: pick(answerZone), Order: pick(answerOrder), Probes: map[string]string{}}
	for key := range form {
		if column, is := strings.CutPrefix(key, answerProbe); is {
			a.Probes[column] = pick(key)
		}
	}
	return a
}

// sameAnswers tells whether a file was read with these very answers: what is taken in is what was shown.
func sameAnswers(x *app.LogReading, a app.LogAnswers) bool {
	for _, q := range x.Questions {
		said := map[string]string{app.LogUnit: a.Unit, app.LogZone: a.Zone, app.LogOrder: a.Order}[q.Key]
		if q.Key == app.LogProbe {
			said = a.Probes[q.Of]
		}
		if said != q.Answer {
			return false
		}
	}
	return true
}

// logTaken is what was taken in, with where to look at it.
func (s *server) logTaken(x logLook, query url.Values) *logTakenView {
	v := &logTakenView{Says: thousands(readingsOf(x.reading)) + " readings were taken in.", Entry: fmt.Sprintf("entry %d", x.entry.Seq), Hash: x.reading.Hash.String()}
	for _, c := range x.reading.Channels {
		if c.Valued > 0 {
			day := record.Day(s.wall(c.To).Format("2006-01-02"))
			v.Days = append(v.Days, link{fmt.Sprintf("%s on %s", c.Probe, day), dayURL(query, c.Probe, day)})
		}
	}
	return v
}

// logProgress is how far a file is, for a program.
type logProgress struct {
	State   logState `json:"state"`
	Done    int      `json:"done"`
	Of      int      `json:"of"`
	Problem string   `json:"problem,omitzero"`
}

func (s *server) showLogProgress(w http.ResponseWriter, r *http.Request, jobs *logJobs) {
	job, ok := jobs.find(r.PathValue("key"))
	if !ok {
		writeJSON(w, http.StatusNotFound, refusal{Error: "that file is not here"})
		return
	}
	x := job.look()
	writeJSON(w, http.StatusOK, logProgress{x.state, x.done, x.of, x.problem})
}

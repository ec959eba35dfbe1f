package web

import (
	"errors"
	"io"
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/app"
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

package web

import (
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
)

// jobsPath is below which it is shown how far long work is.
const jobsPath = "/jobs/"

// jobRoutes are work that takes longer than a page may.
func (s *server) jobRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+jobsPath+"{id}", s.showJob)
	mux.HandleFunc("GET "+jobsPath+"{id}/far.json", s.showJobFar)
	mux.HandleFunc("POST "+jobsPath+"{id}/stop", s.stopJob)
}

// long does what may take long for a page, and answers by leading to how far it is when it does; ok is then false. Whoever cannot be led there, such
// as a drawing on a page or a program, waits. The same request later finds the same work.
func long[T any](s *server, w http.ResponseWriter, r *http.Request, ask app.JobAsk, work func(context.Context) (T, error)) (value T, err error, ok bool) {
	ask.To = r.URL.RequestURI()
	job, err := s.jobs.Begin(r.Context(), ask, func(ctx context.Context) (any, error) { return work(ctx) })
	if err != nil {
		s.refuse(w, r, http.StatusServiceUnavailable, sentence(err))
		return value, nil, false
	}
	var impatient <-chan time.Time
	if s.patience > 0 && r.Method == http.MethodGet && isNavigation(r) {
		impatient = time.After(s.patience)
	}
	select {
	case <-job.Done():
	case <-impatient:
		http.Redirect(w, r, jobsPath+job.ID, http.StatusSeeOther)
		return value, nil, false
	case <-r.Context().Done():
		return value, nil, false // nobody waits for it any more; the next who asks finds it
	}
	x := job.Look()
	if x.State == app.JobStopped {
		http.Redirect(w, r, jobsPath+job.ID, http.StatusSeeOther)
		return value, nil, false
	}
	value, _ = x.Value.(T)
	return value, x.Err, true
}

// isNavigation says whether a person goes to a page, and is not a part of one or a program.
func isNavigation(r *http.Request) bool {
	if mode := r.Header.Get("Sec-Fetch-Mode"); mode != "" { // only sent where the connection is to be trusted
		return mode == "navigate"
	}
	return strings.Contains(r.Header.Get("Accept"), "text/html") && r.Header.Get("HX-Request") == ""
}

// planner is a house that remembers plans; *app.App is one.
type planner interface {
	Planned(kitchen.Book, kitchen.Request) bool
}

// longPlan leads to how far a plan is when it takes long to make; false when it has answered so. Afterwards the house remembers the plan.
func (s *server) longPlan(w http.ResponseWriter, r *http.Request, a asked) bool {
	house, remembers := s.house.(planner)
	if !remembers || house.Planned(a.book, a.run) {
		return true
	}
	ask := app.JobAsk{Key: keyOf("plan", a.book, a.run), Name: "Working out " + a.run.Name, Lane: app.PlanLane}
	_, _, ok := long(s, w, r, ask, func(ctx context.Context) (struct{}, error) {
		s.house.Plan(ctx, a.book, a.run)
		return struct{}{}, ctx.Err()
	})
	return ok
}

// keyOf tells work apart by all that goes into it.
func keyOf(kind string, from ...any) string {
	sum := sha256.New()
	for _, x := range from {
		if err := json.NewEncoder(sum).Encode(x); err != nil {
			fmt.Fprintf(sum, "%+v\n", x) // what is no JSON is told apart by its words
		}
	}
	return fmt.Sprintf("%s %x", kind, sum.Sum(nil))
}

// jobPage is all that templates/job.html may show: how far long work is.
type jobPage struct {
	shell
	What    string
	Says    string // what is being done just now
	Percent int    // 0 to 100
	Unknown bool   // nobody knows how far it is
	Since   string
	Running bool
	Stop    string // where it is stopped
	Far     string // where a script looks how far it is
	To      string // where its result is, and where it begins again
	Ready   bool   // the result is a file
	Stopped bool
	Problem string
	Gone    bool
	Every   int // seconds after which a page without scripts looks again
}

var jobTemplate = parse[jobPage]("job")

func (s *server) showJob(w http.ResponseWriter, r *http.Request) {
	job, x, ok := s.jobOf(w, r)
	if !ok {
		return
	}
	if x.State == app.JobDone && !job.Ask.File {
		http.Redirect(w, r, job.Ask.To, http.StatusSeeOther)
		return
	}
	book, _ := s.house.Book()
	v := jobPage{shell: s.inShell(r, book.Kitchen, job.Ask.Name, ""), What: job.Ask.Name, Says: jobSays(x), Percent: max(0, x.Percent), Unknown: x.Percent < 0, Since: secondsWords(x.For),
		Stop: jobsPath + job.ID + "/stop", Far: jobsPath + job.ID + "/far.json", To: job.Ask.To, Stopped: x.State == app.JobStopped, Ready: x.State == app.JobDone}
	if v.Running = x.State == app.JobWaits || x.State == app.JobRuns; v.Running {
		v.Every = 2
	}
	if x.State == app.JobFailed {
		v.Problem = sentence(x.Err)
	}
	jobTemplate.show(w, http.StatusOK, v)
}

// jobSays is what is being done, in words.
func jobSays(x app.JobLook) string {
	switch {
	case x.State == app.JobWaits:
		return "Waiting until other work is done"
	case x.Says == "":
		return "Working"
	}
	return x.Says
}

func secondsWords(d time.Duration) string { return times(int(d.Seconds()), "second", "seconds") }

// jobOf is the job of an address, and false when it was answered because it is not here, or not for who asks.
func (s *server) jobOf(w http.ResponseWriter, r *http.Request) (*app.Job, app.JobLook, bool) {
	job, ok := s.jobs.Find(r.PathValue("id"))
	if !ok && isJSON(r) {
		writeJSON(w, http.StatusNotFound, refusal{Error: "that work is not here"})
		return nil, app.JobLook{}, false
	}
	if !ok {
		book, _ := s.house.Book()
		jobTemplate.show(w, http.StatusNotFound, jobPage{shell: s.inShell(r, book.Kitchen, "Long work", ""), Gone: true})
		return nil, app.JobLook{}, false
	}
	if to, _, _ := strings.Cut(job.Ask.To, "?"); !mayLookAt(r, to) {
		s.deny(w, r, r, "What is being worked out is not for whoever acts here now.")
		return nil, app.JobLook{}, false
	}
	return job, job.Look(), true
}

// stopJob stops work. Whoever waits for it is told.
func (s *server) stopJob(w http.ResponseWriter, r *http.Request) {
	job, _, ok := s.jobOf(w, r)
	if !ok {
		return
	}
	job.Stop()
	select {
	case <-job.Done():
	case <-time.After(s.patience): // the work has not looked yet
	}
	http.Redirect(w, r, jobsPath+job.ID, http.StatusSeeOther)
}

// jobFar is how far work is, for a script.
type jobFar struct {
	State   app.JobState `json:"state"`
	Percent int          `json:"percent"` // -1 where nobody knows
	Says    string       `json:"says"`
	Since   string       `json:"since"`
}

func (s *server) showJobFar(w http.ResponseWriter, r *http.Request) {
	if _, x, ok := s.jobOf(w, r); ok {
		writeJSON(w, http.StatusOK, jobFar{x.State, x.Percent, jobSays(x), secondsWords(x.For)})
	}
}

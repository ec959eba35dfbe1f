package web

import (
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/help"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

const (
	tutorialPath   = "/tutorial"
	tutorialCookie = "tutorial" // begun, and what was looked at on this device: the keys of steps with dots between
)

// tutorial is built in, like the texts of the help.
var tutorial = func() help.Tutorial {
	t, err := help.OpenTutorial()
	if err != nil {
		panic(err)
	}
	return t
}()

// tutorialPage is all that templates/tutorial.html may show.
type tutorialPage struct {
	shell
	Elsewhere string // why it does not run here
	Problem   string
	Begun     bool
	Tally     string
	Steps     []tutorialStep
}

// tutorialStep is one task as it stands.
type tutorialStep struct {
	Title, Do, Why string
	Page           helpLink
	More           []helpLink
	Done, Next     bool
	State          string // in words
}

var tutorialTemplate = parse[tutorialPage]("tutorial")

func (s *server) tutorialRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+tutorialPath, s.showTutorial)
	mux.HandleFunc("POST "+tutorialPath, s.beginTutorial)
}

// inTutorialKitchen says whether this is the invented kitchen of the tutorial: by its name, which a kitchen that is built on it changes first.
func inTutorialKitchen(k kitchen.Kitchen) bool { return k.Name == tutorial.Kitchen }

// beginTutorial begins it on this device, or leaves it. It enters nothing.
func (s *server) beginTutorial(w http.ResponseWriter, r *http.Request) {
	if r.PostFormValue("do") == "leave" {
		http.SetCookie(w, tutorialMark("", -1))
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return
	}
	if book, _ := s.house.Book(); inTutorialKitchen(book.Kitchen) {
		http.SetCookie(w, tutorialMark("begun", cookieDays*24*3600))
	}
	http.Redirect(w, r, tutorialPath, http.StatusSeeOther)
}

func tutorialMark(value string, seconds int) *http.Cookie {
	return &http.Cookie{Name: tutorialCookie, Value: value, Path: "/", MaxAge: seconds, HttpOnly: true, SameSite: http.SameSiteLaxMode}
}

// toured are the steps that were looked at on this device, and whether the tutorial was begun on it.
func toured(r *http.Request) (seen map[string]bool, begun bool) {
	c, err := r.Cookie(tutorialCookie)
	if err != nil || c.Value == "" {
		return nil, false
	}
	seen = map[string]bool{}
	for key := range strings.SplitSeq(c.Value, ".") {
		seen[key] = true
	}
	return seen, true
}

// touring notes on the device what was looked at, once the tutorial was begun on it.
func touring(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if seen, begun := toured(r); begun && r.Method == http.MethodGet {
			if keys := lookedAt(seen, r.URL.Path, r.URL.Query()); len(keys) > len(seen) {
				http.SetCookie(w, tutorialMark(strings.Join(keys, "."), cookieDays*24*3600))
			}
		}
		next.ServeHTTP(w, r)
	})
}

// lookedAt are the keys seen, with those of steps that an address does.
func lookedAt(seen map[string]bool, path string, query url.Values) []string {
	all := maps.Clone(seen)
	for _, x := range tutorial.Steps {
		if x.DoneBy(path, query) {
			all[x.Key] = true
		}
	}
	return slices.Sorted(maps.Keys(all))
}

func (s *server) showTutorial(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	v := tutorialPage{shell: s.inShell(r, book.Kitchen, "Tutorial", "tutorial")}
	if !inTutorialKitchen(book.Kitchen) {
		v.Elsewhere = "This is not " + tutorial.Kitchen + ", the demo kitchen, but a kitchen of your own. The tutorial enters things, so it does not run here: nothing of it comes into your records. Start the demo kitchen beside yours and do it there."
	}
	done, begun, err := s.tutorialDone(r)
	v.Begun = begun && v.Elsewhere == ""
	if err != nil {
		v.Problem = sentence(err)
	}
	count := 0
	for _, x := range tutorial.Steps {
		step := tutorialStep{Title: x.Title, Do: x.Do, Why: x.Why, Page: helpLink{URL: x.Page.URL, Title: x.Page.Text}, More: moreHelp(x.More), State: "to do"}
		switch {
		case v.Elsewhere != "":
			step.Page = helpLink{}
		case done[x.Key]:
			step.Done, step.State = true, "done"
			count++
		case v.Begun && !slices.ContainsFunc(v.Steps, func(y tutorialStep) bool { return y.Next }):
			step.Next, step.State = true, "next"
		}
		v.Steps = append(v.Steps, step)
	}
	if v.Begun {
		v.Tally = tutorialTally(count)
	}
	tutorialTemplate.show(w, http.StatusOK, v)
}

func tutorialTally(done int) string {
	return times(done, "task", "tasks") + " of " + times(len(tutorial.Steps), "task", "tasks") + " done"
}

// tutorialDone are the steps that are done: by what was entered, or by what was looked at on this device.
func (s *server) tutorialDone(r *http.Request) (done map[string]bool, begun bool, err error) {
	seen, begun := toured(r)
	if !begun {
		return nil, false, nil
	}
	kinds := map[record.Kind]bool{}
	if s.records != nil {
		kinds, err = s.records.Kinds(r.Context())
	}
	done = map[string]bool{}
	for _, x := range tutorial.Steps {
		done[x.Key] = x.Visit != "" && seen[x.Key] || x.Entry != "" && kinds[record.Kind(x.Entry)]
	}
	return done, true, err
}

// tutorialCard is the card of the home page while the tutorial is under way on this device: false when it is not.
func (s *server) tutorialCard(r *http.Request, k kitchen.Kitchen) (todayCard, bool) {
	done, begun, err := s.tutorialDone(r)
	if !begun || !inTutorialKitchen(k) || err != nil {
		return todayCard{}, false
	}
	count, next := 0, ""
	for _, x := range tutorial.Steps {
		if done[x.Key] {
			count++
		} else if next == "" {
			next = x.Title
		}
	}
	c := todayCard{URL: tutorialPath, Name: "Tutorial", Says: []string{tutorialTally(count)}}
	if next != "" {
		c.Says = append(c.Says, "next: "+next)
	}
	return c, true
}

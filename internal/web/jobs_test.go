package web

import (
	"context"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/people"
	"kettlefrost/internal/plan"
)

// slowHouse takes as long for a plan and a week as it is told to, or until it is stopped.
type slowHouse struct {
	house
	through chan bool
	planned bool
	began   int
}

func (h *slowHouse) Planned(kitchen.Book, kitchen.Request) bool { return h.planned }

func (h *slowHouse) Plan(ctx context.Context, _ kitchen.Book, _ kitchen.Request) plan.Plan {
	if h.planned {
		return h.plan
	}
	h.began++
	select {
	case <-h.through:
		h.planned = true
	case <-ctx.Done():
	}
	return h.plan
}

// visit asks for a page as somebody who goes to it.
func visit(h http.Handler, method, target string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, target, nil)
	r.Host = "localhost:8090"
	r.Header.Set("Sec-Fetch-Mode", "navigate")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// shortPatience is that of pages in these tests.
const shortPatience = 300 * time.Millisecond

func slowKitchen() (*slowHouse, http.Handler) {
	h := &slowHouse{house: house{plan: madePlan(), shelf: shelf{now: monthBefore()}}, through: make(chan bool)}
	return h, New(h, Options{Patience: shortPatience})
}

// A plan that takes long leads to how far it is, is the same when it is asked for again, and leads to its page when it is done.
func TestALongPlan(t *testing.T) {
	house, h := slowKitchen()
	const page = "/run/leek/cook?units=metric"
	w := visit(h, "GET", page)
	far := w.Header().Get("Location")
	if w.Code != http.StatusSeeOther || !strings.HasPrefix(far, jobsPath) {
		t.Fatalf("%d to %q", w.Code, far)
	}
	w = visit(h, "GET", far)
	inOrder(t, w.Body.String(), "<noscript><meta http-equiv=\"refresh\" content=\"2\"></noscript>", "Working", "so far", `<form method="post" action="`+far+`/stop"`)
	if again := visit(h, "GET", page); again.Header().Get("Location") != far || house.began != 1 {
		t.Errorf("asked again: to %q, begun %d times", again.Header().Get("Location"), house.began)
	}
	if w := get(h, far+"/far.json"); !strings.Contains(w.Body.String(), `"state": "runs"`) || !strings.Contains(w.Body.String(), `"percent": -1`) {
		t.Errorf("for a script: %s", w.Body)
	}
	close(house.through)
	for range 100 {
		if w = visit(h, "GET", far); w.Code == http.StatusSeeOther {
			break
		}
		time.Sleep(20 * time.Millisecond)
	}
	if w.Code != http.StatusSeeOther || w.Header().Get("Location") != page {
		t.Fatalf("when it is done: %d to %q", w.Code, w.Header().Get("Location"))
	}
	if w := visit(h, "GET", page); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "Sweat the leeks") {
		t.Errorf("the page: %d", w.Code)
	}
}

// What is stopped says so and how to begin again; the button is a form.
func TestALongPlanIsStopped(t *testing.T) {
	house, h := slowKitchen()
	const page = "/run/leek/money"
	far := visit(h, "GET", page).Header().Get("Location")
	if w := visit(h, "POST", far+"/stop"); w.Code != http.StatusSeeOther || w.Header().Get("Location") != far {
		t.Fatalf("%d to %q", w.Code, w.Header().Get("Location"))
	}
	w := visit(h, "GET", far)
	inOrder(t, w.Body.String(), "It was stopped", "There is no result", `href="`+page+`"`, "Begin again")
	if again := visit(h, "GET", page); again.Header().Get("Location") != far || house.began != 2 {
		t.Errorf("begun again: to %q, begun %d times", again.Header().Get("Location"), house.began)
	}
	visit(h, "POST", far+"/stop")
}

// A drawing on a page waits for the plan; it is not sent to a page.
func TestADrawingWaitsForItsPlan(t *testing.T) {
	house, h := slowKitchen()
	time.AfterFunc(2*shortPatience, func() { close(house.through) })
	r := httptest.NewRequest("GET", "/run/leek/cook", nil)
	r.Host = "localhost:8090"
	r.Header.Set("Sec-Fetch-Mode", "same-origin")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	if w.Code != http.StatusOK {
		t.Errorf("%d to %q", w.Code, w.Header().Get("Location"))
	}
}

func TestWhoGoesToAPage(t *testing.T) {
	for name, c := range map[string]struct {
		header map[string]string
		want   bool
	}{
		"a browser": {map[string]string{"Sec-Fetch-Mode": "navigate", "Accept": "text/html"}, true}, "a script of a page": {map[string]string{"Sec-Fetch-Mode": "cors", "Accept": "text/html"}, false},
		"a browser without encryption": {map[string]string{"Accept": "text/html,*/*"}, true}, "a drawing without encryption": {map[string]string{"Accept": "image/*"}, false},
		"a part of a page without encryption": {map[string]string{"Accept": "text/html", "HX-Request": "true"}, false}, "a program": {nil, false},
	} {
		r := httptest.NewRequest("GET", "/", nil)
		for k, v := range c.header {
			r.Header.Set(k, v)
		}
		if got := isNavigation(r); got != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}

func TestAJobThatIsGone(t *testing.T) {
	h := demoKitchen(t)
	if w := get(h, "/jobs/0123"); w.Code != http.StatusNotFound || !strings.Contains(w.Body.String(), "Ask for it again") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
	if w := get(h, "/jobs/0123/far.json"); w.Code != http.StatusNotFound || !strings.Contains(w.Header().Get("Content-Type"), "json") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}

// What is worked out about money is not told to a packer, and an inspector, who enters nothing, may stop what was begun.
func TestWhoSeesJobs(t *testing.T) {
	_, b := staffedPages(t, Options{})
	b.signIn(`Ina "<b>"`, inasPassword, "tablet")
	if w := b.post("/jobs/0123/stop", "x", "y"); w.Code != http.StatusNotFound {
		t.Errorf("an inspector stops: %d", w.Code)
	}
	if !people.MaySee("packer", areaOf("/folder")) || people.MaySee("packer", areaOf("/week")) {
		t.Error("the areas are not as this test takes them to be")
	}
}

func TestPagesOfRobustnessEmptyAndFull(t *testing.T) {
	rendered(t, "offline", offlineTemplate)
	rendered(t, "carried", carriedTemplate, func(p *carriedPage) { p.Gone = false })
	rendered(t, "job", jobTemplate, func(p *jobPage) { p.Gone = false }, func(p *jobPage) { p.Gone, p.Unknown = false, false })
}

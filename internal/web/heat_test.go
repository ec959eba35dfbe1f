package web

import (
	"encoding/json"
	"html"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"kettlefrost/internal/heatcase"
)

func TestHeatRoutes(t *testing.T) {
	h := demoKitchen(t)
	for _, c := range []struct {
		target string
		status int
		kind   string
		has    []string
	}{
		{"/heat", 200, "text/html", []string{"an invented vegetable soup", `id="slide"`, "Predicted, not measured", "FDA Food Code 3-501.14", "<svg", "On the way", "walk-in, in the stream of the fan"}},
		{"/heat?process=cool&pan=2+in&in=walk-in-fan&from=200+°F", 200, "text/html", []string{`value="2 in"`, `value="200 °F"`, "until the core is at 41\u00a0°F", "135 to 70 °F"}},
		{"/heat?process=freeze&bag=1+in&food=16070", 200, "text/html", []string{"lentils", "Pham", "begins to freeze"}}, // NDB 16070 is "Lentils, mature seeds, cooked, boiled, without salt" in SR28 (read)
		{"/heat?process=thaw", 200, "text/html", []string{"thawed"}},
		{"/heat?process=reheat&units=metric", 200, "text/html", []string{`value="25 mm"`, "74\u00a0°C", "gives heat"}},
		{"/heat?process=cool&pot=12+in+x+10+in&stir=thin&in=ice-bath-stirred", 200, "text/html", []string{"stirred pot", "only while it is stirred"}},
		{"/heat?process=freeze&brick=6+in+x+4+in+x+2+in&in=blast-freezer", 200, "text/html", []string{`value="6 in x 4 in x 2 in"`}},
		{"/heat.json", 200, "application/json", []string{heatcase.Schema}},
		{"/heat.svg", 200, "image/svg+xml", []string{"<svg", "70 °F"}},
		{"/heat?food=", 422, "text/html", []string{`id="h-food-problem"`, "It is not said what food it is"}},
		{"/heat?from=warm", 422, "text/html", []string{`value="warm"`, `id="h-from-problem"`, `aria-invalid="true"`, "No answer yet"}},
		{"/heat?pan=2", 422, "text/html", []string{`value="2"`, `id="h-pan-problem"`}},
		{"/heat?pan=9+ft", 422, "text/html", []string{`value="9 ft"`, "cannot be computed"}},
		{"/heat?process=boil", 422, "text/html", []string{"not known"}},
		{"/heat?process=cool&in=room-air", 422, "text/html", []string{`id="h-at-problem"`, "which is not colder than the target"}},
		{"/heat?pan=2+in&stir=thin", 422, "text/html", []string{"Only a pot can be stirred", `id="h-stir-cool-pan-problem"`}},
		{"/heat?food=xyzzy+quux", 422, "text/html", []string{`value="xyzzy quux"`, "The table has no food"}},
		{"/heat.json?from=warm", 422, "application/json", []string{`"field": "from"`, `"text": "warm"`}},
		{"/heat.svg?from=warm", 422, "text/plain", []string{"cannot be answered"}},
	} {
		w := get(h, c.target)
		if w.Code != c.status || !strings.HasPrefix(w.Header().Get("Content-Type"), c.kind) {
			t.Errorf("%s: status %d, %s; want %d, %s", c.target, w.Code, w.Header().Get("Content-Type"), c.status, c.kind)
		}
		for _, want := range c.has {
			if !strings.Contains(w.Body.String(), want) {
				t.Errorf("%s does not have %q", c.target, want)
			}
		}
	}
}

// What is wrong with a field stands behind that field, before the next one.
func TestHeatProblemStandsAtItsField(t *testing.T) {
	page := get(demoKitchen(t), "/heat?to=nowhere").Body.String()
	inOrder(t, page, `id="h-from"`, `id="h-to"`, `value="nowhere"`, `id="h-to-problem"`, `id="h-in-cool-pan"`)
	if n := strings.Count(page, `class="problem"`); n != 1 {
		t.Errorf("%d problems stand on the page, want 1", n)
	}
}

// All mistakes are told at once, each at its field.
func TestHeatTellsAllProblems(t *testing.T) {
	page := get(demoKitchen(t), "/heat?to=nowhere&food=xyzzy&stack=3").Body.String()
	for _, id := range []string{"h-to-problem", "h-stack-problem"} {
		if !strings.Contains(page, `id="`+id+`"`) {
			t.Errorf("there is no %s", id)
		}
	}
}

// Page and JSON are the same answer.
func TestHeatPageAndJSONAgree(t *testing.T) {
	h := demoKitchen(t)
	const query = "?process=freeze&bag=1+in&in=freezer-fan&at=-20+°C"
	var a heatcase.Answer
	if err := json.Unmarshal(get(h, "/heat.json"+query).Body.Bytes(), &a); err != nil {
		t.Fatal(err)
	}
	page := get(h, "/heat"+query).Body.String()
	for _, want := range []string{together(heatcase.CookTime(a.Time.Usual.TimeS).Show(0)), together(heatcase.CookTime(a.Time.Slow.TimeS).Show(0)), together(heatcase.CookTime(a.Time.Fast.TimeS).Show(0)), a.Question[1:]} {
		if want == "" || !strings.Contains(page, want) {
			t.Errorf("the page does not have %q of the JSON", want)
		}
	}
}

var wasField = regexp.MustCompile(`name="was" value="([^"]*)"`)

// shownForm is the form of a page as a browser would send it back untouched.
func shownForm(t *testing.T, page string) url.Values {
	t.Helper()
	m := wasField.FindStringSubmatch(page)
	if m == nil {
		t.Fatal("the page has no form")
	}
	was := html.UnescapeString(m[1])
	form, err := url.ParseQuery(was)
	if err != nil {
		t.Fatal(err)
	}
	form.Set("was", was)
	return form
}

// Without script a form goes to an address without leftovers, and that address says the same again.
func TestHeatFormGoesToACleanAddress(t *testing.T) {
	h := demoKitchen(t)
	form := shownForm(t, get(h, "/heat?process=cool&pan=2+in").Body.String())
	form.Set("slide", "24") // eighths of an inch
	w := get(h, "/heat?"+form.Encode())
	to, err := url.Parse(w.Header().Get("Location"))
	if err != nil || w.Code != http.StatusSeeOther {
		t.Fatalf("status %d to %q, want 303 to an address", w.Code, w.Header().Get("Location"))
	}
	q := to.Query()
	if q.Get("pan") != "3 in" || q.Has("was") || q.Has("slide") || q.Has("shape") {
		t.Errorf("the address is %v, want the pan of 3 in and nothing of the form's own", q)
	}
	if page := get(h, to.String()); page.Code != 200 || !strings.Contains(page.Body.String(), `value="3 in"`) {
		t.Errorf("the address answers %d, want the pan of 3 in", page.Code)
	}
	form.Set("from", "warm")
	if w := get(h, "/heat?"+form.Encode()); w.Code != 422 || !strings.Contains(w.Body.String(), `value="warm"`) {
		t.Errorf("with a mistake: status %d, want 422 with what was typed", w.Code)
	}
}

// The script is told the address to keep; not while the slider moves, since browsers allow few of those a second.
func TestHeatAddressForTheScript(t *testing.T) {
	h := demoKitchen(t)
	form := shownForm(t, get(h, "/heat").Body.String())
	form.Set("slide", "20")
	for source, want := range map[string]string{"form#bench": "pan=2+1%2F2+in", slideSource: "false"} {
		r := httptest.NewRequest(http.MethodGet, "/heat?"+form.Encode(), nil)
		r.Host = "localhost"
		r.Header.Set("HX-Request", "true")
		r.Header.Set("HX-Source", source)
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if got := w.Header().Get("HX-Replace-Url"); w.Code != 200 || !strings.Contains(got, want) {
			t.Errorf("%s: status %d, address %q, want %q in it", source, w.Code, got, want)
		}
		if moving := !strings.Contains(w.Body.String(), `max="48" value="20"`); moving != (source == slideSource) {
			t.Errorf("%s: the slider is left where it is: %v", source, moving)
		}
	}
}

// A page is read over a slow line in a cellar, again and again while the slider moves.
func TestHeatPageWeight(t *testing.T) {
	h := demoKitchen(t)
	for _, target := range []string{"/heat", "/heat?process=reheat", "/heat?process=freeze&food=soup+vegetable", "/heat?process=cool&below=closed&bag=1+in&stack=4"} {
		if n := get(h, target).Body.Len(); n > 50_000 {
			t.Errorf("%s has %d bytes, want 50,000 at most", target, n)
		}
	}
}

func TestHeatPageKeepsToItself(t *testing.T) {
	page := get(demoKitchen(t), "/heat?"+url.Values{"name": {`"><script>x</script>`}, "food": {"lentil"}}.Encode()).Body.String()
	for _, bad := range []string{`src="http`, `href="http`, `src="//`, " style=", " onclick=", "<style", "<script>"} {
		if strings.Contains(page, bad) {
			t.Errorf("the page has %s", bad)
		}
	}
	if css := get(demoKitchen(t), "/static/heat.css").Body.String(); css == "" || strings.Contains(css, "@import") || strings.Contains(css, "url(") {
		t.Error("heat.css fetches something, or is empty")
	}
}

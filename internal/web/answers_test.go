package web

import (
	"encoding/json"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"kettlefrost/internal/plan"
)

// The page and the JSON are the same plan.
func TestPageAndJSONAgree(t *testing.T) {
	h := demoKitchen(t)
	const query = "?count.bean-pot-2lb=20&units=metric"
	w := get(h, "/run/small-friday.json"+query)
	var p plan.Plan
	if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil {
		t.Fatal(err)
	}
	if p.Summary.Packs != 44 { // 20 asked for here and 24 in the book
		t.Errorf("%d packs, want 44", p.Summary.Packs)
	}
	page := get(h, "/run/small-friday"+query).Body.String()
	for _, want := range []string{">44<", p.Summary.BuyTotal.Show("$"), p.Timetable.End.String(), together(p.Summary.FoodMass.Show(0))} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not have %q of the JSON", want)
		}
	}
}

func TestBadTargets(t *testing.T) {
	h := demoKitchen(t)
	query := "?" + url.Values{"count.bean-pot-2lb": {`"><script>alert(1)</script>`}}.Encode()
	w := get(h, "/run/small-friday"+query)
	page := w.Body.String()
	if w.Code != http.StatusUnprocessableEntity {
		t.Errorf("status %d, want 422", w.Code)
	}
	if strings.Contains(page, "<script>alert") {
		t.Error("what was typed became markup")
	}
	for _, want := range []string{`value="&#34;&gt;&lt;script&gt;alert(1)&lt;/script&gt;"`, `id="f-count-bean-pot-2lb-problem"`, `aria-invalid="true"`, "No plan yet"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not have %q", want)
		}
	}
	var no refusal
	if err := json.Unmarshal(get(h, "/run/small-friday.json"+query).Body.Bytes(), &no); err != nil || len(no.Fields) != 1 || no.Fields[0].Field != "count.bean-pot-2lb" {
		t.Errorf("the JSON refuses with %+v, %v; want the one field", no, err)
	}
	if w := get(h, "/run/small-friday/timeline.svg"+query); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("the drawing: status %d, want 422", w.Code)
	}
}

// Query junk changes nothing and breaks nothing.
func TestJunkQueries(t *testing.T) {
	h := demoKitchen(t)
	plain := get(h, "/run/small-friday.json").Body.String()
	for _, query := range []string{"?", "?%zz", "?;;;", "?count=5", "?count.=5", "?count.no-such-pack=5", "?units=cubits", "?a[]=1&b=%00", "?=&=&="} {
		w := get(h, "/run/small-friday.json"+query)
		if w.Code != 200 || w.Body.String() != plain {
			t.Errorf("%s: status %d, and the plan differs: %v", query, w.Code, w.Body.String() != plain)
		}
		if w := get(h, "/run/small-friday"+query); w.Code != 200 {
			t.Errorf("%s: status %d, want 200", query, w.Code)
		}
	}
	if w := get(h, "/run/small-friday?x="+strings.Repeat("a", 1<<20)); w.Code != http.StatusRequestURITooLong {
		t.Errorf("a query of 1 MB: status %d, want 414", w.Code)
	}
}

// A book with a mistake is not planned with; the page says where the mistake is.
func TestBrokenBook(t *testing.T) {
	h := kitchenOf(t, "kitchen: {name: Test}\nruns:\n  one:\n    want: [{pack: no-such-pack, count: 3}]\n")
	w := get(h, "/run/one")
	if w.Code != http.StatusUnprocessableEntity {
		t.Errorf("status %d, want 422", w.Code)
	}
	for _, want := range []string{"the book has to be put right first", "STOP", "book.yaml:4:", "no-such-pack"} {
		if !strings.Contains(w.Body.String(), want) {
			t.Errorf("the page does not have %q", want)
		}
	}
	if home := get(h, "/").Body.String(); !strings.Contains(home, "The book needs a look") || !strings.Contains(home, "book.yaml:4:") {
		t.Error("the first page does not say what is wrong with the book")
	}
	if page := get(h, "/book").Body.String(); !strings.Contains(page, "book.yaml:4:") {
		t.Error("the book's page does not say where")
	}
	if page := get(kitchenOf(t, "\x00{{{"), "/"); page.Code != 200 || !strings.Contains(page.Body.String(), "STOP") {
		t.Errorf("a file that is no YAML: status %d, want a page that says so", page.Code)
	}
}

func TestHostileBookIsText(t *testing.T) {
	h := kitchenOf(t, "kitchen: {name: '<script>x</script>', note: '\"><img src=x>'}\nruns:\n  '<b>':\n    name: '</a><script>y</script>'\n    want: [{pack: p, count: 3}]\n")
	for _, target := range []string{"/", "/book", "/run/%3Cb%3E", "/run/none"} {
		page := get(h, target).Body.String()
		if strings.Contains(page, "<script>x") || strings.Contains(page, "<script>y") || strings.Contains(page, "<img") {
			t.Errorf("%s: text of the book became markup", target)
		}
	}
}

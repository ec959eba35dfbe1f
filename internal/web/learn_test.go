package web

import (
	"encoding/json"
	"net/http"
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/learned/truth"
	"kettlefrost/internal/record"
)

const bakeWater = "dishes/turkey-meatballs/steps/bake/loses/water"

// fourTuesdays is the demo kitchen with its book in the records or in a folder, after four Tuesdays on which the meatballs lost 16 % water where
// the book has 12 %, and on the last one almost half.
func fourTuesdays(t *testing.T, inRecords bool) (http.Handler, *app.Records) {
	t.Helper()
	now := func() time.Time { return time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC) }
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	folder := demo.Book()
	if inRecords {
		if _, err := records.ImportBook(t.Context(), folder, app.Author{Who: "Ada", Device: "office", At: now()}); err != nil {
			t.Fatal(err)
		}
		folder = records.Book()
	}
	house, err := app.New(folder, now)
	if err != nil {
		t.Fatal(err)
	}
	book, _ := house.Book()
	k := truth.New(t.Context(), book, house.Foods(), "tuesday", 1)
	for day, water := range []float64{0.16, 0.161, 0.159, 0.16, 0.162, 0.45} {
		k.True[bakeWater] = water
		w := k.Work(7*day, record.Hash{})
		req := book.Runs["tuesday"]
		req.Day = string(w.Opened.Day)
		if w.Opened.Plan, err = app.PlanHash(book, req); err != nil {
			t.Fatal(err)
		}
		entries, _, err := w.Tell(uint64(day), 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			body, err := record.Decode(e.Kind, e.Body)
			if err == nil {
				_, err = records.Enter(t.Context(), app.Said{ID: e.ID, Who: e.Who, Device: e.Device, At: time.UnixMilli(int64(e.Happened)), Body: body})
			}
			if err != nil {
				t.Fatal(err)
			}
		}
	}
	return New(house, Options{Records: records}), records
}

var lessonURL = lessonPath + "?figure=" + url.QueryEscape(bakeWater)

// form is the hidden fields of the form on a page that leads to an address.
func formOn(t *testing.T, page, action string) url.Values {
	t.Helper()
	_, form, found := strings.Cut(page, `action="`+action+`"`)
	if !found {
		t.Fatalf("there is no form to %s", action)
	}
	form, _, _ = strings.Cut(form, "</form>")
	values := url.Values{}
	for _, m := range regexp.MustCompile(`type="hidden" name="([^"]*)" value="([^"]*)"`).FindAllStringSubmatch(form, -1) {
		values.Set(m[1], m[2])
	}
	return values
}

// A cook finds what runs have shown, is asked about the odd one, leaves it out, takes it back, and accepts: then it stands in the book.
func TestLearnPages(t *testing.T) {
	h, records := fourTuesdays(t, true)
	list := get(h, learnedPath).Body.String()
	for _, want := range []string{"From 6 runs that are over", "Water lost in cooking", "12 %", "1 run lies far off", "as the book has it", "too little to be seen in that weighing", "How it is learned", `href="/workshop/learned.json"`} {
		if !strings.Contains(strings.ReplaceAll(list, "\u00a0", " "), want) {
			t.Errorf("the list does not show %q", want)
		}
	}
	one := get(h, lessonURL)
	page := strings.ReplaceAll(one.Body.String(), "\u00a0", " ")
	for _, want := range []string{"What happened in tuesday-2026-02-09?", "far from the other runs", "loses: {water: 12 %, fat: 2 %}", "/workshop/learned/chart/lesson.svg?figure=", "of meatballs came out", "the book, worth 4 runs"} {
		if one.Code != 200 || !strings.Contains(page, want) {
			t.Errorf("%d: the figure does not show %q", one.Code, want)
		}
	}
	if len(page) > 200_000 || len(list) > 200_000 {
		t.Errorf("the pages have %d and %d bytes", len(page), len(list))
	}
	out := formOn(t, page, "/workshop/learned/leave-out")
	if w := post(h, "/workshop/learned/leave-out", out); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "nobody says why") {
		t.Errorf("left out without a reason: %d", w.Code)
	}
	out.Set("why", `a tray <b>fell</b>`)
	if w := post(h, "/workshop/learned/leave-out", out); w.Code != http.StatusSeeOther {
		t.Fatalf("not left out: %d %s", w.Code, w.Body)
	}
	page = strings.ReplaceAll(get(h, lessonURL).Body.String(), "\u00a0", " ")
	if !strings.Contains(page, "Left out: a tray &lt;b&gt;fell&lt;/b&gt;") || strings.Contains(page, "What happened in") || !strings.Contains(page, "5 runs of 16") {
		t.Error("the run that was left out is not shown so")
	}
	yes := formOn(t, page, "/workshop/learned/accept")
	if yes.Get("after") != "14.2 %" { // by hand: (4 × 12 + 5 × 16.04) / 9
		t.Errorf("offered: %s", yes.Get("after"))
	}
	for range 2 { // a form may be sent twice
		if w := post(h, "/workshop/learned/accept", yes); w.Code != http.StatusSeeOther {
			t.Fatalf("not accepted: %d %s", w.Code, w.Body)
		}
	}
	files, err := records.BookFiles(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if v, _ := files.Version("dishes/turkey-meatballs.yaml"); v.Number != 2 || !strings.Contains(v.Text, "loses: {water: 14.2 %, fat: 2 %}") || !strings.Contains(v.Text, "# Invented demo data") {
		t.Errorf("version %d of the file:\n%s", v.Number, v.Text)
	}
	page = strings.ReplaceAll(get(h, lessonURL).Body.String(), "\u00a0", " ")
	if !strings.Contains(page, "Ada accepted: 14.2 % in place of 12 %, from 5 runs") || strings.Contains(page, `action="/workshop/learned/accept"`) {
		t.Error("after accepting it is not said, or asked again")
	}
}

// What is refused is not asked again; a book in a folder is not written, and the page says what to write.
func TestLearnRefusedAndInAFolder(t *testing.T) {
	h, _ := fourTuesdays(t, false)
	page := get(h, lessonURL).Body.String()
	if w := post(h, "/workshop/learned/refuse", formOn(t, page, "/workshop/learned/refuse")); w.Code != http.StatusSeeOther {
		t.Fatalf("not refused: %d %s", w.Code, w.Body)
	}
	if again := get(h, lessonURL).Body.String(); !strings.Contains(again, "refused; asked again after the next run") || strings.Contains(again, `action="/workshop/learned/refuse"`) {
		t.Error("it is asked again")
	}
	h, _ = fourTuesdays(t, false)
	yes := formOn(t, get(h, lessonURL).Body.String(), "/workshop/learned/accept")
	stale := url.Values{"entry": {newEntryID()}, "figure": {bakeWater}, "after": {"99 %"}}
	if w := post(h, "/workshop/learned/accept", stale); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "something was entered meanwhile") {
		t.Errorf("another proposal than there is: %d", w.Code)
	}
	if w := post(h, "/workshop/learned/accept", yes); w.Code != http.StatusSeeOther {
		t.Fatalf("not accepted: %d %s", w.Code, w.Body)
	}
	if waits := get(h, lessonURL).Body.String(); !strings.Contains(waits, "What is to be written") || !strings.Contains(waits, "--accept --write") {
		t.Error("it is not said what to write")
	}
	if list := get(h, learnedPath).Body.String(); !strings.Contains(list, "to be written into the book’s files") {
		t.Error("the list does not say that it waits")
	}
}

func TestLearnAnswers(t *testing.T) {
	h, _ := fourTuesdays(t, true)
	var report app.LearnedReport
	if err := json.Unmarshal(get(h, "/workshop/learned.json?dish=turkey-meatballs").Body.Bytes(), &report); err != nil || report.Schema != app.LearnedSchema || len(report.Runs) != 6 || len(report.Figures) < 15 {
		t.Errorf("%v: %d runs, %d figures", err, len(report.Runs), len(report.Figures))
	}
	for target, want := range map[string]int{lessonPath + "?figure=dishes/no/steps/such/time": 404, lessonPath: 404, "/workshop/learned/chart/lesson.svg?figure=" + url.QueryEscape(bakeWater): 200,
		"/workshop/learned/chart/lesson.narrow.dark.svg?figure=" + url.QueryEscape(bakeWater): 200, "/workshop/learned/chart/lesson.svg?figure=x": 404, "/workshop/learned/chart/other.svg": 404} {
		if w := get(h, target); w.Code != want || strings.Contains(w.Body.String(), "NaN") {
			t.Errorf("%s: %d, want %d", target, w.Code, want)
		}
	}
	none := demoKitchen(t)
	if w := get(none, learnedPath); w.Code != 200 || !strings.Contains(w.Body.String(), "No records are kept here") {
		t.Errorf("without records: %d", w.Code)
	}
	for _, target := range []string{lessonURL, "/workshop/learned/chart/lesson.svg"} {
		if w := get(none, target); w.Code != 404 {
			t.Errorf("%s without records: %d", target, w.Code)
		}
	}
	if w := get(none, "/workshop/learned.json"); w.Code != 409 {
		t.Errorf("JSON without records: %d", w.Code)
	}
}

func TestLearnPagesEmptyAndFull(t *testing.T) {
	rendered(t, "learned", learnedTemplate, func(p *learnedPage) { p.None = false })
	rendered(t, "lesson", lessonTemplate, func(p *lessonPage) { p.Kept = false }, func(p *lessonPage) { p.Proposed, p.Waiting = false, false }, func(p *lessonPage) {
		for i := range p.Runs {
			p.Runs[i].LeftOut = ""
		}
	})
}

package web

import (
	"encoding/json"
	"io/fs"
	"net/http"
	"net/url"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

func TestKeepPagesEmptyAndFull(t *testing.T) {
	rendered(t, "keepretained", retainedTemplate, func(p *retainedPage) { p.None = false })
	rendered(t, "keepset", keepTemplate)
	rendered(t, "keeptaste", keptTasteTemplate)
	rendered(t, "keepbest", keepingTemplate, func(p *keepingPage) { p.None = false })
	rendered(t, "keepbestone", bestTemplate)
}

// keptKitchen is the demo kitchen, its book in the records, on 2 December: 20 bean pots packed on 4 November, of which two are kept for tasting,
// one to be opened two days ago; five are ordered by a customer with a hostile name.
func keptKitchen(t testing.TB) (http.Handler, *app.Records) {
	t.Helper()
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), coldNoon)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	if _, err := records.ImportBook(t.Context(), demo.Book(), app.Author{Who: "Ada", Device: "test", At: coldNoon()}); err != nil {
		t.Fatal(err)
	}
	house, err := app.New(records.Book(), coldNoon)
	if err != nil {
		t.Fatal(err)
	}
	for i, b := range []record.Body{
		record.Packed{Run: "tue", Pack: "bean-pot-2lb", Lot: "P-1", Numbers: numbersOf(t, "1-20"), Label: 2 * unit.Pound, Mass: 40 * unit.Pound, From: []record.Part{{Lot: "M-1", Mass: unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest-1/bottom"},
		record.SetAside{Run: "tue", Pack: "bean-pot-2lb", Lot: "P-1", Numbers: numbersOf(t, "19-20"), Open: []record.Day{"2026-11-30", "2027-01-06"}, Why: "<b>to see</b>"},
		record.Customer{Customer: "evil", Name: `<evil a="b">`},
		record.Ordered{Order: "O-1", Customer: "evil", Lines: []record.OrderLine{{Pack: "bean-pot-2lb", Count: 5}}, Due: "2026-12-04", Way: record.Collect},
	} {
		if _, err := records.Enter(t.Context(), app.Said{Who: "Ada", Device: "test", At: time.Date(2026, 11, 4, 12, i, 0, 0, time.UTC), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return New(house, Options{Records: records}), records
}

// What is due stands on the first page, on the page of the day and among what is kept; it leads to the form of that pack.
func TestWhatIsToBeOpenedIsTold(t *testing.T) {
	h, _ := keptKitchen(t)
	inOrder(t, get(h, "/").Body.String(), "Open and taste", "pack 19 of ", "since 2026-11-30")
	inOrder(t, get(h, "/workshop/retained").Body.String(), "To be opened now", "pack 19", "2 days", "late", `href="/workshop/retained/taste?code=P-1%2319"`, "Later", "2027-01-06", "pack 20", "&lt;b&gt;to see&lt;/b&gt;", "Give them back", "No pack was opened so far")
	inOrder(t, get(h, "/stock").Body.String(), "kept for tasting", "Best before", "later than is supported")
	inOrder(t, get(h, "/lot?lot=P-1").Body.String(), "5 packs to &lt;evil", "Keep some for tasting")
	inOrder(t, get(h, "/run/kettle/day").Body.String(), "Open and taste", "Open pack 19 of ", "since 2026-11-30, 2 days", "Who does what when")
	opened := post(h, "/board", url.Values{"run": {"kettle"}, "day": {"2026-12-02"}, "entry": {newEntryID()}})
	inOrder(t, get(h, opened.Header().Get("Location")).Body.String(), "1 to open and taste", "Open pack 19 of ")
	if page := get(h, "/lot?lot=P-1").Body.String(); strings.Contains(page, "<evil") {
		t.Error("a hostile name is not escaped")
	}
}

// Bad input is shown again with everything typed, beside its field; what is right is entered once, and the proposal follows.
func TestTastingAPack(t *testing.T) {
	h, records := keptKitchen(t)
	const page = "/workshop/retained/taste?code=P-1%2319"
	inOrder(t, get(h, page).Body.String(), "Open and taste", "4 weeks ago", `value="P-1#19"`, "How has it kept?", "Good", "Fading", "Bad", "never about safety")
	w := fillIn(t, h, page, "/workshop/retained/taste", url.Values{"code": {"P-1#19"}, "drip": {"12"}, "note": {`"<weeps>"`}, "verdict": {"good"}})
	if w.Code != http.StatusUnprocessableEntity {
		t.Fatal(w.Code)
	}
	inOrder(t, w.Body.String(), `value="P-1#19"`, `value="good" checked`, `value="12"`, `value="&#34;&lt;weeps&gt;&#34;"`)
	if !strings.Contains(w.Body.String(), "and the pack is not") {
		t.Error("nothing is said beside the field")
	}
	form := url.Values{"code": {"P-1#19"}, "whole": {"2 lb"}, "drip": {"12"}, "verdict": {"fading"}, "score-texture": {"6"}, "entry": {newEntryID()}}
	first := post(h, "/workshop/retained/taste", form)
	again := post(h, "/workshop/retained/taste", form)
	if first.Code != http.StatusSeeOther || again.Code != http.StatusSeeOther {
		t.Fatal(first.Code, again.Code, first.Body)
	}
	v, err := records.Retained(t.Context(), "2026-12-02", "")
	if err != nil || len(v.Tasted) != 1 || len(v.Due) != 0 {
		t.Fatalf("%+v %v", v, err)
	}
	best := get(h, first.Header().Get("Location")).Body.String()
	inOrder(t, best, "Entered:", "0 weeks", "your own packs do not keep so long as the book says", "13 weeks", "after 4 weeks one was fading", "In stock", "P-1", "2027-06-01", "209 days", "over", "18 packs", "and 1 kept for tasting", "Hold some?", "4 weeks", "fading", "12.0 g ran out (1.3 %)", "texture 6")
	if strings.Contains(best, "into the book</button>") {
		t.Error("no weeks at all can be written into the book")
	}
}

// A proposal that is taken over stands in the book's own file, and the next filling takes its day from it.
func TestTakingAProposalOver(t *testing.T) {
	h, records := keptKitchen(t)
	inOrder(t, get(h, "/workshop/keeping").Body.String(), "never about safety", "bean", "13 weeks", "8 weeks", "what is published alone", "18 packs say more")
	const page = "/workshop/keeping/pack?pack=bean-pot-2lb"
	inOrder(t, get(h, page).Body.String(), "Supported", "8 weeks", "Held back by:", "2 to 3 months", "Source:", "The next pack is to be opened on 2026-11-30", "to 13 weeks at most", "nobody here has opened a pack", "Write 8 weeks into the book", "this one limits", "2026-12-30", "5 packs to &lt;evil", "What is published", "shown, never counted")
	for _, weeks := range []string{"", "26", "9"} {
		if w := fillIn(t, h, page, "/workshop/keeping/pack", url.Values{"pack": {"bean-pot-2lb"}, "weeks": {weeks}}); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%q weeks: %d", weeks, w.Code)
		}
	}
	w := fillIn(t, h, page, "/workshop/keeping/pack", url.Values{"pack": {"bean-pot-2lb"}, "weeks": {"8"}})
	inOrder(t, w.Body.String(), "as the book says", "The book says", "8 weeks", "soups and stews")
	files, err := records.BookFiles(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	text, err := fs.ReadFile(files, "dishes/bean-pot.yaml")
	if err != nil || !strings.Contains(string(text), "weeks: 8") || strings.Contains(string(text), "weeks: 13") {
		t.Errorf("%v\n%s", err, text)
	}
	inOrder(t, get(h, page+"&as=cooked-fish").Body.String(), "17 weeks", "more is supported than the book says")
}

// A book that is a folder is not written: what to change in its file is shown.
func TestAProposalForABookInAFolder(t *testing.T) {
	h, _ := larder(t, beans(t)...)
	w := fillIn(t, h, "/workshop/keeping/pack?pack=bean-pot-2lb", "/workshop/keeping/pack", url.Values{"pack": {"bean-pot-2lb"}, "weeks": {"8"}})
	if w.Code != http.StatusOK {
		t.Fatal(w.Code, w.Body)
	}
	inOrder(t, w.Body.String(), "To be written into the book", "dishes/bean-pot.yaml", "weeks: 13", "weeks: 8")
}

func TestKeepingPacksOfALot(t *testing.T) {
	h, records := keptKitchen(t)
	w := fillIn(t, h, "/workshop/retained/keep?code=P-1", "/workshop/retained/keep", url.Values{"code": {"P-1"}, "which": {"19-20"}, "open": {"8"}})
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "is kept already") || !strings.Contains(w.Body.String(), `value="19-20"`) {
		t.Fatal(w.Code, w.Body)
	}
	if w := fillIn(t, h, "/workshop/retained/keep", "/workshop/retained/keep", url.Values{"code": {"P-9"}, "which": {"19-20"}, "open": {"8"}}); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "No entry names a lot") {
		t.Fatal(w.Code, w.Body)
	}
	w = fillIn(t, h, "/workshop/retained/keep?code=P-1", "/workshop/retained/keep", url.Values{"code": {"P-1"}, "which": {"17-18"}, "open": {"8, 13"}, "place": {"chest-2"}})
	inOrder(t, w.Body.String(), "Entered:", "kept for tasting", "2026-12-30", "pack 17", "2027-02-03", "pack 18")
	v, err := records.Retained(t.Context(), "2026-12-02", "")
	if err != nil || len(v.Ahead) != 3 {
		t.Fatalf("%+v %v", v.Ahead, err)
	}
	set := v.Ahead[0].Set.Entry.String()
	w = fillIn(t, h, "/workshop/retained", "/workshop/retained/give-back", url.Values{"set": {set}})
	if v, err = records.Retained(t.Context(), "2026-12-02", ""); err != nil || len(v.Ahead) != 1 {
		t.Fatalf("%d %+v %v", w.Code, v.Ahead, err)
	}
}

// The form of a filling keeps its last packs for tasting, together with the filling or not at all.
func TestKeepingSomeOfAFilling(t *testing.T) {
	d := openedDay(t)
	fill := d.task(t, "/fill/")
	pack, _, _ := strings.Cut(fill.Task, "/")
	form := url.Values{"what": {"pack"}, "form": {"Packs that were filled"}, "task": {fill.Task}, "pack": {pack}, "lot": {"P-1"}, "numbers": {"1-20"}, "mass": {"41 lb"}, "best-before": {"2027-03-02"}, "from-typed-1": {"M-1"}, "from-mass-1": {"20 lb"}, "sure": {"1"}}
	for _, c := range []struct{ count, open, field string }{{"x", "4", "keep-count"}, {"21", "4", "keep-count"}, {"2", "soon", "keep-open"}, {"2", "", "keep-open"}} {
		form.Set("keep-count", c.count)
		form.Set("keep-open", c.open)
		form.Set("entry", newEntryID())
		if _, a := d.fromDevice(form); a.State != "refused" || a.Bad[c.field] == "" {
			t.Errorf("%+v: %+v", c, a)
		}
	}
	form.Set("keep-count", "2")
	form.Set("keep-open", "4, 8")
	form.Set("entry", newEntryID())
	if _, a := d.fromDevice(form); a.State != "taken" {
		t.Fatalf("%+v", a)
	}
	v, err := d.records.Retained(t.Context(), "2026-12-01", "")
	if err != nil || len(v.Ahead) != 2 || v.Ahead[0].Which.String() != "19" || v.Ahead[0].Day != "2026-12-29" || v.Ahead[1].Day != "2027-01-26" {
		t.Fatalf("%+v %v", v, err)
	}
	form.Set("lot", "P-2")
	form.Set("best-before", "2027-06-01")
	form.Del("sure")
	form.Set("entry", newEntryID())
	if _, a := d.fromDevice(form); a.State != "asks" || !strings.Contains(a.Why, "by the book it keeps 13 weeks, until 2027-03-02") {
		t.Errorf("%+v", a)
	}
}

func TestKeptPacksAsJSON(t *testing.T) {
	h, _ := keptKitchen(t)
	var kept app.RetainedSheet
	if err := json.Unmarshal(get(h, "/workshop/retained.json").Body.Bytes(), &kept); err != nil || kept.Schema != app.RetainedSchema || len(kept.Due) != 1 {
		t.Errorf("%+v %v", kept, err)
	}
	var best app.KeepingSheet
	if err := json.Unmarshal(get(h, "/workshop/keeping.json?pack=bean-pot-2lb").Body.Bytes(), &best); err != nil || len(best.Packs) != 1 || best.Packs[0].Proposal.Weeks != 8 {
		t.Errorf("%+v %v", best, err)
	}
	none := New(&shelf{now: coldNoon()}, Options{})
	for _, page := range []string{"/workshop/retained", "/workshop/keeping", "/workshop/keeping/pack?pack=x"} {
		inOrder(t, get(none, page).Body.String(), "No records are kept here")
	}
	for _, page := range []string{"/workshop/retained.json", "/workshop/keeping.json"} {
		if w := get(none, page); w.Code != http.StatusConflict {
			t.Errorf("%s: %d", page, w.Code)
		}
	}
	if w := get(h, "/workshop/keeping/pack?pack=%3Cscript%3E"); w.Code != http.StatusNotFound || strings.Contains(w.Body.String(), "<script>alert") {
		t.Error(w.Code)
	}
}

package web

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// recallVariants are pages whose parts exclude each other.
var recallVariants = []func(*recallPage){
	func(p *recallPage) { p.None = false },
	func(p *recallPage) { p.None, p.Drill = false, over(p.Drill) },
	func(p *recallPage) { p.None, p.Hold.Count = false, "" },
	func(p *recallPage) { p.None, p.Report = false, nil },
}

func over(d *runningDrill) *runningDrill {
	c := *d
	c.Over = nil
	return &c
}

// mockRecall is the case of 240 packs, of which 238 are accounted for, with hostile names: see package lots for where it comes from.
func mockRecall(t testing.TB, more ...record.Body) []record.Body {
	return append([]record.Body{
		record.Customer{Customer: "hall", Name: `Town "Hall" <Canteen>`, Address: "2 High St\nTown", Phone: "+1 (555) 0102", Mail: "eat@hall.example"},
		record.Received{Lot: "R-beef", Ingredient: "beef", Supplier: "Green Valley Farm", SupplierLot: "GV 77/3", Mass: 60 * unit.Kilogram, Place: "walk-in"},
		record.Used{Run: "tue", Dish: "stew", Lot: "R-beef", Mass: 60 * unit.Kilogram},
		record.Made{Run: "tue", Dish: "stew", Output: "stew", Lot: "M-stew", Mass: 120 * unit.Kilogram},
		record.Packed{Run: "tue", Pack: "stew-500", Lot: "P-stew", Numbers: numbersOf(t, "1-240"), Label: 500 * unit.Gram, Mass: 120 * unit.Kilogram, From: []record.Part{{Lot: "M-stew", Mass: 120 * unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest-1"},
		record.HandedOver{Order: "O-1", Customer: "cafe", Lot: "P-stew", Numbers: numbersOf(t, "201-232"), Address: "the pier", TakenBy: "Kim"},
		record.HandedOver{Order: "O-2", Customer: "hall", Lot: "P-stew", Numbers: numbersOf(t, "101-200")},
		record.WrittenOff{Lot: "P-stew", Numbers: numbersOf(t, "233-238"), Why: "samples"},
		record.Counted{Lot: "P-stew", Place: "chest-1", Numbers: numbersOf(t, "1-100")},
	}, more...)
}

// pagesOf are the pages of a kitchen with these records.
func pagesOf(t testing.TB, bodies ...record.Body) http.Handler {
	return New(&shelf{now: someDay().Add(48 * time.Hour)}, Options{Records: recordsOf(t, bodies...)})
}

// send sends a form as Ada would.
func send(h http.Handler, target string, form url.Values) *httptest.ResponseRecorder {
	form.Set("who", "Ada")
	r := httptest.NewRequest(http.MethodPost, target, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	r.Host = "localhost"
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestRecallsAreAskedAsCallsComeIn(t *testing.T) {
	h := pagesOf(t, mockRecall(t, record.Received{Lot: "R-beef-2", Ingredient: "beef", Supplier: "Green Valley Farm", Mass: unit.Kilogram})...)
	for _, c := range []struct {
		target string
		status int
		has    []string
	}{
		{"/recall", 200, []string{"What you have in your hands", "What a supplier says", "Their lot number", `href="/recall/drills"`}},
		{"/recall?lot=R-beef", 200, []string{"99.17 %", "238 of 240 packs", "NOT EVERY PACK IS ACCOUNTED FOR", "no place is known of no. 239-240", `href="tel:&#43;15550102"`, "Town &#34;Hall&#34; &lt;Canteen&gt;", "2 High St, Town", "the pier", "taken by Kim", "Hold 1 lot: all", "NOT FOUND", "written off", `src="/recall/drawing/light?lot=R-beef"`}},
		{"/recall?supplier=green+valley&supplier-lot=gv77-3", 200, []string{"238 of 240", "CANNOT BE RULED OUT", "R-beef-2", `href="/recall?lot=R-beef%2C&#43;R-beef-2"`, "What does not fit", "were not found at chest-1"}},
		{"/recall?lot=p-stew/17", 200, []string{"238 of 240", "No. 17 of P-stew: on hand, chest-1."}},
		{"/recall?lot=P-stew/120,+R-beef", 200, []string{"238 of 240", "No. 120 of P-stew: handed over, Town &#34;Hall&#34; &lt;Canteen&gt;, "}},
		{"/recall?in-run=tue&sort=packed", 200, []string{"238 of 240"}},
		{"/recall?from=2020-01-01&until=2020-01-02", 404, []string{"No lot fits “everything, from 2020-01-01, until 2020-01-02”"}},
		{"/recall?from=1st&until=2020-01-02", 422, []string{"This is no day", `value="1st"`}},
		{"/recall?from=2020-01-03&until=2020-01-02", 422, []string{"before the first"}},
		{"/recall?lot=R-none", 404, []string{"No entry names a lot “R-none”"}},
		{"/recall/report?lot=R-beef", 200, []string{"Recall report", "Spoke to", `class="customer"`, "99.17 %"}},
		{"/recall/report?lot=R-none", 404, []string{"no entry names a lot"}},
		{"/recall/rule", 200, []string{"You may be exempt", "location where it was received", "lot code source, or a reference to it", "1.1305"}},
		{"/recall/rule/shipping.csv?lot=R-beef", 200, []string{"lot_code,quantity,product,to,at,date,code_source,document,missing,entry"}},
		{"/recall/rule/cooking.csv", 404, []string{"no such table"}},
		{"/recall.json?lot=R-none", 404, []string{"no entry names"}},
		{"/recall.json?from=x", 422, []string{`"field": "from"`}},
		{"/recall/drawing/light?lot=R-beef&units=metric", 200, []string{"<svg", "received: beef, R-beef, 60 kg, asked for"}},
		{"/lot?lot=P-stew", 200, []string{"packs 1-240", "Its story", "handed over 32 packs", "Handed over", "0.83 % of what came", "One step back and on", "Nothing, by the records."}},
		{"/lot?lot=p+stew/7", 200, []string{"Lot P-stew"}},
		{"/lot?lot=P-stew+7", 404, []string{"Look up a lot", "write P-stew#7 for pack 7 of lot P-stew"}},
		{"/lot.json?lot=P-stew+7", 404, []string{"write P-stew#7"}},
		{"/recall?lot=P-stew+7", 404, []string{"write P-stew#7 for pack 7 of lot P-stew"}},
		{"/recall.json?lot=P-stew%23241", 404, []string{"lot P-stew has no pack 241: its packs are 1-240"}},
		{"/recall/rule?lot=P-stew+7", 404, []string{"write P-stew#7 for pack 7 of lot P-stew"}},
		{"/lot?lot=pot+of+stew+in+tue", 200, []string{"boiled away, stretched with water"}},
		{"/lot?lot=R-none", 404, []string{"No entry names a lot “R-none”"}},
		{"/lot/drawing/dark?lot=P-stew&steps=1", 200, []string{"<svg", "M-stew into P-stew"}},
		{"/lot.json?lot=P-stew", 200, []string{`"schema": "kettlefrost.trace/1"`}},
		{"/lot.json?lot=R-none", 404, []string{"no entry names"}},
		{"/recall/drills", 200, []string{"None so far", "NC State Extension", "start the clock"}},
	} {
		w := get(h, c.target)
		if w.Code != c.status {
			t.Errorf("%s: status %d, want %d", c.target, w.Code, c.status)
		}
		for _, want := range c.has {
			if !strings.Contains(w.Body.String(), want) {
				t.Errorf("%s does not have %q", c.target, want)
			}
		}
	}
	if body := get(h, "/lot/drawing/light?lot=P-stew&steps=1").Body.String(); strings.Contains(body, "R-beef") {
		t.Error("one step goes further")
	}
	for _, target := range []string{"/recall?lot=R-beef", "/lot?lot=P-stew", "/recall/drills", "/recall/rule"} {
		if w := get(New(&shelf{now: monthBefore()}, Options{}), target); w.Code != 200 || !strings.Contains(w.Body.String(), "No records are kept here") {
			t.Errorf("%s without records: %d", target, w.Code)
		}
	}
}

// The call list as a file, and everything as data, say what the page says.
func TestRecallsAsFiles(t *testing.T) {
	h := pagesOf(t, mockRecall(t)...)
	w := get(h, "/recall.csv?lot=R-beef")
	rows, err := csv.NewReader(bytes.NewReader(w.Body.Bytes())).ReadAll()
	if err != nil || len(rows) != 3 || rows[1][0] != "cafe" || rows[2][1] != `Town "Hall" <Canteen>` || rows[2][4] != "2 High St\nTown" || rows[2][2] != "'+1 (555) 0102" || !bytes.Contains(w.Body.Bytes(), []byte("\r\n")) {
		t.Errorf("%q (%v)", rows, err)
	}
	var r lots.Report
	if err := json.Unmarshal(get(h, "/recall.json?lot=R-beef").Body.Bytes(), &r); err != nil || r.Account.Made != 240 || r.Account.Found != 238 || len(r.Calls) != 2 || r.Asked != "R-beef" {
		t.Errorf("%+v (%v)", r, err)
	}
}

var entryID = regexp.MustCompile(`name="entry" value="([0-9a-f]+)"`)

// drawnID is the id of the nth form on a page.
func drawnID(t *testing.T, page string, n int) string {
	t.Helper()
	all := entryID.FindAllStringSubmatch(page, -1)
	if len(all) <= n {
		t.Fatalf("%d forms on the page", len(all))
	}
	return all[n][1]
}

// One button holds every lot on hand that a recall reaches; what was held already stays as it is, and sent twice it is held once.
func TestOneButtonHoldsAll(t *testing.T) {
	h := pagesOf(t, mockRecall(t, record.Received{Lot: "R-beef-2", Ingredient: "beef", Supplier: "Green Valley Farm", SupplierLot: "GV-77-3", Mass: unit.Kilogram, Place: "walk-in"},
		record.Made{Run: "tue", Dish: "stew", Output: "rest", Lot: "M-rest", Mass: unit.Kilogram, Place: "walk-in"}, record.Held{Lot: "M-rest", Why: "smells"})...)
	const target = "/recall?supplier-lot=gv773"
	page := get(h, target).Body.String()
	if !strings.Contains(page, "Hold 2 lots: all") || !strings.Contains(page, "held: smells") {
		t.Fatal("what has to be held, and what is, does not stand on the page")
	}
	form := url.Values{"entry": {drawnID(t, page, 0)}, "supplier-lot": {"gv773"}, "why": {""}}
	for range 2 {
		if w := send(h, "/recall/hold", form); w.Code != http.StatusSeeOther || !strings.HasPrefix(w.Header().Get("Location"), "/recall?") {
			t.Fatalf("%d %s %s", w.Code, w.Header().Get("Location"), w.Body)
		}
	}
	page = get(h, target).Body.String()
	for _, want := range []string{"All that is on hand is held", "recall: their lot gv773", "held: smells"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not have %q", want)
		}
	}
	if page := get(h, "/lot?lot=M-rest").Body.String(); strings.Count(page, "smells") != 3 || strings.Contains(page, "recall: their") {
		t.Error("what was held is held again")
	}
	if w := send(h, "/recall/hold", url.Values{"entry": {newEntryID()}}); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("nothing said: %d", w.Code)
	}
	// a named person decides
	if w := send(h, "/lot/release", url.Values{"entry": {newEntryID()}, "lot": {"M-rest"}, "disposition": {"release"}, "why": {"tasted"}}); w.Code != http.StatusSeeOther {
		t.Errorf("%d %s", w.Code, w.Body)
	}
	if page := get(h, "/lot?lot=M-rest").Body.String(); strings.Contains(page, "HELD</strong>") {
		t.Error("it is still held")
	}
	if w := send(h, "/lot/release", url.Values{"entry": {newEntryID()}, "lot": {"M-rest"}, "disposition": {"eat"}, "why": {"tasted"}}); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("no such decision: %d", w.Code)
	}
}

// A drill is begun, runs by the clock, is ended with what it came to, and stands in the list; the worked recall fails.
func TestADrill(t *testing.T) {
	house := &shelf{now: someDay().Add(48 * time.Hour)}
	h := New(house, Options{Records: recordsOf(t, mockRecall(t)...)})
	begin := url.Values{"entry": {drawnID(t, get(h, "/recall/drills").Body.String(), 0)}, "supplier": {"green"}, "supplier-lot": {"gv 77 3"}, "practice": {"yes"}}
	w := send(h, "/recall/drills", begin)
	at := w.Header().Get("Location")
	if w.Code != http.StatusSeeOther || !strings.Contains(at, "drill="+begin.Get("entry")) {
		t.Fatalf("%d %s %s", w.Code, at, w.Body)
	}
	house.now = house.now.Add(95 * time.Minute)
	page := get(h, at).Body.String()
	if !strings.Contains(page, "1 h 35 min") || !strings.Contains(page, "End it with what stands below") {
		t.Error("the clock does not run")
	}
	end := url.Values{"entry": {drawnID(t, page, 1)}, "supplier": {"green"}, "supplier-lot": {"gv 77 3"}, "drill": begin["entry"], "note": {"two packs\nnot found"}}
	if w := send(h, "/recall/drills/end", end); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if w := send(h, "/recall/drills/end", url.Values{"entry": {newEntryID()}, "lot": {"R-beef"}, "drill": begin["entry"]}); w.Code != http.StatusConflict {
		t.Errorf("ended twice: %d", w.Code)
	}
	page = get(h, "/recall/drills").Body.String()
	for _, want := range []string{"FAILED", "238 of 240 packs found, 99.17 %", "1 h 35 min", "practice", "two packs", "supplier green, their lot gv 77 3"} {
		if !strings.Contains(page, want) {
			t.Errorf("the list does not have %q", want)
		}
	}
	if page := get(h, at).Body.String(); strings.Contains(page, "End it with") || !strings.Contains(page, "FAILED") {
		t.Error("the page of a recall that has ended does not say how")
	}
	if page := get(h, strings.Replace(at, "/recall?", "/recall/report?", 1)).Body.String(); !strings.Contains(page, "FAILED") || !strings.Contains(page, "took 1 h 35 min") {
		t.Error("the report does not say how the recall came out")
	}
	for says, form := range map[string]url.Values{"Say which lots": {}, "No entry names a lot": {"lot": {"R-none"}}, "No lot fits": {"supplier": {"elsewhere"}}} {
		form.Set("entry", newEntryID())
		if w := send(h, "/recall/drills", form); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), says) {
			t.Errorf("%q: %d", says, w.Code)
		}
	}
}

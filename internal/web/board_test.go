package web

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// boardDay is the demo kitchen on a day of its own, whose clock is set by hand.
type boardDay struct {
	http.Handler
	t       testing.TB
	records *app.Records
	clock   atomic.Int64
}

const boardRun = "kettle-2026-12-01"

func (d *boardDay) now() time.Time { return time.UnixMilli(d.clock.Load()).UTC() }

func (d *boardDay) at(clock string) {
	d.t.Helper()
	at, err := time.Parse("2006-01-02 15:04", "2026-12-01 "+clock)
	if err != nil {
		d.t.Fatal(err)
	}
	d.clock.Store(at.UnixMilli())
}

// openedDay opens the production in which the kettle is filled once.
func openedDay(t testing.TB) *boardDay {
	t.Helper()
	d := &boardDay{t: t}
	d.at("06:00")
	house, err := app.New(demo.Book(), d.now)
	if err != nil {
		t.Fatal(err)
	}
	if d.records, err = app.OpenRecords(context.Background(), filepath.Join(t.TempDir(), "kitchen.records"), d.now); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.records.Close() })
	d.Handler = New(house, Options{Records: d.records})
	w := post(d, "/board", url.Values{"run": {"kettle"}, "day": {"2026-12-01"}, "entry": {newEntryID()}})
	if w.Code != http.StatusSeeOther || !strings.HasPrefix(w.Header().Get("Location"), "/board/"+boardRun) {
		t.Fatalf("not opened: %d %s %s", w.Code, w.Header().Get("Location"), w.Body)
	}
	return d
}

func (d *boardDay) report(t testing.TB) app.Report {
	t.Helper()
	var r app.Report
	if err := json.Unmarshal(get(d, "/board/"+boardRun+"/board.json").Body.Bytes(), &r); err != nil {
		t.Fatal(err)
	}
	return r
}

// first is what can be done first.
func (d *boardDay) first(t testing.TB) app.ReportTask {
	t.Helper()
	for _, c := range d.report(t).Columns {
		for _, x := range append(c.Now, c.Next...) {
			return x
		}
	}
	t.Fatal("nothing to do")
	return app.ReportTask{}
}

func (d *boardDay) send(form url.Values) *httptest.ResponseRecorder {
	if !form.Has("entry") {
		form.Set("entry", newEntryID())
	}
	return post(d, "/board/"+boardRun, form)
}

// fromDevice sends a form as a device's queue does.
func (d *boardDay) fromDevice(form url.Values) (int, boardAnswer) {
	r := httptest.NewRequest(http.MethodPost, "/board/"+boardRun, strings.NewReader(form.Encode()))
	r.Host = "localhost:8090"
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Accept", "application/json")
	r.AddCookie(&http.Cookie{Name: whoCookie, Value: "Nora"})
	w := httptest.NewRecorder()
	d.ServeHTTP(w, r)
	var a boardAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
		d.t.Fatalf("%d %s", w.Code, w.Body)
	}
	return w.Code, a
}

func (d *boardDay) entries(t testing.TB) []record.Entry {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), time.Second)
	defer cancel()
	head, err := d.records.Verify(ctx)
	if err != nil {
		t.Fatal(err)
	}
	var all []record.Entry
	for e, err := range d.records.Follow(ctx, 0) {
		if err != nil {
			t.Fatal(err)
		}
		if all = append(all, e); e.Seq == head.Seq {
			break
		}
	}
	return all
}

// One touch starts, one finishes; the board says what is under way and what is done, and the last touch can be taken back.
func TestOneTouch(t *testing.T) {
	d := openedDay(t)
	first := d.first(t)
	d.at(first.Start.String())
	page := get(d, "/board/"+boardRun+"?person=").Body.String()
	inOrder(t, page, `id="board"`, "Everybody", "Nora", "Do now", `name="what" value="start"`, "Start")
	if w := d.send(url.Values{"what": {"start"}, "task": {first.Task}}); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	page = get(d, "/board/"+boardRun+"?person=").Body.String()
	inOrder(t, page, "Under way", strings.Fields(first.Label)[0], "left", "at it: <b>Ada</b>", `value="finish"`)
	d.clock.Add(int64(first.End-first.Start) * 60_000)
	page = get(d, "/board/"+boardRun+"?person=").Body.String()
	inOrder(t, page, `class="job due"`, "time is up")
	if w := d.send(url.Values{"what": {"finish"}, "task": {first.Task}}); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	over := d.report(t).Over
	if len(over) != 1 || over[0].Task != first.Task || over[0].Start != first.Start || over[0].End != first.End {
		t.Fatalf("over: %+v", over)
	}
	all := d.entries(t)
	if w := d.send(url.Values{"what": {"undo"}, "wrong": {all[len(all)-1].ID.String()}}); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if over := d.report(t).Over; len(over) != 0 {
		t.Errorf("taken back, and over: %+v", over)
	}
}

// task finds a task of the plan by the end of its key.
func (d *boardDay) task(t testing.TB, kind string) app.ReportTask {
	t.Helper()
	for _, c := range d.report(t).Columns {
		for _, x := range append(append(c.Now, c.Next...), c.Waiting...) {
			if strings.Contains(x.Task, kind) {
				return x
			}
		}
	}
	t.Fatalf("no task with %q", kind)
	return app.ReportTask{}
}

// What is typed cannot be read, is odd, or is right: the first is shown again with all that was typed, the second is asked about, the third is
// entered; the odd one can be entered all the same.
func TestWhatIsTypedOnTheBoard(t *testing.T) {
	d := openedDay(t)
	key := d.first(t).Task
	dish, step, _ := strings.Cut(key, "/")
	step, _, _ = strings.Cut(step, "/")
	base := url.Values{"task": {key}, "dish": {dish}, "step": {step}}
	with := func(pairs ...string) url.Values {
		form := url.Values{}
		for k, v := range base {
			form[k] = v
		}
		for i := 0; i < len(pairs); i += 2 {
			form.Set(pairs[i], pairs[i+1])
		}
		return form
	}
	for _, c := range []struct {
		name   string
		form   url.Values
		status int
		state  string
		says   string
	}{
		{"a temperature", with("what", "measure", "temp", "165"), 200, "taken", ""},
		{"a temperature in Celsius", with("what", "measure", "temp", "74 °C"), 200, "taken", ""},
		{"no temperature", with("what", "measure", "temp", "warm"), 422, "refused", "warm"},
		{"an odd temperature", with("what", "measure", "temp", "400"), 422, "asks", "Is it right?"},
		{"a weight of nothing", with("what", "weigh", "output", "x", "gross", ""), 422, "refused", "Write what it weighs"},
		{"less than its vessel", with("what", "weigh", "output", "x", "gross", "2", "tare", "3"), 422, "refused", "empty vessel"},
		{"skipped without a reason", with("what", "skip"), 422, "refused", "why"},
		{"a lot that nobody knows", with("what", "use", "lot-typed", "R-1", "mass", "2 lb 3 oz"), 422, "asks", "No lot R-1 is known"},
		{"thrown away", with("what", "waste", "mass", "300 g", "why", "burnt"), 200, "taken", ""},
		{"nothing known", with("what", "dance"), 400, "refused", "not said"},
		{"in the future", with("what", "start", "when", "23:00"), 422, "refused", "still to come"},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.form.Set("entry", newEntryID())
			before := len(d.entries(t))
			status, a := d.fromDevice(c.form)
			if status != c.status || a.State != c.state || !strings.Contains(a.Why, c.says) {
				t.Fatalf("%d %+v", status, a)
			}
			if got := len(d.entries(t)) - before; got != map[string]int{"taken": 1}[c.state] {
				t.Fatalf("%d entries more", got)
			}
			if c.state == "taken" || c.status == 400 {
				return
			}
			w := d.send(c.form) // without the script
			if w.Code != 422 || !strings.Contains(w.Body.String(), "<main") || !strings.Contains(w.Body.String(), dish) {
				t.Errorf("%d %s", w.Code, w.Body)
			}
			if c.state == "asks" {
				inOrder(t, w.Body.String(), "Enter it as it is")
				c.form.Set("sure", "1")
				if status, a := d.fromDevice(c.form); status != 200 || a.State != "taken" {
					t.Errorf("although it is right: %d %+v", status, a)
				}
			}
		})
	}
}

// A form that is sent twice, because its answer was lost, is entered once, and happened when it was touched, whatever the device's clock says.
func TestAFormThatWaited(t *testing.T) {
	d := openedDay(t)
	key := d.first(t).Task
	d.at("09:00")
	form := url.Values{"what": {"start"}, "task": {key}, "entry": {newEntryID()}, "by": {"Sam"}, "touched_ms": {"1000"}, "sent_ms": {fmt.Sprint(1000 + 10*60_000)}} // ten minutes in the pocket
	for range 2 {
		if status, a := d.fromDevice(form); status != http.StatusOK || a.State != "taken" {
			t.Fatalf("%d %+v", status, a)
		}
		d.clock.Add(1500) // the second try comes later
	}
	all := d.entries(t)
	last := all[len(all)-1]
	if len(all) != 2 || last.Who != "Sam" || time.UnixMilli(int64(last.Happened)).UTC().Format("15:04") != "08:50" {
		t.Errorf("%d entries, the last by %s at %s", len(all), last.Who, time.UnixMilli(int64(last.Happened)).UTC())
	}
}

// A temperature that was typed wrongly is put right by a correction that keeps the time of what was entered first.
func TestCorrectingOnTheBoard(t *testing.T) {
	d := openedDay(t)
	key := d.first(t).Task
	d.at("08:00")
	if _, a := d.fromDevice(url.Values{"what": {"measure"}, "task": {key}, "temp": {"156"}, "entry": {newEntryID()}}); a.State != "taken" {
		t.Fatalf("%+v", a)
	}
	all := d.entries(t)
	wrong := all[len(all)-1].ID.String()
	d.at("08:30")
	page := get(d, "/board/"+boardRun+"/task?task="+url.QueryEscape(key)+"&correct="+wrong).Body.String()
	inOrder(t, page, "Correct: Enter a temperature", `name="corrects" value="`+wrong+`"`, `name="temp"`, "156", "Correct it")
	if _, a := d.fromDevice(url.Values{"what": {"measure"}, "task": {key}, "temp": {"165"}, "entry": {newEntryID()}, "corrects": {wrong}}); a.State != "taken" {
		t.Fatalf("%+v", a)
	}
	page = get(d, "/board/"+boardRun+"/task?task="+url.QueryEscape(key)).Body.String()
	_, told, _ := strings.Cut(page, "<h2>Entered</h2>")
	if inOrder(t, told, "08:00", "measured 165"); strings.Contains(told, "156") {
		t.Error("what was corrected still stands")
	}
}

// The lots on hand are offered oldest first with what speaks against them, a new lot gets a name that is free, and packs go on from the last.
func TestLotsOnTheBoard(t *testing.T) {
	d := openedDay(t)
	enter := func(b record.Body) {
		t.Helper()
		if _, err := d.records.Enter(t.Context(), app.Said{Who: "Ada", Device: "tablet", At: d.now(), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	fill := d.task(t, "/fill/")
	pack, _, _ := strings.Cut(fill.Task, "/")
	page := get(d, "/board/"+boardRun+"/task?task="+url.QueryEscape(fill.Task)).Body.String()
	inOrder(t, page, "Packs that were filled", `value="P-1201-1"`, `value="1-`, `value="2027-03-02"`, "13 weeks by the book: invented guess of the demo", "Kept for tasting", `value="4, 8, 13"`)
	enter(record.Packed{Run: "older", Pack: pack, Lot: "P-1201-1", Numbers: numbersOf(t, "1-40"), Label: 500 * unit.Gram, Mass: 20_200 * unit.Gram, From: []record.Part{{Lot: "M-1", Mass: 20_200 * unit.Gram}}, BestBefore: "2027-03-01"})
	page = get(d, "/board/"+boardRun+"/task?task="+url.QueryEscape(fill.Task)).Body.String()
	inOrder(t, page, `value="P-1201-2"`, `value="41-`, `value="2027-03-02"`, "13 weeks by the book")

	cook := d.first(t)
	page = get(d, "/board/"+boardRun+"/task?task="+url.QueryEscape(cook.Task)).Body.String()
	_, rest, there := strings.Cut(page, `name="of" value="`)
	if !there {
		t.Fatalf("%s uses no goods", cook.Task)
	}
	goods, _, _ := strings.Cut(rest, `"`)
	enter(record.Received{Lot: "R-new", Ingredient: goods, Supplier: "farm", Mass: 50 * unit.Kilogram, UseBy: "2026-12-09"})
	enter(record.Received{Lot: "R-old", Ingredient: goods, Supplier: "farm", Mass: 5 * unit.Kilogram, UseBy: "2026-12-05"})
	enter(record.Received{Lot: "R-past", Ingredient: goods, Supplier: "farm", Mass: 5 * unit.Kilogram, UseBy: "2026-11-05"})
	enter(record.Held{Lot: "R-new", Why: "a wet box"})
	page = get(d, "/board/"+boardRun+"/task?task="+url.QueryEscape(cook.Task)).Body.String()
	inOrder(t, page, "R-past", "PAST ITS DAY", "R-old", "R-new", "HELD", "none of these")
	for lot, says := range map[string]string{"R-past": "good until 2026-11-05", "R-new": "held: a wet box", "P-1201-1": "Nothing of lot P-1201-1 is on hand"} {
		_, a := d.fromDevice(url.Values{"what": {"use"}, "task": {cook.Task}, "dish": {"x"}, "of": {goods}, "lot": {lot}, "mass": {"1 kg"}, "entry": {newEntryID()}})
		if a.State != "asks" || !strings.Contains(a.Why, says) {
			t.Errorf("%s: %+v", lot, a)
		}
	}
}

// Without records, without a production, or with a hostile name, the pages say what is the matter.
func TestBoardsThatAreNotThere(t *testing.T) {
	page := get(New(&shelf{now: monthBefore()}, Options{}), "/board").Body.String()
	inOrder(t, page, "No records are kept here")
	d := openedDay(t)
	for target, says := range map[string]string{"/board/nothing": "No production is called", "/board/" + boardRun + "/task?task=%3Cscript%3E": "has no task", "/events?after=x": "/events?after=0"} {
		w := get(d, target)
		if w.Code < 400 || !strings.Contains(w.Body.String(), says) || strings.Contains(w.Body.String(), "<script>") {
			t.Errorf("%s: %d %s", target, w.Code, w.Body)
		}
	}
	if w := post(d, "/board", url.Values{"run": {"kettle"}, "day": {"someday"}, "entry": {newEntryID()}}); w.Code != 422 || !strings.Contains(w.Body.String(), "This is no day") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
	if w := post(d, "/board", url.Values{"run": {"kettle"}, "day": {"2026-12-01"}, "entry": {newEntryID()}}); w.Code != 422 || !strings.Contains(w.Body.String(), "open already") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}

// News of an entry goes out at once, and from where a stream was cut.
func TestEventsGoOut(t *testing.T) {
	d := openedDay(t)
	server := httptest.NewServer(d)
	defer server.Close()
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
	defer cancel()
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, server.URL+"/events?after=1", nil)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Accept-Encoding", "gzip")
	answer, err := server.Client().Do(r)
	if err != nil || answer.StatusCode != http.StatusOK || answer.Header.Get("Content-Type") != "text/event-stream" {
		t.Fatalf("%v %v", answer, err)
	}
	defer answer.Body.Close()
	if _, err := d.records.Enter(t.Context(), app.Said{Who: "Bo", Device: "tablet 2", At: d.now(), Body: record.Noted{Text: "hello"}}); err != nil {
		t.Fatal(err)
	}
	var got strings.Builder
	for piece := make([]byte, 512); !strings.Contains(got.String(), "id: 2\n"); {
		n, err := answer.Body.Read(piece)
		if got.Write(piece[:n]); err != nil {
			t.Fatalf("%q %v", got.String(), err)
		}
	}
	if strings.Contains(got.String(), "id: 1\n") || !strings.Contains(got.String(), `"who":"Bo"`) {
		t.Errorf("%q", got.String())
	}
}

func TestBoardPagesEmptyAndFull(t *testing.T) {
	rendered(t, "boards", boardsTemplate, func(p *boardsPage) { p.None = false })
	rendered(t, "board", boardTemplate, func(p *boardPage) { p.Findings.Grave = nil })
	rendered(t, "boardtask", boardTaskTemplate, func(p *boardTaskPage) { p.Done = "" })
}

// What the documents say to send from a scale is taken.
func TestTheDocumentedWayIn(t *testing.T) {
	text, err := os.ReadFile("../../docs/entering.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(text), "KEY\n\n")
	body, _, _ := strings.Cut(rest, "\n\n")
	w := postJSON(openedDay(t), "/enter", body)
	var answer queueAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil || len(answer.Taken) != 2 || len(answer.Refused) != 0 {
		t.Errorf("%d %s (%v)", w.Code, w.Body, err)
	}
}

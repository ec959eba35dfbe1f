package web

import (
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/coolforecast"
)

const soupLoad = "lentil-squash/soup-chill/1"

// coolingDay is the demo kitchen with its pot of lentils in pans since 09:24, judged by the rules of its book.
func coolingDay(t testing.TB) *boardDay {
	t.Helper()
	d := &boardDay{t: t}
	d.at("09:00")
	house, err := app.New(demo.Book(), d.now)
	if err != nil {
		t.Fatal(err)
	}
	if d.records, err = app.OpenRecords(context.Background(), filepath.Join(t.TempDir(), "kitchen.records"), d.now); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.records.Close() })
	house.Follow(d.records)
	d.Handler = New(house, Options{Records: d.records})
	if w := post(d, "/board", url.Values{"run": {"kettle"}, "day": {"2026-12-01"}, "entry": {newEntryID()}}); w.Code != http.StatusSeeOther {
		t.Fatalf("not opened: %d %s", w.Code, w.Body)
	}
	d.at("09:24")
	d.send(url.Values{"what": {"start"}, "task": {soupLoad}})
	return d
}

func pageOfLoad(d http.Handler) *httptest.ResponseRecorder {
	return get(d, coolingURL(boardRun, soupLoad))
}

// cool sends a form of the load's page.
func (d *boardDay) cool(clock string, form url.Values) *httptest.ResponseRecorder {
	d.at(clock)
	form.Set("run", boardRun)
	form.Set("task", soupLoad)
	form.Set("entry", newEntryID())
	return post(d, coolingPath, form)
}

func (d *boardDay) coolRead(clock, temp string) {
	d.t.Helper()
	w := d.cool(clock, url.Values{"what": {"read"}, "form": {"read"}, "temp": {temp}, "point": {"middle"}, "instrument": {"pen-1"}})
	if w.Code != http.StatusSeeOther {
		d.t.Fatalf("%s at %s: %d %s", temp, clock, w.Code, w.Body)
	}
}

func (d *boardDay) forecast() app.CoolingReport {
	d.t.Helper()
	var r app.CoolingsReport
	w := get(d, coolingJSONPath+"?"+url.Values{"run": {boardRun}, "task": {soupLoad}}.Encode())
	if err := json.Unmarshal(w.Body.Bytes(), &r); err != nil || len(r.Coolings) != 1 {
		d.t.Fatalf("%v: %s", err, w.Body)
	}
	return r.Coolings[0]
}

// A load is read, will not be in time, something is done about it, and the page says what is to be done at each step: on itself, on the board
// and on the kitchen's page.
func TestACoolingFromItsPage(t *testing.T) {
	d := coolingDay(t)
	if body := pageOfLoad(d).Body.String(); !strings.Contains(body, "Read it now") || !strings.Contains(body, "nobody has read it") {
		t.Error("nobody is told to read it")
	}
	for _, x := range [][2]string{{"09:30", "186"}, {"10:00", "165 F"}, {"10:30", "60 C"}, {"11:00", "118"}} {
		d.coolRead(x[0], x[1])
	}
	got := d.forecast()
	if got.Outcome != coolforecast.Misses || len(got.Actions) == 0 || got.Actions[0].Latest == 0 || got.Do == "" {
		t.Fatalf("%s: %+v", got.Outcome, got.Actions)
	}
	body := pageOfLoad(d).Body.String()
	for _, want := range []string{"will not be in time", "at the latest", "It was done", "Hot liquid scalds", "70\u00a0°F", "What can be done", got.Actions[0].Name} {
		if !strings.Contains(body, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if strings.Contains(strings.ToLower(body), "is safe") {
		t.Error("the page reassures")
	}
	for _, address := range []string{"/board/" + boardRun, "/", coolingPath} {
		if body := get(d, address).Body.String(); !strings.Contains(body, "will not be in time") {
			t.Errorf("%s does not say so", address)
		}
	}
	if body := get(d, taskURL(boardRun, soupLoad)).Body.String(); !strings.Contains(body, coolingPath+"?run=") {
		t.Error("the task's page does not lead there")
	}
	a := got.Actions[0]
	w := d.cool("11:10", url.Values{"what": {"act"}, "form": {"act"}, "did": {string(a.Did)}, "text": {a.Text}, "temp": {"113"}, "note": {"<script>alert(1)</script>"}})
	if w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if after := d.forecast(); after.Way != a.Name {
		t.Errorf("it is cooled by %q, want %q", after.Way, a.Name)
	}
	if body := pageOfLoad(d).Body.String(); strings.Contains(body, "<script>alert") || !strings.Contains(body, "&lt;script&gt;alert") {
		t.Error("the note is not written as it was typed")
	}
}

// A form with a mistake is shown again with what was typed; food is heated again to 165 °F, once.
func TestCoolingFormsAreHeldToTheRules(t *testing.T) {
	d := coolingDay(t)
	d.coolRead("09:30", "150")
	for name, form := range map[string]url.Values{
		"no temperature":           {"what": {"read"}, "form": {"read"}, "temp": {""}},
		"no number":                {"what": {"read"}, "form": {"read"}, "temp": {"warm <b>"}},
		"not of this world":        {"what": {"read"}, "form": {"read"}, "temp": {"900"}},
		"an act without its words": {"what": {"act"}, "form": {"other"}, "did": {"other"}},
		"not hot enough":           {"what": {"act"}, "form": {"again"}, "did": {"reheated"}, "temp": {"160"}},
		"no deed":                  {"what": {"act"}, "form": {"act"}, "did": {"prayed"}, "temp": {"100"}},
	} {
		if w := d.cool("09:40", form); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s: %d", name, w.Code)
		}
	}
	d.coolRead("10:30", "110")
	d.coolRead("11:31", "90")
	if body := pageOfLoad(d).Body.String(); !strings.Contains(body, "Heat it again, once") {
		t.Error("heating it again is not offered")
	}
	if w := d.cool("12:00", url.Values{"what": {"act"}, "form": {"again"}, "did": {"reheated"}, "temp": {"166"}}); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if got := d.forecast(); got.Reheats != 1 || got.Outcome == coolforecast.Missed {
		t.Errorf("%d, %s", got.Reheats, got.Outcome)
	}
	w := d.cool("12:30", url.Values{"what": {"act"}, "form": {"again"}, "did": {"reheated"}, "temp": {"170"}})
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "A second time is not allowed") {
		t.Errorf("a second time: %d", w.Code)
	}
	if w := d.cool("12:40", url.Values{"what": {"act"}, "form": {"discard"}, "did": {"discarded"}, "note": {"all of it"}}); w.Code != http.StatusSeeOther {
		t.Errorf("thrown away: %d %s", w.Code, w.Body)
	}
}

// A reading that did not come is an alarm on the board.
func TestALateReadingIsOnTheBoard(t *testing.T) {
	d := coolingDay(t)
	d.coolRead("09:30", "150")
	d.at("10:45")
	if body := get(d, "/board/"+boardRun).Body.String(); !strings.Contains(body, "A reading is missing since") || !strings.Contains(body, `data-due="`) {
		t.Error("the board does not say that a reading is missing")
	}
}

func TestCoolingsThatAreNotThere(t *testing.T) {
	d := coolingDay(t)
	for _, address := range []string{coolingURL("no-such-run", soupLoad), coolingURL(boardRun, "stew/x/1"), "/cooling/chart/food.tiff?run=" + boardRun + "&task=" + soupLoad} {
		if w := get(d, address); w.Code != http.StatusNotFound {
			t.Errorf("%s: %d", address, w.Code)
		}
	}
	if w := get(d, coolingJSONPath+"?run="+boardRun+"&task=stew/x/1"); w.Code != http.StatusNotFound {
		t.Errorf("JSON: %d", w.Code)
	}
	without := openedDay(t) // judged by no rules
	if body := get(without, coolingPath).Body.String(); strings.Contains(body, "will not") {
		t.Error("something is forecast without rules")
	}
}

// The chart has what was read, the band and the limits with their times.
func TestTheChartOfACooling(t *testing.T) {
	d := coolingDay(t)
	d.coolRead("09:30", "186")
	d.coolRead("10:00", "165")
	w := get(d, "/cooling/chart/food.svg?"+url.Values{"run": {boardRun}, "task": {soupLoad}}.Encode())
	body := w.Body.String()
	if w.Code != http.StatusOK || !strings.HasPrefix(w.Header().Get("Content-Type"), "image/svg") {
		t.Fatalf("%d %s", w.Code, w.Header())
	}
	for _, want := range []string{"to be expected", "or colder by", "predicted"} {
		if !strings.Contains(body, want) {
			t.Errorf("the chart has no %q", want)
		}
	}
}

func BenchmarkCoolingPage(b *testing.B) {
	d := coolingDay(b)
	d.coolRead("09:30", "186")
	d.coolRead("10:30", "140")
	for b.Loop() {
		if w := pageOfLoad(d); w.Code != http.StatusOK {
			b.Fatal(w.Code)
		}
	}
}

func TestCoolingPagesEmptyAndFull(t *testing.T) {
	rendered(t, "coolings", coolingsTemplate, func(p *coolingsPage) { p.Unruled = false })
	rendered(t, "cooling", coolingTemplate)
}

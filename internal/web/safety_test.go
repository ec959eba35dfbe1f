package web

import (
	"context"
	"encoding/json"
	"net/http"
	"net/url"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen/kitchentest"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// judgedDay is the demo kitchen on the first day on which its lots are judged.
type judgedDay struct {
	http.Handler
	t       *testing.T
	records *app.Records
	clock   atomic.Int64
}

const judgedRun = "kettle-2026-12-01"

func openJudgedDay(t *testing.T, without ...string) *judgedDay {
	t.Helper()
	d := &judgedDay{t: t}
	d.at(6, 0)
	now := func() time.Time { return time.UnixMilli(d.clock.Load()).UTC() }
	house, err := app.New(kitchentest.Without(demo.Book(), without...), now)
	if err != nil {
		t.Fatal(err)
	}
	if d.records, err = app.OpenRecords(context.Background(), filepath.Join(t.TempDir(), "kitchen.records"), now); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.records.Close() })
	house.Follow(d.records)
	d.Handler = New(house, Options{Records: d.records})
	return d
}

func (d *judgedDay) at(hour, minute int) {
	d.clock.Store(time.Date(2026, 12, 1, hour, minute, 0, 0, time.UTC).UnixMilli())
}

func (d *judgedDay) enter(body record.Body) {
	d.t.Helper()
	if _, err := d.records.Enter(d.t.Context(), app.Said{Who: "Nora", Device: "tablet", At: time.UnixMilli(d.clock.Load()), Body: body}); err != nil {
		d.t.Fatal(err)
	}
}

// points are the records of the run, by what they are of.
func (d *judgedDay) points() map[string]string {
	d.t.Helper()
	s, err := d.records.Safety(d.t.Context())
	if err != nil {
		d.t.Fatal(err)
	}
	all := map[string]string{}
	for _, run := range s.Runs {
		for _, v := range run.Verdicts {
			all[string(v.What)] = v.Point
		}
	}
	return all
}

// packed opens a run, cooks and packs it, and writes down nothing of its cooling.
func (d *judgedDay) packed() {
	d.t.Helper()
	d.enter(record.Opened{Run: judgedRun, Request: "kettle", Day: "2026-12-01", Plan: record.Hash{1}})
	d.at(17, 0)
	d.enter(record.Packed{Run: judgedRun, Pack: "lentil-squash-lb", Lot: "P-<1>", Numbers: packNumbers(d.t, "1-40"), Label: unit.Pound, Mass: 40 * unit.Pound, From: []record.Part{{Lot: "B-1", Mass: 40 * unit.Pound}}, BestBefore: "2027-06-01", Place: "chest-1"})
}

func packNumbers(t *testing.T, text string) record.Numbers {
	t.Helper()
	n, err := record.ParseNumbers(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// Without rules in the book the page says that nothing is judged, and without records that none are kept.
func TestNothingIsJudged(t *testing.T) {
	d := openJudgedDay(t, "safety.yaml")
	d.packed()
	if page := get(d, safetyPath).Body.String(); !strings.Contains(page, "Nothing is judged here") || strings.Contains(page, "Do this next") {
		t.Error(page)
	}
	if w := get(d, safetyRunPath+"?run="+judgedRun); w.Code != http.StatusNotFound {
		t.Errorf("%d", w.Code)
	}
	house, err := app.New(demo.Book(), someDay)
	if err != nil {
		t.Fatal(err)
	}
	if page := get(New(house, Options{}), safetyPath).Body.String(); !strings.Contains(page, "No records are kept here") {
		t.Error(page)
	}
}

// From nothing written down, over readings that are typed and a label that is signed, to a lot that is not held.
func TestFromHeldToFree(t *testing.T) {
	d := openJudgedDay(t)
	d.packed()
	page := get(d, safetyPath).Body.String()
	inOrder(t, page, "Do this next", "Runs with something open", judgedRun, "held", "Lots of runs from 2026-11-01 on are judged", "nothing else")
	inOrder(t, get(d, safetyRunPath+"?run="+judgedRun).Body.String(), "Critical records", "missing", "Lots of this run", "P-&lt;1&gt;", "HELD", "Decide on what is held", "Release it")
	points := d.points()
	cooling := points["cooling"]
	page = get(d, safetyStagePath+"?point="+url.QueryEscape(cooling)).Body.String()
	inOrder(t, page, "missing", "Enter a reading", "A probe is in it", "All records of it")
	read := func(f, at string) (int, string) {
		w := post(d, readPath, url.Values{"entry": {newEntryID()}, "point": {cooling}, "temp": {f}, "at": {at}, "where": {"the middle"}, "instrument": {"pen-1"}})
		return w.Code, w.Body.String()
	}
	for _, c := range [][2]string{{"", "2026-12-01T10:00"}, {"hot", "2026-12-01T10:00"}, {"140", "yesterday"}, {"140", "2026-12-01T23:00"}, {"700", "2026-12-01T10:00"}} {
		if code, page := read(c[0], c[1]); code != http.StatusUnprocessableEntity || !strings.Contains(page, `class="problem"`) || c[0] != "" && !strings.Contains(page, c[0]) {
			t.Errorf("%v: %d", c, code)
		}
	}
	for _, c := range [][2]string{{"190", "2026-12-01T10:00"}, {"140", "2026-12-01T10:30"}, {"65 °F", "2026-12-01T12:20"}, {"3 °C", "2026-12-01T15:30"}} {
		if code, page := read(c[0], c[1]); code != http.StatusSeeOther {
			t.Fatalf("%v: %d %s", c, code, page)
		}
	}
	page = get(d, safetyStagePath+"?point="+url.QueryEscape(cooling)).Body.String()
	inOrder(t, page, "passed", "These readings meet", "to spare", "<figure", "Each rule for itself", "FDA Food Code 3-501.14(A)", "decides here", "Appendix B", "decides nothing here", "What may have grown: an estimate", "releases nothing", "37.4")
	if strings.Contains(strings.ToLower(page), "it is safe") {
		t.Error("a word that the figures do not carry")
	}
	if svg := get(d, "/safety/stage/chart/log.svg?point="+url.QueryEscape(cooling)); svg.Code != http.StatusOK || !strings.Contains(svg.Body.String(), "<svg") {
		t.Errorf("%d", svg.Code)
	}
	for what, point := range points {
		if what == "cooking" {
			d.enter(record.Measured{Run: judgedRun, Task: strings.SplitN(strings.TrimPrefix(point, judgedRun+"/"), "/cooking", 2)[0], Temp: unit.TempF(205), Instrument: "pen-1"})
		}
	}
	if label := points["label"]; label != "" {
		if w := post(d, signPath, url.Values{"entry": {newEntryID()}, "about": {label}, "back": {"/safety"}}); w.Code != http.StatusSeeOther {
			t.Fatalf("%d %s", w.Code, w.Body)
		}
	}
	if page := get(d, safetyRunPath+"?run="+judgedRun).Body.String(); strings.Contains(page, "HELD") || !strings.Contains(page, "Not held for its records") {
		t.Error(page)
	}
}

// A decision needs lots, what becomes of them and a reason; what was typed is kept until it has all.
func TestDecide(t *testing.T) {
	d := openJudgedDay(t)
	d.packed()
	s, err := d.records.Safety(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	points := strings.Join(s.Runs[0].Lots[0].Holds[0].Points, "\n")
	form := func(pairs ...string) url.Values {
		v := url.Values{"entry": {newEntryID()}, "back": {safetyRunPath + "?run=" + judgedRun}, "points.P-<1>": {points}}
		for i := 0; i < len(pairs); i += 2 {
			v.Add(pairs[i], pairs[i+1])
		}
		return v
	}
	for _, f := range []url.Values{form("disposition", "release", "why", "seen & read"), form("lot", "P-<1>", "why", "seen & read"), form("lot", "P-<1>", "disposition", "release")} {
		w := post(d, decidePath, f)
		if page := w.Body.String(); w.Code != http.StatusUnprocessableEntity || !strings.Contains(page, `class="problem"`) || f.Has("why") && !strings.Contains(page, "seen &amp; read") {
			t.Errorf("%v: %d", f, w.Code)
		}
	}
	if w := post(d, decidePath, form("lot", "P-<1>", "disposition", "destroy", "why", "nobody knows")); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	inOrder(t, get(d, safetyRunPath+"?run="+judgedRun).Body.String(), "HELD", "to be thrown away", "nobody knows")
	if w := post(d, decidePath, form("lot", "P-<1>", "disposition", "release", "why", "the paper log was found")); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	inOrder(t, get(d, safetyRunPath+"?run="+judgedRun).Body.String(), "Not held for its records", "released", "the paper log was found")
}

// A probe is put into the food and taken out; what it read counts from the one to the other.
func TestAProbeInThePot(t *testing.T) {
	d := openJudgedDay(t)
	d.packed()
	cooling := d.points()["cooling"]
	put := func(pairs ...string) (int, string) {
		v := url.Values{"entry": {newEntryID()}, "point": {cooling}}
		for i := 0; i < len(pairs); i += 2 {
			v.Set(pairs[i], pairs[i+1])
		}
		w := post(d, putProbePath, v)
		return w.Code, w.Body.String()
	}
	for _, f := range [][]string{{"from", "2026-12-01T10:00"}, {"probe", "pan-probe-1", "from", "10 o'clock"}, {"probe", "pan-probe-1", "from", "2026-12-01T10:00", "until", "2026-12-01T09:00"}} {
		if code, page := put(f...); code != http.StatusUnprocessableEntity || !strings.Contains(page, `class="problem"`) {
			t.Errorf("%v: %d", f, code)
		}
	}
	if code, page := put("probe", "pan-probe-1", "where", "the middle", "from", "2026-12-01T10:00"); code != http.StatusSeeOther {
		t.Fatalf("%d %s", code, page)
	}
	page := get(d, safetyStagePath+"?point="+url.QueryEscape(cooling)).Body.String()
	inOrder(t, page, "pan-probe-1", "in since", "It is out")
	_, after, _ := strings.Cut(page, `name="out" value="`)
	id, _, _ := strings.Cut(after, `"`)
	if code, page := put("out", id, "at", "2026-12-01T15:00"); code != http.StatusSeeOther {
		t.Fatalf("%d %s", code, page)
	}
	if page := get(d, safetyStagePath+"?point="+url.QueryEscape(cooling)).Body.String(); !strings.Contains(page, "out since") || strings.Contains(page, "It is out") {
		t.Error(page)
	}
}

// What programs get says its schema, and leaves nothing out.
func TestSafetyJSON(t *testing.T) {
	d := openJudgedDay(t)
	d.packed()
	for path, schema := range map[string]string{"/safety.json": app.SafetySchema, "/safety/run.json?run=" + judgedRun: app.SafetyRunSchema, "/safety/stage.json?point=" + url.QueryEscape(d.points()["cooling"]): app.SafetyRecordSchema} {
		var v map[string]any
		if err := json.Unmarshal(get(d, path).Body.Bytes(), &v); err != nil || v["schema"] != schema {
			t.Errorf("%s: %v, %v", path, v["schema"], err)
		}
	}
	for _, path := range []string{safetyStagePath + "?point=nothing", safetyRunPath + "?run=nothing", "/safety/stage/chart/other.svg"} {
		if w := get(d, path); w.Code != http.StatusNotFound {
			t.Errorf("%s: %d", path, w.Code)
		}
	}
}

// Every page that shows a lot says that it is held, and why.
func TestHeldByRecordsOnPages(t *testing.T) {
	d := openJudgedDay(t)
	d.packed()
	lot := url.QueryEscape("P-<1>")
	for path, want := range map[string]string{stockPath: "held", labelPath + "?lot=" + lot: "HELD: critical record", lotPath + "?lot=" + lot: "critical record missing", handlePath + "?code=" + lot: "HELD", "/": "held for it", placePath + "?place=chest-1": "held"} {
		if page := get(d, path).Body.String(); !strings.Contains(page, want) {
			t.Errorf("%s does not say %q", path, want)
		}
	}
	page := get(d, lotPath+"?lot="+lot).Body.String()
	_, after, _ := strings.Cut(page, `name="points.P-&lt;1&gt;" value="`)
	points, _, _ := strings.Cut(after, `"`)
	if !strings.Contains(points, "/cooling=missing") {
		t.Fatalf("the form does not say what it decides on: %q", points)
	}
	if w := post(d, lotPath+"/release", url.Values{"entry": {newEntryID()}, "lot": {"P-<1>"}, "points.P-<1>": {points}, "disposition": {"release"}, "why": {"the log was on paper"}}); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if page := get(d, lotPath+"?lot="+lot).Body.String(); strings.Contains(page, "HELD") {
		t.Error("released, and it is held")
	}
	if w := post(d, handlePath, url.Values{"entry": {newEntryID()}, "do": {"release"}, "code": {"P-<1>"}}); w.Code == http.StatusSeeOther {
		t.Error("a release by hand of what nobody holds")
	}
}

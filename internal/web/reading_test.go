package web

import (
	"bytes"
	"encoding/json"
	"fmt"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

func TestLogPagesEmptyAndFull(t *testing.T) {
	rendered(t, "logs", logsTemplate, func(p *logsPage) { p.None = false })
	rendered(t, "logday", logDayTemplate, func(p *logDayPage) { p.None = false })
	rendered(t, "logimport", logImportTemplate, func(p *logImportPage) { p.None = false }, func(p *logImportPage) { p.None, p.Busy, p.Taken = false, nil, nil })
}

// postReadings sends JSON as a probe does, with a key or without.
func postReadings(h http.Handler, key, body string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodPost, "/readings", strings.NewReader(body))
	r.Host = "localhost:8090"
	r.Header.Set("Content-Type", "application/json")
	if key != "" {
		r.Header.Set("Authorization", "Bearer "+key)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// All the ways in which a probe may say what it reads; the answer has what is odd.
func TestWaysToSendReadings(t *testing.T) {
	records := recordsOf(t)
	h := New(&shelf{now: someDay()}, Options{Records: records})
	at := someDay().Add(-time.Minute)
	for name, c := range map[string]struct{ body, want string }{
		"one, °C":             {fmt.Sprintf(`{"probe":"a","at_ms":%d,"temp_c":5}`, at.UnixMilli()), `{"schema":"kettlefrost.readings-taken/1","taken":1,"flagged":[]}`},
		"one, °F, RFC 3339":   {fmt.Sprintf(`{"probe":"b","at":%q,"temp_f":"41"}`, at.Format(time.RFC3339)), `{"schema":"kettlefrost.readings-taken/1","taken":1,"flagged":[]}`},
		"several, one unit":   {fmt.Sprintf(`{"probe":"c","unit":"f","readings":[{"at_ms":%d,"temp":41},{"at_ms":%d,"temp":"5 °C"}]}`, at.UnixMilli()-1000, at.UnixMilli()), `{"schema":"kettlefrost.readings-taken/1","taken":2,"flagged":[]}`},
		"several probes":      {fmt.Sprintf(`[{"of":"d","at_ms":%[1]d,"temp_c":5},{"of":"e","at_ms":%[1]d,"temp_c":5}]`, at.UnixMilli()), `{"schema":"kettlefrost.readings-taken/1","taken":2,"flagged":[]}`},
		"no time":             {`{"probe":"f","temp_c":5}`, `"flags":["time-of-receipt"]`},
		"no unit":             {fmt.Sprintf(`{"probe":"g","at_ms":%d,"temp":41}`, at.UnixMilli()), `"flags":["no-unit"]`},
		"text":                {fmt.Sprintf(`{"probe":"h","at_ms":%d,"temp_c":"<b>ERR</b>"}`, at.UnixMilli()), `"flags":["no-number"]`},
		"nothing, null, list": {fmt.Sprintf(`{"probe":"i","readings":[{"at_ms":%[1]d},{"at_ms":%[1]d,"temp_c":null},{"at_ms":%[1]d,"temp_c":[5]}]}`, at.UnixMilli()), `"taken":3`},
		"a time that is none": {`{"probe":"j","at":"at noon","temp_c":5}`, `"flags":["no-time"]`},
		"more than is known":  {fmt.Sprintf(`{"probe":"k","at_ms":%d,"temp_c":5,"battery":3.1}`, at.UnixMilli()), `"taken":1`},
	} {
		w := postReadings(h, "", c.body)
		var compact bytes.Buffer
		if err := json.Compact(&compact, w.Body.Bytes()); err != nil || w.Code != http.StatusOK || !strings.Contains(compact.String(), c.want) {
			t.Errorf("%s: %d %s (%v), want %s", name, w.Code, compact.String(), err, c.want)
		}
	}
	form := post(h, "/readings", url.Values{"probe": {"l"}, "temp": {"38.1 F"}, "at": {at.Format(time.RFC3339)}})
	if form.Code != http.StatusOK || !strings.Contains(form.Body.String(), `"flagged": []`) {
		t.Errorf("a form: %d %s", form.Code, form.Body)
	}
	for probe, want := range map[string]string{"a": "5000 \"5\"", "b": "5000 \"41\"", "e": "5000 \"5\"", "h": "0 \"<b>ERR</b>\"", "l": "3389 \"38.1 F\""} {
		got, err := records.Readings(t.Context(), probe, 0, 1<<50)
		if err != nil || len(got) != 1 || fmt.Sprintf("%d %q", got[0].MilliC, got[0].Raw) != want {
			t.Errorf("%s: %+v (%v), want %s", probe, got, err, want)
		}
	}
	for name, c := range map[string]struct {
		body   string
		status int
	}{"no JSON": {"38.1", 400}, "no probe": {`{"temp_c":5}`, 422}, "no readings": {`{"probe":"a","readings":[]}`, 422}, "too much": {`{"probe":"` + strings.Repeat("x", mostReadings) + `"}`, 413}} {
		if w := postReadings(h, "", c.body); w.Code != c.status || !strings.Contains(w.Body.String(), "trouble") {
			t.Errorf("%s: %d %.200s", name, w.Code, w.Body)
		}
	}
	if w := postReadings(New(&shelf{now: someDay()}, Options{}), "", `{"probe":"a","temp_c":5}`); w.Code != http.StatusConflict {
		t.Errorf("without records: %d", w.Code)
	}
}

// Where people are set up, a probe sends with its key, under its own name when it says none, and sees nothing; nobody else sends.
func TestReadingsByKey(t *testing.T) {
	records := recordsOf(t, record.Person{Person: "ada", Name: "Ada", Role: record.Owner, Since: "2020-01-01"})
	h := New(&shelf{now: someDay()}, Options{Records: records})
	key, err := records.People().AddKey(app.Acting(t.Context(), people.Actor{Person: "ada", By: people.ByPassword, Sure: true, Device: "desk"}), "ada", "desk", "walk-in probe")
	if err != nil {
		t.Fatal(err)
	}
	if w := postReadings(h, people.RevealKey(key), `{"temp_c":5}`); w.Code != http.StatusOK {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if got, err := records.Readings(t.Context(), "walk-in probe", 0, 1<<50); err != nil || len(got) != 1 {
		t.Errorf("%+v (%v)", got, err)
	}
	for name, sends := range map[string]string{"no key": "", "a wrong key": strings.Replace(people.RevealKey(key), "key-", "key-x", 1)} {
		if w := postReadings(h, sends, `{"probe":"p","temp_c":5}`); w.Code != http.StatusUnauthorized {
			t.Errorf("%s: %d %s", name, w.Code, w.Body)
		}
	}
	r := httptest.NewRequest(http.MethodGet, "/logs.json", nil)
	r.Host = "localhost:8090"
	r.Header.Set("Authorization", "Bearer "+people.RevealKey(key))
	w := httptest.NewRecorder()
	if h.ServeHTTP(w, r); w.Code != http.StatusForbidden {
		t.Errorf("a key that reads: %d", w.Code)
	}
}

// Whatever is sent: the server answers what it took, and has as much more than before.
func FuzzReadings(f *testing.F) {
	f.Add(`{"probe":"a","temp_c":5}`)
	f.Add(`[{"of":"a","at_ms":1796133600000,"temp":"38 F"},{"of":"a","at":"2026-12-01T10:00:00Z","temp_f":null}]`)
	f.Add(`{"probe":"a","unit":"F","readings":[{"at_ms":-9223372036854775808,"temp":1e300},{"at_ms":9223372036854775807,"temp":[{}]}]}`)
	records := recordsOf(f)
	h := New(&shelf{now: someDay()}, Options{Records: records})
	nth := 0
	f.Fuzz(func(t *testing.T, body string) {
		r := httptest.NewRequest(http.MethodPost, "/readings", strings.NewReader(body))
		sent, err := readPosted(r)
		if sent.ID != (record.ID{}) || sent.Device != "" {
			return // what was sent before is not taken again
		}
		kept := func() (n int) {
			seen := map[string]bool{}
			for _, x := range sent.posted("").Readings {
				all, err := records.Readings(t.Context(), x.Probe, 0, 1<<62)
				if n += len(all); err != nil || seen[x.Probe] {
					n -= len(all)
				}
				seen[x.Probe] = true
			}
			return n
		}
		before := kept()
		r = httptest.NewRequest(http.MethodPost, "/readings", strings.NewReader(body))
		r.Host = "localhost:8090"
		nth++
		r.AddCookie(&http.Cookie{Name: deviceCookie, Value: fmt.Sprint(nth)})
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		var taken app.PostedTaken
		switch json.Unmarshal(w.Body.Bytes(), &taken); {
		case w.Code >= 500 || w.Code == http.StatusOK && err != nil:
			t.Fatalf("%d %s", w.Code, w.Body)
		case w.Code == http.StatusOK && kept()-before != taken.Taken:
			t.Errorf("%d more are kept, %d were taken", kept()-before, taken.Taken)
		}
	})
}

// 200 probes post at once over HTTP, ten times each: every answer says taken, and every reading is there.
func TestTwoHundredProbes(t *testing.T) {
	records := recordsOf(t)
	h := New(&shelf{now: someDay()}, Options{Records: records})
	var all sync.WaitGroup
	for p := range 200 {
		all.Go(func() {
			for n := range 10 {
				w := postReadings(h, "", fmt.Sprintf(`{"probe":"probe %d","at_ms":%d,"temp_c":%d}`, p, someDay().UnixMilli()-int64(20-n)*1000, n))
				if w.Code != http.StatusOK {
					t.Errorf("%d %s", w.Code, w.Body)
				}
			}
		})
	}
	all.Wait()
	list, err := records.ProbeList(t.Context(), kitchen.Book{}, someDay())
	if err != nil || len(list.Probes) != 200 {
		t.Fatalf("%d probes (%v)", len(list.Probes), err)
	}
	for _, p := range list.Probes {
		if p.Day != 10 || *p.Last.TempC != 9 {
			t.Errorf("%s: %d readings, last %+v", p.Probe, p.Day, p.Last)
		}
	}
}

// logKitchen is the demo kitchen at noon, with what a probe in the walk-in sent since midnight, a temperature by hand and a hostile name.
func logKitchen(t testing.TB) (http.Handler, *app.Records) {
	t.Helper()
	house, err := app.New(demo.Book(), coldNoon)
	if err != nil {
		t.Fatal(err)
	}
	records := recordsOf(t)
	midnight := coldNoon().Add(-12 * time.Hour)
	p := app.Posted{Device: "hub"}
	for m := range 720 {
		x := app.PostedReading{Probe: "walk-in-air", At: midnight.Add(time.Duration(m) * time.Minute), Temp: "38.2", Unit: "F"}
		switch {
		case m >= 120 && m < 180:
			x.Temp = "46"
		case m == 300:
			x.Temp = "<evil>"
		}
		p.Readings = append(p.Readings, x)
	}
	p.Readings = append(p.Readings, app.PostedReading{Probe: "<i>stray</i>", At: midnight, Temp: "4", Unit: "C"})
	if _, err := records.TakePosted(t.Context(), p, coldNoon()); err != nil {
		t.Fatal(err)
	}
	if _, err := records.Enter(t.Context(), app.Said{Who: "Ada", Device: "tablet", At: midnight.Add(3 * time.Hour), Body: record.Measured{Place: "walk-in", Temp: unit.TempF(45), Instrument: "red"}}); err != nil {
		t.Fatal(err)
	}
	return New(house, Options{Records: records}), records
}

func TestThePagesOfLogs(t *testing.T) {
	h, _ := logKitchen(t)
	for _, c := range []struct {
		target string
		status int
		has    []string
	}{
		{"/logs", 200, []string{"Take in a logger's file", "walk-in-air", "38.2", "today 11:59", "1 min ago", "720 readings", "&lt;i&gt;stray&lt;/i&gt;", "not in the book", "no number 1"}},
		{"/logs/day?probe=walk-in-air", 200, []string{"Wednesday 2 December 2026", "OVER THE LIMIT", "from 01:59 to 03:00", "46", "no number", "&lt;evil&gt;", "Measured by hand", "red", "By the hour", "11:00", "720"}},
		{"/logs/day?probe=walk-in-air&day=2026-12-02&hour=02:00+%2B00", 200, []string{"Readings from 02:00 on", "02:59:00"}},
		{"/logs/day?probe=walk-in-air&day=2026-12-01", 200, []string{"nothing was read on this day", "2026-12-02"}},
		{"/logs/day?probe=none", 200, []string{"nothing was read on this day"}},
		{"/logs/day", 404, []string{"Choose a probe."}},
		{"/logs/day?probe=walk-in-air&day=yesterday", 404, []string{"A day is written like 2026-12-01."}},
		{"/logs/import", 200, []string{"Choose the file", `type="file"`}},
		{"/logs/import/nothing", 404, []string{"not here any more"}},
		{"/logs/day.json?probe=walk-in-air", 200, []string{`"schema": "kettlefrost.readings-day/1"`, `"raw": "\u003cevil\u003e"`, `"kind": "too-warm"`}},
		{"/logs/day.csv?probe=walk-in-air", 200, []string{"2026-12-02T02:00:00Z,7.778,46,,120,true", "2026-12-02T05:00:00Z,,<evil>,no-number,300,false"}},
		{"/logs.json", 200, []string{`"schema": "kettlefrost.probes/1"`, `"probe": "walk-in-air"`}},
		{"/logs/day/chart/day.svg?probe=walk-in-air", 200, []string{"<svg", "over the limit", "by hand", "1 reading without a temperature"}},
		{"/logs/day/chart/day.narrow.dark.svg?probe=walk-in-air", 200, []string{"<svg"}},
		{"/logs/day/chart/night.svg?probe=walk-in-air", 404, []string{"There is no such drawing."}},
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
		if strings.Contains(w.Body.String(), "<evil>") && !strings.HasSuffix(strings.Split(c.target, "?")[0], ".csv") {
			t.Errorf("%s has markup that a probe sent", c.target)
		}
		if w.Body.Len() > 200_000 && !strings.Contains(c.target, ".json") {
			t.Errorf("%s is of %d bytes", c.target, w.Body.Len())
		}
	}
	bare := New(&shelf{now: someDay()}, Options{})
	for _, target := range []string{"/logs", "/logs/day?probe=x", "/logs/import"} {
		if w := get(bare, target); !strings.Contains(w.Body.String(), "No records are kept here") {
			t.Errorf("%s without records: %s", target, w.Body)
		}
	}
}

// sendLog sends a file as a browser does, and follows to its page.
func sendLog(t *testing.T, h http.Handler, name, text string) string {
	t.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	part, err := form.CreateFormFile("file", name)
	if err != nil {
		t.Fatal(err)
	}
	part.Write([]byte(text))
	form.Close()
	r := httptest.NewRequest(http.MethodPost, "/logs/import", &body)
	r.Host = "localhost:8090"
	r.Header.Set("Content-Type", form.FormDataContentType())
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	if w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	return w.Header().Get("Location")
}

// settled is a page once nothing is being done any more.
func settled(t *testing.T, h http.Handler, target string) string {
	t.Helper()
	for range 100 {
		page := get(h, target).Body.String()
		if !strings.Contains(page, "<progress") {
			return page
		}
	}
	t.Fatal("it is never done")
	return ""
}

var checkedRadio = regexp.MustCompile(`<input type="radio" name="([^"]+)" value="([^"]+)" checked>`)

// A file is read, asks what it leaves open with the cell that does, keeps every answer, says what is odd and where, and is taken in once.
func TestALoggersFileByThePage(t *testing.T) {
	h, records := logKitchen(t)
	at := sendLog(t, h, "<b>tubs.csv", "Date,Time,Temp in tub,Second temp\n12/01/2026,02:05 PM,135,38\n12/01/2026,02:06 PM,ERR,38\n12/01/2026,02:05 PM,134,100\n")
	page := settled(t, h, at)
	inOrder(t, page, "&lt;b&gt;tubs.csv", "Are these temperatures °F or °C?", "<code>135</code>", "Does the month or the day stand first?", "By which clock", "Which probe is the column", "Read it so")
	if strings.Contains(page, "Take it in<") {
		t.Error("it can be taken in before everything is answered")
	}
	form := url.Values{"unit": {"f"}, "order": {"mdy"}, "zone": {"other"}, "other.zone": {"−05:00"}, "probe.Temp in tub": {"other"}, "other.probe.Temp in tub": {"tub probe"}, "take": {"yes"}}
	if w := post(h, at, form); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	page = settled(t, h, at)
	inOrder(t, page, `value="f" checked`, `value="mdy" checked`, `value="-05:00"`, `value="tub probe"`, "What was read", "6 readings, 3 of them flagged", "is tub probe", "no number", "line 3", "the same time twice", "line 4", "the same time twice", "came out of order", "a jump: the unit may have changed")
	if got, _ := records.Readings(t.Context(), "tub probe", 0, 1<<50); len(got) > 0 {
		t.Error("it was taken in with a question open")
	}
	form.Set("probe.Second temp", "other")
	form.Set("other.probe.Second temp", "lid probe")
	post(h, at, form)
	page = settled(t, h, at)
	if !strings.Contains(page, ">Take it in<") {
		t.Fatalf("it cannot be taken in: %s", page)
	}
	if w := post(h, at, form); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	page = settled(t, h, at)
	inOrder(t, page, "6 readings were taken in.", "SHA-256", "tub probe on 2026-12-01")
	got, err := records.Readings(t.Context(), "tub probe", 0, 1<<50)
	if err != nil || len(got) != 3 || got[0].MilliC != 57222 || got[0].At != record.Instant(time.Date(2026, 12, 1, 19, 5, 0, 0, time.UTC).UnixMilli()) {
		t.Errorf("%+v (%v)", got, err)
	}
	// The same file once more: it is said when it was taken in, and nothing is taken in again.
	again := settled(t, h, sendLog(t, h, "copy.csv", "Date,Time,Temp in tub,Second temp\n12/01/2026,02:05 PM,135,38\n12/01/2026,02:06 PM,ERR,38\n12/01/2026,02:05 PM,134,100\n"))
	inOrder(t, again, "This file was taken in on 2 Dec 2026 12:00 by Ada.")
	if bad := settled(t, h, sendLog(t, h, "prices.csv", "item,price\nleek,3\n")); !strings.Contains(bad, "names a column of times") {
		t.Errorf("a list of prices: %s", bad)
	}
	if len(checkedRadio.FindAllString(page, -1)) > 0 {
		t.Error("what was taken in is asked about")
	}
}

// Progress is told to programs, too, and a file that is not here is said so.
func TestProgressOfALoggersFile(t *testing.T) {
	h, _ := logKitchen(t)
	at := sendLog(t, h, "a.csv", "timestamp,temp C\n"+strings.Repeat("2026-12-01 10:00:00Z,5\n", 2000))
	settled(t, h, at)
	if w := get(h, at+"/progress.json"); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), `"state": "read"`) {
		t.Errorf("%d %s", w.Code, w.Body)
	}
	if w := get(h, "/logs/import/none/progress.json"); w.Code != http.StatusNotFound {
		t.Errorf("%d", w.Code)
	}
}

// A day out of a year of eight probes, as a page and as its chart.
func BenchmarkDayOfAYearOfProbes(b *testing.B) {
	house, err := app.New(demo.Book(), coldNoon)
	if err != nil {
		b.Fatal(err)
	}
	records := recordsOf(b)
	for p := range 8 {
		var text strings.Builder
		fmt.Fprintf(&text, "timestamp,probe-%d temp C\n", p)
		at := coldNoon().AddDate(-1, 0, 0)
		for m := range 365 * 24 * 60 {
			fmt.Fprintf(&text, "%s,%.1f\n", at.Add(time.Duration(m)*time.Minute).Format("2006-01-02 15:04:05"), -18+float64(m%90)/10)
		}
		x, err := records.ReadLog(b.Context(), kitchen.Book{Thermometers: map[kitchen.ThermometerID]kitchen.Thermometer{kitchen.ThermometerID(fmt.Sprintf("probe-%d", p)): {Kind: kitchen.Logger}}}, app.LogFile{Name: "year.csv", Data: []byte(text.String())}, app.LogAnswers{Zone: app.KitchenZone}, coldNoon(), nil)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := records.TakeLog(b.Context(), x, app.Author{Who: "Ada", At: coldNoon()}, false); err != nil {
			b.Fatal(err)
		}
	}
	h := New(house, Options{Records: records})
	for _, target := range []string{"/logs/day?probe=probe-3&day=2026-06-15", "/logs/day/chart/day.svg?probe=probe-3&day=2026-06-15", "/logs/day.json?probe=probe-3&day=2026-06-15", "/logs"} {
		b.Run(strings.Split(target, "?")[0], func(b *testing.B) {
			for b.Loop() {
				if w := get(h, target); w.Code != http.StatusOK {
					b.Fatal(w.Code, w.Body)
				}
			}
		})
	}
}

package web

import (
	"fmt"
	"math"
	"net/http"
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
	"kettlefrost/internal/unit"
)

func TestWatchPagesEmptyAndFull(t *testing.T) {
	rendered(t, "thermometers", thermometersTemplate, func(p *thermometersPage) { p.None = false }, func(p *thermometersPage) { p.None, p.Rows = false, nil })
	rendered(t, "thermometercheck", checkTemplate, func(p *checkPage) { p.Outcome, p.Altitude = nil, nil })
	rendered(t, "watch", watchTemplate, func(p *watchPage) { p.None = false }, func(p *watchPage) { p.None, p.Places = false, nil })
	rendered(t, "excursion", excursionTemplate, func(p *excursionPage) { p.Rows, p.Deeds, p.Hold.Rows = nil, nil, nil })
	rendered(t, "storagelife", lifeTemplate)
	rendered(t, "lookatlot", lookAtTemplate, func(p *lookAtPage) { p.Verdict = nil })
}

// atHour is a time of the day before noon of the demo kitchen's day.
func atHour(h float64) time.Time {
	return coldNoon().Add(time.Duration((h - 12) * float64(time.Hour)))
}

// reads are readings of a probe every ten minutes from one hour of the day to another.
func reads(probe string, from, until float64, tempF func(hour float64) float64) (all []store.Reading) {
	for i := 0; from+float64(i)/6 <= until; i++ {
		h := from + float64(i)/6
		all = append(all, store.Reading{Probe: probe, At: record.Instant(atHour(h).UnixMilli()), MilliC: int64(math.Round((tempF(h) - 32) / 1.8 * 1000)), Valued: true, Line: i + 1})
	}
	return all
}

func steady(f float64) func(float64) float64 { return func(float64) float64 { return f } }

// watchedLarder is the demo kitchen with packs in its freezers and what its probes read.
func watchedLarder(t testing.TB, readings []store.Reading, bodies ...record.Body) (http.Handler, *app.Records) {
	t.Helper()
	house, err := app.New(demo.Book(), coldNoon)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "kitchen.records")
	records, err := app.OpenRecords(t.Context(), path, coldNoon)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	for i, b := range bodies {
		if _, err := records.Enter(t.Context(), app.Said{ID: record.ID{byte(i + 1)}, Who: "Ada", Device: "tablet", At: atHour(-48 + float64(i)/60), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := store.Open(t.Context(), path, func() record.Instant { return record.Instant(coldNoon().UnixMilli()) })
	if err != nil {
		t.Fatal(err)
	}
	defer kept.Close()
	if len(readings) > 0 {
		if err := kept.TakeReadings(t.Context(), store.Batch{ID: record.ID{0xee}, Who: "Ada", Readings: readings}); err != nil {
			t.Fatal(err)
		}
	}
	return New(house, Options{Records: records}), records
}

// warmMorning is a chest that was above -5 °C (23 °F) for a while in the morning and is cold again.
func warmMorning() []store.Reading {
	return reads("chest-2-air", 0, 12, func(h float64) float64 {
		switch {
		case h >= 7 && h < 8, h >= 9 && h < 10:
			return 12
		case h >= 8 && h < 9:
			return 28
		}
		return -2
	})
}

func TestTheWatchShowsWhatWasRead(t *testing.T) {
	h, _ := watchedLarder(t, append(warmMorning(), reads("upright-air", 0, 11.9, steady(-4))...), beans(t)...)
	page := get(h, "/freezers/watch").Body.String()
	for _, want := range []string{"-2 °F", "-4 °F", "As last read", "Too warm", "06:50 to 10:00", "at the warmest 28 °F", "look at what lay there", "has never sent anything", "FoodSafety.gov", "nobody wrote down what was done"} {
		if !strings.Contains(strings.ReplaceAll(page, "\u00a0", " "), want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if strings.Contains(strings.ToLower(page), "safe ") && !strings.Contains(page, "not of safety") {
		t.Error("the page says that something is safe")
	}
	home := get(h, "/").Body.String()
	if !strings.Contains(home, "Freezers") || !strings.Contains(home, "nobody wrote down what was done") {
		t.Error("the home page does not call it to mind")
	}
	if chart := get(h, regexp.MustCompile(`/freezers/watch/chart/air\.svg[^" ]*`).FindString(strings.ReplaceAll(page, "&amp;", "&"))); chart.Code != http.StatusOK || !strings.Contains(chart.Body.String(), "<svg") {
		t.Errorf("the chart answers %d", chart.Code)
	}
}

func TestAFreezerThatIsTooWarmNow(t *testing.T) {
	h, _ := watchedLarder(t, reads("chest-2-air", 0, 12, func(hour float64) float64 { return -4 + max(0, hour-10)*20 }), beans(t)...)
	page := get(h, "/freezers/watch").Body.String()
	for _, want := range []string{"TOO WARM", "STOP", "Keep it shut"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if home := get(h, "/").Body.String(); !strings.Contains(home, "it was last read at 36") {
		t.Error("the home page does not say it")
	}
}

// Somebody measures in a chest that no probe has ever read: the board of what is being made says how warm it is.
func TestTheBoardSaysThatAFreezerIsTooWarm(t *testing.T) {
	d := openedDay(t)
	board := func() string { return strings.ReplaceAll(get(d, "/board/"+boardRun).Body.String(), "\u00a0", " ") }
	if strings.Contains(board(), "warmer than 5 °F") {
		t.Fatal("it says so before")
	}
	if _, err := d.records.Enter(t.Context(), app.Said{Who: "Ada", Device: "tablet", At: d.now(), Body: record.Measured{Place: "chest-2", Temp: unit.TempF(30), Instrument: "pen-1"}}); err != nil {
		t.Fatal(err)
	}
	if page := board(); !strings.Contains(page, "it was last read at 30 °F, warmer than 5 °F") || !strings.Contains(page, "STOP") {
		t.Error("the board does not say it")
	}
}

func TestAProbeThatIsSilent(t *testing.T) {
	h, _ := watchedLarder(t, reads("chest-2-air", 0, 6, steady(-4)))
	if page := get(h, "/freezers/watch").Body.String(); !strings.Contains(page, "SILENT") || !strings.Contains(page, "nobody knows how warm it is") {
		t.Error("the page does not say that the probe is silent")
	}
	if home := get(h, "/").Body.String(); !strings.Contains(home, "nothing has come from probe in the chest at the back for 6 h") {
		t.Error("the home page does not say it")
	}
}

var excursionIn = regexp.MustCompile(`/freezers/watch/excursion\?[^"]*probe=chest-2-air[^"]*`)

func excursionOf(t *testing.T, h http.Handler) string {
	t.Helper()
	address := strings.ReplaceAll(excursionIn.FindString(get(h, "/freezers/watch").Body.String()), "&amp;", "&")
	if address == "" {
		t.Fatal("the watch has no excursion")
	}
	return address
}

// P-1124-1 lay in the chest, 206 days from its best-before day: an hour at most at 28 °F, which is above -5 °C, is to be looked at.
func TestWhatLayInTheWarmChest(t *testing.T) {
	h, records := watchedLarder(t, warmMorning(), beans(t)...)
	address := excursionOf(t, h)
	page := strings.ReplaceAll(get(h, address).Body.String(), "\u00a0", " ")
	for _, want := range []string{"Lot P-1124-1", "packs 1-30", "Look at each pack for ice crystals", "Hold them", "Vacuum packs that thawed through", "3 h 10 min", "28 °F (-2.2 °C)", "30 packs on hand, not held"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if strings.Contains(page, "P-1103-1") {
		t.Error("a lot of the other chest is listed")
	}
	q, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	form := url.Values{"who": {"Ada"}, "probe": {q.Query().Get("probe")}, "from": {q.Query().Get("from")}, "hold": {"P-1124-1#1-30"}}
	if w := fillIn(t, h, address, "/freezers/watch/hold", form); !strings.Contains(w.Body.String(), "30 packs on hand, all held") {
		t.Errorf("after the hold: %d", w.Code)
	}
	answer := url.Values{"who": {"Ada"}, "probe": form["probe"], "from": form["from"], "text": {"door was ajar"}}
	if w := fillIn(t, h, address, "/freezers/watch/answer", answer); !strings.Contains(w.Body.String(), "door was ajar") {
		t.Errorf("after the answer: %d", w.Code)
	}
	if home := get(h, "/").Body.String(); strings.Contains(home, "nobody wrote down what was done") {
		t.Error("it was answered, and the home page still calls it to mind")
	}
	if _, there, err := records.Entry(t.Context(), record.ID{1}); !there || err != nil {
		t.Errorf("the first entry: %v %v", there, err)
	}
	if w := fillIn(t, h, address, "/freezers/watch/answer", url.Values{"who": {"Ada"}, "probe": form["probe"], "from": form["from"], "text": {" "}}); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("an empty answer: %d", w.Code)
	}
}

// A chest with 500 lots: every one is on the page, which stays small enough for a tablet.
func TestAFullChestThatGotWarm(t *testing.T) {
	var bodies []record.Body
	for i := range 500 {
		bodies = append(bodies, record.Packed{Run: "tue", Pack: "bean-pot-2lb", Lot: record.Lot(fmt.Sprintf("P-%03d", i)), Numbers: numbersOf(t, "1-4"), Label: 2 * unit.Pound, Mass: 8 * unit.Pound, From: []record.Part{{Lot: "M-1", Mass: unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest-2/bottom"})
	}
	h, records := watchedLarder(t, warmMorning())
	for i, b := range bodies {
		if _, err := records.Enter(t.Context(), app.Said{ID: record.ID{byte(i), byte(i >> 8), 1}, Who: "Ada", Device: "tablet", At: atHour(-48), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	page := get(h, excursionOf(t, h)).Body.String()
	for i := range 500 {
		if !strings.Contains(page, fmt.Sprintf("Lot P-%03d", i)) {
			t.Fatalf("lot %d is not on the page", i)
		}
	}
	if len(page) > 400_000 {
		t.Errorf("the page has %d bytes", len(page))
	}
}

func TestSomebodyLooksAtALot(t *testing.T) {
	h, records := watchedLarder(t, warmMorning(), beans(t)...)
	q, _ := url.Parse(excursionOf(t, h))
	address := "/freezers/watch/lot?" + url.Values{"probe": q.Query()["probe"], "from": q.Query()["from"], "lot": {"P-1124-1"}, "numbers": {"1-30"}}.Encode()
	if w := get(h, address); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "pocket thermometer, red: wrong by up to 1 °F") {
		t.Fatalf("the form: %d", w.Code)
	}
	found := func(more ...string) url.Values {
		f := url.Values{"who": {"Ada"}, "probe": q.Query()["probe"], "from": q.Query()["from"], "lot": {"P-1124-1"}, "numbers": {"1-30"}, "instrument": {"pen-1"}}
		for i := 0; i+1 < len(more); i += 2 {
			f.Set(more[i], more[i+1])
		}
		return f
	}
	for name, x := range map[string]struct {
		form   url.Values
		status int
		says   string
	}{
		"nothing told":           {found(), http.StatusUnprocessableEntity, "Too little was told"},
		"ice":                    {found("ice", "yes"), http.StatusOK, "lets it be frozen again"},
		"thawed without air":     {found("ice", "no", "core", "36"), http.StatusOK, "without the word of your authority"},
		"no ice, no temperature": {found("ice", "no"), http.StatusOK, "discard it"},
		"no temperature":         {found("ice", "yes", "core", "cold"), http.StatusUnprocessableEntity, "cold"},
		"no numbers":             {found("ice", "yes", "numbers", "some"), http.StatusUnprocessableEntity, "no number"},
	} {
		w := fillIn(t, h, address, "/freezers/watch/lot", x.form)
		if w.Code != x.status || !strings.Contains(w.Body.String(), x.says) {
			t.Errorf("%s: %d, want %d and %q", name, w.Code, x.status, x.says)
		}
	}
	if page := fillIn(t, h, address, "/freezers/watch/lot", found("ice", "no", "core", "36")).Body.String(); strings.Contains(page, `value="keep"`) {
		t.Error("thawed packs without air are offered to be left")
	}
	w := fillIn(t, h, address, "/freezers/watch/lot", found("ice", "no", "core", "36", "decision", "hold"))
	for _, want := range []string{"no ice crystals", "measured 36", "guidance: authority", "all held"} {
		if !strings.Contains(strings.ReplaceAll(w.Body.String(), "\u00a0", " "), want) {
			t.Errorf("afterwards the page does not say %q (%d)", want, w.Code)
		}
	}
	var kinds []string
	for seq := uint64(1); ; seq++ {
		e, there, err := entryAt(t, records, seq)
		if err != nil || !there {
			break
		}
		if e.Kind == "acted" || e.Kind == "measured" {
			kinds = append(kinds, string(e.Kind))
		}
	}
	if fmt.Sprint(kinds) != "[acted measured]" {
		t.Errorf("entered %v", kinds)
	}
}

// entryAt is an entry by its place in the chain.
func entryAt(t *testing.T, records *app.Records, seq uint64) (record.Entry, bool, error) {
	t.Helper()
	var out strings.Builder
	if _, err := records.Export(t.Context(), &out); err != nil {
		return record.Entry{}, false, err
	}
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	if seq > uint64(len(lines)) {
		return record.Entry{}, false, nil
	}
	kind := regexp.MustCompile(`"kind":"([a-z-]+)"`).FindStringSubmatch(lines[seq-1])
	return record.Entry{Kind: record.Kind(kind[1])}, true, nil
}

// Packs that came two days before noon: of their 206 days the page of the lot leads to what storage took, as far as it was read.
func TestTheStoryOfALotLeadsToItsStorage(t *testing.T) {
	h, _ := watchedLarder(t, reads("chest-2-air", -48, 12, steady(0)), beans(t)...)
	lot := get(h, "/lot?lot=P-1124-1").Body.String()
	if !strings.Contains(lot, `href="/freezers/watch/life?lot=P-1124-1"`) {
		t.Error("the page of the lot does not lead there")
	}
	page := strings.ReplaceAll(get(h, "/freezers/watch/life?lot=P-1124-1").Body.String(), "\u00a0", " ")
	// 60 hours of 183 days (30 November to 1 June) at 0 °F, which is a hair warmer than -18 °C: 2.5/183 = 1.4 %
	for _, want := range []string{"packs 1-30", "about 1.4 %", "183 days at 0 °F", "2 days 11 h read"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if page := get(h, "/freezers/watch/life?lot=P-1103-1").Body.String(); !strings.Contains(page, "nothing was read") || !strings.Contains(page, "not known") {
		t.Error("a chest that nobody read is reckoned with")
	}
	if w := get(h, "/freezers/watch/life?lot=nobody"); w.Code != http.StatusNotFound {
		t.Errorf("a lot that nobody named answers %d", w.Code)
	}
}

func TestThermometersAreCheckedInThreeTouches(t *testing.T) {
	h, _ := watchedLarder(t, nil)
	page := get(h, "/thermometers").Body.String()
	if !strings.Contains(page, "Never checked") || !strings.Contains(page, "pocket thermometer, red") {
		t.Fatal("the page does not say that nobody checked")
	}
	if home := get(h, "/").Body.String(); !strings.Contains(home, "thermometers have to be checked") {
		t.Error("the home page does not say it")
	}
	address := "/thermometers/check?id=pen-1"
	form := get(h, address).Body.String()
	if !strings.Contains(form, "It should read <b>32 °F</b>, give or take <b>1 °F</b>") || !strings.Contains(form, `value="32.5 F"`) {
		t.Error("the form does not say what it should read")
	}
	w := fillIn(t, h, address, "/thermometers/check", url.Values{"who": {"Ada"}, "id": {"pen-1"}, "method": {"ice-point"}, "read": {"32.5 F"}})
	if body := w.Body.String(); !strings.Contains(body, "Checked, due in 14 days") || !strings.Contains(body, "checked the thermometer pen-1: read 32.5 °F for 32 °F") {
		t.Errorf("after a good check: %d", w.Code)
	}
	if boil := get(h, address+"&method=boiling-point").Body.String(); !strings.Contains(boil, "209.4") {
		t.Error("at 1300 ft water boils at 209.4 °F")
	}
}

func TestAThermometerThatReadsWrong(t *testing.T) {
	for name, x := range map[string]struct {
		form   url.Values
		status int
		says   string
	}{
		"asked what becomes of it": {url.Values{"read": {"35"}}, http.StatusUnprocessableEntity, "It reads 3 °F too warm"},
		"as cold":                  {url.Values{"read": {"-1 C"}}, http.StatusUnprocessableEntity, "It reads 1.8 °F too cold"},
		"adjusted":                 {url.Values{"read": {"35"}, "kept": {"adjusted"}, "after": {"32"}}, http.StatusOK, "may read wrong by up to 1 °F"},
		"adjusted, and not again":  {url.Values{"read": {"35"}, "kept": {"adjusted"}}, http.StatusUnprocessableEntity, "Check it again after adjusting"},
		"adjusted, and still off":  {url.Values{"read": {"35"}, "kept": {"adjusted"}, "after": {"34"}}, http.StatusUnprocessableEntity, "It still reads wrong by 2 °F"},
		"kept with its error":      {url.Values{"read": {"35"}, "kept": {"in-use"}}, http.StatusOK, "may read wrong by up to 3 °F"},
		"withdrawn":                {url.Values{"read": {"35"}, "kept": {"withdrawn"}}, http.StatusOK, "Withdrawn"},
		"no number":                {url.Values{"read": {"cold"}}, http.StatusUnprocessableEntity, "cold"},
		"nothing":                  {url.Values{}, http.StatusUnprocessableEntity, "Write what it reads."},
		"no thermometer reads so":  {url.Values{"read": {"900"}}, http.StatusUnprocessableEntity, "check the unit"},
		"beside another":           {url.Values{"method": {"against-reference"}, "read": {"38.5"}, "true": {"38"}}, http.StatusOK, "beside another: read 38.5 °F for 38 °F"},
		"beside nothing":           {url.Values{"method": {"against-reference"}, "read": {"38.5"}}, http.StatusUnprocessableEntity, "Write what the other thermometer reads."},
	} {
		h, _ := watchedLarder(t, nil)
		form := url.Values{"who": {"Ada"}, "id": {"pen-1"}, "method": {"ice-point"}}
		for key, value := range x.form {
			form[key] = value
		}
		w := fillIn(t, h, "/thermometers/check?id=pen-1", "/thermometers/check", form)
		if w.Code != x.status || !strings.Contains(strings.ReplaceAll(w.Body.String(), "\u00a0", " "), x.says) {
			t.Errorf("%s: %d, want %d and %q", name, w.Code, x.status, x.says)
		}
	}
}

func TestWatchOfNothing(t *testing.T) {
	h, _ := watchedLarder(t, nil)
	for address, want := range map[string]int{
		"/freezers/watch": http.StatusOK, "/freezers/watch.json": http.StatusOK, "/thermometers": http.StatusOK, "/thermometers.json": http.StatusOK,
		"/freezers/watch/excursion": http.StatusNotFound, "/freezers/watch/excursion?probe=x&from=1": http.StatusNotFound, "/freezers/watch/excursion?probe=x&from=" + fmt.Sprint(coldNoon().UnixMilli()-1): http.StatusNotFound,
		"/freezers/watch/lot?probe=x&from=1&lot=P": http.StatusNotFound, "/freezers/watch/chart/air.svg?probe=chest-2-air&from=1&until=2": http.StatusOK, "/freezers/watch/chart/air.svg?probe=none&from=1&until=2": http.StatusNotFound,
		"/freezers/watch/chart/air.svg": http.StatusNotFound, "/freezers/watch/chart/other.svg?probe=chest-2-air&from=1&until=2": http.StatusNotFound, "/thermometers/check": http.StatusNotFound, "/thermometers/check?id=nobody": http.StatusOK,
	} {
		if w := get(h, address); w.Code != want {
			t.Errorf("%s answers %d, want %d", address, w.Code, want)
		}
	}
	house, err := app.New(demo.Book(), coldNoon)
	if err != nil {
		t.Fatal(err)
	}
	bare := New(house, Options{})
	for _, address := range []string{"/freezers/watch", "/thermometers"} {
		if w := get(bare, address); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "No records are kept here") {
			t.Errorf("%s without records answers %d", address, w.Code)
		}
	}
	if w := get(bare, "/freezers/watch.json"); w.Code != http.StatusConflict {
		t.Errorf("JSON without records answers %d", w.Code)
	}
}

// Numbers of a kitchen of eight probes that each read every minute for two weeks.
func BenchmarkWatch(b *testing.B) {
	var readings []store.Reading
	for _, probe := range []string{"chest-2-air", "upright-air", "walk-in-air", "chest-1-air"} {
		for i := range 14 * 1440 {
			readings = append(readings, store.Reading{Probe: probe, At: record.Instant(coldNoon().Add(-time.Duration(i) * time.Minute).UnixMilli()), MilliC: -19000 + int64(i%40)*100, Valued: true, Line: len(readings) + 1})
		}
	}
	h, _ := watchedLarder(b, readings, record.Measured{Place: "chest-1", Temp: unit.TempF(0)})
	for b.Loop() {
		if w := get(h, "/freezers/watch"); w.Code != http.StatusOK {
			b.Fatal(w.Code)
		}
	}
}

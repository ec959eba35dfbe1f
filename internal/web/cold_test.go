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
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

func TestColdPagesEmptyAndFull(t *testing.T) {
	rendered(t, "place", placeTemplate)
	rendered(t, "handle", handleTemplate)
	rendered(t, "count", countTemplate, func(p *countPage) { p.Choose = nil })
	rendered(t, "counted", countedTemplate)
	rendered(t, "put", putTemplate)
	rendered(t, "tublabels", tubLabelsTemplate)
	rendered(t, "receive", receiveTemplate)
}

// coldNoon is a day on which the demo kitchen works.
func coldNoon() time.Time { return time.Date(2026, 12, 2, 12, 0, 0, 0, time.UTC) }

// larder is the demo kitchen with these entries in its records.
func larder(t testing.TB, bodies ...record.Body) (http.Handler, *app.Records) {
	t.Helper()
	house, err := app.New(demo.Book(), coldNoon)
	if err != nil {
		t.Fatal(err)
	}
	records := recordsOf(t, bodies...)
	return New(house, Options{Records: records}), records
}

// beans are packs of a pot of beans in both chests, the older ones held in part, and carrots; names that are hostile among them.
func beans(t testing.TB) []record.Body {
	packed := func(lot record.Lot, numbers string, best record.Day, place record.Place) record.Body {
		n := numbersOf(t, numbers)
		return record.Packed{Run: "tue", Pack: "bean-pot-2lb", Lot: lot, Numbers: n, Label: 2 * unit.Pound, Mass: unit.Mass(n.Count()) * 2 * unit.Pound, From: []record.Part{{Lot: "M-1", Mass: unit.Kilogram}}, BestBefore: best, Place: place}
	}
	return []record.Body{
		record.Received{Lot: "R-1", Ingredient: "carrot", Supplier: `<evil a="b">`, SupplierLot: "77", Mass: 20 * unit.Pound, Paid: 18_000_000, Place: "walk-in/right", UseBy: "2026-12-09"},
		record.Made{Run: "tue", Dish: "beans", Output: "beans", Lot: "M-1", Mass: 200 * unit.Pound, From: []record.Part{{Lot: "R-1", Mass: 5 * unit.Pound}}},
		packed("P-1103-1", "1-20", "2027-05-01", "chest-1/bottom"),
		packed("P-1124-1", "1-30", "2027-06-01", "chest-2/bottom"),
		record.Held{Lot: "P-1103-1", Numbers: numbersOf(t, "18-20"), Why: "seals look weak"},
		packed("P-0301-1", "1-2", "2026-11-20", "chest-1/baskets"),
	}
}

var entryIn = regexp.MustCompile(`name="entry" value="([0-9a-f]{32})"`)

// fillIn fills in a form as the page shows it, with a number of its own, and follows to the page after it.
func fillIn(t *testing.T, h http.Handler, page, to string, form url.Values) *httptest.ResponseRecorder {
	t.Helper()
	shown := get(h, page).Body.String()
	id := entryIn.FindAllStringSubmatch(shown, -1)
	if len(id) == 0 {
		t.Fatalf("%s has no form", page)
	}
	form.Set("entry", id[len(id)-1][1])
	w := post(h, to, form)
	if w.Code == http.StatusSeeOther {
		return get(h, w.Header().Get("Location"))
	}
	return w
}

func lotsNow(t *testing.T, r *app.Records, at func(*lots.State, finding.List)) {
	t.Helper()
	if err := r.Lots(t.Context(), func(s *lots.State, found finding.List) error { at(s, found); return nil }); err != nil {
		t.Fatal(err)
	}
}

func TestTheStockPage(t *testing.T) {
	h, _ := larder(t, beans(t)...)
	page := get(h, "/stock").Body.String()
	inOrder(t, page, "Lot or pack", `href="/receive"`, `href="/stock/count"`, "What is where", `src="/stock/map/places.svg"`, `href="/stock/place?place=chest-1"`, "chest freezer by the door", "not known",
		"On hand, the oldest first", "P-0301-1", "past its day", "R-1", "goes first", "P-1103-1", "held: packs 18-20", "goes first", "P-1124-1", "What does not fit", "past its best-before day")
	if strings.Contains(page, "<evil") {
		t.Error("a name became markup")
	}
	for target, want := range map[string][]string{
		"/stock/place?place=chest-1":                   {"chest freezer by the door", "Its parts", "P-1103-1", "P-0301-1", "Space is reckoned at 0.56 kg/L"},
		"/stock/place?place=baskets":                   nil, // both chests have some
		"/stock/place?place=no-such":                   nil,
		"/stock/map/places.svg?place=chest-1":          {"<svg", "P-1103-1, bean-pot-2lb, 20 packs"},
		"/stock/map/places.narrow.dark.svg":            {"<svg", `width="360"`},
		"/stock/map/other.svg":                         nil,
		"/stock/handle?code=p-1103-1+%2319":            {"P-1103-1#19", "HELD", "seals look weak", "chest freezer by the door, bottom"},
		"/stock/handle?code=R-9":                       nil,
		"/stock/label?lot=R-1&lot=P-1103-1":            {"R-1", "carrot", "Their lot", "HELD: packs 18-20: seals look weak"},
		"/stock/label?lot=none":                        nil,
		"/stock/put?pack=bean-pot-2lb&count=20":        {"chest freezer", "20 packs", "nothing older of the kind is there"},
		"/stock/put?pack=bean-pot-2lb&count=0":         nil,
		"/stock/put?run=none":                          nil,
		"/stock/count?place=chest-1%2Fbottom":          {"0 of 1 lot looked at", "the records say 20"},
		"/stock/count":                                 {"Choose a place", "chest-1/baskets"},
		"/receive?lines=3":                             {"Goods 3", "R-1202-3", "41", "3-202.11"},
		"/stock/counted?note=" + record.ID{1}.String(): nil,
	} {
		w := get(h, target)
		if bad := w.Code >= 400; bad != (want == nil) {
			t.Errorf("%s: status %d", target, w.Code)
		}
		for _, text := range want {
			if !strings.Contains(plainText(w.Body.String()), text) {
				t.Errorf("%s does not have %q", target, text)
			}
		}
	}
	bare := New(&shelf{now: monthBefore()}, Options{})
	for _, target := range []string{"/stock", "/stock/place?place=x", "/stock/handle", "/stock/count", "/stock/put", "/receive", "/stock/label?lot=x"} {
		if w := get(bare, target); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "No records are kept") {
			t.Errorf("%s without records: %d", target, w.Code)
		}
	}
}

// The report for programs adds up: what is in a place and its parts is what its lots come to.
func TestStockAsJSON(t *testing.T) {
	h, _ := larder(t, beans(t)...)
	var r coldstore.Report
	w := get(h, "/stock.json")
	if err := json.Unmarshal(w.Body.Bytes(), &r); err != nil || r.Schema != coldstore.ReportSchema || r.Day != "2026-12-02" {
		t.Fatalf("%v, %s of %s", err, r.Schema, r.Day)
	}
	sum, packs := map[record.Place]unit.Mass{}, map[record.Place]int64{}
	for _, p := range r.Places {
		for _, g := range p.Contents {
			for id := p.ID; ; id = id[:strings.LastIndexByte(string(id), '/')] {
				sum[id] += g.Mass
				packs[id] += g.Count
				if !strings.Contains(string(id), "/") {
					break
				}
			}
		}
	}
	for _, p := range r.Places {
		if p.Holds != sum[p.ID] || p.Packs != packs[p.ID] {
			t.Errorf("%s holds %s and %d packs, its lots %s and %d", p.ID, p.Holds, p.Packs, sum[p.ID], packs[p.ID])
		}
		if p.Room != nil && *p.Room-p.Holds != *p.Left-p.Over {
			t.Errorf("%s: room %s, left %s, over %s", p.ID, *p.Room, *p.Left, p.Over)
		}
	}
	if packs["chest-1"] != 22 {
		t.Errorf("%d packs in the first chest, want 22", packs["chest-1"])
	}
	r = coldstore.Report{}
	if err := json.Unmarshal(get(h, "/stock.json?place=chest-1").Body.Bytes(), &r); err != nil || len(r.Places) != 3 || len(r.Findings) != 1 {
		t.Errorf("of one place: %v, %d places, findings %v", err, len(r.Places), r.Findings)
	}
	if w := get(h, "/stock.json?place=attic"); w.Code != http.StatusNotFound {
		t.Errorf("of no place: %d", w.Code)
	}
}

func TestMovingHoldingReleasingWritingOff(t *testing.T) {
	h, records := larder(t, beans(t)...)
	w := fillIn(t, h, "/stock/handle", "/stock/handle", url.Values{"do": {"move"}, "code": {"P-1103-1"}, "which": {"next 12"}, "to": {"upright/shelf-1"}})
	inOrder(t, w.Body.String(), "Entered:", "moved 12 packs (no. 1-12) of P-1103-1 to upright/shelf-1", "Take it back", `name="code" type="text" value=""`, `value="upright/shelf-1" selected`)
	lotsNow(t, records, func(s *lots.State, _ finding.List) {
		if got := s.Lot("P-1103-1").Here["upright/shelf-1"].Numbers.String(); got != "1-12" {
			t.Errorf("%s on the shelf", got)
		}
	})
	before := entries(t, records)
	for _, c := range []struct {
		form url.Values
		want []string
	}{
		{url.Values{"do": {"move"}, "code": {"P-1103-1"}, "which": {"12"}, "to": {"walk-in"}}, []string{`id="f-which-problem"`, "can be a number or a count", `value="walk-in" selected`}},
		{url.Values{"do": {"move"}, "code": {"P-9#1"}, "to": {"walk-in"}}, []string{`value="P-9#1"`, `id="f-code-problem"`, "No entry names a lot"}},
		{url.Values{"do": {"move"}, "code": {"P-1103-1#40"}, "to": {"walk-in"}}, []string{"has no pack 40"}},
		{url.Values{"do": {"move"}, "code": {"P-1103-1"}, "which": {"next 99"}, "from": {"chest-1/bottom"}, "to": {"walk-in"}}, []string{"99 packs are more than the 8 that are there"}},
		{url.Values{"do": {"move"}, "code": {"P-1103-1#1"}}, []string{`id="f-to-problem"`, "It is not said to which place"}},
		{url.Values{"do": {"write-off"}, "code": {"P-1103-1#1"}}, []string{`id="f-why-problem"`}},
		{url.Values{"do": {"write-off"}, "code": {"R-1"}, "which": {"0"}, "why": {"slimy"}}, []string{"No mass is none"}},
		{url.Values{"do": {"hold"}, "code": {"R-1"}}, []string{`id="f-why-problem"`}},
		{url.Values{"do": {"release"}, "code": {"R-1"}, "why": {"x"}}, []string{"Nothing of it is held"}},
		{url.Values{"do": {"release"}, "code": {"P-1103-1"}, "why": {"x"}}, []string{`id="f-disposition-problem"`}},
	} {
		w := fillIn(t, h, "/stock/handle", "/stock/handle", c.form)
		if w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%v: status %d", c.form, w.Code)
		}
		inOrder(t, w.Body.String(), c.want...)
	}
	if after := entries(t, records); after != before {
		t.Errorf("%d entries came of forms with mistakes", after-before)
	}
	fillIn(t, h, "/stock/handle", "/stock/handle", url.Values{"do": {"hold"}, "code": {"R-1"}, "why": {"smells"}})
	fillIn(t, h, "/stock/handle", "/stock/handle", url.Values{"do": {"release"}, "code": {"P-1103-1"}, "disposition": {"release"}, "why": {"seals pulled, all tight"}})
	fillIn(t, h, "/stock/handle", "/stock/handle", url.Values{"do": {"write-off"}, "code": {"R-1"}, "which": {"1.5"}, "why": {"soft"}})
	lotsNow(t, records, func(s *lots.State, _ finding.List) {
		if s.Lot("P-1103-1").Held() || !s.Lot("R-1").Held() || s.Lot("R-1").WrittenOff.Mass != 3*unit.Pound/2 { // a number alone is in pounds here
			t.Errorf("held %v and %v, written off %s", s.Lot("P-1103-1").Holds, s.Lot("R-1").Holds, s.Lot("R-1").WrittenOff.Mass)
		}
	})
}

func entries(t *testing.T, r *app.Records) uint64 {
	t.Helper()
	head, err := r.Verify(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return head.Seq
}

// A stocktake by typed scans: what is found stands in the address, a bad scan leaves it as it was, and the end is one entry for each lot of the
// place and a report with what the difference is worth.
func TestTakingStockByScans(t *testing.T) {
	h, records := larder(t, beans(t)...)
	scan := func(at, text string) string {
		t.Helper()
		u, err := url.Parse(at)
		if err != nil {
			t.Fatal(err)
		}
		q := u.Query()
		q.Set("scan", text)
		w := get(h, "/stock/count?"+q.Encode())
		if w.Code != http.StatusSeeOther {
			t.Fatalf("%s: %d", text, w.Code)
		}
		return w.Header().Get("Location")
	}
	at := scan("/stock/count?place=chest-1%2Fbottom", "P-1103-1#1-16")
	at = scan(at, "p-1103-1 #18")
	at = scan(at, "P-1124-1#7") // should be in the other chest
	page := get(h, at).Body.String()
	inOrder(t, page, "P-1124-1: 1 pack (no. 7)", "2 of 2 lots looked at", "18 packs found, the records say 20", "P-1103-1", "3 packs missing", "missing no. 17, 19-20", "P-1124-1", "1 pack not expected", "7 at chest-2/bottom", "In all:", "less than the records say", "Finish")
	if again := get(h, at).Body.String(); stripEntry(again) != stripEntry(page) {
		t.Error("a reload shows something else")
	}
	for _, bad := range []string{"P-1103-1#3", "P-1103-1#99", "P-7#1", "P-1103-1", ""} {
		u, _ := url.Parse(at)
		q := u.Query()
		q.Set("scan", bad)
		w := get(h, "/stock/count?"+q.Encode())
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), `id="f-scan-problem"`) || !strings.Contains(w.Body.String(), "18 packs found") {
			t.Errorf("%q: %d", bad, w.Code)
		}
	}
	u, _ := url.Parse(at)
	form := u.Query()
	w := fillIn(t, h, at, "/stock/count", form)
	inOrder(t, w.Body.String(), "Entered:", "counted 17 packs (no. 1-16, 18) of P-1103-1", "Stock taken", "Ada", "3 packs missing", "$")
	lotsNow(t, records, func(s *lots.State, _ finding.List) {
		if p := s.Lot("P-1103-1"); p.Missing.String() != "17, 19-20" {
			t.Errorf("missing %s", p.Missing)
		}
		if p := s.Lot("P-1124-1"); p.Here["chest-1/bottom"].Numbers.String() != "7" || p.Here["chest-2/bottom"].Numbers.String() != "1-6, 8-30" {
			t.Errorf("the other lot is %v", p.Here)
		}
	})
}

// plainText is a page as it reads: with its signs, and plain spaces.
func plainText(page string) string {
	return strings.ReplaceAll(html.UnescapeString(page), "\u00a0", " ")
}

func stripEntry(page string) string { return entryIn.ReplaceAllString(page, "") }

// What nobody can price is told as that, not as worth nothing.
func TestACountOfWhatNobodyPriced(t *testing.T) {
	h, _ := larder(t, record.Received{Lot: "R-9", Ingredient: "carrot", Supplier: "farm", Mass: unit.Pound, Place: "dry-store"})
	page := plainText(get(h, "/stock/count?place=dry-store&f=R-9+8+oz").Body.String())
	inOrder(t, page, "8 oz less", "nobody knows what it is worth", "In all: 8 oz less than the records say; nothing more; of 1 lot it is not known what they are worth")
	if strings.Contains(page, "$0.00") {
		t.Error("it is said to be worth nothing")
	}
}

// What nobody looked at is entered as not there only when that is ticked.
func TestACountThatIsNotFinished(t *testing.T) {
	h, records := larder(t, beans(t)...)
	before := entries(t, records)
	form := url.Values{"place": {"chest-1/baskets"}}
	w := fillIn(t, h, "/stock/count?place=chest-1%2Fbaskets", "/stock/count", form)
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "1 lot was not looked at") || entries(t, records) != before {
		t.Errorf("unlooked: %d", w.Code)
	}
	form.Set("sure", "yes")
	if w := fillIn(t, h, "/stock/count?place=chest-1%2Fbaskets", "/stock/count", form); w.Code != http.StatusOK || entries(t, records) != before+2 {
		t.Errorf("sure: %d, %d entries", w.Code, entries(t, records)-before)
	}
}

// A delivery of several goods: cold ones within their limit come in, one that came too warm is asked about and is refused or held, never just
// taken; nothing is entered as long as anything is wrong.
func TestReceiving(t *testing.T) {
	h, records := larder(t, beans(t)...)
	before := entries(t, records)
	form := url.Values{"supplier": {"hillside produce terminal (invented)"}, "invoice": {"4711"}, "lines": {"3"},
		"ingredient.0": {"carrot"}, "count.0": {"4"}, "each.0": {"25"}, "price.0": {"12.50"}, "their.0": {"C-9"}, "use-by.0": {"2026-12-10"}, "door.0": {"39"}, "place.0": {"walk-in/right"}, "lot.0": {"R-1202-1"},
		"ingredient.1": {"butter"}, "count.1": {"2"}, "each.1": {"36 lb"}, "door.1": {"47 °F"}, "lot.1": {"R-1202-2"}}
	w := fillIn(t, h, "/receive", "/receive", form)
	if w.Code != http.StatusUnprocessableEntity {
		t.Fatalf("status %d", w.Code)
	}
	inOrder(t, plainText(w.Body.String()), "Goods 2", "It came at 47 °F, and the limit at the door for chilled food is 41 °F", "FDA Food Code 2022, 3-202.11", "What becomes of it", "Refuse it, or take it in and hold it", `value="47 °F"`)
	if entries(t, records) != before {
		t.Fatal("half of it was entered")
	}
	form.Set("decide.1", "hold")
	w = fillIn(t, h, "/receive", "/receive", form)
	inOrder(t, plainText(w.Body.String()), "Entered:", "received 100 lb carrot from hillside as R-1202-1", "R-1202-1", "Their lot", "R-1202-2", "HELD: it came at 47 °F")
	lotsNow(t, records, func(s *lots.State, found finding.List) {
		carrot, butter := s.Lot("R-1202-1"), s.Lot("R-1202-2")
		if carrot.Came != 100*unit.Pound || carrot.Paid != 50_000_000 || carrot.Supplier != "hillside" || carrot.SupplierLot != "C-9" || carrot.Held() || carrot.Here["walk-in/right"].Mass != 100*unit.Pound {
			t.Errorf("carrots: %+v", carrot)
		}
		if !butter.Held() || butter.Came != 72*unit.Pound {
			t.Errorf("butter: %+v", butter)
		}
	})
	form = url.Values{"supplier": {"hillside"}, "ingredient.0": {"butter"}, "count.0": {"1"}, "each.0": {"36 lb"}, "decide.0": {"refuse"}, "lot.0": {"R-9"}}
	w = fillIn(t, h, "/receive", "/receive", form)
	inOrder(t, w.Body.String(), "Entered:", "Refused at the door: 36", "nobody measured it")
	lotsNow(t, records, func(s *lots.State, _ finding.List) {
		if s.Lot("R-9") != nil {
			t.Error("what was refused is there")
		}
	})
}

func TestReceivingWithMistakes(t *testing.T) {
	h, records := larder(t, beans(t)...)
	before := entries(t, records)
	right := func() url.Values {
		return url.Values{"supplier": {"hillside"}, "ingredient.0": {"carrot"}, "count.0": {"4"}, "each.0": {"25 lb"}, "door.0": {"39"}, "lot.0": {"R-1202-1"}}
	}
	for _, c := range []struct{ key, value, want string }{
		{"supplier", "", "a recall begins there"},
		{"ingredient.0", "moon dust", "Choose what it is"},
		{"count.0", "0", "Write how many came"},
		{"count.0", "-3", "Write how many came"},
		{"each.0", "heavy", "heavy"},
		{"each.0", "0", "Write what it weighs"},
		{"weighed.0", "900 lb", "nowhere near"},
		{"price.0", "much", "much"},
		{"price.0", "-1", "cost"},
		{"use-by.0", "soon", "Write the day as"},
		{"use-by.0", "2026-11-01", "is over"},
		{"frozen.0", "2026-12-24", "still to come"},
		{"door.0", "cold", "cold"},
		{"door.0", "4000", "No food is that cold or hot"},
		{"lot.0", "R-1", "is there already"},
		{"lot.0", "R#1", "Leave out the #"},
	} {
		form := right()
		form.Set(c.key, c.value)
		w := fillIn(t, h, "/receive", "/receive", form)
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(plainText(w.Body.String()), c.want) {
			t.Errorf("%s %q: %d, without %q", c.key, c.value, w.Code, c.want)
		}
	}
	two := right()
	for key, v := range right() {
		two[strings.Replace(key, ".0", ".1", 1)] = v
	}
	if w := fillIn(t, h, "/receive", "/receive", two); !strings.Contains(w.Body.String(), "Another of these goods has that name") {
		t.Error("two goods of one name")
	}
	if w := fillIn(t, h, "/receive", "/receive", url.Values{"supplier": {"x"}}); !strings.Contains(w.Body.String(), "Nothing is written down") {
		t.Error("an empty form")
	}
	more := right()
	more.Set("more", "1")
	more.Set("lines", "2")
	more.Set("count.0", "x")
	if w := fillIn(t, h, "/receive", "/receive", more); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "Goods 3") || strings.Contains(w.Body.String(), `class="problem"`) || !strings.Contains(w.Body.String(), `value="x"`) {
		t.Errorf("one more line: %d", w.Code)
	}
	if after := entries(t, records); after != before {
		t.Errorf("%d entries came of forms with mistakes", after-before)
	}
}

package web

import (
	"encoding/json"
	"fmt"
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
	"kettlefrost/internal/kitchen/kitchentest"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// sauce is so many packs of the demo kitchen's ale-cheddar sauce.
func sauce(t testing.TB, lot record.Lot, n int64, best record.Day, place record.Place) record.Packed {
	mass := unit.Mass(n) * unit.Pound
	return record.Packed{Run: "run", Pack: "ale-cheddar-lb", Lot: lot, Numbers: numbersOf(t, fmt.Sprintf("1-%d", n)), Label: unit.Pound, Mass: mass, From: []record.Part{{Lot: "M-" + lot, Mass: mass}}, BestBefore: best, Place: place}
}

// counter is the demo kitchen with two customers and three lots of sauce, of which one is past its date.
func counter(t *testing.T, more ...record.Body) (http.Handler, *app.Records) {
	t.Helper()
	records := recordsOf(t, append([]record.Body{
		record.Customer{Customer: "cafe", Name: `Café <b>"Örtlich"</b>`, Address: "1 Mill Lane\nSpringfield", Phone: "555-0100"}, record.Customer{Customer: "inn", Name: "Long Inn"},
		sauce(t, "P-2", 20, "2027-05-17", "chest-1/shelf 10"), sauce(t, "P-1", 5, "2026-12-20", "chest-1/shelf 2"), sauce(t, "P-0", 5, "2026-11-30", "chest-2")}, more...)...)
	house, err := app.New(kitchentest.Without(demo.Book(), "safety.yaml"), func() time.Time { return someDay().Add(time.Hour) })
	if err != nil {
		t.Fatal(err)
	}
	house.Follow(records)
	return New(house, Options{Records: records}), records
}

// anOrder is twelve sauces for the café on the day after someDay.
func anOrder() record.Ordered {
	return record.Ordered{Order: "O-1", Customer: "cafe", Lines: []record.OrderLine{{Pack: "ale-cheddar-lb", Count: 12}}, Due: orders.Plus(app.Today(someDay()), 1), Way: record.Deliver, Note: "ring twice"}
}

var hidden = regexp.MustCompile(`<input type="hidden" name="([a-z]+)" value="([^"]*)">`)

// formOf is what the first form with an action on a page sends unless somebody types: its hidden fields.
func formOf(t *testing.T, page, action string) url.Values {
	t.Helper()
	_, rest, ok := strings.Cut(page, `action="`+action+`"`)
	if !ok {
		t.Fatalf("no form leads to %s", action)
	}
	form, _, _ := strings.Cut(rest, "</form>")
	v := url.Values{}
	for _, m := range hidden.FindAllStringSubmatch(form, -1) {
		v.Add(m[1], html.UnescapeString(m[2]))
	}
	return v
}

// sent sends a form and says where it led.
func sent(t *testing.T, h http.Handler, action string, form url.Values, more ...string) *httptest.ResponseRecorder {
	t.Helper()
	for i := 0; i < len(more); i += 2 {
		form.Set(more[i], more[i+1])
	}
	return post(h, action, form)
}

func statusOf(t *testing.T, r *app.Records, id string) (s orders.Status) {
	t.Helper()
	if err := r.Desk(t.Context(), app.Today(someDay()), func(d app.Desk) error {
		o, _ := d.Order(id, d.Today)
		s = o.Status
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	return s
}

// From the form to the hand-over: an order is entered, picked row by row, handed over, and some of it comes back.
func TestAnOrderFromFormToHandOver(t *testing.T) {
	h, records := counter(t)
	due := string(orders.Plus(app.Today(someDay()), 1))
	page := get(h, "/orders/new?customer=cafe").Body.String()
	inOrder(t, page, `value="cafe" selected`, "Ale and cheddar sauce", "25 free", `name="count"`)
	form := formOf(t, page, "/orders/new")
	for range form["pack"] {
		form.Add("count", "")
		form.Add("each", "")
	}
	form["count"][0], form["each"][0] = "12", "6.50"
	w := sent(t, h, "/orders/new", form, "customer", "cafe", "due", due, "way", "deliver")
	if to := w.Header().Get("Location"); w.Code != http.StatusSeeOther || !strings.HasPrefix(to, "/order/O-1?did=") {
		t.Fatalf("%d to %q: %s", w.Code, to, w.Body)
	}
	page = get(h, w.Header().Get("Location")).Body.String()
	inOrder(t, page, "Entered:", "order O-1", "0 of 12 packs", "$6.50", "To be fetched", "chest-1/shelf 2", "P-1", "1-5", "chest-1/shelf 10", "P-2", "1-7", "Cancel this order")
	for _, want := range []orders.Status{orders.Picking, orders.Ready} {
		if w := sent(t, h, "/order/O-1/pick", formOf(t, rowsOf(page), "/order/O-1/pick")); w.Code != http.StatusSeeOther {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
		if s := statusOf(t, records, "O-1"); s != want {
			t.Errorf("it is %s, want %s", s, want)
		}
		page = get(h, "/order/O-1").Body.String()
	}
	inOrder(t, page, "all set aside", "12 of 12 packs", "Hand over", "Who took it", "1 Mill Lane\nSpringfield")
	hand := formOf(t, page, "/order/O-1/hand")
	if w := sent(t, h, "/order/O-1/hand", hand); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "Say who took the packs") {
		t.Errorf("nobody took it: %d", w.Code)
	}
	for range 2 { // pressed twice
		if w := sent(t, h, "/order/O-1/hand", hand, "taken_by", "Jo", "address", "1 Mill Lane\r\nSpringfield"); w.Code != http.StatusSeeOther {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
	}
	page = get(h, "/order/O-1").Body.String()
	inOrder(t, page, "handed over", "12 of 12 packs", "Handed over", "5 × Ale", "P-1", "Jo", "1 Mill Lane\nSpringfield", "7 × Ale", "P-2", "Packs came back")
	back := formOf(t, page, "/order/O-1/return")
	for _, c := range []struct{ numbers, why, says string }{{"3-9", "too many", "are not with the customer"}, {"", "too many", "Write the numbers"}, {"x", "too many", "no number"}, {"3", "", "Say why"}} {
		if w := sent(t, h, "/order/O-1/return", back, "lot", "P-1", "numbers", c.numbers, "why", c.why); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), c.says) {
			t.Errorf("%+v: %d %s", c, w.Code, w.Body)
		}
	}
	if w := sent(t, h, "/order/O-1/return", back, "lot", "P-1", "numbers", "3", "why", "too many"); w.Code != http.StatusSeeOther {
		t.Errorf("%d: %s", w.Code, w.Body)
	}
	inOrder(t, get(h, "/lot?lot=P-1").Body.String(), "3", "came back, and nobody knows how cold it was kept: too many")
}

// rowsOf is the page from its first row on, past the form of the scanner.
func rowsOf(page string) string { return page[strings.Index(page, `<ul class="packrows">`):] }

// What somebody scans: the right pack, and everything that it should not be. Nothing is recorded but the right one.
func TestScanning(t *testing.T) {
	other := record.Ordered{Order: "O-2", Customer: "inn", Lines: []record.OrderLine{{Pack: "ale-cheddar-lb", Count: 2}}, Due: anOrder().Due, Way: record.Collect}
	h, records := counter(t, anOrder(), other, record.Picked{Order: "O-2", Lot: "P-2", Numbers: numbersOf(t, "20")}, record.Held{Lot: "P-2", Numbers: numbersOf(t, "19"), Why: "burst bag"})
	day := "/pick/" + string(anOrder().Due)
	for _, c := range []struct {
		scan   string
		status int
		says   string
	}{
		{"P-1#3", http.StatusSeeOther, ""},
		{"p-1 # 3", http.StatusConflict, "is set aside for this order already"},
		{"P-2#20", http.StatusConflict, "is set aside for order O-2"},
		{"P-2#19", http.StatusConflict, "is held: burst bag"},
		{"P-0#1", http.StatusConflict, "past its date"},
		{"P-1#6", http.StatusConflict, "Lot P-1 has no pack 6: its packs are 1-5"},
		{"P-1 4", http.StatusConflict, "write P-1#4 for pack 4 of lot P-1"},
		{"P-1", http.StatusConflict, "Which pack of it?"},
		{"R-9 1", http.StatusConflict, "is no pack that is known"},
		{"", http.StatusConflict, "Scan a pack"},
		{"P-2/3", http.StatusSeeOther, ""},
	} {
		w := sent(t, h, day, url.Values{"entry": {newEntryID()}}, "scan", c.scan)
		if w.Code != c.status || !strings.Contains(w.Body.String(), c.says) {
			t.Errorf("%q: %d, want %d %q: %s", c.scan, w.Code, c.status, c.says, w.Body)
		}
	}
	if err := records.Desk(t.Context(), app.Today(someDay()), func(d app.Desk) error {
		o, _ := d.Order("O-1", d.Today)
		if o.Lines[0].Aside != 2 || len(d.Found) > 0 {
			t.Errorf("%+v %v", o.Lines, d.Found)
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
}

// A pack of another lot than the list has is asked about, and taken when it is meant.
func TestAPackOfAnotherLot(t *testing.T) {
	few := anOrder()
	few.Lines[0].Count = 2 // the oldest lot has five
	h, records := counter(t, few)
	w := sent(t, h, "/order/O-1/pick", url.Values{"entry": {newEntryID()}}, "scan", "P-2#1")
	page := w.Body.String()
	if w.Code != http.StatusConflict || statusOf(t, records, "O-1") != orders.Open {
		t.Fatalf("%d", w.Code)
	}
	inOrder(t, page, "This is lot P-2, and the list has none of it for this order", "take P-1 from chest-1/shelf 2", "Take it for O-1 all the same")
	if w := sent(t, h, "/order/O-1/pick", formOf(t, page, "/order/O-1/pick")); w.Code != http.StatusSeeOther || statusOf(t, records, "O-1") != orders.Picking {
		t.Errorf("%d: %s", w.Code, w.Body)
	}
}

// A form with mistakes is shown again with everything typed kept and the mistakes beside their fields; a question can be answered.
func TestAnOrderWithMistakes(t *testing.T) {
	h, records := counter(t, anOrder())
	page := get(h, "/orders/new").Body.String()
	fill := func(changes ...string) url.Values {
		form := formOf(t, page, "/orders/new")
		form.Set("entry", newEntryID())
		for range form["pack"] {
			form.Add("count", "")
			form.Add("each", "")
		}
		form["count"][0] = "12"
		form.Set("customer", "cafe")
		form.Set("due", string(anOrder().Due))
		for i := 0; i < len(changes); i += 2 {
			form.Set(changes[i], changes[i+1])
		}
		return form
	}
	for _, c := range []struct {
		name string
		form url.Values
		says []string
	}{
		{"a stranger", fill("customer", "nobody"), []string{`id="f-customer-problem"`, "whom nobody has entered"}},
		{"no day", fill("due", "next Friday"), []string{`value="next Friday"`, `id="f-due-problem"`, "which is no date"}},
		{"an end alone", fill("until", "2027-01-01"), []string{"<details open>", `id="f-weeks-problem"`}},
		{"letters for weeks", fill("weeks", "two"), []string{`value="two"`, `id="f-weeks-problem"`, "write a whole number"}},
		{"a note is kept", fill("due", "", "note", "mind <the> dog"), []string{`id="f-due-problem"`, "mind &lt;the&gt; dog"}},
	} {
		w := post(h, "/orders/new", c.form)
		if w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s: %d", c.name, w.Code)
		}
		inOrder(t, w.Body.String(), c.says...)
	}
	none := fill()
	none["count"][0], none["count"][1] = "", "0"
	inOrder(t, post(h, "/orders/new", none).Body.String(), `orderline bad`, `value="0"`, "write how many")
	none["count"][1], none["each"][2], none["count"][2] = "", "dear", "1"
	inOrder(t, post(h, "/orders/new", none).Body.String(), `value="dear"`, "Cannot be read")
	none["count"][2], none["each"][2] = "", ""
	inOrder(t, post(h, "/orders/new", none).Body.String(), "Say what is ordered, at least one pack")
	for name, form := range map[string]url.Values{"said twice": fill(), "the past": fill("due", "2026-11-01")} {
		w := post(h, "/orders/new", form)
		inOrder(t, w.Body.String(), "Is this meant?", `name="sure" value="1"`)
		if w.Code != http.StatusUnprocessableEntity || statusOf(t, records, "O-2") != "" {
			t.Errorf("%s: %d", name, w.Code)
		}
	}
	sure := fill("sure", "1")
	for range 2 { // sent twice
		if w := post(h, "/orders/new", sure); w.Code != http.StatusSeeOther || !strings.HasPrefix(w.Header().Get("Location"), "/order/O-2?") {
			t.Errorf("%d to %s", w.Code, w.Header().Get("Location"))
		}
	}
	if statusOf(t, records, "O-2") != orders.Open || statusOf(t, records, "O-3") != "" {
		t.Error("it is not entered once")
	}
}

// Changed, cancelled with a reason, taken back; a cancelled order cannot be changed.
func TestAnOrderIsChangedAndCancelled(t *testing.T) {
	h, records := counter(t, anOrder(), record.Picked{Order: "O-1", Lot: "P-1", Numbers: numbersOf(t, "1-5")})
	page := get(h, "/order/O-1/change").Body.String()
	inOrder(t, page, "Change order O-1", `value="cafe" selected`, `value="12"`, "ring twice")
	form := formOf(t, page, "/order/O-1/change")
	for range form["pack"] {
		form.Add("count", "")
		form.Add("each", "")
	}
	form["count"][0] = "4"
	if w := sent(t, h, "/order/O-1/change", form, "customer", "cafe", "due", string(anOrder().Due), "way", "collect"); w.Code != http.StatusSeeOther {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	page = get(h, "/order/O-1").Body.String()
	inOrder(t, page, "to be collected", "4 of 4 packs", "Packs 5 of P-1 are set aside, and the order does not want them: put back what is too many", "Too many", "1")
	back := formOf(t, page, "/order/O-1/back")
	for _, c := range []struct {
		numbers string
		status  int
	}{{"9", http.StatusUnprocessableEntity}, {"five", http.StatusUnprocessableEntity}, {"5", http.StatusSeeOther}, {"5", http.StatusSeeOther}} {
		if w := sent(t, h, "/order/O-1/back", back, "numbers", c.numbers); w.Code != c.status {
			t.Errorf("put back %s: %d %s", c.numbers, w.Code, w.Body)
		}
	}
	page = get(h, "/order/O-1").Body.String()
	if strings.Contains(page, "does not want") {
		t.Error("too many are still set aside")
	}
	cancel := formOf(t, page, "/order/O-1/cancel")
	if w := sent(t, h, "/order/O-1/cancel", cancel); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "Say why") {
		t.Errorf("without a reason: %d", w.Code)
	}
	w := sent(t, h, "/order/O-1/cancel", cancel, "why", "closed that week")
	if w.Code != http.StatusSeeOther || statusOf(t, records, "O-1") != orders.Off {
		t.Errorf("%d", w.Code)
	}
	page = get(h, w.Header().Get("Location")).Body.String()
	inOrder(t, page, "Take it back", "cancelled", "closed that week (Ada")
	if w := get(h, "/order/O-1/change"); w.Code != http.StatusNotFound {
		t.Errorf("the form of a cancelled order: %d", w.Code)
	}
	if w := post(h, "/undo", formOf(t, page, "/undo")); w.Code != http.StatusSeeOther || statusOf(t, records, "O-1") != orders.Ready { // what was set aside is so again
		t.Errorf("taken back: %d, %s", w.Code, statusOf(t, records, "O-1"))
	}
}

// One delivery of a standing order is changed, one is left out; the rest stays.
func TestOneDeliveryOfAStandingOrder(t *testing.T) {
	standing := anOrder()
	standing.Weeks = 1
	h, records := counter(t, standing)
	second, third := orders.Plus(standing.Due, 7), orders.Plus(standing.Due, 14)
	page := get(h, "/order/O-1").Body.String()
	inOrder(t, page, "standing order O-1", "every week", "Its deliveries", "/order/O-1%2F"+string(second), "End this standing order")
	at := "/order/" + url.PathEscape(orders.DeliveryID("O-1", second))
	page = get(h, at+"/change").Body.String()
	inOrder(t, page, "This changes this one delivery")
	if strings.Contains(page, `name="weeks"`) {
		t.Error("one delivery can be made to stand")
	}
	form := formOf(t, page, at+"/change")
	for range form["pack"] {
		form.Add("count", "")
		form.Add("each", "")
	}
	form["count"][0] = "3"
	if w := sent(t, h, at+"/change", form, "customer", "cafe", "due", string(orders.Plus(second, 1)), "way", "deliver"); w.Code != http.StatusSeeOther || !strings.HasPrefix(w.Header().Get("Location"), at) {
		t.Fatalf("%d to %s: %s", w.Code, w.Header().Get("Location"), w.Body)
	}
	inOrder(t, get(h, at).Body.String(), "0 of 3 packs", "Standing order", "O-1", "moved from", "Leave this delivery out")
	out := "/order/" + url.PathEscape(orders.DeliveryID("O-1", third))
	if w := sent(t, h, out+"/cancel", formOf(t, get(h, out).Body.String(), out+"/cancel"), "why", "holidays"); w.Code != http.StatusSeeOther || statusOf(t, records, orders.DeliveryID("O-1", third)) != orders.Off {
		t.Errorf("%d", w.Code)
	}
	if s := statusOf(t, records, orders.DeliveryID("O-1", orders.Plus(third, 7))); s != orders.Open {
		t.Errorf("the next one is %s", s)
	}
	all := formOf(t, get(h, "/order/O-1").Body.String(), "/order/O-1/cancel")
	if w := sent(t, h, "/order/O-1/cancel", all, "why", "moved away"); w.Code != http.StatusSeeOther || statusOf(t, records, orders.DeliveryID("O-1", orders.Plus(third, 7))) != orders.Off {
		t.Errorf("%d", w.Code)
	}
}

// What cannot be handed over is told on the page, and is not.
func TestWhatMustNotLeave(t *testing.T) {
	h, records := counter(t, anOrder(), record.Picked{Order: "O-1", Lot: "P-1", Numbers: numbersOf(t, "1-5")}, record.Held{Lot: "P-1", Why: "recall"})
	page := get(h, "/order/O-1").Body.String()
	inOrder(t, get(h, "/order/O-1/slip").Body.String(), "Packs 1-5 of P-1 is held: recall", "P-1")
	inOrder(t, page, "Packs 1-5 of P-1 are set aside, and are held: recall", "Packs 1-5 of P-1 is held: recall: take it out of the box")
	if w := sent(t, h, "/order/O-1/hand", formOf(t, page, "/order/O-1/hand"), "taken_by", "Jo"); w.Code != http.StatusConflict || !strings.Contains(w.Body.String(), "Nothing was handed over") || statusOf(t, records, "O-1") != orders.Picking {
		t.Errorf("%d", w.Code)
	}
}

// Customers are entered once, changed from now on, and what was known is kept.
func TestCustomers(t *testing.T) {
	h, records := counter(t)
	form := formOf(t, get(h, "/customers/new").Body.String(), "/customers/new")
	if w := sent(t, h, "/customers/new", url.Values{"entry": {newEntryID()}}, "mail", "nowhere", "life", "long"); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("%d", w.Code)
	} else {
		inOrder(t, w.Body.String(), "Write the name.", `value="nowhere"`, "has an @", `value="long"`, "whole number")
	}
	for range 2 {
		if w := sent(t, h, "/customers/new", form, "name", "Bäckerei <Süß>", "address", "Am Markt 1\r\nOrt", "life", "30"); w.Code != http.StatusSeeOther || !strings.HasPrefix(w.Header().Get("Location"), "/customer/backerei-suss?") {
			t.Fatalf("%d to %s: %s", w.Code, w.Header().Get("Location"), w.Body)
		}
	}
	if w := sent(t, h, "/customers/new", url.Values{"entry": {newEntryID()}}, "name", "bäckerei <süß>"); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "There is a customer of that name: backerei-suss") {
		t.Errorf("the same name: %d", w.Code)
	}
	if w := sent(t, h, "/customers/new", url.Values{"entry": {newEntryID()}}, "name", "bäckerei <süß>", "sure", "1"); !strings.HasPrefix(w.Header().Get("Location"), "/customer/backerei-suss-2?") {
		t.Errorf("another of that name: %d to %s", w.Code, w.Header().Get("Location"))
	}
	page := get(h, "/customer/backerei-suss").Body.String()
	inOrder(t, page, "Bäckerei &lt;Süß&gt;", "Am Markt 1\nOrt", "Days of life", "30")
	if w := sent(t, h, "/customer/backerei-suss", formOf(t, page, "/customer/backerei-suss"), "name", "Bäckerei Süß", "address", "Am Tor 2"); w.Code != http.StatusSeeOther {
		t.Errorf("%d", w.Code)
	}
	inOrder(t, get(h, "/customer/backerei-suss").Body.String(), "Bäckerei Süß", "Am Tor 2", "What was known before", "Am Markt 1, Ort")
	inOrder(t, get(h, "/customers").Body.String(), "Bäckerei Süß", "Long Inn")
	if err := records.Desk(t.Context(), "2026-12-01", func(d app.Desk) error {
		if c := d.Customer("backerei-suss"); len(c.Before) != 1 || c.LifeDays != 0 || c.Before[0].LifeDays != 30 {
			t.Errorf("%+v", c)
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
}

// The deliveries of a day in the order that somebody set.
func TestTheDeliveriesOfADay(t *testing.T) {
	second := anOrder()
	second.Order, second.Customer = "O-2", "inn"
	third := anOrder()
	third.Order, third.Lines = "O-3", []record.OrderLine{{Pack: "ale-cheddar-lb", Count: 1}}
	h, _ := counter(t, anOrder(), second, third)
	day := "/route/" + string(anOrder().Due)
	page := get(h, day).Body.String()
	inOrder(t, page, "O-1", "1 Mill Lane\nSpringfield", "555-0100", "ring twice", "12 packs", "O-2", "Long Inn", "O-3")
	form := formOf(t, page, day)
	form["place"] = []string{"3", "2", "1"}
	if w := post(h, day, form); w.Code != http.StatusSeeOther {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	inOrder(t, get(h, day).Body.String(), `value="O-3"`, `value="O-2"`, `value="O-1"`)
	for name, form := range map[string]url.Values{"nobody's": {"entry": {newEntryID()}, "stop": {"O-9"}, "place": {"1"}}, "none": {"entry": {newEntryID()}}} {
		if w := post(h, day, form); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s: %d", name, w.Code)
		}
	}
}

// A packing slip says what goes, of which lots, and until when it is good.
func TestThePackingSlip(t *testing.T) {
	h, _ := counter(t, anOrder(), record.Picked{Order: "O-1", Lot: "P-1", Numbers: numbersOf(t, "1-5")})
	inOrder(t, get(h, "/order/O-1/slip").Body.String(), "Packing slip", "O-1", "Café &lt;b&gt;", "1 Mill Lane\nSpringfield", "Ale and cheddar sauce", "<b>5</b>", "of 12", "7 still to come", "P-1", "1-5", "2026-12-20", "Keep frozen", "ring twice")
}

// Addresses that lead nowhere say so, and a kitchen without records says how to keep them.
func TestOrderPagesThatAreNotThere(t *testing.T) {
	h, _ := counter(t, anOrder())
	for target, status := range map[string]int{"/order/O-9": 404, "/order/O-9/slip": 404, "/order/O-9/change": 404, "/order/%2F": 404, "/order/O-1%2F2026-12-04": 404, "/customer/nobody": 404, "/pick/friday": 404, "/route/2026-02-30": 404, "/pick/today": 200, "/route/today": 200, "/pick/2026-12-24": 200, "/orders": 200, "/customers": 200, "/customers/new": 200} {
		if w := get(h, target); w.Code != status {
			t.Errorf("%s: %d, want %d", target, w.Code, status)
		}
	}
	for _, target := range []string{"/order/O-9/cancel", "/order/O-9/hand", "/order/O-9/back", "/order/O-9/return"} {
		if w := post(h, target, url.Values{"entry": {newEntryID()}, "why": {"x"}, "taken_by": {"x"}, "numbers": {"1"}}); w.Code != http.StatusNotFound && w.Code != http.StatusConflict {
			t.Errorf("%s: %d %s", target, w.Code, w.Body)
		}
	}
	without := New(&shelf{now: monthBefore()}, Options{})
	for _, target := range []string{"/orders", "/order/O-1", "/order/O-1/slip", "/orders/new", "/customers", "/customer/cafe", "/pick/today", "/route/today"} {
		if w := get(without, target); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "No records are kept here") {
			t.Errorf("%s without records: %d", target, w.Code)
		}
	}
	if w := post(without, "/orders/new", url.Values{}); w.Code != http.StatusConflict {
		t.Errorf("an order without records: %d", w.Code)
	}
}

// The same as data, for programs.
func TestOrdersAsData(t *testing.T) {
	h, _ := counter(t, anOrder())
	var v app.OrderSheet
	if err := json.Unmarshal(get(h, "/orders.json").Body.Bytes(), &v); err != nil || v.Schema != app.OrdersSchema || len(v.Orders) != 1 || v.Orders[0].Gets[0].Packs != 12 || v.Orders[0].Gets[0].Pieces[0].Lot != "P-1" {
		t.Errorf("%+v (%v)", v, err)
	}
}

// A day in words, as people say it.
func TestDaysInWords(t *testing.T) {
	for day, want := range map[record.Day]string{"2026-12-01": "today, Tuesday 1 December", "2026-12-02": "tomorrow, Wednesday 2 December", "2026-11-30": "yesterday, Monday 30 November", "2026-12-24": "Thursday 24 December", "2027-01-01": "Friday 1 January 2027", "": "no day", "soon": "soon"} {
		if got := dayText(day, "2026-12-01"); got != want {
			t.Errorf("%s: %q, want %q", day, got, want)
		}
	}
}

// Two tablets at once, and pages while entries come: nobody waits for anybody for ever.
func TestOrdersWhileOthersEnter(t *testing.T) {
	h, _ := counter(t, anOrder())
	done := make(chan bool)
	for i := range 4 {
		go func() {
			defer func() { done <- true }()
			for k := range 5 {
				get(h, []string{"/orders", "/order/O-1", "/pick/today", "/customer/cafe"}[i])
				post(h, "/order/O-1/pick", url.Values{"entry": {newEntryID()}, "order": {"O-1"}, "lot": {"P-2"}, "numbers": {fmt.Sprint(1 + i*5 + k)}, "sure": {"1"}})
			}
		}()
	}
	for range 4 {
		select {
		case <-done:
		case <-time.After(time.Minute):
			t.Fatal("somebody waits for ever")
		}
	}
}

// What is handed over in part: the rest stays open, or nothing more will come.
func TestHandedOverInPart(t *testing.T) {
	for nomore, want := range map[string]orders.Status{"": orders.PartGone, "1": orders.Gone} {
		h, records := counter(t, anOrder(), record.Picked{Order: "O-1", Lot: "P-1", Numbers: numbersOf(t, "1-5")})
		page := get(h, "/order/O-1").Body.String()
		inOrder(t, page, "Nothing more will come: the 7 packs")
		for range 2 {
			if w := sent(t, h, "/order/O-1/hand", formOf(t, page, "/order/O-1/hand"), "taken_by", "Jo", "nomore", nomore); w.Code != http.StatusSeeOther {
				t.Fatalf("%d: %s", w.Code, w.Body)
			}
		}
		if s := statusOf(t, records, "O-1"); s != want {
			t.Errorf("with %q it is %s, want %s", nomore, s, want)
		}
	}
}

// However many orders are open, the page of them stays small.
func TestManyOrders(t *testing.T) {
	var many []record.Body
	for i := range 90 {
		o := anOrder()
		o.Order = fmt.Sprintf("O-%d", i+1)
		many = append(many, o)
	}
	for range 40 {
		many = append(many, anOrder()) // a number twice
	}
	h, _ := counter(t, many...)
	page := get(h, "/orders").Body.String()
	inOrder(t, page, "and 10 more, the gravest first", "Tomorrow", "and 60 more")
	if len(page) > 200_000 {
		t.Errorf("%d bytes", len(page))
	}
}

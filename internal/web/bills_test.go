package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/nextrun"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// hadTwelve has the café get the twelve sauces of anOrder: 12 at 9.75 is 117.00, 6 % tax on it 7.02, in all 124.02.
func hadTwelve(t *testing.T) []record.Body {
	return []record.Body{anOrder(), record.HandedOver{Order: "O-1", Customer: "cafe", Lot: "P-1", Numbers: numbersOf(t, "1-5")}, record.HandedOver{Order: "O-1", Customer: "cafe", Lot: "P-2", Numbers: numbersOf(t, "1-7")}}
}

// From what was handed over to an account without anything open: the invoice is looked at, issued once however often it is pressed, credited in
// part, paid in parts, and what is paid too much goes back.
func TestAnInvoiceFromHandOverToPaid(t *testing.T) {
	h, _ := counter(t, hadTwelve(t)...)
	inOrder(t, get(h, "/bills").Body.String(), "$0.00 open", "To be billed", "Café &lt;b&gt;", "12 packs", "$124.02", "/bills/new?customer=cafe", "No invoice was issued")
	if w := get(h, "/orders/O-1/bill"); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/bills/new?customer=cafe&order=O-1" {
		t.Errorf("%d to %s", w.Code, w.Header().Get("Location"))
	}
	page := get(h, "/bills/new?customer=cafe&order=O-1").Body.String()
	inOrder(t, page, "Thistle Yard Kitchen", "Café &lt;b&gt;", "Springfield", "15 December 2026", "Ale and cheddar sauce", "O-1", "1 Dec 2026", "12", "$9.75", "$117.00", "prepared food tax: state, 5 % of $117.00", "$5.85", "town, 1 %", "$1.17", "Total", "$124.02", "Issue it: $124.02")
	form := formOf(t, page, "/bills/new")
	if w := sent(t, h, "/bills/new", form, "total", "1.00"); w.Code != http.StatusConflict || !strings.Contains(w.Body.String(), "has changed since it was shown") {
		t.Errorf("another total than was shown: %d", w.Code)
	}
	w := sent(t, h, "/bills/new", form, "total", "124.02")
	if to := w.Header().Get("Location"); w.Code != http.StatusSeeOther || to != "/bill/TY-2026-0001?issued=1" {
		t.Fatalf("%d to %q: %s", w.Code, to, w.Body)
	}
	if w := sent(t, h, "/bills/new", form, "total", "124.02"); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/bill/TY-2026-0001?issued=1" {
		t.Errorf("sent twice it leads to the one invoice: %d to %q", w.Code, w.Header().Get("Location"))
	}
	if w := get(h, "/bill/TY-2026-0002"); w.Code != http.StatusNotFound {
		t.Errorf("sent twice it made a second invoice: %d", w.Code)
	}
	page = get(h, "/bill/TY-2026-0001?issued=1").Body.String()
	inOrder(t, page, "Issued:", "TY-2026-0001", "due in 14 days", "$124.02 open", "$117.00", "$124.02", "Harrow Creek Savings", "Enter a payment", `value="124.02"`)

	credit := formOf(t, get(h, "/bill/TY-2026-0001/credit").Body.String(), "/bill/TY-2026-0001/credit")
	for _, c := range []struct{ back, why, says string }{{"13", "torn", "13 packs cannot be taken back: 12 are left"}, {"2", "", "not said why"}, {"x", "torn", "no number of packs"}, {"", "torn", "takes nothing back"}} {
		if w := sent(t, h, "/bill/TY-2026-0001/credit", credit, "back-0", c.back, "why", c.why); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), c.says) || !strings.Contains(w.Body.String(), "Nothing was issued") {
			t.Errorf("%+v: %d", c, w.Code)
		}
	}
	w = sent(t, h, "/bill/TY-2026-0001/credit", credit, "back-0", "2", "why", "torn <b>", "packs", "stay")
	if w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/credit/TYC-2026-0001?issued=1" {
		t.Fatalf("%d to %s: %s", w.Code, w.Header().Get("Location"), w.Body)
	}
	inOrder(t, get(h, "/credit/TYC-2026-0001").Body.String(), "Credit note", "TYC-2026-0001", "TY-2026-0001 of 1 December 2026", "torn &lt;b&gt;", "$19.50", "Taken off", "$20.67")

	pay := formOf(t, page, "/bill/TY-2026-0001/pay")
	for _, c := range [][2]string{{"", "Write an amount"}, {"-5", "above zero"}, {"1.005", "whole cents"}} {
		if w := sent(t, h, "/bill/TY-2026-0001/pay", pay, "amount", c[0], "way", "in", "by", "cash"); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), c[1]) {
			t.Errorf("%q: %d", c[0], w.Code)
		}
	}
	for _, day := range []string{"soon", "2026-12-24"} {
		if w := sent(t, h, "/bill/TY-2026-0001/pay", pay, "amount", "5", "day", day); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("paid on %s: %d", day, w.Code)
		}
	}
	for range 2 { // pressed twice
		if w := sent(t, h, "/bill/TY-2026-0001/pay", pay, "amount", "$100", "way", "in", "by", "cash", "day", "2026-12-01"); w.Code != http.StatusSeeOther {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
	}
	page = get(h, "/bill/TY-2026-0001").Body.String()
	inOrder(t, page, "$3.35 open", "Since then", "TYC-2026-0001: torn", "-$20.67", "Payment, cash", "-$100.00", "$3.35")
	pay = formOf(t, page, "/bill/TY-2026-0001/pay")
	if w := sent(t, h, "/bill/TY-2026-0001/pay", pay, "amount", "5", "way", "in", "by", "cash", "day", ""); w.Code != http.StatusSeeOther {
		t.Fatalf("%d", w.Code)
	}
	page = get(h, "/bill/TY-2026-0001").Body.String()
	inOrder(t, page, "paid too much", "-$1.65 open", `value="back" selected`)
	if w := sent(t, h, "/bill/TY-2026-0001/pay", formOf(t, page, "/bill/TY-2026-0001/pay"), "amount", "1.65", "way", "back", "day", ""); w.Code != http.StatusSeeOther {
		t.Fatalf("%d", w.Code)
	}
	inOrder(t, get(h, "/customer/cafe/account").Body.String(), "Open", "$0.00", "Invoice", "$124.02", "Credit note", "$20.67", "Payment, cash", "$100.00", "Paid back", "-$1.65", "$0.00")
	inOrder(t, get(h, "/bills/check").Body.String(), "No gap or double", "1 invoice", "$124.02", "$20.67", "3 payments", "$103.35", "$0.00")
	inOrder(t, get(h, "/bills").Body.String(), "$0.00 open", "TY-2026-0001", "✓", "paid")
}

// What was issued cannot be taken back like other entries, whatever form is sent.
func TestAnInvoiceIsNotTakenBack(t *testing.T) {
	h, records := counter(t, hadTwelve(t)...)
	sent(t, h, "/bills/new", formOf(t, get(h, "/bills/new?customer=cafe").Body.String(), "/bills/new"))
	var id record.ID
	if err := records.Till(t.Context(), app.Today(someDay()), func(till app.Till) error { id = till.Bill("TY-2026-0001").Entry; return nil }); err != nil {
		t.Fatal(err)
	}
	if w := post(h, "/undo", url.Values{"entry": {id.String() + "-1"}}); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "never changed nor taken back") {
		t.Errorf("%d: %s", w.Code, w.Body)
	}
	body := `{"entries":[{"id":"00000000000000000000000000000099","kind":"invoiced","happened_ms":1790000000000,"who":"Bo","device":"tablet 2","body":{"invoice":"TY-2026-0002","customer":"cafe","day":"2026-12-01","due":"2026-12-01","lines":[{"says":"x","count":1,"each":"1.00","net":"1.00"}],"total":"1.00"}}]}`
	if w := postJSON(h, "/enter", body); !strings.Contains(w.Body.String(), "gets its number as it is issued") {
		t.Errorf("%d: %s", w.Code, w.Body)
	}
}

// Packs that came back after they were billed are told, and the form knows that they did.
func TestPacksThatCameBackAreToBeCredited(t *testing.T) {
	h, records := counter(t, hadTwelve(t)...)
	sent(t, h, "/bills/new", formOf(t, get(h, "/bills/new?customer=cafe").Body.String(), "/bills/new"))
	if _, err := records.Enter(t.Context(), app.Said{Who: "Ada", Device: "tablet", At: someDay().Add(2 * 3600e9), Body: record.Returned{Customer: "cafe", Lot: "P-1", Numbers: numbersOf(t, "2-3"), Why: "too many"}}); err != nil {
		t.Fatal(err)
	}
	inOrder(t, get(h, "/bills").Body.String(), "Billed, and came back", "2 packs of Ale and cheddar sauce", "TY-2026-0001", "/bill/TY-2026-0001/credit")
	page := get(h, "/bill/TY-2026-0001/credit").Body.String()
	inOrder(t, page, `value="back" selected`)
	if w := sent(t, h, "/bill/TY-2026-0001/credit", formOf(t, page, "/bill/TY-2026-0001/credit"), "back-0", "2", "why", "came back", "packs", "back"); w.Code != http.StatusSeeOther {
		t.Fatalf("%d", w.Code)
	}
	if page := get(h, "/bills").Body.String(); strings.Contains(page, "Billed, and came back") || strings.Contains(page, "To be billed") {
		t.Error("something is still told to be billed or credited")
	}
}

func TestAnotherLineOnAnInvoice(t *testing.T) {
	h, _ := counter(t, hadTwelve(t)...)
	page := get(h, "/bills/new?customer=cafe&says=bringing+it&each=6&tax=prepared-food&says=less&each=-2").Body.String()
	inOrder(t, page, "bringing it", "$6.00", "less", "-$2.00", "$128.38") // 123.00 with the tax on it, 7.38, less 2.00
	for _, q := range []string{"says=bringing+it", "each=6", "says=x&each=much", "says=x&each=1.005", "from=soon", "day=x"} {
		if w := get(h, "/bills/new?customer=cafe&"+q); w.Code != http.StatusUnprocessableEntity || strings.Contains(w.Body.String(), "Issue it") {
			t.Errorf("%s: %d", q, w.Code)
		}
	}
	if page := get(h, "/bills/new?customer=cafe&until=2026-11-30").Body.String(); strings.Contains(page, "Issue it") || !strings.Contains(page, "nothing was handed over") {
		t.Error("packs of a later day are billed")
	}
}

func TestBillsWithoutAnything(t *testing.T) {
	h := demoKitchen(t)
	for _, path := range []string{"/bills", "/bills/new", "/bill/1", "/credit/1", "/bills/check", "/customer/ann/account", "/bill/1/credit"} {
		if w := get(h, path); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "No records are kept here") {
			t.Errorf("%s without records: %d", path, w.Code)
		}
	}
	h, _ = counter(t)
	for path, want := range map[string]int{"/bills": 200, "/bills/new": 200, "/bills/check": 200, "/customer/nobody/account": 200, "/bill/TY-2026-0009": 404, "/bill/x.json": 404, "/credit/x": 404, "/bill/x/credit": 404, "/bills.json": 200, "/customer/cafe/account?from=soon": 422} {
		if w := get(h, path); w.Code != want {
			t.Errorf("%s: %d, want %d", path, w.Code, want)
		}
	}
}

func TestBillAsJSON(t *testing.T) {
	h, _ := counter(t, hadTwelve(t)...)
	sent(t, h, "/bills/new", formOf(t, get(h, "/bills/new?customer=cafe").Body.String(), "/bills/new"))
	var bill struct {
		Schema, Invoice string
		Total, Open     unit.Money
	}
	if err := json.Unmarshal(get(h, "/bill/TY-2026-0001.json").Body.Bytes(), &bill); err != nil || bill.Schema != "kettlefrost.bill/1" || bill.Total != 12402*unit.Cent || bill.Open != bill.Total {
		t.Errorf("%+v, %v", bill, err)
	}
	var accounts struct {
		Open     unit.Money
		Ages     []struct{ Open unit.Money }
		Invoices []struct{ Invoice string }
	}
	if err := json.Unmarshal(get(h, "/bills.json").Body.Bytes(), &accounts); err != nil || accounts.Open != 12402*unit.Cent || len(accounts.Ages) != 5 || accounts.Ages[0].Open != accounts.Open || len(accounts.Invoices) != 1 {
		t.Errorf("%+v, %v", accounts, err)
	}
}

func TestWhatToMakeNext(t *testing.T) {
	h, _ := counter(t, anOrder(), record.Ordered{Order: "O-2", Customer: "inn", Lines: []record.OrderLine{{Pack: "ale-cheddar-lb", Count: 30}}, Due: "2026-12-12", Way: record.Collect})
	page := get(h, "/next-run?without=tuesday").Body.String()
	// 42 are ordered, 24 are to remain, and of the three lots 25 are good: 41
	inOrder(t, page, "Made on 8 December 2026, to last until 15 December 2026", "To be made", ">41<", "Ale and cheddar sauce", "Ordered", ">42<", ">24<", "−25", "The first is due 2 December 2026", "too few weeks", "Plan this run", "tuesday: 0 packs on 1 December 2026; not counted: left out")
	if !strings.Contains(page, "which is before the run") {
		t.Error("an order that is due before the run is not told")
	}
	_, rest, _ := strings.Cut(page, `href="/run/next-run?`)
	address, _, _ := strings.Cut(rest, `"`)
	q, err := url.ParseQuery(strings.ReplaceAll(address, "&amp;", "&"))
	if err != nil || q.Get("count.ale-cheddar-lb") != "41" || q.Get("day") != "2026-12-08" || q.Get("promised.ale-cheddar-lb") != "17" {
		t.Errorf("%v, %v", q, err)
	}
	if text := get(h, "/next-run.yaml?without=tuesday").Body.String(); !strings.Contains(text, "next-2026-12-08:") || !strings.Contains(text, "{pack: ale-cheddar-lb, count: 41}") {
		t.Errorf("the file for the book:\n%s", text)
	}
	var p nextrun.View
	if err := json.Unmarshal(get(h, "/next-run.json?without=tuesday").Body.Bytes(), &p); err != nil || len(p.Packs) == 0 || p.Packs[0].Make != 41 {
		t.Errorf("%+v, %v", p.Packs, err)
	}
	for _, bad := range []string{"day=soon", "weeks=0", "weeks=many", "day=2026-11-01", "weeks=90"} {
		if w := get(h, "/next-run?"+bad); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "aria-invalid") {
			t.Errorf("%s: %d", bad, w.Code)
		}
		if w := get(h, "/next-run.json?"+bad); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s as JSON: %d", bad, w.Code)
		}
	}
	if w := get(demoKitchen(t), "/next-run"); w.Code != http.StatusOK {
		t.Errorf("without records: %d", w.Code)
	}
}

// The address of a proposal is a run of its own; what the book has not is no run.
func TestAProposalIsARun(t *testing.T) {
	book := kitchen.Book{Packs: map[kitchen.PackID]kitchen.Pack{"dal": {Dish: "dal"}}, Dishes: map[kitchen.DishID]kitchen.Dish{"dal": {}}}
	for q, want := range map[string]string{
		"count.dal=12&day=2026-12-08&promised.dal=4": "2026-12-08 [{dal 12}] map[dal:4]",
		"count.dal=x&day=2026-12-08":                 "2026-12-08 [{dal 1}] map[]", // told beside its field
		"count.stew=12":                              "",
		"count.dal=12&day=soon":                      " [{dal 12}] map[]",
		"day=2026-12-08":                             "",
	} {
		query, err := url.ParseQuery(q)
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		if req, err := proposed(book, proposedRun, query); err == nil {
			got = fmt.Sprintf("%s [{%s %d}] %v", req.Day, req.Want[0].Pack, req.Want[0].Count, req.Orders)
		}
		if got != want {
			t.Errorf("%s: %q, want %q", q, got, want)
		}
	}
	if isMade(book, "tuesday") {
		t.Error("every name is a proposal")
	}
}

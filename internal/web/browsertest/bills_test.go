package browsertest

import (
	"net/http/httptest"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen/kitchentest"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/web"
)

// sold is invented: an inn that had 24 sauces a week for nine weeks, and has some of them billed.
func sold(t *testing.T) string {
	t.Helper()
	house, err := app.New(kitchentest.Without(demo.Book(), "safety.yaml"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	house.Follow(records)
	enter := func(daysAgo int, bodies ...record.Body) {
		t.Helper()
		for _, b := range bodies {
			if _, err := records.Enter(t.Context(), app.Said{Who: "Ada", Device: "tablet", At: time.Now().AddDate(0, 0, -daysAgo), Body: b}); err != nil {
				t.Fatal(err)
			}
		}
	}
	enter(80, record.Customer{Customer: "inn", Name: "The Inn at Long Pond", Address: "2 Pond Road\nHarrow Creek", Prices: "tables"},
		record.Packed{Run: "big", Pack: "ale-cheddar-lb", Lot: "P-ale", Numbers: numbered(t, 1, 400), Label: unit.Pound, Mass: 400 * unit.Pound, From: []record.Part{{Lot: "M-ale", Mass: 400 * unit.Pound}}, BestBefore: record.Day(time.Now().AddDate(1, 0, 0).Format(time.DateOnly)), Place: "chest-1"})
	for week := range int64(9) {
		enter(int(63-7*week), record.HandedOver{Customer: "inn", Lot: "P-ale", Numbers: numbered(t, 24*week+1, 24*week+24)})
	}
	book, _ := house.Book()
	until := app.Today(time.Now().AddDate(0, 0, -40))
	if _, err := records.Issue(t.Context(), book, app.Said{Who: "Ada", Device: "tablet", At: time.Now()}, app.BillAsk{Customer: "inn", Until: until, Day: until}, 0); err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(web.New(house, web.Options{Records: records}))
	t.Cleanup(server.Close)
	return server.URL
}

func numbered(t *testing.T, first, last int64) record.Numbers {
	t.Helper()
	n, err := record.NumbersOf(record.Range{First: first, Last: last})
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// follow presses something and waits for the page that comes.
func (p *tab) follow(selector string) {
	p.t.Helper()
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS(selector))))
}

// says wants texts on the page, one after the other.
func (p *tab) says(texts ...string) {
	p.t.Helper()
	rest := strings.ReplaceAll(eval[string](p, `document.querySelector('main').innerText`), "\u00a0", " ")
	for _, text := range texts {
		_, after, found := strings.Cut(rest, text)
		if !found {
			p.t.Errorf("%q does not follow in %.600q", text, rest)
			return
		}
		rest = after
	}
}

// At the tablet: what was handed over is looked at, issued and paid in part, by somebody who is asked for a name once.
func TestAnInvoiceIsIssuedAndPaid(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(sold(t) + "/bills"))
	p.says("To be billed", "The Inn at Long Pond", "120 packs", "Look at the invoice")
	p.follow(".tobill .go")
	p.says("New invoice", "24", "$9.75", "house discount 5 %", "prepared food tax: state", "Total", "Issue it: $1,178.19") // 1,170.00 less 58.50, and 6 %
	p.quiet()
	p.follow(".issue .big")
	p.says("Who are you?")
	p.do(chromedp.SendKeys(chromedp.ID("who"), "Ada"))
	p.follow("main button[type=submit]")
	p.says("Issued:", "$1,178.19 open", "TY-")
	retype(p, chromedp.ID("f-amount"), "1,000")
	p.do(chromedp.SendKeys(chromedp.ID("f-by"), "cheque"))
	p.follow(".payform button")
	p.says("Entered:", "paid", "$178.19 open", "Since then", "cheque", "-$1,000.00")
}

// Every page about money on every screen, as TestPagesOnScreens has it.
func TestBillPagesOnScreens(t *testing.T) {
	base := sold(t)
	number := "TY-" + time.Now().AddDate(0, 0, -40).Format("2006") + "-0001"
	for _, where := range []struct{ name, path string }{{"bills", "/bills"}, {"bill", "/bill/" + number}, {"billnew", "/bills/new?customer=inn"}, {"billcredit", "/bill/" + number + "/credit"}, {"account", "/customer/inn/account"}, {"billscheck", "/bills/check"}, {"nextrun", "/next-run"}} {
		t.Run(where.name, func(t *testing.T) {
			p := open(t, tablet)
			p.do(chromedp.Navigate(base + where.path))
			p.quiet()
			p.onScreens(where.name)
		})
	}
}

// An invoice of a few lines is one sheet, of A4 and of Letter.
func TestAnInvoiceOnPaper(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(sold(t) + "/bill/TY-" + time.Now().AddDate(0, 0, -40).Format("2006") + "-0001"))
	for name, size := range map[string]chromedp.PaperSize{"A4": chromedp.PaperA4, "Letter": chromedp.PaperLetter} {
		pdf := value(p, chromedp.PrintToPDF(chromedp.PDFPaper(size)))
		if sheets := len(sheetMark.FindAll(pdf, -1)); sheets != 1 {
			t.Errorf("%d sheets of %s", sheets, name)
		}
	}
}

// sheetMark is how a sheet begins in a PDF.
var sheetMark = regexp.MustCompile(`/Type\s*/Page\b[^s]`)

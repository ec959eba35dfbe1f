package browsertest

import (
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen/kitchentest"
	"kettlefrost/internal/web"
)

// bureau is the demo kitchen with its book in the records, and what it is served from.
func bureau(t *testing.T) (string, *app.Records) {
	t.Helper()
	now := func() time.Time { return time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC) }
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	if _, err := records.ImportBook(t.Context(), kitchentest.Without(demo.Book(), "safety.yaml"), app.Author{Who: "Ada", Device: "laptop", At: now()}); err != nil {
		t.Fatal(err)
	}
	house, err := app.New(records.Book(), now)
	if err != nil {
		t.Fatal(err)
	}
	house.Follow(records)
	server := httptest.NewServer(web.New(house, web.Options{Records: records}))
	t.Cleanup(server.Close)
	return server.URL, records
}

// fits holds a page, in the state in which it is, to what every page is held to.
func fits(p *tab, s screen) {
	p.t.Helper()
	p.legible(s, s.name)
	p.accessible(s.name, allChecks)
}

// named waits for what a form leads to, and gives a name on the way if the browser has none yet.
func named(p *tab, to string) {
	p.t.Helper()
	p.do(chromedp.WaitVisible(chromedp.CSS("#who, " + to)))
	if eval[bool](p, `document.getElementById('who') !== null`) {
		p.do(chromedp.SendKeys(chromedp.ID("who"), "Ada"), chromedp.Click(chromedp.CSS(`main form button`)))
	}
	p.do(chromedp.WaitVisible(chromedp.CSS(to)))
}

func TestTheOfficeOnScreens(t *testing.T) {
	base, _ := bureau(t)
	for name, path := range map[string]string{"office": "/office", "sheet": "/office/sheet/goods", "files": "/book/files", "file": "/book/file?file=dishes/ale-cheddar.yaml", "new-file": "/book/file", "compare": "/book/compare?file=dishes/ale-cheddar.yaml&from=1&to=1"} {
		t.Run(name, func(t *testing.T) {
			p := open(t, tablet)
			p.do(chromedp.Navigate(base + path))
			p.quiet()
			p.onScreens("office-" + name)
		})
	}
}

// A sheet of customers with a mistake: it is shown where it stands, mended there, and all rows are entered at once, by whoever gives a name.
func TestCustomersAreImported(t *testing.T) {
	for _, s := range []screen{tablet, phone} {
		t.Run(s.name, func(t *testing.T) {
			base, records := bureau(t)
			sheet := filepath.Join(t.TempDir(), "customers.csv")
			if err := os.WriteFile(sheet, []byte("Name,Street,Town,State,Zip,E-mail,Colour\nJoe's Café,1 Quay,Harrow Creek,VT,05000,joe@cafe.example,red\nLong Table,,,,,nobody,\nThe Deli,,,,,,\n"), 0o600); err != nil {
				t.Fatal(err)
			}
			p := open(t, s)
			p.do(chromedp.Navigate(base+"/office"), chromedp.Click(chromedp.CSS(`a[href="/office/sheet/customers"]`)), chromedp.WaitVisible(chromedp.ID("file")),
				chromedp.SetUploadFiles(chromedp.ID("file"), []string{sheet}), chromedp.Click(chromedp.CSS(`form[enctype] button`)), chromedp.WaitVisible(chromedp.ID("mend-F3")))
			if got := eval[string](p, `document.querySelector('.preview h2').textContent`); !strings.Contains(got, "customers.csv") || !strings.Contains(got, "2 new, 1 to mend") {
				t.Errorf("%q", got)
			}
			if eval[bool](p, `document.querySelector('button[name=enter]') !== null`) {
				t.Error("it can be entered with a mistake left")
			}
			fits(p, s)
			p.shoot(s.name + "-import-mistake")
			retype(p, "mend-F3", "table@long.example")
			p.do(chromedp.Click(chromedp.CSS(`.preview button`)), chromedp.WaitVisible(chromedp.CSS(`button[name=enter]`)))
			fits(p, s)
			p.shoot(s.name + "-import-ready")
			if head, err := records.Head(t.Context()); err != nil || head.Seq != 19 {
				t.Errorf("something was entered before anybody said so: entry %d, %v", head.Seq, err)
			}
			p.do(chromedp.Click(chromedp.CSS(`button[name=enter]`)))
			named(p, ".did")
			if got := eval[string](p, `document.querySelector('.did').textContent`); !strings.Contains(got, "Long Table") {
				t.Errorf("it says %q", got)
			}
			fits(p, s)
			p.shoot(s.name + "-import-entered")
			if head, err := records.Head(t.Context()); err != nil || head.Seq != 22 {
				t.Errorf("entry %d is the last, %v", head.Seq, err)
			}
		})
	}
}

// A change that would stop the book is shown at its line, to which a press leads; mended, it is saved and can be compared.
func TestAFileIsChangedInTheBrowser(t *testing.T) {
	base, _ := bureau(t)
	p := open(t, tablet)
	p.do(chromedp.Navigate(base+"/book/file?file=dishes/ale-cheddar.yaml"), chromedp.WaitVisible(chromedp.ID("text")))
	change := func(old, by string) {
		t.Helper()
		if !eval[bool](p, `(() => { const t = document.getElementById('text'); const had = t.value.includes('`+old+`'); t.value = t.value.replace('`+old+`', '`+by+`'); return had })()`) {
			t.Fatalf("the text has no %s", old)
		}
	}
	change("bag: bag-6x9", "bag: bag-9x9")
	p.do(chromedp.Click(chromedp.CSS(`.edit button[value=save]`)))
	named(p, ".found .line")
	fits(p, tablet)
	p.shoot("file-stop")
	p.do(chromedp.Click(chromedp.CSS(`.found .line`)))
	if got := eval[string](p, `(t => t.value.slice(t.selectionStart, t.selectionEnd))(document.getElementById('text'))`); got != "    bag: bag-9x9" {
		t.Errorf("the press leads to %q", got)
	}
	change("bag: bag-9x9", "bag: bag-6x9")
	change("price: $9.75", "price: $9.95")
	p.do(chromedp.Click(chromedp.CSS(`.edit button[value=save]`)), chromedp.WaitVisible(chromedp.CSS(`.done`)), chromedp.Click(chromedp.CSS(`.versions a`)), chromedp.WaitVisible(chromedp.CSS(`.lines .came`)))
	if got := eval[string](p, `document.querySelector('.lines .came code').textContent`); got != "    price: $9.95" {
		t.Errorf("what came is %q", got)
	}
	p.shoot("file-compare")
}

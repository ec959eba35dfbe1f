package browsertest

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// inBook is the book that the records hold.
func inBook(t *testing.T, records *app.Records) kitchen.Book {
	t.Helper()
	house, err := app.New(records.Book(), nil)
	if err != nil {
		t.Fatal(err)
	}
	book, _ := house.Book()
	return book
}

// save presses Save, which is in sight wherever the page stands.
func save(p *tab) {
	p.t.Helper()
	if !eval[bool](p, `(() => { const r = document.querySelector('.savebar button').getBoundingClientRect(); return r.top >= 0 && r.bottom <= innerHeight + 1 })()`) {
		p.t.Error("Save is out of sight")
	}
	p.do(chromedp.Click(chromedp.CSS(".savebar button")))
}

// An ingredient and a pack are made or copied, changed in a kitchen's own words, compared and taken out of the book, on each kind of screen.
func TestNounsAreKeptInTheBrowser(t *testing.T) {
	for _, s := range []screen{tabletUpright, phone, {name: "laptop", width: 1440, height: 900}} {
		t.Run(s.name, func(t *testing.T) {
			base, records := bureau(t)
			p := open(t, s)
			p.do(chromedp.Navigate(base+"/book/ingredients/new"), chromedp.WaitVisible(chromedp.ID("f_name")))
			retype(p, "f_name", "Smoked salt")
			retype(p, "f_trim", "0.5")
			p.do(until(`document.querySelector('#f_trim-note .problem') !== null && document.getElementById('f_trim').getAttribute('aria-invalid') === 'true'`))
			retype(p, "f_trim", "12,5")
			p.do(until(`document.querySelector('#f_trim-note .read')?.textContent.includes('12.5 %')`))
			p.do(chromedp.Click(chromedp.CSS(`button[value="add .buy"]`)), chromedp.WaitVisible(chromedp.ID("f_buy_0__pack")))
			retype(p, "f_buy_0__pack", "2 lb 3")
			retype(p, "f_buy_0__price", "$14")
			p.do(until(`document.querySelector('#f_buy_0__pack-note .read')?.textContent.includes('992 g')`))
			fits(p, s)
			p.shoot(s.name + "-book-new")
			save(p)
			named(p, ".saved")
			got := inBook(t, records).Ingredients["smoked-salt"]
			if got.Name != "Smoked salt" || len(got.Buy) != 1 || got.Buy[0].Pack.Mass != 2*unit.Pound+3*unit.Ounce || got.Trim != 125*unit.PerCent/10 {
				t.Errorf("the book has %+v", got)
			}
			p.do(chromedp.Navigate(base+"/book/packs/ale-cheddar-lb/copy"), chromedp.WaitVisible(chromedp.ID("name")))
			retype(p, "name", "Ale and cheddar sauce, half")
			save(p)
			named(p, ".saved")
			retype(p, "f_price", "4,75")
			p.do(until(`document.querySelector('#f_price-note .read')?.textContent.includes('$4.75')`))
			fits(p, s)
			save(p)
			named(p, ".saved li")
			if text := eval[string](p, `document.querySelector('.saved').textContent`); !strings.Contains(text, "$4.75") {
				t.Errorf("it says %q", text)
			}
			p.shoot(s.name + "-book-saved")
			p.do(chromedp.Navigate(base + "/book/packs/ale-cheddar-lb/compare?with=ale-and-cheddar-sauce-half"))
			if !eval[bool](p, `[...document.querySelectorAll('.pairs .differs')].some(r => r.textContent.includes('$4.75') && r.textContent.includes('≠'))`) {
				t.Error("the prices are not told apart")
			}
			fits(p, s)
			for _, gone := range []string{"/book/packs/ale-and-cheddar-sauce-half", "/book/ingredients/smoked-salt"} {
				p.do(chromedp.Navigate(base+gone+"/retire"), chromedp.WaitVisible(chromedp.CSS(".savebar button")))
				fits(p, s)
				save(p)
				named(p, ".saved")
			}
			book := inBook(t, records)
			if _, there := book.Packs["ale-and-cheddar-sauce-half"]; there || len(book.Ingredients) != 53 {
				t.Errorf("they are still there: %d ingredients", len(book.Ingredients))
			}
		})
	}
}

// The pages of the book are held to what every page is held to.
func TestTheBookOnScreens(t *testing.T) {
	base, _ := bureau(t)
	for name, path := range map[string]string{"ingredients": "/book/ingredients", "ingredient": "/book/ingredients/cheddar", "pack": "/book/packs/meatballs-six", "kitchen": "/book/kitchen", "versions": "/book/ingredients/cheddar/versions", "run": "/book/runs/tuesday", "empty": "/book/media",
		"new": "/book/ingredients/new", "copy": "/book/ingredients/cheddar/copy", "retire": "/book/ingredients/cheddar/retire", "entry-compare": "/book/ingredients/cheddar/compare", "section-versions": "/book/kitchen/versions", "section-compare": "/book/kitchen/compare"} {
		t.Run(name, func(t *testing.T) {
			p := open(t, tablet)
			p.do(chromedp.Navigate(base + path))
			p.onScreens("book-" + name)
		})
	}
}

package browsertest

import (
	"net/http/httptest"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/web"
)

// A home card is one page of either paper, also the longest.
func TestHomeCardPrintsOnOnePage(t *testing.T) {
	base := serve(t)
	p := open(t, tablet)
	for _, pack := range []string{"meatballs-six", "bean-pot-2lb"} {
		p.do(chromedp.Navigate(base + "/workshop/home?people=8&pack=" + pack))
		p.has("For 8", "Cooling what is left")
		for _, size := range []chromedp.PaperSize{chromedp.PaperLetter, chromedp.PaperA4} {
			pdf := value(p, chromedp.PrintToPDF(chromedp.PDFPaper(size)))
			if n := len(sheetMark.FindAll(pdf, -1)); n != 1 {
				t.Errorf("%s: %d pages", pack, n)
			}
		}
	}
}

const soup = `Carrot soup
Serves 4

Ingredients
2 tbsp butter
1 lb carrots, sliced
1 quart vegetable broth
1 tsp cornstarch
some chives

Method
Melt the butter. Add the carrots and sweat for 10 minutes.
Add the broth and cornstarch and simmer uncovered for 30 minutes.`

// A recipe is pasted, a question answered, and the draft is in the book.
func TestRecipeBecomesADish(t *testing.T) {
	clock := func() time.Time { return time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC) }
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	if _, err := records.ImportBook(t.Context(), demo.Book(), app.Author{Who: "Ada", Device: "office", At: clock()}); err != nil {
		t.Fatal(err)
	}
	house, err := app.New(records.Book(), clock)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(web.New(house, web.Options{Records: records}))
	t.Cleanup(server.Close)
	p := open(t, tablet)
	p.do(chromedp.Navigate(server.URL + "/workshop/draft"))
	p.do(chromedp.SetValue(chromedp.ID("recipe"), soup))
	p.sent(`button[name=do][value=read]`)
	p.has("carrot-soup", "Decide first", "some chives")
	p.quiet()
	if wide := eval[int64](p, `document.documentElement.scrollWidth`); wide > tablet.width {
		t.Errorf("the page is %d px wide: %s", wide, eval[string](p, tooWide))
	}
	if small := eval[[]string](p, smallTargets); len(small) > 0 {
		t.Errorf("less than 48 px to press: %q", small)
	}
	p.do(chromedp.SendKeys(chromedp.ID("f-a-allergens-cornstarch"), "none"))
	p.do(chromedp.SendKeys(chromedp.ID("f-a-much-5"), "5 g"))
	p.sent(`button[name=do][value=read]`)
	p.has("Answered: 2")
	p.sent(`button[name=do][value=save]`)
	p.do(chromedp.SendKeys(chromedp.ID("who"), "Ada"))
	p.sent("form.targets button[type=submit]")
	book, wrong := house.Book()
	if _, is := book.Dishes["carrot-soup"]; !is || wrong.Worst() == finding.Stop {
		t.Errorf("the book has it: %v, %v", is, wrong)
	}
}

package web

import (
	"encoding/json"
	"net/http"
	"path/filepath"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
)

// ownBook is the demo kitchen with its book in the records.
func ownBook(t *testing.T) (http.Handler, *app.App) {
	t.Helper()
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), someDay)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	if _, err := records.ImportBook(t.Context(), demo.Book(), app.Author{Who: "Ada", Device: "office", At: someDay()}); err != nil {
		t.Fatal(err)
	}
	house, err := app.New(records.Book(), someDay)
	if err != nil {
		t.Fatal(err)
	}
	return New(house, Options{Records: records}), house
}

const xanthanInFilling = dispersePath + "?dish=mushroom-filling&of=xanthan&dose=0.2%25"

// A cook sees how a gum gets into a dish, what that does to a day, and puts it into the book; then the dish does it already.
func TestDispersePage(t *testing.T) {
	h, house := ownBook(t)
	w := get(h, xanthanInFilling)
	page := strings.ReplaceAll(w.Body.String(), "\u00a0", " ")
	for _, want := range []string{"Xanthan gum into mushroom, leek and chestnut filling", "hydrate-xanthan", "1 jar", "Hold back 1 qt of vegetable broth", "As the dish is", "With it", "xanthan gum (thickener)", "Which step takes the xanthan gum?", "Put it into the dish", "Mixed dry with another powder", "takes no oil"} {
		if w.Code != http.StatusOK || !strings.Contains(page, want) {
			t.Errorf("%d: the page does not show %q", w.Code, want)
		}
	}
	if len(page) > 100_000 {
		t.Errorf("the page has %d bytes", len(page))
	}
	_, entering, _ := strings.Cut(page, `<form method="post" `) // the one before it only asks
	form := formOn(t, entering, dispersePath)
	if w := post(h, dispersePath, form); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	book, _ := house.Book()
	if n := len(book.Dishes["mushroom-filling"].Steps); n != 10 {
		t.Errorf("the dish has %d steps, want one more than 9", n)
	}
	page = get(h, dispersePath+"?dish=mushroom-filling&of=xanthan").Body.String()
	if !strings.Contains(page, "gets its xanthan gum in well already, in step hydrate-xanthan") || strings.Contains(page, "Put it into the dish") {
		t.Error("put in, it is not shown as done")
	}
	form.Set("entry", newEntryID())
	if w := post(h, dispersePath, form); w.Code != http.StatusConflict || !strings.Contains(w.Body.String(), "was changed meanwhile") {
		t.Errorf("what was shown of another dish is put in: %d", w.Code)
	}
}

// A dose that makes no sense keeps all that was typed; hostile text stays text; a book in a folder is told what to write.
func TestDispersePageWithMistakes(t *testing.T) {
	h, _ := ownBook(t)
	w := get(h, dispersePath+"?dish=mushroom-filling&of=xanthan&dose=%3Cb%3Ea+pinch")
	if page := w.Body.String(); w.Code != http.StatusUnprocessableEntity || !strings.Contains(page, "is neither a percentage nor a mass") || !strings.Contains(page, `value="&lt;b&gt;a pinch"`) || strings.Contains(page, "<b>a pinch") {
		t.Errorf("%d %s", w.Code, page)
	}
	for _, query := range []string{"?dish=%3Cscript%3E", "?dish=ale-cheddar&of=nothing", "?dish=ale-cheddar&of=xanthan&way=by+magic", "?dish=lentil-squash&of=sodium-citrate&dose=9g&run=never"} {
		if w := get(h, dispersePath+query); w.Code >= 500 || strings.Contains(w.Body.String(), "<script>") {
			t.Errorf("%s: %d", query, w.Code)
		}
	}
	page := get(demoKitchen(t), xanthanInFilling).Body.String()
	if !strings.Contains(page, "The book is a folder") || strings.Contains(page, `method="post" action="/workshop/disperse"`) || !strings.Contains(page, "dishes/mushroom-filling.yaml") {
		t.Error("a book in a folder is not told what to write")
	}
}

// A kitchen without dishes has a page that says so.
func TestDispersePageWithoutDishes(t *testing.T) {
	if w := get(kitchenOf(t, "kitchen: {name: Empty}\n"), dispersePath); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "There is no dish here") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}

func TestDisperseJSON(t *testing.T) {
	w := get(demoKitchen(t), disperseJSONPath+"?dish=ale-cheddar&of=xanthan")
	var v app.DisperseView
	if err := json.Unmarshal(w.Body.Bytes(), &v); err != nil || w.Code != http.StatusOK || v.Schema != app.DisperseSchema || v.State != "fine" || v.Then.Jars < 1 {
		t.Errorf("%d %v %s", w.Code, err, w.Body)
	}
	if w := get(demoKitchen(t), disperseJSONPath+"?dish=pie&of=xanthan"); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "not in the book") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}

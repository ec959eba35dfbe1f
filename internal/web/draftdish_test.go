package web

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/draftdish"
	"kettlefrost/internal/finding"
)

// invented for this test
const pastedRecipe = `Carrot and leek soup
Serves 4

Ingredients
2 tbsp butter
1 lb carrots, sliced
2 leeks, sliced
1 quart vegetable broth
1 tsp cornstarch
a pinch of nutmeg
salt to taste
some <script>alert(1)</script> parsley

Method
Melt the butter. Add the carrots and leeks and sweat for 10 minutes.
Add the broth and cornstarch and simmer uncovered for 30 minutes.
Puree in a blender and season with salt and nutmeg.
`

func sendDraft(h http.Handler, path string, form url.Values) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodPost, path, strings.NewReader(form.Encode()))
	r.Host = "localhost:8090"
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestDraft(t *testing.T) {
	h := demoKitchen(t)
	if w := get(h, draftPath); w.Code != 200 || !strings.Contains(w.Body.String(), "Paste it whole") {
		t.Errorf("%d", w.Code)
	}
	for _, c := range []struct {
		name   string
		form   url.Values
		status int
		has    []string
	}{
		{"a recipe", url.Values{"recipe": {pastedRecipe}}, 200, []string{"carrot-and-leek-soup", "Decide first", "Assumed until you say otherwise", "cornstarch", "0.8 %", "goes off at home", "these pages do not write", "&lt;script&gt;"}},
		{"answers", url.Values{"recipe": {pastedRecipe}, "a-much-5": {"4 g"}, "a-allergens-cornstarch": {"none"}, "a-much-8": {"lots"}}, 200, []string{"Answered: 2", `value="lots"`, "4 g"}},
		{"nothing", url.Values{"recipe": {""}}, 422, []string{"The ingredients are missing"}},
		{"a save into a folder", url.Values{"recipe": {pastedRecipe}, "do": {"save"}}, 409, []string{"do not write", "Carrot and leek soup"}},
		{"not text", url.Values{"recipe": {"1 cup milk\xff\n\nBoil it for ten minutes and then some more."}}, 422, []string{"no line with an amount"}},
	} {
		w := sendDraft(h, draftPath, c.form)
		if w.Code != c.status || w.Body.Len() > 200_000 {
			t.Errorf("%s: %d, %d bytes", c.name, w.Code, w.Body.Len())
		}
		for _, want := range c.has {
			if !strings.Contains(w.Body.String(), want) {
				t.Errorf("%s does not say %q", c.name, want)
			}
		}
		if strings.Contains(w.Body.String(), "<script>alert") {
			t.Errorf("%s: text became markup", c.name)
		}
	}
	if w := sendDraft(h, draftJSONPath, url.Values{"recipe": {pastedRecipe}}); w.Code != 200 || !strings.Contains(w.Body.String(), draftdish.Schema) {
		t.Errorf("JSON: %d %.200s", w.Code, w.Body.String())
	}
	if w := sendDraft(h, draftJSONPath, url.Values{}); w.Code != 422 {
		t.Errorf("JSON of nothing: %d", w.Code)
	}
}

// A draft goes into a book that the records keep, once however often it is sent, and can be planned with there.
func TestDraftIsSaved(t *testing.T) {
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
	h := New(house, Options{Records: records})
	page := sendDraft(h, draftPath, url.Values{"recipe": {pastedRecipe}}).Body.String()
	_, entry, found := strings.Cut(page, `name="entry" value="`)
	if !found {
		t.Fatal("there is nothing to save it with")
	}
	form := url.Values{"recipe": {pastedRecipe}, "do": {"save"}, "entry": {entry[:strings.IndexByte(entry, '"')]}, "a-allergens-cornstarch": {"none"}}
	for range 2 {
		w := post(h, draftPath, form)
		if w.Code != http.StatusSeeOther && w.Code != http.StatusUnprocessableEntity {
			t.Fatalf("%d %s", w.Code, w.Body)
		}
	}
	book, wrong := house.Book()
	dish, is := book.Dishes["carrot-and-leek-soup"]
	if !is || len(dish.Steps) < 4 || wrong.Worst() == finding.Stop {
		t.Errorf("%v, %d steps, %v", is, len(dish.Steps), wrong)
	}
	if !book.Ingredients["cornstarch"].Allergens.Answered {
		t.Error("the answer was lost")
	}
	if _, twice := book.Dishes["carrot-and-leek-soup-2"]; twice {
		t.Error("it was saved twice")
	}
}

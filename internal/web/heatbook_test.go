package web

import (
	"html"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// led follows a link that is sent on to a whole address, and is that address.
func led(t *testing.T, h http.Handler, target string) url.Values {
	t.Helper()
	w := get(h, target)
	to, err := url.Parse(w.Header().Get("Location"))
	if err != nil || w.Code != http.StatusSeeOther {
		t.Fatalf("%s: status %d to %q, want 303 to an address", target, w.Code, w.Header().Get("Location"))
	}
	if page := get(h, to.String()); page.Code != 200 {
		t.Errorf("%s leads to %s, which answers %d", target, to, page.Code)
	}
	return to.Query()
}

// A food of the book is written out in the address, which then holds on its own.
func TestHeatOfADish(t *testing.T) {
	h := demoKitchen(t)
	q := led(t, h, "/heat?of=lentil-squash/soup&pan=1+in&in=walk-in-fan")
	if q.Has("of") || q.Has("food") || q.Get("name") != "lentil and squash pot" || q.Get("water") == "" || q.Get("freezes-at") == "" || q.Get("pan") != "1 in" || q.Get("in") != "walk-in-fan" {
		t.Errorf("the address is %v", q)
	}
	if q.Get("from") != "190 °F" { // the demo book: the pot is ready at 190 °F
		t.Errorf("cooled from %q, want from where it leaves its step", q.Get("from"))
	}
	if q := led(t, h, "/heat?of=lentil-squash/soup&from=150+°F"); q.Get("from") != "150 °F" {
		t.Errorf("a start that was asked for became %q", q.Get("from"))
	}
	if q := led(t, h, "/heat?of=lentil-squash/soup&process=freeze&food=16070&water=50"); q.Has("from") || q.Has("food") || q.Get("water") == "50 %" {
		t.Errorf("frozen: %v, want no hot start and the book's food", q)
	}
	r := httptest.NewRequest(http.MethodGet, "/heat?of=lentil-squash/soup", nil)
	r.Host = "localhost"
	r.Header.Set("HX-Request", "true")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	if address := w.Header().Get("HX-Replace-Url"); w.Code != 200 || strings.Contains(address, "of=") || !strings.Contains(address, "water=") {
		t.Errorf("the script is told %d and the address %q", w.Code, address)
	}
	for target, says := range map[string]string{"/heat?of=lentil-squash/soop": "near it are lentil-squash/soup", "/heat?of=lentil-squash": "near it are lentil-squash/bloom"} {
		w := get(h, target)
		if page := w.Body.String(); w.Code != 422 || !strings.Contains(page, `id="h-food-problem"`) || !strings.Contains(html.UnescapeString(page), says) {
			t.Errorf("%s: status %d, want 422 with %q at the food", target, w.Code, says)
		}
	}
	if w := get(h, "/heat.json?of=lentil-squash/soup"); w.Code != 200 || !strings.Contains(w.Body.String(), "lentil and squash pot") {
		t.Errorf("as JSON: status %d", w.Code)
	}
	if w := get(h, "/heat.json?of=nothing"); w.Code != 422 || strings.Count(w.Body.String(), `"field": "food"`) != 1 {
		t.Errorf("as JSON, of nothing: status %d, %s", w.Code, w.Body)
	}
}

var ofLink = regexp.MustCompile(`href="(/heat\?[^"]*of=[^"]*)"`)

// The form leads to what the dishes give and keeps the rest of the question.
func TestHeatOffersTheBook(t *testing.T) {
	h := demoKitchen(t)
	page := get(h, "/heat?process=cool&pan=1+1/2+in&in=ice-bath-still&from=180+°F").Body.String()
	inOrder(t, page, `id="h-food"`, "From the book", "<b>red lentil, squash and coconut pot:</b>", `class="parts"`)
	links := ofLink.FindAllStringSubmatch(page, -1)
	if len(links) < 5 || strings.Contains(page, "chop-onion") {
		t.Fatalf("%d links to the book, or one to a chopped onion", len(links))
	}
	for _, l := range links {
		if address := html.UnescapeString(l[1]); strings.Contains(address, "lentil-squash%2Fsoup") {
			if q := led(t, h, address); q.Get("pan") != "1 1/2 in" || q.Get("in") != "ice-bath-still" || q.Get("from") != "190 °F" || q.Get("name") != "lentil and squash pot" {
				t.Errorf("%s leads to %v", address, q)
			}
		}
	}
	soup := []plan.MadeFood{{Dish: "soup", DishName: "soup", Output: "cut", Name: "soup: cut"}, {Dish: "soup", DishName: "soup", Output: "simmer", Name: "soup: simmer"}}
	if list := readHeat(nil, unit.US).fromBook(soup); len(list) != 1 || len(list[0].Foods) != 2 || list[0].Foods[0].Name != "cut" {
		t.Errorf("of a dish that names nothing: %+v", list)
	}
	if page := get(kitchenOf(t, "kitchen: {name: x"), "/heat"); page.Code != 200 || strings.Contains(page.Body.String(), "From the book") {
		t.Errorf("with a broken book: status %d, or links to it", page.Code)
	}
}

// Ways in pans and in a pot left alone lead to the question about another depth; the plan's own surroundings come along.
func TestTryAnotherDepth(t *testing.T) {
	cold := unit.TempF(37)
	pans := kitchen.Chilling{Method: kitchen.ShallowPans, Medium: &cold, Depth: 2 * unit.Inch}
	with := func(w kitchen.Chilling, change func(*kitchen.Chilling)) kitchen.Chilling { change(&w); return w }
	pot := with(pans, func(w *kitchen.Chilling) { w.Method, w.Vessel, w.Depth = kitchen.PotInAir, "pot", 0 })
	book := kitchen.Book{
		// 20 L to 80 % in 0.2 m² are 8 cm
		Equipment: map[kitchen.EquipmentID]kitchen.Equipment{"pot": {Volume: 20 * unit.Litre, Working: 80 * unit.PerCent, Diameter: unit.LengthM(0.5046265)}},
		Media:     map[kitchen.MediumID]kitchen.Medium{"blast-chiller": {Low: 25, Usual: 30, High: 35}},
		Chilling: map[kitchen.ChillingID]kitchen.Chilling{
			"fan":   with(pans, func(w *kitchen.Chilling) { w.Top, w.Bottom = 20, 20 }),
			"shelf": with(pans, func(w *kitchen.Chilling) { w.Top = 8 }),
			"known": with(pans, func(w *kitchen.Chilling) { w.In, w.Open = "blast-chiller", true }),
			"mixed": with(pans, func(w *kitchen.Chilling) { w.In, w.Bottom = "walk-in-fan", 9 }),
			"pot":   with(pot, func(w *kitchen.Chilling) { w.Wall, w.Top, w.Bottom = 10, 10, 5 }),
			"bare":  with(pot, func(w *kitchen.Chilling) { w.In, w.Wall = "still-air", 6 }),
			"bath":  {Method: kitchen.StirredBath, Vessel: "pot"},
			"turns": {Method: kitchen.InStages},
		}}
	c := plan.Chill{Dish: "soup", Output: "soup", From: unit.TempF(190)}
	for id, want := range map[string]string{
		"fan":   "at=37+°F&film=20+W/m2K&from=190+°F&in=walk-in-fan&of=soup/soup&pan=2+in&process=cool&units=us",
		"shelf": "above-film=8+W/m2K&at=37+°F&below=closed&from=190+°F&in=still-air&of=soup/soup&pan=2+in&process=cool&units=us",
		"known": "at=37+°F&film=30+W/m2K&from=190+°F&in=blast-chiller&of=soup/soup&open=yes&pan=2+in&process=cool&units=us",
		"mixed": "at=37+°F&below-film=9+W/m2K&from=190+°F&in=walk-in-fan&of=soup/soup&pan=2+in&process=cool&units=us",
		"pot":   "above-film=10+W/m2K&at=37+°F&below-film=5+W/m2K&film=10+W/m2K&from=190+°F&in=still-air&of=soup/soup&pot=50.46265+cm+x+8+cm&process=cool&units=us",
		"bare":  "above=still-air&above-at=37+°F&at=37+°F&below=still-air&below-at=37+°F&film=6+W/m2K&from=190+°F&in=still-air&of=soup/soup&pot=50.46265+cm+x+8+cm&process=cool&units=us",
		"bath":  "", "turns": "", "fan+bath": "",
	} {
		address := tryAddress(book, c, plan.ChillOption{ID: id}, reader{units: unit.US})
		got, err := url.QueryUnescape(strings.TrimPrefix(address, heatPath+"?"))
		if wanted, _ := url.QueryUnescape(want); err != nil || got != wanted {
			t.Errorf("%s: %q, want %q", id, got, wanted)
		}
		if want == "" {
			continue
		}
		query, _ := url.ParseQuery(strings.TrimPrefix(address, heatPath+"?"))
		if q := readHeat(query, unit.US); len(q.problems) > 0 {
			t.Errorf("%s asks what cannot be answered: %v", id, q.problems)
		}
	}
}

// The links of a run lead to answers.
func TestRunLeadsToOtherDepths(t *testing.T) {
	h := demoKitchen(t)
	page := get(h, "/run/small-friday/chill").Body.String()
	links := regexp.MustCompile(`<a class="see try" href="([^"]*)">try another depth</a>`).FindAllStringSubmatch(page, -1)
	if len(links) == 0 {
		t.Fatal("there are no links")
	}
	for _, l := range links {
		if q := led(t, h, html.UnescapeString(l[1])); q.Get("name") == "" || q.Get("water") == "" || q.Get("at") == "" {
			t.Errorf("%s leads to %v", l[1], q)
		}
	}
}

package web

import (
	"encoding/json"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"testing/fstest"

	"kettlefrost/internal/formula"
)

func TestWorkshopPagesEmptyAndFull(t *testing.T) {
	rendered(t, "workshop", workshopTemplate)
	rendered(t, "workshopdish", workshopDishTemplate, func(p *workshopDishPage) { p.Freezer = nil }, func(p *workshopDishPage) {
		freezer := *p.Freezer
		freezer.Warm = false
		p.Freezer = &freezer
	})
}

// workshopPageOf is what a browser gets, with plain spaces.
func workshopPageOf(t *testing.T, h http.Handler, url string, status int) string {
	t.Helper()
	w := get(h, url)
	if w.Code != status {
		t.Fatalf("%s: status %d, want %d", url, w.Code, status)
	}
	if w.Body.Len() > 200_000 {
		t.Errorf("%s has %d bytes", url, w.Body.Len())
	}
	return strings.ReplaceAll(w.Body.String(), "\u00a0", " ")
}

func holds(t *testing.T, page string, all ...string) {
	t.Helper()
	for _, want := range all {
		if !strings.Contains(page, want) {
			t.Errorf("%q is not on the page", want)
		}
	}
}

// The demo's dishes are sound, and so the kitchen's first page says nothing of the workshop.
func TestWorkshopOfTheDemo(t *testing.T) {
	h, _ := changing(t)
	holds(t, workshopPageOf(t, h, "/workshop", http.StatusOK), "Ale and cheddar sauce, 1 lb", "NOTHING TO CHANGE", "only a test batch in your own freezer settles it", `aria-current="page">Review</a>`)
	if strings.Contains(workshopPageOf(t, h, "/", http.StatusOK), `href="/workshop"><strong>`) {
		t.Error("the first page worries about nothing")
	}
	page := workshopPageOf(t, h, "/workshop/dish?dish=ale-cheddar&mass=250&warm=20&warm-for=6", http.StatusOK)
	holds(t, page, "Emulsifying salt is 2.5 % of the cheese", "250 lb", "853.4 g", "688.1 g to 1376.3 g", "on a scale with steps of 0.1 g", "21 CFR 172.695", "6 h at 20.0 °F age it as 0.9 days", "29.6 °F")
	metric := workshopPageOf(t, h, "/workshop/dish?dish=ale-cheddar&mass=110&units=metric", http.StatusOK)
	holds(t, metric, "110 kg", "-1.3 °C")
	six := workshopPageOf(t, h, "/workshop/dish?dish=turkey-meatballs&pack=meatballs-six", http.StatusOK)
	holds(t, six, "set within pieces", "Tomato and fennel sauce, 1 lb", "is not in pieces")
}

// What cannot be meant is said beside its field, and everything typed is kept.
func TestWorkshopMistakes(t *testing.T) {
	h, _ := changing(t)
	q := url.Values{"dish": {"ale-cheddar"}, "mass": {"a <b>bucket</b>"}, "own.xanthan": {"1 tsp per cup"}, "own.salt": {"0.5 %"}, "warm": {"20"}, "store": {"-5 °F"}}
	page := workshopPageOf(t, h, "/workshop/dish?"+q.Encode(), http.StatusUnprocessableEntity)
	holds(t, page, "a &lt;b&gt;bucket&lt;/b&gt;", "weigh it: a spoon of powder", "Say for how long", `value="0.5 %"`, `value="-5 °F"`)
	if strings.Contains(page, "<b>bucket") {
		t.Error("a text became markup")
	}
	if w := get(h, "/workshop/dish.json?"+q.Encode()); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("as JSON: status %d", w.Code)
	}
	for _, address := range []string{"/workshop/dish", "/workshop/dish?dish=goulash", "/workshop/dish?dish=ale-cheddar&output=soup", "/workshop/dish?pack=%3Cscript%3E"} {
		workshopPageOf(t, h, address, http.StatusNotFound)
	}
}

// A dish that freezes badly is told on the first page, with what helps and what nobody has said.
func TestWorkshopOfABadDish(t *testing.T) {
	h, files := changing(t)
	files["bad.yaml"] = &fstest.MapFile{Data: []byte(`
ingredients:
  sour-cream: {name: "sour cream <i>", food: "01056", storage: chilled, allergens: [milk]}
dishes:
  stroganoff:
    name: stroganoff sauce
    steps:
      - {id: boil, do: Boil up., use: [{of: milk, amount: 6 kg}, {of: flour, amount: 400 g}], in: [kettle], heat-to: 95 °C, time: 5 min}
      - {id: sour, do: Stir in the sour cream., use: [{from: boil, take: all}, {of: sour-cream, amount: 1.5 kg}], in: [kettle], ready-at: 10 °C, time: 2 min, gives: [{id: sauce}]}
`)}
	holds(t, workshopPageOf(t, h, "/", http.StatusOK), `href="/workshop"`, "stroganoff sauce: change the recipe")
	page := workshopPageOf(t, h, "/workshop/dish?dish=stroganoff", http.StatusOK)
	holds(t, page, "CHANGE THE RECIPE", "sour cream &lt;i&gt;", "Sour cream separates and turns watery.", "✓</span> then: good", "What does it do in the pot?", "ingredients.sour-cream.role", "In what pack is it frozen?")
	if strings.Contains(page, "cream <i>") {
		t.Error("a text became markup")
	}
}

func TestWorkshopForPrograms(t *testing.T) {
	h, _ := changing(t)
	var list formula.List
	if err := json.Unmarshal(get(h, "/workshop.json").Body.Bytes(), &list); err != nil || list.Schema != formula.ListSchema || len(list.Dishes) != 7 {
		t.Errorf("%v: %+v", err, list)
	}
	var one formula.Report
	if err := json.Unmarshal(get(h, "/workshop/dish.json?pack=bean-pot-2lb").Body.Bytes(), &one); err != nil || one.Schema != formula.ReportSchema || one.Predicted == nil {
		t.Errorf("%v: %+v", err, one)
	}
}

package web

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/plan"
)

func someDay() time.Time { return time.Date(2026, 12, 1, 5, 0, 0, 0, time.UTC) }

// demoKitchen serves the invented kitchen.
func demoKitchen(t *testing.T) http.Handler {
	t.Helper()
	house, err := app.New(demo.Book(), someDay)
	if err != nil {
		t.Fatal(err)
	}
	return New(house, Options{Schemas: fstest.MapFS{"plan.v1.json": {Data: []byte(`{"type":"object"}`)}}})
}

// kitchenOf serves a book of one file.
func kitchenOf(t *testing.T, text string) http.Handler {
	t.Helper()
	house, err := app.New(fstest.MapFS{"book.yaml": {Data: []byte(text)}}, someDay)
	if err != nil {
		t.Fatal(err)
	}
	return New(house, Options{})
}

func get(h http.Handler, target string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodGet, target, nil)
	r.Host = "localhost:8090"
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestRoutes(t *testing.T) {
	h := demoKitchen(t)
	for _, c := range []struct {
		target string
		status int
		kind   string
		has    []string
	}{
		{"/", 200, "text/html", []string{"Thistle Yard Kitchen", "All of this is invented", `href="/run/tuesday"`, `href="/run/as-many"`, "160 × Ale and cheddar sauce, 1 lb"}},
		{"/run/tuesday", 200, "text/html", []string{"the big Tuesday", `value="160"`, "Look at this first", "CAUTION", "What will be made", "Now and next", `href="/run/tuesday/money"`}},
		{"/run/tuesday/findings", 200, "text/html", []string{"What to do:", "Source:", "CAUTION"}},
		{"/run/tuesday/cook", 200, "text/html", []string{`id="step-A1"`, "/run/tuesday/masses/", "Goes in"}},
		{"/run/tuesday/chill", 200, "text/html", []string{"/run/tuesday/cooling/0/", ".dark.svg", "FDA Food Code 3-501.14"}},
		{"/run/tuesday/freeze?units=metric", 200, "text/html", []string{"Day 1: into the freezers", "/run/tuesday/freezing/0.svg?units=metric", "Plank"}},
		{"/run/tuesday/cards", 200, "text/html", []string{"DO NOT PRINT YET", "/run/tuesday/heating/0.svg", "Form to measure"}},
		{"/run/tuesday/labels", 200, "text/html", []string{"Check each against the packets", "Contains"}},
		{"/run/nobody-knows/cook", 404, "text/html", []string{"There is no run of that name"}},
		{"/run/tuesday/cook?finish=late", 422, "text/html", []string{`value="late"`, "No plan yet", `href="/run/tuesday/cook?finish=late"`}},
		{"/run/tuesday/cook/more", 404, "text/html", []string{"no such page"}},
		{"/run/tuesday/buy", 200, "text/html", []string{"Buy: the big Tuesday", "Order from Hillside", "By storage", "From stock", "so buy"}},
		{"/run/tuesday/buy?list=storage", 200, "text/html", []string{"Chilled", "Dry store"}},
		{"/run/tuesday/buy?today=2026-11-28&units=metric", 200, "text/html", []string{`type="date" value="2026-11-28"`, `href="/run/tuesday/buy?units=metric"`, "nothing is bought from Lab and Larder", "to a later run", "Cannot be bought", "the last day to order it was <b>2026-11-24<", `href="/run/tuesday/cook?today=2026-11-28&amp;units=metric"`}},
		{"/run/tuesday/buy?today=2026-12-02", 422, "text/html", []string{`type="text" value="2026-12-02"`, "The run starts on 2026-12-01"}},
		{"/run/tuesday/buy?today=soon", 422, "text/html", []string{`type="text" value="soon"`, "is no date"}},
		{"/run/tuesday/buy.csv", 200, "text/csv", []string{"supplier,order_by,ingredient"}},
		{"/week", 200, "text/html", []string{"What a week is best spent on", "no mix leaves more", "hands on", "One less costs"}},
		{"/run/tuesday/money", 200, "text/html", []string{"Money: the big Tuesday", "Cost of one pack", "What each pack leaves", "<svg", "Eight in ten of", "fixed costs of $1,450.00", "by net realisable value"}},
		{"/run/tuesday/seal", 200, "text/html", []string{"What was weighed", "96 ordered", "as planned"}},
		{"/run/tuesday/seal?w.ale-cheddar.sauce=150+lb", 200, "text/html", []string{"<b>148</b>", "160 planned"}},
		{"/run/tuesday/seal?w.ale-cheddar.sauce=150", 422, "text/html", []string{"has no unit", `value="150"`}},
		{"/run/tuesday/seal?w.ale-cheddar.sauce=1600+lb", 200, "text/html", []string{"a digit too many"}},
		{"/run/tuesday/seal.json?w.ale-cheddar.sauce=150+lb", 200, "application/json", []string{`"schema": "kettlefrost.seal/1"`, `"count": 148`}},
		{"/run/tuesday/seal.json?w.ale-cheddar.sauce=heavy", 422, "application/json", []string{"w.ale-cheddar.sauce"}},
		{"/run/kettle", 200, "text/html", []string{"One filling of the kettle", "First to do", "by 2026-12-02"}},
		{"/run/use-bacon", 200, "text/html", []string{`value="20 lb"`, "Use up: smoked bacon"}},
		{"/run/as-many", 200, "text/html", []string{"limits allow"}},
		{"/run/tuesday.json", 200, "application/json", []string{plan.Schema}},
		{"/run/tuesday/timeline.svg", 200, "image/svg+xml", []string{"<svg", "Nora"}},
		{"/run/tuesday/equipment/0.svg", 200, "image/svg+xml", []string{"<svg", "cutting"}},
		{"/run/tuesday/equipment/0.dark.svg", 200, "image/svg+xml", []string{"<svg", "#1c2226"}},
		{"/run/tuesday/equipment/99.svg", 404, "text/html", []string{"no such drawing"}},
		{"/run/tuesday/equipment/x", 404, "text/html", []string{"no such drawing"}},
		{"/run/tuesday?now=11:20", 200, "text/html", []string{"Now and next", "from 11:20 on", "/run/tuesday/day?now=11%3A20"}},
		{"/run/tuesday?now=11:20&gone=sam", 200, "text/html", []string{"Timed again at 11:20", "/run/tuesday/cook?gone=sam&amp;now=11%3A20"}},
		{"/run/tuesday/cook?now=11:20&gone=nobody", 200, "text/html", []string{"cannot be used: this is as planned"}},
		{"/run/tuesday?now=soon", 200, "text/html", []string{"the big Tuesday"}},
		{"/run/tuesday/day", 200, "text/html", []string{"the big Tuesday", "<svg", "Calendar of Nora", `name="late"`, "By person", "/run/tuesday/equipment/0.svg", "The day has changed"}},
		{"/run/tuesday/day/sheet?now=11:20", 200, "text/html", []string{">now 11:20<", "06:00 to 14:49", "By person", "from 11:20 on"}},
		{"/run/tuesday/day?units=metric&now=11:20", 200, "text/html", []string{">now 11:20<", "from 11:20 on", `type="hidden" name="units" value="metric"`}},
		{"/run/tuesday/day?now=25:00", 422, "text/html", []string{`value="25:00"`, "is not in a day"}},
		{"/run/tuesday/day?count.bean-pot-2lb=x", 200, "text/html", nil}, // the run has no such target
		{"/run/tuesday/day?finish=late", 422, "text/html", []string{`value="late"`, "A target above cannot be read"}},
		{"/run/tuesday/day.svg?now=11:20", 200, "image/svg+xml", []string{"<svg", ">now 11:20<", "the big Tuesday, 2026-12-01"}},
		{"/run/tuesday/day.json", 200, "application/json", []string{"kettlefrost.day/1", `"day": "2026-12-01"`}},
		{"/run/tuesday/day.ics", 200, "text/calendar", []string{"BEGIN:VCALENDAR\r\n", "DTSTART:20261201T", "DTSTAMP:20261201T050000Z", "CATEGORIES:Nora"}},
		{"/run/tuesday/day.ics?person=sam", 200, "text/calendar", []string{"CATEGORIES:Sam"}},
		{"/run/tuesday/day.ics?person=nobody", 404, "text/html", []string{"Nobody here is called"}},
		{"/run/tuesday/next", 200, "text/html", []string{"from 05:00 on", "Nora", "Sam", `name="now"`}},
		{"/run/tuesday/next?now=11:20&person=sam", 200, "text/html", []string{"from 11:20 on", "Everybody"}},
		{"/run/tuesday/next?now=soon", 422, "text/html", []string{`value="soon"`, "■"}},
		{"/run/nobody-knows/day", 404, "text/html", []string{`href="/run/tuesday"`}},
		{"/run/nobody-knows/day.json", 404, "application/json", []string{"nobody-knows"}},
		{"/run/tuesday/day.json?finish=late", 422, "application/json", []string{"a target cannot be read"}},
		{"/run/nobody-knows/next", 404, "text/html", []string{`href="/run/tuesday"`}},
		{"/run/tuesday/cooling/0/1.svg", 200, "image/svg+xml", []string{"<svg", "ice bath", "70 °F"}},
		{"/run/tuesday/cooling/0/1.dark.svg", 200, "image/svg+xml", []string{"<svg", "#1c2226"}},
		{"/run/tuesday/cooling/0/1.inline.svg", 200, "image/svg+xml", []string{"<svg", `class="s-ink"`}},
		{"/run/tuesday/cooling/0/1.bright.svg", 404, "text/html", []string{"no such drawing"}},
		{"/run/tuesday/freezing/0.svg?units=metric", 200, "image/svg+xml", []string{"<svg", "Ale and cheddar sauce", "core"}},
		{"/run/tuesday/heating/0.svg", 200, "image/svg+xml", []string{"<svg", "165 °F"}},
		{"/filling", 200, "text/html", []string{"Ale and cheddar sauce, 1 lb", "12 packs weighed on 2026-11-10", "nobody has weighed it", `href="/filling/bean-pot-2lb"`}},
		{"/filling/ale-cheddar-lb", 200, "text/html", []string{"<svg", "passes", "457.0 g", "with the bag", "1\u00a0lb\u00a02\u00a0oz", "$1.99 at what the food costs", "6, 19, 31, 44"}},
		{"/filling/ale-cheddar-lb?tare=11.2,11.4&gross=470+468%0A473%0A466&lot=150", 200, "text/html", []string{"458.0 g", "4 packs were weighed, the plan takes 12", "470 468\n473\n466</textarea>"}},
		{"/filling/ale-cheddar-lb?tare=0.4,0.4&gross=16.6,16.5,16.7&in=oz&lot=150", 200, "text/html", []string{"16.20 oz (459.3 g)"}}, // (16.6 - 0.4) oz
		{"/filling/ale-cheddar-lb?tare=11&gross=470", 422, "text/html", []string{"Weigh two empty bags at least", "Weigh two filled packs at least", ">470</textarea>"}},
		{"/filling/ale-cheddar-lb?tare=11,12&gross=470,heavy&lot=many", 422, "text/html", []string{"heavy</textarea>", "The 2nd: ", "Write how many packs were filled", `value="many"`}},
		{"/filling/bean-pot-2lb", 200, "text/html", []string{"first belief", "No verdict:", "Nobody has weighed"}},
		{"/filling/nothing", 404, "text/html", []string{"There is no such pack"}},
		{"/filling/ale-cheddar-lb?tare=11,12&gross=470,11", 422, "text/html", []string{"Pack 2, 11.0 g, is no heavier than an empty bag of 12.0 g", `id="gross-problem"`}},
		{"/filling/ale-cheddar-lb?gross=470,471", 422, "text/html", []string{`id="tare-problem"`, "Weigh two empty bags at least"}},
		{"/filling/ale-cheddar-lb?tare=11,12&gross=470,471", 200, "text/html", []string{"Nobody has said how many packs were filled: write it above"}},
		{"/filling/ale-cheddar-lb?tare=0,0&gross=459,457,462,454&units=metric", 200, "text/html", []string{"458.0 g", `name="units" value="metric"`, "as typed here; nothing is stored", `href="/filling/ale-cheddar-lb?units=metric"`}}, // (459 + 457 + 462 + 454) / 4
		{"/filling/ale-cheddar-lb.json?tare=11.2,11.4&gross=470,468,473,466&lot=150", 200, "application/json", []string{plan.FillingSchema, `"mean_g": 457.95`}},
		{"/filling/ale-cheddar-lb.json?tare=11.2,11.4&gross=heavy", 422, "application/json", []string{`"field": "gross"`, `"text": "heavy"`}},
		{"/filling/ale-cheddar-lb?tare=11,12&gross=470,471&in=oz&lot=150", 422, "text/html", []string{`id="gross-problem"`, "look at the unit", `value="oz" selected`}},
		{"/filling/ale-cheddar-lb?tare=0.4,0.4&gross=16.6,16.5&lot=150", 422, "text/html", []string{"look at the unit"}},
		{"/filling/nothing.json", 404, "application/json", []string{"no such pack"}},
		{"/run/tuesday/seal?most.ale-cheddar-lb=100", 200, "text/html", []string{"<b>100</b>", "no more of them are wanted", `value="100"`}},
		{"/run/tuesday/seal?least.ale-cheddar-lb=90&most.ale-cheddar-lb=80", 422, "text/html", []string{"less than the 90", `value="80"`}},
		{"/run/tuesday/seal?most.ale-cheddar-lb=few", 422, "text/html", []string{`value="few"`, "Write how many packs"}},
		{"/cool", 200, "text/html", []string{"Cool it now", "smoky bacon and white-bean pot", "Compare the ways"}},
		{"/cool?of=bean-pot/pot&much=30+gal&from=200+°F", 200, "text/html", []string{"Do this", "258\u00a0lb", "/cool/cooling/0/3.dark.svg", "within the limits, as predicted", "60 qt pot left in the walk-in"}},
		{"/cool?of=bean-pot/pot&much=lots", 422, "text/html", []string{"lots", "■"}},
		{"/cool?of=bean-pot/pot&much=10+lb&from=30+°F", 422, "text/html", []string{"cold already"}},
		{"/cool?of=nothing/there&much=10+lb", 422, "text/html", []string{"The book makes no"}},
		{"/cool/cooling/0/1.svg?of=bean-pot/pot&much=30+gal", 200, "image/svg+xml", []string{"<svg", "70 °F"}},
		{"/cool/cooling/0/1.svg?of=bean-pot/pot", 404, "text/html", []string{"no such drawing"}},
		{"/form?method=microwave&mass=2+lb&pack=Bean+pot", 200, "text/html", []string{"Heating time by measurement", "Bean pot", "165 °F", "Run 3", "coldest of the five, °F", "2 lb (907 g)"}},
		{"/form?method=fire&mass=2+lb", 404, "text/html", []string{"A form needs a way of heating"}},
		{"/form?method=oven&mass=nothing", 404, "text/html", []string{"A form needs a way of heating"}},
		{"/run/tuesday/cooling/0/99.svg", 404, "text/html", []string{"no such drawing"}},
		{"/run/tuesday/cooling/0.svg", 404, "text/html", []string{"no such drawing"}},
		{"/run/tuesday/cooling/0/-1.svg", 404, "text/html", []string{"no such drawing"}},
		{"/run/tuesday/freezing/x.svg", 404, "text/html", []string{"no such drawing"}},
		{"/run/tuesday/masses/ale-cheddar.svg?units=metric", 200, "image/svg+xml", []string{"<svg", "sharp cheddar", " kg"}},
		{"/run/tuesday/masses/no-dish.svg", 404, "text/html", []string{"The run has no dish no-dish."}},
		{"/run/nobody-knows", 404, "text/html", []string{"There is no run of that name", `href="/run/tuesday"`}},
		{"/run/nobody-knows.json", 404, "application/json", []string{"nobody-knows"}},
		{"/run/nobody-knows/timeline.svg", 404, "text/html", []string{`href="/run/tuesday"`}},
		{"/book", 200, "text/html", []string{"The book", "dishes"}},
		{"/foods", 200, "text/html", []string{"National Nutrient Database for Standard Reference, Release 28"}},
		{"/foods?q=lentil", 200, "text/html", []string{"lentils", "Release 28", "16069"}}, // NDB 16069 is "Lentils, raw" in SR28 (read)
		{"/foods?q=%FF%FE%00", 200, "text/html", []string{"No food in the table fits"}},
		{"/schema/plan.v1.json", 200, "application/schema+json", []string{`"type":"object"`}},
		{"/schema/nothing.json", 404, "text/plain", nil},
		{"/schema/..%2fsecret", 404, "text/plain", nil},
		{"/static/tokens.css", 200, "text/css", []string{"--ink"}},
		{"/static/htmx-4.0.1.min.js", 200, "text/javascript", []string{"htmx"}},
		{"/static/..%2fweb.go", 404, "text/plain", nil},
		{"/no/such/page", 404, "text/html", []string{"There is no such page", `href="/run/tuesday"`}},
	} {
		w := get(h, c.target)
		if w.Code != c.status {
			t.Errorf("%s: status %d, want %d", c.target, w.Code, c.status)
		}
		if kind := w.Header().Get("Content-Type"); !strings.HasPrefix(kind, c.kind) {
			t.Errorf("%s: content type %q, want %q", c.target, kind, c.kind)
		}
		for _, want := range c.has {
			if !strings.Contains(w.Body.String(), want) {
				t.Errorf("%s does not have %q", c.target, want)
			}
		}
	}
}

func TestOnlyReading(t *testing.T) {
	for _, method := range []string{http.MethodPost, http.MethodPut, http.MethodDelete} {
		r := httptest.NewRequest(method, "/run/tuesday", strings.NewReader("count.x=1"))
		r.Host = "localhost"
		w := httptest.NewRecorder()
		demoKitchen(t).ServeHTTP(w, r)
		if w.Code != http.StatusMethodNotAllowed {
			t.Errorf("%s: status %d, want %d", method, w.Code, http.StatusMethodNotAllowed)
		}
	}
}

// A page is read over a slow line in a cellar.
func TestPagesAreSmall(t *testing.T) {
	h := demoKitchen(t)
	targets := []string{"/", "/week", "/filling", "/filling/ale-cheddar-lb", "/book", "/foods?q=a", "/cool?of=bean-pot/pot&much=30+gal", "/heat", "/run/tuesday/day/sheet", "/run/tuesday/day?now=09:00&gone=sam", "/run/tuesday/seal?w.ale-cheddar.sauce=150+lb"}
	drifting := "/filling/ale-cheddar-lb?tare=11,11&lot=1000&gross=" // as many as are read, and every rule broken
	for i := range mostWeights {
		drifting += fmt.Sprintf("+%.1f", 450+float64(i)/5)
	}
	targets = append(targets, drifting)
	for _, run := range []string{"tuesday", "kettle", "use-bacon", "as-many", "small-friday"} {
		for _, x := range parts {
			targets = append(targets, strings.TrimSuffix("/run/"+run+"/"+x.key, "/"))
		}
	}
	for _, target := range targets {
		w := get(h, target)
		if n := w.Body.Len(); n > 200_000 || w.Code != http.StatusOK {
			t.Errorf("%s: status %d with %d bytes, want 200 with 200,000 at most", target, w.Code, n)
		}
	}
}

// The cards of the runs say what is to be made, and not how the day should be.
func TestCardsOfRuns(t *testing.T) {
	page := get(demoKitchen(t), "/").Body.String()
	for _, unwanted := range []string{"good at", "And then", "orders go out"} {
		if strings.Contains(page, unwanted) {
			t.Errorf("a card says %q", unwanted)
		}
	}
}

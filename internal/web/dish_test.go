package web

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
)

func TestDishPagesEmptyAndFull(t *testing.T) {
	rendered(t, "dish", dishTemplate, func(p *dishPage) { p.NoFlow = "" }, func(p *dishPage) { u := *p.Unsaved; u.Kept = false; p.Unsaved = &u }, func(p *dishPage) { p.Rows = nil })
	rendered(t, "dishplan", dishPlanTemplate)
}

// follow asks for an address, and for where it leads to, as a browser does.
func follow(t *testing.T, h http.Handler, target string) (*httptest.ResponseRecorder, string) {
	t.Helper()
	for range 3 {
		w := get(h, target)
		if w.Code != http.StatusSeeOther {
			return w, target
		}
		target, _, _ = strings.Cut(w.Header().Get("Location"), "#")
	}
	t.Fatal("it leads on and on")
	return nil, ""
}

// doing is the address of an operation on what an address shows.
func doing(at, op string, more ...string) string {
	u, _ := url.Parse(at)
	q := u.Query()
	q.Del(dishStep)
	q.Set(dishDo, op)
	for i := 0; i+1 < len(more); i += 2 {
		q.Add(more[i], more[i+1])
	}
	return u.Path + "/do?" + q.Encode()
}

func TestADishIsShown(t *testing.T) {
	h := demoKitchen(t)
	page := strings.ReplaceAll(get(h, "/dish/ale-cheddar").Body.String(), "\u00a0", " ")
	inOrder(t, page, "ale and cheddar sauce", "Goes in", "28 lb 8", "Peel the onions", "Boil the ale down", "evaporation", "Rain in the cheddar", "At the end", "The same as a table", "Packs that draw on it", "Runs that cook it")
	if w := get(h, "/dish/no-such"); w.Code != http.StatusNotFound {
		t.Errorf("a dish that is not there: status %d", w.Code)
	}
	plan := get(h, "/dish/ale-cheddar/plan").Body.String()
	inOrder(t, plan, "Packs", "Length of the day", "Hands-on work", "Ale and cheddar sauce, 1 lb", "each, all that it bears", "Cooling")
	if w := get(h, "/dish/ale-cheddar?d=not-a-draft"); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "cannot be read from this address") {
		t.Errorf("an address that was cut: status %d", w.Code)
	}
}

// Every operation from the page, one after the other: each shows what it did, and the book is as it was.
func TestADishIsChangedInItsAddress(t *testing.T) {
	h := demoKitchen(t)
	at := "/dish/ale-cheddar"
	for _, c := range []struct {
		op   string
		more []string
		has  []string
		not  string
	}{
		{"add", []string{dishDoes, "Toast the seeds."}, []string{"Toast the seeds.", "nothing goes into this step", "1 change not saved", "Nothing takes the toast the seeds"}, ""},
		{"use", []string{dishStep, "toast-the-seeds", dishOf, "yellow onion", dishAmount, "2 lb"}, []string{"2 lb yellow onion"}, "nothing goes into this step"},
		{"join", []string{dishStep, "toast-the-seeds", dishOut, "toast-the-seeds", dishInto, "melt"}, []string{"goes into 10"}, "Nothing takes"},
		{"earlier", []string{dishStep, "toast-the-seeds"}, []string{"<span class=\"code\">9</span> Toast the seeds."}, ""},
		{"add", []string{dishDoes, "Strain it.", dishWhere, "between.base.thicken"}, []string{"Strain it.", "from 7"}, ""},
		{"add", []string{dishDoes, "Cool it down.", dishWhere, "after.sauce"}, []string{"Cool it down.", "the pack Ale and cheddar sauce, 1 lb"}, ""},
		{"add", []string{dishDoes, "Warm the milk.", dishWhere, "ahead.base", dishTakes, "1"}, []string{"Warm the milk."}, ""},
		{"split", []string{dishStep, "sweat", dishNamed, "butter fat", dishShare, "10", dishPart, "fat"}, []string{"butter fat", "by-product"}, ""},
		{"whole", []string{dishStep, "sweat", dishOut, "butter-fat"}, nil, "butter fat"},
		{"copy", []string{dishStep, "reduce-ale"}, []string{"reduce-ale-2"}, ""},
		{"remove", []string{dishStep, "reduce-ale-2"}, nil, "reduce-ale-2"},
		{"remove", []string{dishStep, "strain-it", dishAcross, "yes"}, nil, "Strain it."},
	} {
		w, where := follow(t, h, doing(at, c.op, c.more...))
		if w.Code != http.StatusOK {
			t.Fatalf("%s %v: status %d", c.op, c.more, w.Code)
		}
		page := w.Body.String()
		for _, want := range c.has {
			if !strings.Contains(page, want) {
				t.Errorf("%s %v: the page does not have %q", c.op, c.more, want)
			}
		}
		if river, _, _ := strings.Cut(page, `id="add"`); c.not != "" && strings.Contains(river[strings.Index(river, `id="flow"`):], c.not) {
			t.Errorf("%s %v: the flow still has %q", c.op, c.more, c.not)
		}
		at = where
	}
	if page := get(h, "/dish/ale-cheddar").Body.String(); strings.Contains(page, "not saved") || strings.Contains(page, "Toast") {
		t.Error("the book was changed by looking")
	}
}

// What cannot be done is told, and what was typed stays.
func TestWhatADishRefuses(t *testing.T) {
	h := demoKitchen(t)
	for _, c := range []struct {
		op   string
		more []string
		has  []string
	}{
		{"join", []string{dishStep, "melt", dishOut, "sauce", dishInto, "roux"}, []string{"comes before it"}},
		{"join", []string{dishStep, "roux", dishOut, "roux", dishInto, "base"}, []string{"already"}},
		{"use", []string{dishStep, "roux", dishOf, "unobtainium", dishAmount, "1 lb"}, []string{"no ingredient called unobtainium", `value="unobtainium"`, "nothing is known of what it is made of"}},
		{"use", []string{dishStep, "roux", dishOf, "whole milk", dishAmount, "3"}, []string{"amount cannot be read", `value="whole milk"`}},
		{"use", []string{dishStep, "roux", dishOf, "<script>alert(1)</script>", dishAmount, "1 lb"}, []string{"&lt;script&gt;"}},
		{"add", []string{dishDoes, " "}, []string{"nothing says what is done"}},
		{"add", []string{dishDoes, "Stir.", dishIn, "cauldron"}, []string{"no equipment cauldron", `value="Stir."`}},
		{"split", []string{dishStep, "roux", dishNamed, "fat", dishShare, "lots"}, []string{"cannot be read", `value="lots"`}},
		{"unuse", []string{dishStep, "roux", dishPlace, "99"}, []string{"look at the step"}},
		{"remove", []string{dishStep, "melt", dishAcross, "no"}, []string{"would be filled with sauce"}},
		{"boil", nil, []string{"not said what to do"}},
	} {
		w := get(h, doing("/dish/ale-cheddar", c.op, c.more...))
		if w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s %v: status %d", c.op, c.more, w.Code)
		}
		low := strings.ToLower(w.Body.String())
		for _, want := range c.has {
			if !strings.Contains(low, strings.ToLower(want)) {
				t.Errorf("%s %v: the page does not have %q", c.op, c.more, want)
			}
		}
		if strings.Contains(low, "<script>alert") {
			t.Errorf("%s %v: text became markup", c.op, c.more)
		}
	}
}

func TestFirstPagesEmptyAndFull(t *testing.T) {
	rendered(t, "dishfirst", firstTemplate, func(p *firstPage) { d := *p.Done; d.Entry = ""; p.Done = &d },
		func(p *firstPage) { p.Fields = []firstField{{field: p.Fields[0].field}, {field: p.Fields[1].field}} })
	rendered(t, "dishnew", newDishTemplate)
}

// stepForm is the form of a step as a page shows it, with some fields typed otherwise.
func typedStep(at, step string, fields ...string) url.Values {
	u, _ := url.Parse(at)
	form := url.Values{"d": {u.Query().Get("d")}, "step": {step}, "open": {step}}
	for i := 0; i+1 < len(fields); i += 2 {
		form.Set(fields[i], fields[i+1])
	}
	return form
}

// What is typed about a step is in the address of the dish from then on, and forgives; what cannot be read stays in its field.
func TestAStepIsTyped(t *testing.T) {
	h := demoKitchen(t)
	w := post(h, "/dish/ale-cheddar", typedStep("", "roux", ".time", "1:20", ".do", "Stir in the flour."))
	if w.Code != http.StatusSeeOther {
		t.Fatalf("status %d", w.Code)
	}
	page, at := follow(t, h, strings.Split(w.Header().Get("Location"), "#")[0])
	inOrder(t, page.Body.String(), "2 changes not saved", "dishes.ale-cheddar.steps[5].do: Stir in the flour.", "1 h 20 min")
	bad := post(h, "/dish/ale-cheddar", typedStep(at, "roux", ".time", "a while"))
	if bad.Code != http.StatusUnprocessableEntity || !strings.Contains(bad.Body.String(), `value="a while"`) || !strings.Contains(bad.Body.String(), "1 thing cannot be read") {
		t.Errorf("what cannot be read: status %d", bad.Code)
	}
	renamed := post(h, "/dish/ale-cheddar", typedStep(at, "roux", ".id", "flour-roux"))
	page, _ = follow(t, h, strings.Split(renamed.Header().Get("Location"), "#")[0])
	if text := page.Body.String(); !strings.Contains(text, "flour roux") || strings.Contains(text, "no step gives") {
		t.Error("a step with another id is not followed by who takes from it")
	}
	row := typedStep(at, "roux", "row", "add .use", ".do", "typed and kept")
	if again := post(h, "/dish/ale-cheddar", row); again.Code != http.StatusOK || !strings.Contains(again.Body.String(), "typed and kept") || !strings.Contains(again.Body.String(), `name=".use[`) {
		t.Errorf("one line more: status %d", again.Code)
	}
}

// formIn are the hidden fields of the form that saves.
func formIn(page string) url.Values {
	form := url.Values{}
	for _, part := range strings.Split(page[strings.Index(page, `id="unsaved"`):], `<input type="hidden" name="`)[1:] {
		name, rest, _ := strings.Cut(part, `" value="`)
		value, _, _ := strings.Cut(rest, `"`)
		if form.Has(name) {
			break
		}
		form.Set(name, value)
	}
	form.Set("who", "Ada")
	return form
}

// Saved once however often it is sent; the change of somebody else in between is told, and nothing is lost.
func TestADishIsSaved(t *testing.T) {
	h, records := officeOf(t)
	w, at := follow(t, h, doing("/dish/ale-cheddar", "add", dishDoes, "Strain it.", dishWhere, "between.base.thicken"))
	form := formIn(w.Body.String())
	before, _ := records.BookFiles(t.Context())
	was, _ := before.Version("dishes/ale-cheddar.yaml")
	for i := range 2 {
		if w := post(h, "/dish/ale-cheddar/save", form); w.Code != http.StatusSeeOther {
			t.Fatalf("saved the %d. time: status %d: %s", i+1, w.Code, w.Body.String())
		}
	}
	after, _ := records.BookFiles(t.Context())
	now, _ := after.Version("dishes/ale-cheddar.yaml")
	if strings.Count(now.Text, "Strain it.") != 1 || len(now.Text)-len(was.Text) > 200 || !strings.Contains(now.Text, "# a thick surface gives off less") {
		t.Errorf("the text of the book: %d bytes before and %d after, the step %d times", len(was.Text), len(now.Text), strings.Count(now.Text, "Strain it."))
	}
	// The same changes once more, from a page that was shown before: the book is another by now.
	late := formIn(w.Body.String())
	late.Set("entry", newEntryID())
	if w := post(h, "/dish/ale-cheddar/save", late); w.Code != http.StatusConflict || !strings.Contains(w.Body.String(), "meanwhile") {
		t.Errorf("changed in between: status %d", w.Code)
	}
	if page := get(h, at).Body.String(); !strings.Contains(page, "changed this dish in the book after you began") && !strings.Contains(page, "does not fit the book any more") {
		t.Error("an old address does not say that the dish was changed")
	}
}

func TestANewDish(t *testing.T) {
	h, _ := officeOf(t)
	page, at := follow(t, h, "/dish/new?name=Leek+soup")
	inOrder(t, page.Body.String(), "Leek soup", "no steps", "Add a step")
	_, at = follow(t, h, doing(at, "add", dishDoes, "Simmer.", dishIn, "pot-60"))
	page, at = follow(t, h, doing(at, "use", dishStep, "simmer", dishOf, "yellow onion", dishAmount, "5 lb"))
	inOrder(t, strings.ReplaceAll(page.Body.String(), "\u00a0", " "), "Goes in", "5 lb", "Simmer.")
	if w := post(h, "/dish/leek-soup/save", formIn(page.Body.String())); w.Code != http.StatusSeeOther {
		t.Errorf("saved: status %d", w.Code)
	}
	u, _ := url.Parse(at)
	plan := get(h, "/dish/leek-soup/plan?"+u.RawQuery).Body.String()
	inOrder(t, plan, "No pack is filled from this dish yet", "Packs")
	for target, status := range map[string]int{"/dish/new": 200, "/dish/new?name=": 422, "/dish/new?name=x&from=nothing": 422, "/dish/new?name=Another&from=ale-cheddar": 303} {
		if w := get(h, target); w.Code != status {
			t.Errorf("%s: status %d, want %d", target, w.Code, status)
		}
	}
}

// The way to a first dish, question by question, in a kitchen that has nothing else.
func TestAFirstDish(t *testing.T) {
	h := kitchenOf(t, "kitchen: {name: Test}\n")
	q := url.Values{}
	for _, x := range [][]string{{"name", "name", "Lentil <b>soup"}, {"lines", "lines", "5 lb lentils\n3 gal water\n2 lb carrots"}, {"pot", "holds", "60 qt", "across", "16 in", "power", "30,000 Btu/h"},
		{"time", "time", "45 min"}, {"cooling", "cooling", "ice-bath"}, {"pack", "fill", "1 lb"}, {"day", "who", "Ada", "count", "30"}} {
		q.Set(firstAt, x[0])
		if page := get(h, "/dish/first?"+q.Encode()).Body.String(); x[0] != "day" && !strings.Contains(page, "Still missing") {
			t.Errorf("%s: what is missing is not said", x[0])
		}
		for i := 1; i+1 < len(x); i += 2 {
			q.Set(x[i], x[i+1])
		}
	}
	q.Set(firstAt, firstEnd)
	page := get(h, "/dish/first?"+q.Encode()).Body.String()
	inOrder(t, page, "What it comes to", "Packs", ">30<", "Hands-on work", "write these lines", "Lentil")
	if strings.Contains(page, "Still missing") || strings.Contains(page, "<b>soup") {
		t.Error("something is missing, or text became markup")
	}
	q.Set("holds", "big")
	q.Set(firstAt, "pot")
	if page := get(h, "/dish/first?"+q.Encode()).Body.String(); !strings.Contains(page, `value="big"`) || !strings.Contains(page, "problem") {
		t.Error("what cannot be read is not told beside its field")
	}
}

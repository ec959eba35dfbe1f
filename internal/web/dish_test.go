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

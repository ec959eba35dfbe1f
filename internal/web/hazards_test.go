package web

import (
	"fmt"
	"html"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
)

func TestHazardPagesEmptyAndFull(t *testing.T) {
	rendered(t, "hazards", hazardsTemplate, func(p *hazardsPage) {
		p.Rows = append([]hazardRow{}, p.Rows...)
		for i := range p.Rows {
			p.Rows[i].Bad = ""
		}
	})
	rendered(t, "hazardplan", hazardPlanTemplate)
	rendered(t, "hazardedit", hazardEditTemplate, func(p *hazardEditPage) {
		p.Inputs = append([]editInput{}, p.Inputs...)
		for i := range p.Inputs {
			p.Inputs[i].Area = false
		}
	}, func(p *hazardEditPage) {
		p.Inputs = append([]editInput{}, p.Inputs...)
		for i := range p.Inputs {
			p.Inputs[i].Area, p.Inputs[i].Options = false, nil
		}
	})
	rendered(t, "hazardprint", hazardPrintTemplate)
	rendered(t, "rules", rulesTemplate)
}

// changing is the pages of the demo's kitchen with records, and its book, which can be changed while they are served.
func changing(t *testing.T) (http.Handler, fstest.MapFS) {
	t.Helper()
	files := fstest.MapFS{}
	err := fs.WalkDir(demo.Book(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(demo.Book(), name)
		files[name] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	house, err := app.New(files, someDay)
	if err != nil {
		t.Fatal(err)
	}
	records := recordsOf(t)
	house.Follow(records)
	return New(house, Options{Records: records}), files
}

var (
	entryOfForm = regexp.MustCompile(`name="entry" value="([0-9a-f]{32})"`)
	keptOfForm  = regexp.MustCompile(`<input type="hidden" name="([a-z]+)" value="([^"]*)">`)
)

// hazardForm is the first form of a page as it is shown, with some fields filled in.
func hazardForm(t *testing.T, h http.Handler, page string, fields ...string) url.Values {
	t.Helper()
	body := get(h, page).Body.String()
	m := entryOfForm.FindStringSubmatch(body)
	if m == nil {
		t.Fatalf("%s has no form: %.300s", page, body)
	}
	form := url.Values{"entry": {m[1]}}
	for _, k := range keptOfForm.FindAllStringSubmatch(body, -1) {
		if k[1] != "entry" && k[1] != "reset" {
			form.Set(k[1], html.UnescapeString(k[2]))
		}
	}
	for i := 0; i < len(fields); i += 2 {
		form.Set(fields[i], fields[i+1])
	}
	return form
}

// answers checks that an answer has a status and texts.
func answers(t *testing.T, name string, w *httptest.ResponseRecorder, status int, texts ...string) {
	t.Helper()
	if w.Code != status {
		t.Errorf("%s: status %d, want %d: %.400s", name, w.Code, status, w.Body.String())
	}
	for _, want := range texts {
		if not, is := strings.CutPrefix(want, "!"); is == strings.Contains(w.Body.String(), strings.TrimPrefix(want, "!")) {
			t.Errorf("%s: %q is there: %v (%q)", name, not, !is, want)
		}
	}
}

const (
	meatballPlan  = "/hazards/plan?pack=meatballs-six"
	meatballPrint = "/hazards/print?pack=meatballs-six"
	bakeLimit     = "/hazards/edit?pack=meatballs-six&do=limit&at=bake/cooking"
)

// A plan through its life on the pages: a draft that says so on screen and paper, an edit that would be laxer and is asked why with all that was
// typed kept, a version, a review, accepted; another rule in the book opens it again and says what changed.
func TestAHazardPlanOnThePages(t *testing.T) {
	h, book := changing(t)
	answers(t, "list", get(h, "/hazards"), 200, "▲", "DRAFT", "Turkey and fennel meatballs", "no pack has a hazard plan that a qualified person has accepted")
	answers(t, "draft", get(h, meatballPlan), 200, "DRAFT. To be reviewed by a qualified person", "165 °F at once", "FDA Food Code 3-401.11(A)(3)", "From memory", "usually needs an approved plan or a variance", "Enter it as version 1", "Nobody has entered a version yet")
	answers(t, "paper", get(h, meatballPrint), 200, "DRAFT. To be reviewed by a qualified person", "usually needs an approved plan", "as it would be today, entered by nobody", "Seen by the authority")

	lax := hazardForm(t, h, bakeLimit, "temp0", "160 °F", "time0", "0 s", "reason", "", "note", "we never saw 165")
	answers(t, "laxer", post(h, "/hazards/edit", lax), 422, "It would be laxer than drafted", `value="160 °F"`, "we never saw 165", "Enter it as version 1")
	answers(t, "no temperature", post(h, "/hazards/edit", hazardForm(t, h, bakeLimit, "temp0", "hot", "time0", "0 s")), 422, `value="hot"`, "f-temp0-problem")
	strict := hazardForm(t, h, bakeLimit, "temp0", "170", "time0", "0 s", "reason", `<b>"margin"`)
	for range 2 { // sent twice
		answers(t, "stricter", post(h, "/hazards/edit", strict), 303)
	}
	answers(t, "version 1", get(h, meatballPlan), 200, "IN REVIEW", "170 °F at once", "As drafted: 165 °F at once", "&lt;b&gt;&#34;margin&#34;", "Version 1", "!Version 2", "Nobody has reviewed it", "DRAFT. To be reviewed")

	review := "/hazards/review?pack=meatballs-six&version=1"
	answers(t, "no outcome", post(h, "/hazards/review", hazardForm(t, h, review, "reviewer", "R. Vance", "outcome", "")), 422, "Choose whether", "R. Vance")
	answers(t, "not qualified", post(h, "/hazards/review", hazardForm(t, h, review, "reviewer", "R. Vance", "qualified", "", "outcome", "accepted")), 422, "why they are qualified")
	answers(t, "accepted", post(h, "/hazards/review", hazardForm(t, h, review, "reviewer", "R. Vance", "qualified", "HACCP course of 2025", "outcome", "accepted", "authority", "VT-12")), 303)
	answers(t, "in force", get(h, meatballPlan), 200, "ACCEPTED", "accepted Tue 1 Dec 2026 05:00 by R. Vance (HACCP course of 2025)", "VT-12", "!DRAFT. To be reviewed")
	answers(t, "paper in force", get(h, meatballPrint), 200, "version 1, Tue 1 Dec 2026 05:00, Ada", "by R. Vance", "!DRAFT. To be reviewed", "usually needs an approved plan")

	book["safety.yaml"] = &fstest.MapFile{Data: []byte("safety:\n  jurisdiction: US-VT\n  cooling: fsis-b-1999-1\n")}
	answers(t, "opened again", get(h, meatballPlan), 200, "RE-OPENED", "control point at cooling", "130 to 80 °F within 1 h 30 min", "DRAFT. To be reviewed", "Enter it as version 2")
	answers(t, "at home", get(h, "/"), 200, "Turkey and fennel meatballs in tomato sauce, six: opened again by a change", "6 of 7 packs have no accepted plan")
	answers(t, "among what is open", get(h, "/safety"), 200, "is open again, since what it rests on has changed")
	answers(t, "in the list", get(h, "/hazards"), 200, "RE-OPENED", "What changed:", "is open again, since what it rests on has changed")
	answers(t, "paper opened again", get(h, meatballPrint), 200, "DRAFT. To be reviewed")
	answers(t, "an old version", get(h, meatballPlan+"&version=1"), 200, "This is version 1", "135 to 70 °F within 2 h")
	answers(t, "nothing is accepted that is of another dish", post(h, "/hazards/review", hazardForm(t, h, review, "reviewer", "R", "qualified", "q", "outcome", "accepted")), 422, "The dish has changed since this version was written")
	answers(t, "version 2", post(h, "/hazards/enter", hazardForm(t, h, meatballPlan, "note", "another rule of cooling")), 303)
	answers(t, "waiting", get(h, meatballPlan), 200, "Version 2 waits for a review", "another rule of cooling", "Version 1 was accepted")
	answers(t, "from an old page", post(h, "/hazards/enter", url.Values{"entry": {"000000000000000000000000000000aa"}, "pack": {"meatballs-six"}, "from": {"1"}}), 422, "was entered while you wrote")
	answers(t, "as drafted again", post(h, "/hazards/edit", hazardForm(t, h, bakeLimit, "reset", "yes")), 303)
	answers(t, "165 again", get(h, meatballPlan), 200, "<b>165 °F at once</b>", "!As drafted: 165")
}

// Every kind of change can be made on its form; what is wrong is said and kept.
func TestEveryChangeOfAPlan(t *testing.T) {
	h, _ := changing(t)
	at := func(do, at string) string {
		return "/hazards/edit?" + url.Values{"pack": {"meatballs-six"}, "do": {do}, "at": {at}}.Encode()
	}
	for i, c := range []struct {
		page   string
		fields []string
		shows  string
	}{
		{at("significance", "packing/bag"), []string{"significant", "yes", "reason", "no letter of the maker"}, "no letter of the maker (Ada)"},
		{at("add-hazard", ""), []string{"step", "mix", "kind", "physical", "what", "glass <jar>", "control", "no glass in the room", "significant", "no", "programme", "House"}, "glass &lt;jar&gt;"},
		{at("watch", "cooling/cooling"), []string{"watched", "the core of the deepest pan", "how", "probe 1", "often", "every 30 min", "whom", "Sam"}, "every 30 min"},
		{at("corrective", "cooling/cooling"), []string{"lines", "call Nora\nthrow it away"}, "call Nora"},
		{at("verify", "cooling/cooling"), []string{"lines", "Ines reads it each evening"}, "Ines reads it each evening"},
		{at("records", "cooling/cooling"), []string{"lines", "the paper log"}, "the paper log"},
		{at("add-point", ""), []string{"step", "shape", "kind", "physical", "what", "metal", "text", "no piece over 7 mm", "source", "the maker of the grinder", "watched", "the plate", "how", "by eye", "often", "each batch", "whom", "Sam", "lines", "stop"}, "no piece over 7 mm"},
		{at("drop-point", "shape/own"), []string{"reason", "the grinder was sold"}, "the grinder was sold"},
		{at("programme", "House"), []string{"watched", "traps are looked at", "often", "each Monday", "whom", "Ines"}, "each Monday"},
		{at("programme", ""), []string{"name", "Glass", "watched", "no glass", "often", "always", "whom", "all"}, "no glass"},
		{at("add-training", ""), []string{"whom", "Sam", "what", "probes", "when", "", "often", "in spring"}, "in spring"},
		{at("team", ""), []string{"lines", "Nora, HACCP course\nSam"}, "Nora, HACCP course; Sam"},
		{at("flow-walked", ""), []string{"text", "Nora, 1 December"}, "Nora, 1 December"},
		{at("intended-use", ""), []string{"text", "for adults"}, "for adults"},
		{at("shelf-life", ""), []string{"text", "three months, own tastings"}, "three months, own tastings"},
	} {
		answers(t, c.page, get(h, c.page), 200, fmt.Sprintf("Enter it as version %d", i+1))
		answers(t, c.page, post(h, "/hazards/edit", hazardForm(t, h, c.page, c.fields...)), 303)
		answers(t, c.page, get(h, meatballPlan), 200, c.shows)
	}
	for page, bad := range map[string]string{at("significance", "packing/bag"): "There is no reason", at("drop-point", "cooling/cooling"): "There is no reason", at("team", ""): "!", at("programme", ""): "It does not say what is done"} {
		if bad != "!" {
			answers(t, page, post(h, "/hazards/edit", hazardForm(t, h, page, "reason", "", "note", "kept")), 422, bad, "kept")
		}
	}
	for _, page := range []string{at("significance", "nothing"), at("limit", ""), at("approve", ""), "/hazards/plan?pack=goulash", meatballPlan + "&version=99", "/hazards/review?pack=tomato-fennel-lb"} {
		answers(t, page, get(h, page), 404)
	}
}

// Without records plans are shown, and nothing can be entered.
func TestHazardPlansWithoutRecords(t *testing.T) {
	h := demoKitchen(t)
	answers(t, "list", get(h, "/hazards"), 200, "No records are kept here", "DRAFT")
	answers(t, "plan", get(h, meatballPlan), 200, "165 °F at once", "!Enter it as version", "!/hazards/edit")
	answers(t, "post", post(h, "/hazards/enter", url.Values{"pack": {"meatballs-six"}}), 409)
	for _, page := range []string{"/hazards.json", "/hazards/plan.json?pack=meatballs-six", "/rules.json"} {
		if w := get(h, page); w.Code != 200 || !strings.Contains(w.Body.String(), `"schema": "kettlefrost.`) {
			t.Errorf("%s: %d %.200s", page, w.Code, w.Body.String())
		}
	}
	for _, look := range []string{"light", "dark", "narrow", "narrow-dark"} {
		answers(t, look, get(h, "/hazards/flow.svg?pack=bean-pot-2lb&look="+look), 200, "<svg", "CCP 1")
	}
}

// The rules say whose they are, what is from memory, and what this kitchen holds otherwise. A kitchen without rules is told that nothing is judged.
func TestTheRulesPage(t *testing.T) {
	h, book := changing(t)
	answers(t, "rules", get(h, "/rules"), 200, "US-VT", "stricter than published", "160 °F for 17 s", "published: 155 °F for 17 s", "from memory:", "never used to stop anything", "FDA Food Code 3-501.14(A)")
	book["safety.yaml"] = &fstest.MapFile{Data: []byte("safety:\n  jurisdiction: US-VT\n  rules: [{rule: fda-3-501.16-a-2, temp: 45 °F, reason: variance 7, by: Nora}]\n")}
	answers(t, "laxer", get(h, "/rules"), 200, "LAXER than published", "45 °F or colder", "variance 7", "decided by Nora")
	book["safety.yaml"] = &fstest.MapFile{Data: []byte("safety:\n  jurisdiction: US-VT\n  rules: [{rule: fda-3-501.16-a-2, temp: 45 °F}]\n")}
	answers(t, "laxer without a reason", get(h, "/rules"), 200, "STOP", "it would be laxer than published", "!LAXER than published")
	delete(book, "safety.yaml")
	answers(t, "none", get(h, "/rules"), 200, "names no jurisdiction, so nothing is judged")
	answers(t, "plans of a kitchen without rules", get(h, "/hazards"), 200, "lots are not judged by any rule", "DRAFT")
}

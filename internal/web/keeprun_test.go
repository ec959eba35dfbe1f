package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// The form of the home page leads to a plan of every kind of target, and keeps what it cannot read as it was typed.
func TestARunIsPlannedFromHome(t *testing.T) {
	h, _ := keptKitchen(t)
	inOrder(t, get(h, "/").Body.String(), "Plan a run", `name="count.ale-cheddar-lb"`, "one filling of the", `name="amount"`, `name="day"`, "Plan it", "Runs of the book")
	for form, want := range map[string]string{
		"count.ale-cheddar-lb=1,200+packs&count.bean-pot-2lb=0&day=2026-12-08": "count.ale-cheddar-lb=1200&day=2026-12-08",
		"dish=fill.lentil-squash%3Dkettle&day=2026-12-08":                      "day=2026-12-08&fill.lentil-squash=kettle",
		"dish=most%3Dturkey-meatballs&day=":                                    "most=turkey-meatballs",
		"amount=20+lb&of=bean-pot%2Fbacon&day=":                                "in.bacon=bean-pot&use.bacon=20+lb",
	} {
		if w := get(h, planPath+"?"+form); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/run/new?"+want {
			t.Errorf("%s: %d to %q, want %q", form, w.Code, w.Header().Get("Location"), want)
		}
	}
	for form, says := range map[string][]string{
		"count.ale-cheddar-lb=many+<b>": {`value="many &lt;b&gt;"`, "is not a whole number of packs"},
		"count.ale-cheddar-lb=-3":       {`value="-3"`, "cannot be made"},
		"count.ale-cheddar-lb=3&day=x":  {`value="3"`, `value="x"`, "is no date"},
		"":                              {"Nothing is asked for yet"},
		"amount=20+lb":                  {`value="20 lb"`, "Choose what to use up"},
		"amount=lots&of=bean-pot/bacon": {`value="lots"`},
		"dish=most%3Dnosuch":            {"nosuch"},
		"dish=fill.bean-pot%3Dnosuch":   {"nosuch"},
		"amount=2+lb&of=bean-pot/leek":  {"does not use leek"},
	} {
		w := get(h, planPath+"?"+form)
		for _, text := range says {
			if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), text) {
				t.Errorf("%s: %d, want %q on it", form, w.Code, text)
			}
		}
	}
	if w := get(h, "/run/new?count.nosuch=3"); w.Code != http.StatusNotFound || !strings.Contains(w.Body.String(), "This plan cannot be made") {
		t.Errorf("a pack that is not there: %d", w.Code)
	}
}

const smallRun = "/run/new?count.bean-pot-2lb=16&day=2026-12-14"

// A run is kept once however often the form is sent, copied to another day, changed and retired; each stands in the book at once.
func TestARunIsKeptCopiedChangedAndRetired(t *testing.T) {
	h, records := keptKitchen(t)
	page := get(h, smallRun).Body.String()
	inOrder(t, page, "This run is not in the book yet", "Keep this run", "Change what is made")
	form := formOf(t, page, "/run/new/keep?count.bean-pot-2lb=16&amp;day=2026-12-14")
	form.Set(whoField, "Ada")
	form.Set(runNameKey, "")
	if w := post(h, "/run/new/keep?count.bean-pot-2lb=16&day=2026-12-14", form); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "Give it a name") {
		t.Errorf("without a name: %d", w.Code)
	}
	form.Set(runNameKey, "Ada’s <b>: pot #1")
	for i, want := range []string{"new", "there"} {
		if w := post(h, "/run/new/keep?count.bean-pot-2lb=16&day=2026-12-14", form); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/run/ada-s-b-pot-1?kept="+want {
			t.Fatalf("sent %d: %d to %q: %s", i+1, w.Code, w.Header().Get("Location"), w.Body)
		}
	}
	page = get(h, "/run/ada-s-b-pot-1?kept=new").Body.String()
	inOrder(t, page, "Ada’s &lt;b&gt;: pot #1", "Kept: this run is in the book", "Rename, copy or retire this run", "/book/runs/ada-s-b-pot-1")
	const keep = "/run/ada-s-b-pot-1/keep"
	edit := formOf(t, page, keep)
	edit.Set(whoField, "Ada")

	copied := url.Values{}
	for k, v := range edit {
		copied[k] = v
	}
	copied.Set("do", doNew)
	copied.Set(runNameKey, "Ada’s copy")
	copied.Set(runOnKey, "2026-12-21")
	copied.Set(entryField, newEntryID())
	if w := post(h, keep, copied); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/run/ada-s-copy?kept=new" {
		t.Errorf("a copy: %d to %q", w.Code, w.Header().Get("Location"))
	}
	inOrder(t, get(h, "/").Body.String(), "2026-12-14", "16 ×", "Ada’s copy", "2026-12-21", "16 ×")

	edit.Set("do", doSave)
	edit.Set(entryField, newEntryID())
	if w := post(h, keep+"?count.bean-pot-2lb=20&finish=16:00", edit); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/run/ada-s-b-pot-1?kept=saved" {
		t.Errorf("a change: %d to %q: %s", w.Code, w.Header().Get("Location"), w.Body)
	}
	inOrder(t, get(h, "/run/ada-s-b-pot-1").Body.String(), `value="20"`, `value="16:00"`)
	edit.Set(entryField, newEntryID()) // of the page as it was before the change
	edit.Set("do", doRetire)
	if w := post(h, keep, edit); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "changed by somebody else") {
		t.Errorf("by a page that is out of date: %d", w.Code)
	}
	again := formOf(t, get(h, "/run/ada-s-b-pot-1").Body.String(), keep)
	again.Set(whoField, "Ada")
	again.Set("do", doRetire)
	if w := post(h, keep, again); w.Code != http.StatusSeeOther || !strings.HasPrefix(w.Header().Get("Location"), "/?retired=") {
		t.Errorf("retired: %d to %q", w.Code, w.Header().Get("Location"))
	}
	if w := get(h, "/run/ada-s-b-pot-1"); w.Code != http.StatusNotFound {
		t.Errorf("a retired run: %d", w.Code)
	}
	if log, err := records.BookLog(t.Context(), "runs.yaml"); err != nil || len(log) != 5 { // as it came, kept, copied, changed, retired
		t.Errorf("%d versions of the file, %v", len(log), err)
	}
}

// A book that is a folder is not written: the page shows the lines for its file.
func TestAFolderIsToldWhatToWrite(t *testing.T) {
	h := demoKitchen(t)
	w := post(h, "/run/new/keep?count.bean-pot-2lb=16&day=2026-12-14", url.Values{"do": {doNew}, runNameKey: {"pots"}})
	inOrder(t, w.Body.String(), "This is the demo kitchen", "runs.yaml", "pots:", "2026-12-14", "bean-pot-2lb, count: 16")
	if w.Code != http.StatusOK {
		t.Errorf("%d", w.Code)
	}
}

func TestRunIDs(t *testing.T) {
	for name, want := range map[string]string{"Tuesday's sauces": "tuesday-s-sauces", "2026-12-14 Bean Pot": "2026-12-14-bean-pot", "new": "run-new", "豆": "run", "": "run", "--a--": "a", strings.Repeat("x", 99): strings.Repeat("x", 60)} {
		if got := runID(name); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
}

package web

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
	"kettlefrost/internal/unit"
)

func TestTrialPagesEmptyAndFull(t *testing.T) {
	rendered(t, "trials", trialsTemplate, func(p *trialsPage) { p.None = false }, func(p *trialsPage) { p.None, p.Rows = false, nil })
	rendered(t, "trialnew", newTrialTemplate, func(p *newTrialPage) { p.Figures[0].Own = false })
	rendered(t, "trial", trialTemplate, func(p *trialPage) { p.Batches[0].Made = "" })
	rendered(t, "trialmade", trialBatchTemplate)
	rendered(t, "trialopen", trialPackTemplate)
	rendered(t, "trialtaste", tastingTemplate)
	rendered(t, "trialsheet", trialSheetTemplate)
	rendered(t, "trialresults", trialResultsTemplate, func(p *trialResultsPage) { p.Figures[0].Weeks = nil })
}

const trialTable = "ale-cheddar-2026-12"

// sauceTrial is what a cook fills in.
func sauceTrial() url.Values {
	return url.Values{"who": {"Ada"}, "entry": {newEntryID()}, "do": {"lay"}, "dish": {"ale-cheddar"}, "pack": {"ale-cheddar-lb"}, "asks": {"does gum keep it from weeping?"},
		"variant": {"as it is", "gum", "", "", ""}, "change": {"as in the book", "0.2 % xanthan", "", "", ""}, "base": {"0"},
		"on": {"0", "1", "2"}, "matters.0": {"2"}, "bound.0": {"5 %"}, "matters.1": {"3 g"}, "matters.2": {"1"}, "bound.2": {"6"}, "tasters": {"Nora\nSam"}, "weeks": {"0, 4, 8"}, "packs": {"1"}}
}

func layOut(t *testing.T, h http.Handler, form url.Values) string {
	t.Helper()
	w := post(h, newTrialPath, form)
	at, ok := strings.CutPrefix(w.Header().Get("Location"), trialsPath+"/")
	if w.Code != http.StatusSeeOther || !ok {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	name, _, _ := strings.Cut(at, "?")
	return name
}

func has(t *testing.T, what, page string, want ...string) {
	t.Helper()
	page = strings.ReplaceAll(page, "\u00a0", " ")
	for _, x := range want {
		if !strings.Contains(page, x) {
			t.Errorf("%s does not say %q", what, x)
		}
	}
}

func TestATrialIsLaidOutInAForm(t *testing.T) {
	h, records := larder(t)
	has(t, "the form", get(h, newTrialPath).Body.String(), `value="as it is"`, "Would matter", `name="base" value="0" checked`)
	look := sauceTrial()
	look.Set("do", "look")
	page := post(h, newTrialPath, look)
	if page.Code != http.StatusOK {
		t.Errorf("looking ahead answers %d", page.Code)
	}
	has(t, "what it comes to", page.Body.String(), "6 packs", "3 of each variant", "with 2 tasters nothing can be told, however they score: it takes 7 at least", "assumed, nobody has seen it here", "with 3 pairs of packs", `value="0.2 % xanthan"`)
	for name, c := range map[string]struct {
		change func(url.Values)
		want   string
	}{
		"no dish":                {func(f url.Values) { f.Set("dish", "") }, "choose the dish"},
		"one variant":            {func(f url.Values) { f["variant"], f["change"] = []string{"gum"}, []string{"x"} }, "one other way at least"},
		"no base":                {func(f url.Values) { f.Del("base") }, "mark the one that is made as in the book"},
		"two of one name":        {func(f url.Values) { f["variant"][1] = "As it is" }, "give each its own"},
		"a stroke in a name":     {func(f url.Values) { f["variant"][1] = "a/b" }, "leave the / out"},
		"what matters in words":  {func(f url.Values) { f.Set("matters.0", "a lot") }, "What matters: "},
		"nothing that matters":   {func(f url.Values) { f.Set("matters.2", "") }, "write the smallest difference"},
		"a bound off the scale":  {func(f url.Values) { f.Set("bound.2", "11") }, "The bound: "},
		"nobody tastes":          {func(f url.Values) { f.Set("tasters", " ") }, "write who tastes"},
		"weeks in words":         {func(f url.Values) { f.Set("weeks", "1, soon") }, "which is no number of weeks"},
		"weeks that go back":     {func(f url.Values) { f.Set("weeks", "4, 1") }, "each later than the one before"},
		"no packs":               {func(f url.Values) { f.Set("packs", "0") }, "at least one"},
		"a name that is hostile": {func(f url.Values) { f.Set("trial", `<evil a="b">`) }, "write evil-a-b"},
	} {
		form := sauceTrial()
		c.change(form)
		w := post(h, newTrialPath, form)
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(strings.ToLower(w.Body.String()), strings.ToLower(c.want)) || !strings.Contains(w.Body.String(), "<select id=\"f-dish\"") {
			t.Errorf("%s: %d, and it does not say %q", name, w.Code, c.want)
		}
		if strings.Contains(w.Body.String(), "<evil") {
			t.Errorf("%s: a text became markup", name)
		}
	}
	form := sauceTrial()
	if name := layOut(t, h, form); name != trialTable {
		t.Errorf("it is called %s", name)
	}
	if again := layOut(t, h, form); again != trialTable {
		t.Errorf("sent twice it is called %s", again)
	}
	x, _, err := records.Trial(t.Context(), trialTable)
	if err != nil {
		t.Fatal(err)
	}
	f := x.Laid.Body.Figures
	if len(f) != 3 || f[0].Matters != 20 || *f[0].Bound != 50 || f[1].Matters != 3000 || f[1].Bound != nil || *f[2].Bound != 6000 || !x.Laid.Body.Variants[0].Base {
		t.Errorf("%+v", x.Laid.Body)
	}
}

// fillTrial enters a trial by its pages: batches, packs by their codes, what tasters say.
func fillTrial(t *testing.T, h http.Handler, records *app.Records) trials.Trial {
	t.Helper()
	name := layOut(t, h, sauceTrial())
	at := trialsPath + "/" + name
	for _, v := range []string{"as it is", "gum"} {
		if w := post(h, at+"/made", url.Values{"who": {"Ada"}, "entry": {newEntryID()}, "variant": {v}, "mass": {"9 lb"}, "packs": {"3"}, "each": {"1 lb"}, "frozen": {"2026-12-01"}, "place": {"chest-1"}}); w.Code != http.StatusSeeOther {
			t.Fatalf("a batch: %d %s", w.Code, w.Body)
		}
	}
	x, _, err := records.Trial(t.Context(), name)
	if err != nil {
		t.Fatal(err)
	}
	for v := range 2 {
		measured := url.Values{"who": {"Ada"}, "entry": {newEntryID()}, "week": {"0"}, "code": {x.CodeOf(v, 0)}, "number": {"1"}, "whole": {"452"}, "drip": {fmt.Sprint(9 - 4*v)}, "separation": {"1.5 %"}, "note": {"smooth"}}
		if w := post(h, at+"/open", measured); w.Code != http.StatusSeeOther {
			t.Fatalf("a pack: %d %s", w.Code, w.Body)
		}
	}
	for i, taster := range x.Laid.Body.Tasters {
		said := url.Values{"who": {"Ada"}, "entry": {newEntryID()}, "week": {"0"}, "taster": {taster}}
		for _, code := range x.Served(i, 0) {
			said.Set("p."+code+".texture", "8")
		}
		if w := post(h, at+"/taste", said); w.Code != http.StatusSeeOther {
			t.Fatalf("a taster: %d %s", w.Code, w.Body)
		}
	}
	x, _, _ = records.Trial(t.Context(), name)
	return x
}

func TestATrialThroughItsPages(t *testing.T) {
	h, records := larder(t)
	x := fillTrial(t, h, records)
	at := trialsPath + "/" + x.Name
	if len(x.Made) != 2 || len(x.Opened) != 2 || len(x.Scored) != 4 || len(x.Found) != 0 {
		t.Fatalf("%+v", x)
	}
	if o := x.Opened[0].Body; *o.Drip != 9000 || *o.Separation != 15*unit.PerCent/10 || o.Whole != 452*unit.Gram || o.Variant != "as it is" {
		t.Errorf("%+v", o)
	}
	page := get(h, at).Body.String()
	has(t, "the trial", page, "ale and cheddar sauce", "3 packs of 1 lb, from 9 lb, frozen Tue 1 Dec 2026", "Week 4", "Tue 29 Dec 2026", "next: week 4", x.CodeOf(0, 4), "Take it back")
	results := get(h, at+"/results").Body.String()
	has(t, "the results", results, "How long it has kept", "cannot tell", "Of week 4, 8 nothing was entered yet.", "After week 0 nobody has looked.", "None of this says that food is safe", "Close it")
	if strings.Contains(results, x.CodeOf(0, 0)) {
		t.Error("the results tell a code")
	}
	chart := get(h, at+"/chart/1.dark.svg")
	if chart.Code != http.StatusOK || !strings.Contains(chart.Body.String(), "<svg") || get(h, at+"/chart/9.svg").Code != http.StatusNotFound {
		t.Errorf("the chart: %d", chart.Code)
	}
	has(t, "the next trial", get(h, at+"/results?next=1").Body.String(), "The smallest that finds out what matters")
	has(t, "CSV", get(h, at+"/results.csv").Body.String(), "trial,dish,variant,change,week,figure,unit,value", x.Name+",ale-cheddar,gum,0.2 % xanthan,0,drip,g,5,")
	var report trials.Report
	if err := json.Unmarshal(get(h, at+"/results.json").Body.Bytes(), &report); err != nil || report.Schema != trials.ReportSchema || len(report.Figures) != 3 || len(report.Figures[1].Values) != 2 {
		t.Errorf("JSON: %v %+v", err, report)
	}
	sheet := get(h, at+"/sheet").Body.String()
	has(t, "the sheet", sheet, "Only for who portions", x.CodeOf(1, 8), "week 8, pack 1 of 1", "open: Tue 26 Jan 2027", "The batch of gum", "Nora")
	if pdf := get(h, at+"/sheet.pdf"); pdf.Code != http.StatusOK || !bytes.HasPrefix(pdf.Body.Bytes(), []byte("%PDF")) {
		t.Errorf("the sheet as PDF: %d", pdf.Code)
	}
	has(t, "all trials", get(h, trialsPath).Body.String(), at, "does gum keep it from weeping?", "next: week 4")
	has(t, "all as JSON", get(h, "/workshop/trials.json").Body.String(), trials.ListSchema, `"stands": "ahead"`)
	if w := post(h, at+"/close", url.Values{"who": {"Ada"}, "entry": {newEntryID()}, "adopted": {"gum"}}); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "Write why") {
		t.Errorf("closed without a reason: %d", w.Code)
	}
	if w := post(h, at+"/close", url.Values{"who": {"Ada"}, "entry": {newEntryID()}, "adopted": {"gum"}, "why": {"it weeps less"}}); w.Code != http.StatusSeeOther {
		t.Errorf("closed: %d %s", w.Code, w.Body)
	}
	has(t, "a trial that was closed", get(h, at).Body.String(), "closed: made as gum")
	if w := post(h, at+"/close", url.Values{"who": {"Ada"}, "entry": {newEntryID()}, "why": {"again"}}); w.Code != http.StatusConflict {
		t.Errorf("closed twice: %d", w.Code)
	}
}

// Who tastes and who measures sees codes, and nothing of which is which.
func TestTastingIsBlind(t *testing.T) {
	h, records := larder(t)
	x := fillTrial(t, h, records)
	at := trialsPath + "/" + x.Name
	taste := get(h, at+"/taste?week=4&taster=Sam").Body.String()
	for _, target := range []string{at + "/taste?week=4&taster=Sam", at + "/open?week=4&code=" + x.CodeOf(1, 4)} {
		page := get(h, target).Body.String()
		for _, v := range x.Laid.Body.Variants {
			if strings.Contains(page, ">"+v.Name+"<") || strings.Contains(page, string(v.Change)) || strings.Contains(page, "variant") {
				t.Errorf("%s tells the variant %s", target, v.Name)
			}
		}
	}
	row := x.Served(1, 4)
	if first, second := strings.Index(taste, `id="pot-`+row[0]), strings.Index(taste, `id="pot-`+row[1]); first < 0 || second < first {
		t.Errorf("the codes are not in the order of the layout: %v", row)
	}
	has(t, "the form", taste, row[0]+", then "+row[1], "Rinse with water")
	if points := regexp.MustCompile(`type="radio" name="p\.`+row[0]+`\.texture"`).FindAllString(taste, -1); len(points) != 11 {
		t.Errorf("%d points to touch", len(points))
	}
}

func TestWhatWasTastedIsCorrected(t *testing.T) {
	h, records := larder(t)
	x := fillTrial(t, h, records)
	at := trialsPath + "/" + x.Name
	form := url.Values{"who": {"Ada"}, "entry": {newEntryID()}, "week": {"0"}, "taster": {"Nora"}}
	row := x.Served(0, 0)
	form.Set("p."+row[0]+".texture", "3")
	half := post(h, at+"/taste", form)
	if half.Code != http.StatusUnprocessableEntity {
		t.Errorf("half of it is taken in: %d", half.Code)
	}
	has(t, "half of it", half.Body.String(), "Touch the points for texture", `name="p.`+row[0]+`.texture" value="3" checked`)
	form.Set("p."+row[1]+".texture", "8") // as before
	if w := post(h, at+"/taste", form); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	now, _, _ := records.Trial(t.Context(), x.Name)
	s, ok := now.ScoreOf(0, row[0])
	if !ok || s.Body.Scores[0].Points != 3000 || len(now.Scored) != 4 || len(now.Found) != 0 {
		t.Errorf("%+v %v", s, now.Found)
	}
	head := now.Opened[0]
	code := now.CodeOf(0, 0)
	has(t, "the pack once more", get(h, at+"/open?week=0&code="+code+"&number=1").Body.String(), "It was measured before", `value="9"`, head.Entry.String())
	fix := url.Values{"who": {"Ada"}, "entry": {newEntryID()}, "corrects": {head.Entry.String()}, "week": {"0"}, "code": {code}, "number": {"1"}, "whole": {"452 g"}, "drip": {"7,5"}}
	if w := post(h, at+"/open", fix); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if now, _, _ := records.Trial(t.Context(), x.Name); len(now.Opened) != 2 || *now.Opened[0].Body.Drip != 7500 || now.Opened[0].Body.Separation != nil {
		t.Errorf("%+v", now.Opened)
	}
	for field, bad := range map[string]url.Values{
		"whole":      {"whole": {"a lot"}, "drip": {"3"}},
		"drip":       {"whole": {"452"}, "drip": {"500"}},
		"separation": {"whole": {"452"}, "separation": {"140"}},
		"":           {"whole": {"452"}},
	} {
		bad.Set("week", "0")
		bad.Set("code", code)
		bad.Set("who", "Ada")
		bad.Set("entry", newEntryID())
		if w := post(h, at+"/open", bad); w.Code != http.StatusUnprocessableEntity || field != "" && !strings.Contains(w.Body.String(), `id="f-`+field+`-problem"`) {
			t.Errorf("%q: %d", field, w.Code)
		}
	}
}

// sendPicture sends a file as the camera of a tablet does.
func sendPicture(t *testing.T, h http.Handler, target, name string, data []byte, fields url.Values) *httptest.ResponseRecorder {
	t.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	for key := range fields {
		form.WriteField(key, fields.Get(key))
	}
	part, err := form.CreateFormFile("file", name)
	if err != nil {
		t.Fatal(err)
	}
	part.Write(data)
	form.Close()
	r := httptest.NewRequest(http.MethodPost, target, &body)
	r.Host = "localhost:8090"
	r.Header.Set("Content-Type", form.FormDataContentType())
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestPicturesComeAndAreServedAsPicturesAlone(t *testing.T) {
	h, records := larder(t)
	x := fillTrial(t, h, records)
	at := trialsPath + "/" + x.Name
	var small bytes.Buffer
	if err := png.Encode(&small, image.NewGray(image.Rect(0, 0, 4, 4))); err != nil {
		t.Fatal(err)
	}
	fields := url.Values{"who": {"Ada"}, "entry": {newEntryID()}, "week": {"0"}, "code": {x.CodeOf(1, 0)}, "caption": {`<evil a="b">`}, "back": {at}}
	if w := sendPicture(t, h, at+"/picture", `<evil>.jpg`, small.Bytes(), fields); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	hash := record.Hash(sha256.Sum256(small.Bytes()))
	w := get(h, trialPictures+"/"+hash.String())
	if w.Code != http.StatusOK || !bytes.Equal(w.Body.Bytes(), small.Bytes()) {
		t.Fatalf("it is not served as it came: %d", w.Code)
	}
	for name, want := range map[string]string{"Content-Type": "image/png", "X-Content-Type-Options": "nosniff", "Content-Security-Policy": "default-src 'none'; sandbox"} {
		if got := w.Header().Get(name); got != want {
			t.Errorf("%s is %q", name, got)
		}
	}
	for range 2 { // made, and as it was made
		if w := get(h, trialPictures+"/"+hash.String()+"/small"); w.Code != http.StatusOK || w.Header().Get("Content-Type") != "image/jpeg" || w.Header().Get("Content-Security-Policy") != "default-src 'none'; sandbox" || !bytes.HasPrefix(w.Body.Bytes(), []byte{0xff, 0xd8}) {
			t.Errorf("the small one: %d %v", w.Code, w.Header())
		}
	}
	page := get(h, at).Body.String()
	has(t, "the trial", page, hash.String()+"/small", x.CodeOf(1, 0)+", week 0")
	if strings.Contains(page, "<evil") {
		t.Error("a text became markup")
	}
	has(t, "the results", get(h, at+"/results").Body.String(), "gum, week 0")
	for name, c := range map[string]struct {
		data   []byte
		status int
	}{"a page": {[]byte("<html><script>alert(1)</script></html>"), 422}, "too large": {append(bytes.Clone(small.Bytes()), make([]byte, app.MostPicture+2<<20)...), 413}, "nothing": {nil, 422}} {
		fields.Set("entry", newEntryID())
		if w := sendPicture(t, h, at+"/picture", "a.png", c.data, fields); w.Code != c.status {
			t.Errorf("%s: %d", name, w.Code)
		}
	}
	fields.Set("entry", newEntryID())
	fields.Set("code", "999")
	if w := sendPicture(t, h, at+"/picture", "a.png", small.Bytes(), fields); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("of no pack: %d", w.Code)
	}
	for _, none := range []string{record.Hash{1}.String(), "x", hash.String()[:10]} {
		for _, target := range []string{none, none + "/small"} {
			if w := get(h, trialPictures+"/"+target); w.Code != http.StatusNotFound {
				t.Errorf("%s: %d", target, w.Code)
			}
		}
	}
}

func TestTrialsThatAreNotThere(t *testing.T) {
	h, records := larder(t)
	x := fillTrial(t, h, records)
	at := trialsPath + "/" + x.Name
	for _, target := range []string{trialsPath + "/nothing", trialsPath + "/nothing/results.json", at + "/made?variant=x", at + "/open?week=3&code=1", at + "/open?week=4&code=" + x.CodeOf(0, 8), at + "/open?week=4&number=2&code=" + x.CodeOf(0, 4), at + "/taste?week=4&taster=Zoe", at + "/taste?week=5&taster=Sam"} {
		if w := get(h, target); w.Code != http.StatusNotFound {
			t.Errorf("%s: %d", target, w.Code)
		}
	}
	has(t, "what is not there", get(h, trialsPath+"/nothing").Body.String(), "There is no trial of that name", `href="`+trialsPath+`"`)
	bare := demoKitchen(t)
	has(t, "trials without records", get(bare, trialsPath).Body.String(), "No records are kept here")
	for _, target := range []string{newTrialPath, trialsPath + "/x", "/workshop/trials.json"} {
		if w := get(bare, target); w.Code != http.StatusConflict {
			t.Errorf("%s without records: %d", target, w.Code)
		}
	}
}

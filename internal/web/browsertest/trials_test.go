package browsertest

import (
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/web"
)

// serveTrial starts the demo kitchen with a trial whose first packs are to be opened today; some were measured.
func serveTrial(t *testing.T) (base string, records *app.Records) {
	t.Helper()
	now := func() time.Time { return time.Date(2026, 12, 1, 15, 0, 0, 0, time.UTC) }
	house, err := app.New(demo.Book(), now)
	if err != nil {
		t.Fatal(err)
	}
	records, err = app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	bound := record.Decimal(10_000)
	by := app.Said{Who: "Nora", Device: "tablet", At: now()}
	_, err = records.LayTrial(t.Context(), by, record.TrialLaid{Trial: "gum", Dish: "ale-cheddar", Asks: "does gum keep it from weeping?", Seed: 7, Packs: 1, Weeks: []record.Week{0, 4, 8}, Tasters: []string{"Nora", "Sam"},
		Variants: []record.Variant{{Name: "as it is", Change: "as in the book", Base: true}, {Name: "with a little gum", Change: "0.2 % xanthan"}},
		Figures:  []record.Figured{{Figure: trials.Drip, Unit: trials.Grams, Better: record.LowIsBetter, Matters: 3000, Bound: &bound}, {Figure: "texture", Unit: trials.Points, Better: record.HighIsBetter, Matters: 1000}}})
	if err != nil {
		t.Fatal(err)
	}
	drip := record.Decimal(4500)
	for _, b := range []record.Body{record.TrialMade{Trial: "gum", Variant: "as it is", Mass: unit.Kilogram, Packs: 3, Each: 300 * unit.Gram, Frozen: "2026-12-01"}, record.TrialMade{Trial: "gum", Variant: "with a little gum", Mass: unit.Kilogram, Packs: 3, Each: 300 * unit.Gram, Frozen: "2026-12-01"},
		record.TrialOpened{Trial: "gum", Variant: "as it is", Week: 0, Number: 1, Whole: 300 * unit.Gram, Drip: &drip}} {
		by.Body = b
		if _, err := records.Enter(t.Context(), by); err != nil {
			t.Fatal(err)
		}
	}
	server := httptest.NewServer(web.New(house, web.Options{Records: records}))
	t.Cleanup(server.Close)
	return server.URL, records
}

// The codes of the trial's first week: variant 0, variant 1. They follow from its seed.
func codesOf(t *testing.T, records *app.Records) [2]string {
	t.Helper()
	x, _, err := records.Trial(t.Context(), "gum")
	if err != nil {
		t.Fatal(err)
	}
	return [2]string{x.CodeOf(0, 0), x.CodeOf(1, 0)}
}

// The pages of trials fit every screen, and what is pressed meets a finger: each point of a scale is 48 px high and wide at least.
func TestTrialsOnScreens(t *testing.T) {
	base, records := serveTrial(t)
	code := codesOf(t, records)[1]
	for name, path := range map[string]string{"trials": "", "new": "/new", "trial": "/gum", "made": "/gum/made?variant=" + url.QueryEscape("as it is"), "open": "/gum/open?week=0&code=" + code, "taste": "/gum/taste?week=0&taster=Sam", "results": "/gum/results", "sheet": "/gum/sheet"} {
		t.Run(name, func(t *testing.T) {
			p := open(t, tablet)
			p.do(chromedp.Navigate(base + "/workshop/trials" + path))
			p.quiet()
			p.onScreens("trial-" + name)
			if small := eval[[]string](p, `[...document.querySelectorAll('.trial-points label, input[type=file], .pick')].map(e => e.getBoundingClientRect()).filter(b => b.height < 47.5 || b.width < 47.5).map(b => b.width + ' by ' + b.height)`); len(small) > 0 {
				t.Errorf("points smaller than 48 px: %q", small)
			}
		})
	}
}

const checkedPoints = `[...document.querySelectorAll('.trial-points input:checked')].map(e => e.name + '=' + e.value).join(' ')`

// What a taster touched outlives the page, and is gone once it was sent.
func TestPointsOutliveThePage(t *testing.T) {
	base, records := serveTrial(t)
	codes := codesOf(t, records)
	p := open(t, tabletUpright)
	address := base + "/workshop/trials/gum/taste?week=0&taster=Sam"
	p.do(chromedp.Navigate(address))
	eval[string](p, `document.cookie = 'kettlefrost-who=Sam; path=/'`)
	touch := func(code, points string) {
		t.Helper()
		p.do(chromedp.Click(chromedp.CSS(`.trial-points label:has(input[name="p.` + code + `.texture"][value="` + points + `"])`)))
	}
	touch(codes[0], "7")
	if got := eval[string](p, checkedPoints); got != "p."+codes[0]+".texture=7" {
		t.Fatalf("after a touch: %q", got)
	}
	p.do(chromedp.Navigate(base+"/stock"), chromedp.Navigate(address))
	if got := eval[string](p, checkedPoints); got != "p."+codes[0]+".texture=7" {
		t.Errorf("after the page was left: %q", got)
	}
	if !eval[bool](p, `!document.querySelector('.trial-draft').hidden`) {
		t.Error("it is not said that points came back")
	}
	touch(codes[1], "9")
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS(".trial-tasting > button"))))
	if told := eval[string](p, `document.querySelector('.did')?.textContent || document.body.textContent`); !strings.Contains(told, "Sam tasted "+codes[0]) {
		t.Fatalf("it was not entered: %.300s", told)
	}
	if left := eval[int64](p, `Object.keys(localStorage).filter(k => k.startsWith('kettlefrost-taste')).length`); left != 0 {
		t.Errorf("%d drafts are left", left)
	}
	x, _, err := records.Trial(t.Context(), "gum")
	if err != nil || len(x.Scored) != 2 {
		t.Errorf("%+v %v", x.Scored, err)
	}
	p.quiet()
}

// So does what was weighed.
func TestWeightsOutliveThePage(t *testing.T) {
	base, records := serveTrial(t)
	p := open(t, tabletUpright)
	address := base + "/workshop/trials/gum/open?week=0&code=" + codesOf(t, records)[1]
	p.do(chromedp.Navigate(address), chromedp.SendKeys(chromedp.ID("f-drip"), "3.5"), chromedp.Navigate(base+"/stock"), chromedp.Navigate(address))
	if got := value(p, chromedp.Value(chromedp.ID("f-drip"))); got != "3.5" {
		t.Errorf("after the page was left: %q", got)
	}
	eval[string](p, `document.cookie = 'kettlefrost-who=Sam; path=/'`)
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS(`form[data-draft] button`))))
	if left := eval[int64](p, `Object.keys(localStorage).filter(k => k.startsWith('kettlefrost-pack')).length`); left != 0 {
		t.Errorf("%d drafts are left", left)
	}
	p.quiet()
}

// A picture from the camera is on the page of its pack.
func TestAPictureFromTheTablet(t *testing.T) {
	base, records := serveTrial(t)
	code := codesOf(t, records)[0]
	p := open(t, tabletUpright)
	p.do(chromedp.Navigate(base + "/workshop/trials/gum/open?week=0&code=" + code))
	eval[string](p, `document.cookie = 'kettlefrost-who=Sam; path=/'`)
	eval[bool](p, `(async () => { const c = document.createElement('canvas'); c.width = c.height = 64; c.getContext('2d').fillRect(0, 0, 40, 40);
		const blob = await new Promise(done => c.toBlob(done, 'image/jpeg')); const files = new DataTransfer(); files.items.add(new File([blob], 'spoon.jpg', {type: 'image/jpeg'}));
		document.querySelector('#photo').files = files.files; })(), true`)
	p.do(until(`document.querySelector('#photo').files.length === 1`))
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS(".trial-photo button"))))
	p.do(until(`document.querySelector('.trial-shots img')?.naturalWidth === 64`))
	if alt := eval[string](p, `document.querySelector('.trial-shots img').alt`); alt != "Picture of "+code+", week 0" {
		t.Errorf("it is described as %q", alt)
	}
	p.quiet()
}

package browsertest

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

var paths = []struct{ name, path string }{
	{"home", "/"}, {"run", "/run/tuesday"}, {"kettle", "/run/kettle"}, {"metric", "/run/small-friday?units=metric"}, {"book", "/book"},
	{"start", "/start"}, {"newrun", "/run/new?count.bean-pot-2lb=16&day=2026-12-14"},
	{"foods", "/foods?q=lentil"}, {"cool", "/cool?of=bean-pot/pot&much=30+gal"}, {"form", "/form?method=oven&mass=2+lb"}, {"findings", "/run/tuesday/findings"}, {"cook", "/run/tuesday/cook"}, {"chill", "/run/tuesday/chill"}, {"freeze", "/run/tuesday/freeze"}, {"cards", "/run/tuesday/cards"}, {"labels", "/run/tuesday/labels"}, {"papers", "/run/tuesday/papers"}, {"sheet", "/run/tuesday/day/sheet"}, {"day", "/run/tuesday/day?now=11:20"}, {"changed", "/run/small-friday/day?now=09:00&gone=sam"}, {"next", "/run/tuesday/next?now=11:20"},
	{"seal", "/run/tuesday/seal?w.ale-cheddar.sauce=150+lb"}, {"buy", "/run/tuesday/buy"}, {"money", "/run/tuesday/money"}, {"week", "/week"}, {"fillings", "/filling"}, {"filling", "/filling/ale-cheddar-lb"}, {"unweighed", "/filling/meatballs-six"}, {"weights", "/filling/ale-cheddar-lb?tare=11,x&gross=470"},
	{"stock", "/stock"}, {"place", "/stock/place?place=chest-1"}, {"handle", "/stock/handle?do=release&code=P-soup%2313"}, {"count-choose", "/stock/count"}, {"count", "/stock/count?place=chest-1&f=P-soup%2313-20&f=P-soup%2322"}, {"put", "/stock/put?pack=bean-pot-2lb&count=300"}, {"tub-labels", "/stock/label?lot=R-carrot&lot=P-soup"}, {"receive", "/receive"},
	{"lot", "/lot?lot=P-soup"}, {"recall", "/recall?lot=R-carrot"}, {"recall-ask", "/recall"}, {"drills", "/recall/drills"}, {"rule", "/recall/rule?lot=R-carrot"}, {"recall-report", "/recall/report?lot=R-carrot"},
	{"logs", "/logs"}, {"log-day", "/logs/day?probe=walk-in-air"}, {"log-import", "/logs/import"},
	{"workshop", "/workshop"}, {"workshop-dish", "/workshop/dish?dish=ale-cheddar&mass=250&warm=20&warm-for=6&own.xanthan=0.5+g+per+cup"}, {"workshop-filling", "/workshop/dish?dish=mushroom-filling"},
	{"retained", "/workshop/retained"}, {"retained-keep", "/workshop/retained/keep?code=P-soup"}, {"retained-taste", "/workshop/retained/taste?code=P-soup%2313"}, {"keeping", "/workshop/keeping"}, {"keeping-pack", "/workshop/keeping/pack?pack=ale-cheddar-lb"},
	{"hazards", "/hazards"}, {"hazard-plan", "/hazards/plan?pack=meatballs-six"}, {"hazard-limit", "/hazards/edit?pack=meatballs-six&do=limit&at=cooling/cooling"}, {"hazard-add", "/hazards/edit?pack=meatballs-six&do=add-hazard"}, {"hazard-print", "/hazards/print?pack=meatballs-six"}, {"rules", "/rules"},
	{"folder", "/folder?lot=P-soup"}, {"folder-ask", "/folder"},
	{"disperse", "/workshop/disperse"}, {"disperse-new", "/workshop/disperse?dish=mushroom-filling&of=xanthan&dose=0.2%25"},
	{"home-card", "/workshop/home?pack=meatballs-six&people=5"}, {"draft", "/workshop/draft"},
	{"pack-labels", "/labels"}, {"pack-label", "/labels/pack?pack=ale-cheddar-lb&staff=3&yearly=5000"},
	{"book-ingredients", "/book/ingredients"}, {"book-ingredient", "/book/ingredients/cheddar"}, {"book-new", "/book/packs/new"}, {"book-copy", "/book/packs/meatballs-six/copy"}, {"book-retire", "/book/ingredients/cheddar/retire"}, {"book-pairs", "/book/packs/meatballs-six/compare?with=ale-cheddar-lb"}, {"book-empty", "/book/media"},
	{"find", "/find?q=bean+pot"}, {"find-kind", "/find?q=raw&kind=food"},
	{"help", "/help"}, {"help-entry", "/help/cooling-times"}, {"help-found", "/help?q=ice"}, {"glossary", "/glossary"}, {"tutorial", "/tutorial"},
	{"boards", "/board"}, {"device", "/device"}, {"keys", "/device/keys"}, {"look", "/look?look=dark.high"}, {"offline", "/offline"}, {"dish", "/dish/ale-cheddar"}, {"dish-step", "/dish/ale-cheddar?step=roux"}, {"dish-plan", "/dish/bean-pot/plan"}, {"dish-new", "/dish/new"}, {"dish-first", "/dish/first?at=lines&name=Soup&lines=5+lb+lentils"},
	{"missing", "/run/no-such-run"},
}

const tooWide = `[...document.querySelectorAll('body *')].filter(e => !e.closest('.scroll, .jumps') && e.getBoundingClientRect().right > innerWidth + 1)
	.slice(0, 5).map(e => e.tagName + '.' + e.className + ' ' + Math.round(e.getBoundingClientRect().right)).join('; ')`

// smallType finds text set smaller than 16 px, drawings at the size at which they are shown.
const smallType = `[...document.querySelectorAll('body *')].filter(e => [...e.childNodes].some(n => n.nodeType === 3 && n.nodeValue.trim()))
	.filter(e => !['TITLE', 'DESC', 'SCRIPT'].includes(e.tagName.toUpperCase()) && e.getClientRects().length)
	.filter(e => { const svg = e.closest('svg'); const scale = svg ? svg.getBoundingClientRect().width / svg.viewBox.baseVal.width : 1;
		return parseFloat(getComputedStyle(e).fontSize) * scale < 15.2 })
	.slice(0, 5).map(e => e.textContent.trim().slice(0, 30) + ' ' + getComputedStyle(e).fontSize)`

// smallTargets finds what can be pressed and is lower than 48 px. Links within a sentence are left out.
const smallTargets = `[...document.querySelectorAll('nav a, .home, .card, .see, .button, button, summary, select, textarea, input[type=text], input[type=date], input[type=search], .ticks label')]
	.filter(e => e.getClientRects().length && e.getBoundingClientRect().height < 47.5)
	.slice(0, 5).map(e => e.tagName + ' ' + e.textContent.trim().slice(0, 30) + ' ' + e.getBoundingClientRect().height)`

// packs reads the headline figure.
const packs = `document.querySelector('.head dd .fig').textContent.trim()`

func TestThePlanFollowsAChange(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(serve(t) + "/run/small-friday"))
	if got := eval[string](p, packs); got != "40" { // 16 + 24 in the book
		t.Fatalf("the page starts with %q packs, want 40", got)
	}
	p.do(chromedp.Click(chromedp.CSS("#wanted > summary")))
	field := chromedp.ID("f-count-bean-pot-2lb")
	retype(p, field, "20")
	p.do(until(`document.querySelector('.head dd .fig').textContent.trim() === '44'`))
	if got := value(p, chromedp.Value(field)); got != "20" {
		t.Errorf("the field holds %q after the plan followed, want 20", got)
	}
	if got := eval[string](p, `document.activeElement.id`); got != "f-count-bean-pot-2lb" {
		t.Errorf("the cursor went to %q", got)
	}
	if got := eval[string](p, `new URL(location).searchParams.get('count.bean-pot-2lb')`); got != "20" {
		t.Errorf("the address says %q, want 20: a reload or a copied address would lose the change", got)
	}
	p.quiet()
}

// TestTheSealingTableFollowsTheScale: a weight is typed, the counts follow, and a weight without a unit is asked about where it stands.
func TestTheSealingTableFollowsTheScale(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(serve(t) + "/run/small-friday/seal"))
	const count = `document.querySelector('.seal .many b').textContent.trim()`
	planned := eval[string](p, count)
	field := chromedp.ID("f-w-bean-pot-pot")
	retype(p, field, "20 lb")
	p.do(until(`document.querySelector('.seal .many b').textContent.trim() === '10'`)) // packs of 2 lb
	if planned == "10" {
		t.Fatal("the page began with what was to follow")
	}
	if got := eval[string](p, `document.activeElement.id`); got != "f-w-bean-pot-pot" {
		t.Errorf("the cursor went to %q", got)
	}
	p.quiet()
	retype(p, field, "20")
	p.do(chromedp.WaitVisible(chromedp.ID("f-w-bean-pot-pot-problem")))
	if got := value(p, chromedp.Value(field)); got != "20" {
		t.Errorf("the field holds %q, want what was typed", got)
	}
	p.shoot("seal")
}

func TestABadTargetStaysAsTyped(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(serve(t) + "/run/small-friday"))
	p.do(chromedp.Click(chromedp.CSS("#wanted > summary")))
	field := chromedp.ID("f-count-bean-pot-2lb")
	retype(p, field, "a few")
	p.do(chromedp.WaitVisible(chromedp.ID("f-count-bean-pot-2lb-problem")))
	if got := value(p, chromedp.Value(field)); got != "a few" {
		t.Errorf("the field holds %q, want what was typed", got)
	}
	p.shoot("bad-target")
	retype(p, field, "16")
	p.do(until(`document.querySelector('.head dd .fig')?.textContent.trim() === '40' && !document.querySelector('.problem')`))
}

// Pressing another way of chilling shows its curve in place, in the page's own colours.
func TestAnotherWaysCurve(t *testing.T) {
	p := open(t, tabletDark)
	p.do(chromedp.Navigate(serve(t) + "/run/small-friday/chill"))
	address := eval[string](p, `location.href`)
	p.do(chromedp.Click(chromedp.CSS(".cool a.see")))
	p.do(until(`document.querySelector('.cool .curve svg text') !== null`))
	if got := eval[string](p, `document.querySelector('.cool .curve svg title').textContent`); !strings.Contains(got, "ice bath") {
		t.Errorf("the curve is of %q", got)
	}
	if got := eval[string](p, `location.href`); got != address {
		t.Errorf("the page went to %s", got)
	}
	if ink := eval[string](p, `getComputedStyle(document.querySelector('.cool .curve svg text')).fill`); ink != "rgb(243, 241, 236)" {
		t.Errorf("text of the curve is %s on a dark page", ink)
	}
	p.quiet()
}

// Without JavaScript the button does the same.
func TestWithoutJavaScript(t *testing.T) {
	p := open(t, tablet)
	call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	p.do(chromedp.Navigate(serve(t) + "/run/small-friday"))
	p.do(chromedp.Click(chromedp.CSS("#wanted > summary")))
	p.do(chromedp.SetAttributeValue(chromedp.ID("f-count-bean-pot-2lb"), "value", "20"))
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Click(chromedp.CSS("#targets button"))))
	if got := value(p, chromedp.Text(chromedp.CSS(".head dd .fig"))); got != "44" {
		t.Errorf("the plan has %q packs, want 44", got)
	}
	p.quiet()
}

// What a cook has unfolded stays so when the plan follows a change.
func TestWhatIsUnfoldedStays(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(serve(t) + "/run/small-friday"))
	p.do(chromedp.Click(chromedp.CSS("#wanted > summary")))
	retype(p, chromedp.ID("f-count-bean-pot-2lb"), "17")
	p.do(until(`document.querySelector('.head dd .fig').textContent.trim() === '41'`))
	if !eval[bool](p, `document.querySelector('#wanted').open`) {
		t.Error("the part that was open is folded")
	}
}

// What is ticked on the shopping list stays so on this device when the page is opened again.
func TestTicksStay(t *testing.T) {
	p := open(t, tablet)
	at := serve(t) + "/run/small-friday/buy"
	p.do(chromedp.Navigate(at), chromedp.Click(chromedp.CSS(".ticks label")))
	p.do(until(`document.querySelector('.ticks input').checked`))
	p.do(chromedp.Navigate(at))
	p.do(until(`document.querySelector('.ticks input').checked`))
	p.quiet()
}

// On paper there is nothing to press, and everything is black on white.
func TestPrint(t *testing.T) {
	p := open(t, screen{name: "paper", width: 720, height: 1000, dark: true})
	p.do(chromedp.Navigate(serve(t) + "/run/small-friday"))
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	for _, gone := range []string{".top", "nav.parts", "#targets", ".links", "#keysheet"} {
		if got := eval[string](p, fmt.Sprintf(`getComputedStyle(document.querySelector(%q)).display`, gone)); got != "none" {
			t.Errorf("%s is printed (display %s)", gone, got)
		}
	}
	if got := eval[string](p, `getComputedStyle(document.body).color + ' on ' + getComputedStyle(document.body).backgroundColor`); got != "rgb(0, 0, 0) on rgb(255, 255, 255)" {
		t.Errorf("print is %s", got)
	}
	if wide := eval[int64](p, `document.documentElement.scrollWidth`); wide > 720 {
		t.Errorf("the print is %d px wide on paper of 720 px: %s", wide, eval[string](p, tooWide))
	}
	p.shoot("print")
}

// retype puts a text into a field as a person does: select all, type.
func retype(p *tab, field chromedp.ID, text string) {
	p.t.Helper()
	p.do(chromedp.Focus(field), chromedp.Evaluate[chromedp.Void](`document.activeElement.select()`), chromedp.KeyEvent(kb.Backspace), chromedp.SendKeys(field, text))
}

// until waits for an expression to become true.
func until(expression string) chromedp.Action[chromedp.Void] {
	wait := chromedp.Poll[bool](expression)
	return func(ctx context.Context, t *chromedp.Target) (none chromedp.Void, err error) {
		_, err = wait(ctx, t)
		return none, err
	}
}

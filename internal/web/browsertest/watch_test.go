package browsertest

import (
	"net/http/httptest"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/web"
)

// warmChest serves the demo kitchen at noon of a day on which the chest at the back was above 23 °F for an hour in the morning, with packs in it.
func warmChest(t *testing.T) string {
	t.Helper()
	noon := time.Date(2026, 12, 2, 12, 0, 0, 0, time.UTC)
	clock := func() time.Time { return noon }
	house, err := app.New(demo.Book(), clock)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "kitchen.records")
	records, err := app.OpenRecords(t.Context(), path, clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	numbers, err := record.ParseNumbers("1-30")
	if err != nil {
		t.Fatal(err)
	}
	packed := record.Packed{Run: "tue", Pack: "bean-pot-2lb", Lot: "P-1124-1", Numbers: numbers, Label: 2 * unit.Pound, Mass: 60 * unit.Pound, From: []record.Part{{Lot: "M-1", Mass: unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest-2/bottom"}
	if _, err := records.Enter(t.Context(), app.Said{ID: record.ID{1}, Who: "Ada", Device: "tablet", At: noon.AddDate(0, 0, -8), Body: packed}); err != nil {
		t.Fatal(err)
	}
	kept, err := store.Open(t.Context(), path, func() record.Instant { return record.Instant(noon.UnixMilli()) })
	if err != nil {
		t.Fatal(err)
	}
	defer kept.Close()
	var readings []store.Reading
	for i := range 72 { // every ten minutes since midnight
		milliC := int64(-19_000)
		if i >= 48 && i < 54 {
			milliC = -2_000
		}
		readings = append(readings, store.Reading{Probe: "chest-2-air", At: record.Instant(noon.Add(time.Duration(i-72) * 10 * time.Minute).UnixMilli()), MilliC: milliC, Valued: true, Line: i + 1})
	}
	if err := kept.TakeReadings(t.Context(), store.Batch{ID: record.ID{2}, Who: "Ada", Readings: readings}); err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(web.New(house, web.Options{Records: records}))
	t.Cleanup(server.Close)
	return server.URL
}

// From the home page to what lay in a chest that got warm: it is held, looked at, and what was done is written down. With wet hands: by touches.
func TestAChestThatGotWarm(t *testing.T) {
	base := warmChest(t)
	p := open(t, tablet)
	p.do(chromedp.Navigate(base + "/"))
	p.has("chest freezer at the back", "nobody wrote down what was done")
	p.sent(`a.card[href="/freezers/watch"]`)
	p.has("As last read: not over its limit", "Too warm", "look at what lay there")
	p.shoot("watch")
	p.sent(`a.reach[href*="chest-2-air"]`)
	p.has("Lot P-1124-1", "Look at each pack for ice crystals", "30 packs on hand, not held")
	p.shoot("excursion")
	p.sent(".holdthem button")
	retype(p, "who", "Ada") // nobody said yet who acts here
	p.sent("form.targets button[type=submit]")
	p.has("Entered", "30 packs on hand, all held")
	p.sent(`a.button[aria-label="Look at it: lot P-1124-1"]`)
	p.do(chromedp.Click(chromedp.CSS(`input[name=ice][value=yes]`)))
	p.sent("form.targets:has(input[name=ice][type=radio]) button[type=submit]")
	p.has("The guidance lets it be frozen again", "A person decides")
	p.shoot("look-at-lot")
	p.sent(`button[name=decision][value=keep]`)
	p.has("ice crystals", "guidance: may-refreeze")
	retype(p, "f-text", "door was ajar, shut it")
	p.sent(`form[action="/freezers/watch/answer"] button`)
	p.has("door was ajar, shut it", "Entered")
	p.do(chromedp.Navigate(base + "/"))
	if eval[bool](p, `document.body.innerText.includes('nobody wrote down what was done')`) {
		t.Error("the home page still calls to mind what was answered")
	}
	p = open(t, tablet)
	p.do(chromedp.Navigate(base + "/lot?lot=P-1124-1"))
	p.do(until(`document.querySelector('#life table') !== null`)) // comes by itself
	p.has("189 days at 0 °F")
	p.quiet()
}

// A check of a thermometer is three touches: check it, what it reads, and if that is wrong what becomes of it.
func TestAThermometerIsChecked(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(warmChest(t) + "/thermometers"))
	p.sent(`a.button[aria-label="Check it: pocket thermometer, red"]`)
	p.sent(`.quick button[value="34 F"]`)
	p.has("It reads 2 °F too warm", "Adjust it", "Count on its error", "Withdraw it")
	p.shoot("thermometer-off")
	p.sent(`button[name=kept][value=withdrawn]`)
	retype(p, "who", "Ada")
	p.sent("form.targets button[type=submit]")
	p.has("Entered", "Withdrawn", "proves nothing")
	p.sent(`a.button[aria-label="Check it: pocket thermometer, blue"]`)
	p.sent(`.quick button[value="32.5 F"]`)
	p.has("Checked, due in 14 days")
}

// These pages on every screen, as all pages are.
func TestTheWatchOnScreens(t *testing.T) {
	base := warmChest(t)
	first := open(t, tablet)
	first.do(chromedp.Navigate(base + "/freezers/watch"))
	excursion := eval[string](first, `document.querySelector('a.reach[href*="chest-2-air"]').getAttribute('href')`)
	for name, path := range map[string]string{"watch": "/freezers/watch", "thermometers": "/thermometers", "check": "/thermometers/check?id=pen-1&method=boiling-point", "excursion": excursion, "life": "/freezers/watch/life?lot=P-1124-1"} {
		t.Run(name, func(t *testing.T) {
			p := open(t, tablet)
			p.do(chromedp.Navigate(base + path))
			p.quiet()
			p.onScreens(name)
		})
	}
}

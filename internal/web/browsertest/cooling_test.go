package browsertest

import (
	"fmt"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/web"
)

const (
	kettleRun = "kettle-2026-12-01"
	soupLoad  = "lentil-squash/soup-chill/1"
)

// serveCooling is the demo kitchen with its pot of lentils in pans since 09:24, read until 10:30, at 10:32.
func serveCooling(t *testing.T) *boardDay {
	t.Helper()
	from := time.Date(2026, 12, 1, 10, 32, 0, 0, time.UTC)
	began := time.Now()
	d := &boardDay{now: func() time.Time { return from.Add(time.Since(began)) }}
	house, err := app.New(demo.Book(), d.now)
	if err != nil {
		t.Fatal(err)
	}
	if d.records, err = app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), d.now); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.records.Close() })
	house.Follow(d.records)
	opened, err := app.NewBoards(d.records, house).Opening(t.Context(), "kettle", "2026-12-01", kettleRun)
	if err != nil {
		t.Fatal(err)
	}
	at := func(clock string) time.Time {
		x, err := time.Parse("2006-01-02 15:04", "2026-12-01 "+clock)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	d.say(t, at("06:00"), "Nora", opened)
	d.say(t, at("09:24"), "Nora", record.Started{Run: kettleRun, Task: soupLoad})
	for _, x := range []struct {
		clock string
		f     float64
	}{{"09:30", 186}, {"10:00", 150}, {"10:30", 116}} {
		d.say(t, at(x.clock), "Sam", soupReading(x.f))
	}
	server := httptest.NewServer(web.New(house, web.Options{Records: d.records}))
	t.Cleanup(server.Close)
	d.url = server.URL
	return d
}

func soupReading(f float64) record.Measured {
	return record.Measured{Run: kettleRun, Dish: "lentil-squash", Output: "soup", Task: soupLoad, Point: "middle", Temp: unit.TempF(f), Instrument: "pen-1"}
}

var soupPage = "/cooling?" + url.Values{"run": {kettleRun}, "task": {soupLoad}}.Encode()

// What cools can be read and touched on every screen: on its page, among all that cools, and on the board.
func TestCoolingOnScreens(t *testing.T) {
	d := serveCooling(t)
	for name, path := range map[string]string{"cooling": soupPage, "coolings": "/cooling", "cooling-board": "/board/" + kettleRun} {
		t.Run(name, func(t *testing.T) {
			p := signed(t, tablet, d, path)
			p.do(chromedp.WaitVisible("#board"))
			p.quiet()
			p.onScreens(name)
		})
	}
}

// A reading that is entered elsewhere is in the forecast at once, and what is typed here is entered and shown.
func TestCoolingFollowsWhatIsRead(t *testing.T) {
	d := serveCooling(t)
	p := signed(t, tablet, d, soupPage)
	const says = `document.querySelector('.step').textContent`
	before := eval[string](p, says)
	d.say(t, d.now(), "Sam", soupReading(121)) // the pan is warmer in the middle than was thought
	p.do(until(fmt.Sprintf(`%s !== %q && document.querySelector('.rows').textContent.includes('121')`, says, before)))
	p.do(chromedp.SendKeys(`#form-read input[name=temp]`, "120"), chromedp.Click(`#form-read button`), chromedp.WaitVisible(".did"))
	if got := eval[string](p, `document.querySelector('.rows').textContent`); !strings.Contains(got, "120") {
		t.Errorf("what was entered is not shown: %q", got)
	}
	p.quiet()
	p.shoot("cooling-follows")
}

// A reading that does not come rings, on the load's page as on the board.
func TestAMissingReadingRings(t *testing.T) {
	d := serveCooling(t)
	for _, path := range []string{soupPage, "/board/" + kettleRun} {
		p := signed(t, tablet, d, path)
		const past = `document.querySelector('#board .load[data-due], #board .reading[data-due]').dataset.due = '1000'` // as if its time had been long ago
		p.do(until(`(` + past + `) && document.getElementById('ring')?.textContent.includes('Time is up')`))
	}
}

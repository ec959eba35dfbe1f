package browsertest

import (
	"fmt"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/web"
)

// probed is the demo kitchen at noon, with a morning of a probe in the walk-in: the door stood open from two to three, and nothing came from five
// to seven.
func probed(t *testing.T) string {
	t.Helper()
	now := func() time.Time { return time.Date(2026, 12, 2, 12, 0, 0, 0, time.UTC) }
	house, err := app.New(demo.Book(), now)
	if err != nil {
		t.Fatal(err)
	}
	records := diary(t)
	p := app.Posted{Device: "hub"}
	for m := range 720 {
		x := app.PostedReading{Probe: "walk-in-air", At: now().Add(time.Duration(m-720) * time.Minute), Temp: "38.2", Unit: app.PostedF}
		switch {
		case m >= 300 && m < 420:
			continue
		case m >= 120 && m < 180:
			x.Temp = "46"
		case m == 600:
			x.Temp = "ERR"
		}
		p.Readings = append(p.Readings, x)
	}
	if _, err := records.TakePosted(t.Context(), p, now()); err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(web.New(house, web.Options{Records: records}))
	t.Cleanup(server.Close)
	return server.URL
}

// The pages of logs on every screen: what is silent stands first, a day has its chart, and the readings of an hour are a touch away.
func TestLogsOnScreens(t *testing.T) {
	base := probed(t)
	for _, s := range screens {
		p := open(t, s)
		p.do(chromedp.Navigate(base + "/logs"))
		p.has("Temperature logs", "38.2 °F", "NEVER HEARD", "probe in the walk-in")
		fits(p, s)
		p.shoot(s.name + "-logs")
		p.do(chromedp.Navigate(base + "/logs/day?probe=walk-in-air&day=2026-12-02"))
		p.has("OVER THE LIMIT", "NOT KNOWN", "By the hour", "no number", "ERR")
		if width := eval[float64](p, `document.querySelector('.chart img').naturalWidth`); width < 300 {
			t.Errorf("%s: the chart is %g px wide", s.name, width)
		}
		fits(p, s)
		p.shoot(s.name + "-log-day")
		p.sent(".see[href*='hour=02']")
		p.has("Readings from 02:00 on", "02:59:00")
		p.quiet()
	}
}

// A logger's file with ten thousand lines: chosen, asked about, answered, looked at, taken in by whoever is at the tablet, and its day is there.
func TestALoggersFile(t *testing.T) {
	base := probed(t)
	var text strings.Builder
	text.WriteString("Date,Time,Tub\n")
	for m := range 10_000 {
		at := time.Date(2026, 11, 20, 0, 0, 0, 0, time.UTC).Add(time.Duration(m) * time.Minute)
		fmt.Fprintf(&text, "%s,%.1f\n", at.Format("01/02/2006,3:04 PM"), 38+float64(m%30)/10)
	}
	file := filepath.Join(t.TempDir(), "tub.csv")
	if err := os.WriteFile(file, []byte(text.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	p := open(t, tabletUpright)
	p.do(chromedp.Navigate(base+"/logs/import"), chromedp.SetUploadFiles(chromedp.ID("f-file"), []string{file}))
	p.sent(".choose button[type=submit]")
	p.do(chromedp.WaitVisible(chromedp.CSS(".log-answers")))
	p.has("Are these temperatures °F or °C?", "38.0", "By which clock", "Which probe is the column “Tub”?")
	fits(p, tabletUpright)
	p.shoot("log-asked")
	p.do(chromedp.Click(chromedp.CSS(`input[name=unit][value=f]`)), chromedp.Click(chromedp.CSS(`input[name=zone][value=kitchen]`)), chromedp.Click(chromedp.CSS(`input[name="probe.Tub"][value=pan-probe-1]`)))
	p.sent(".log-answers button[type=submit]")
	p.do(chromedp.WaitVisible(chromedp.CSS("button[name=take]")))
	p.has("10,000 readings, 0 of them flagged", "20 Nov 2026 00:00", "38 °F")
	fits(p, tabletUpright)
	p.shoot("log-read")
	p.quiet() // then it is asked who takes it in, which the browser itself reports
	p.sent("button[name=take]")
	named(p, ".done")
	p.has("10,000 readings were taken in.", "SHA-256")
	p.sent(".links .button")
	p.has("wireless probe 1, for pans", "26 November 2026")
}

package browsertest

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/web"
)

const boardRun = "tuesday-2026-12-01"

// boardDay is the demo kitchen on its big Tuesday, whose clock goes on from a time.
type boardDay struct {
	url     string
	records *app.Records
	now     func() time.Time
	server  *httptest.Server
	away    atomic.Bool // the server does not answer: also not to a worker, which a browser that only pretends to be offline lets through
}

func serveBoard(t *testing.T, clock string) *boardDay {
	t.Helper()
	from, err := time.Parse("2006-01-02 15:04", "2026-12-01 "+clock)
	if err != nil {
		t.Fatal(err)
	}
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
	opened, err := app.NewBoards(d.records, house).Opening(t.Context(), "tuesday", "2026-12-01", boardRun)
	if err != nil {
		t.Fatal(err)
	}
	d.say(t, from.Add(-time.Hour), "Nora", opened)
	pages := web.New(house, web.Options{Records: d.records})
	d.server = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if d.away.Load() {
			panic(http.ErrAbortHandler)
		}
		pages.ServeHTTP(w, r)
	}))
	t.Cleanup(d.server.Close)
	d.url = d.server.URL + "/board/" + boardRun
	return d
}

// network takes the network away from a tab, or gives it back.
func (d *boardDay) network(p *tab, away bool) {
	p.t.Helper()
	d.away.Store(away)
	if away {
		d.server.CloseClientConnections()
	}
	call(p, network.OverrideNetworkState, network.OverrideNetworkStateParams{Offline: away, DownloadThroughput: -1, UploadThroughput: -1})
}

func (d *boardDay) say(t *testing.T, at time.Time, who string, body record.Body) {
	t.Helper()
	if _, err := d.records.Enter(t.Context(), app.Said{Who: who, Device: "tablet", At: at, Body: body}); err != nil {
		t.Fatal(err)
	}
}

// tasks are the tasks that the entries of a kind name, in the order of the chain.
func (d *boardDay) tasks(t *testing.T, kind record.Kind) []string {
	t.Helper()
	head, err := d.records.Verify(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	var tasks []string
	for e, err := range d.records.Follow(ctx, 0) {
		if err != nil {
			t.Fatal(err)
		}
		if e.Kind == kind {
			body, err := record.Decode(e.Kind, e.Body)
			if err != nil {
				t.Fatal(err)
			}
			tasks = append(tasks, fmt.Sprint(body.(record.Started).Task))
		}
		if e.Seq == head.Seq {
			return tasks
		}
	}
	return tasks
}

// signed is a tab in which somebody has said who acts.
func signed(t *testing.T, s screen, d *boardDay, path string) *tab {
	t.Helper()
	p := open(t, s)
	call(p, network.SetCookie, network.SetCookieParams{Name: "kettlefrost-who", Value: "Nora", URL: d.url})
	p.do(chromedp.Navigate(d.url + path))
	return p
}

// starts are the names of the tasks that one touch would start.
const starts = `[...new Set([...document.querySelectorAll('.jobs .job:not(.sent)')].filter(t => t.querySelector('.touch.start') && t.getClientRects().length).map(t => t.dataset.task))]`

func press(task string) string {
	return fmt.Sprintf(`document.querySelector('.job[data-task="%s"] .touch').click()`, task)
}

func showsAs(task, what string) string {
	return fmt.Sprintf(`document.querySelector('.job[data-task="%s"] .touch.%s') !== null`, task, what)
}

// TestATouchIsSeenOnTheOtherTablet: what is started on one tablet shows on another within a second, and again when it is finished.
func TestATouchIsSeenOnTheOtherTablet(t *testing.T) {
	const bound = 5 * time.Second // the aim is one second; a machine that does much else is slower
	d := serveBoard(t, "07:10")
	one, other := signed(t, tablet, d, "?person="), signed(t, tabletUpright, d, "?person=")
	for _, p := range []*tab{one, other} {
		p.do(until(`!document.querySelector('[data-stale]')`))
	}
	task := eval[[]string](one, starts)[0]
	other.do(until(fmt.Sprintf(`document.querySelector('.job[data-task="%s"]') !== null`, task)))
	var took []time.Duration
	for _, want := range []string{"finish", "start"} {
		began := time.Now()
		if want == "finish" {
			one.do(until(press(task) + ` || true`))
			other.do(until(showsAs(task, want)))
		} else {
			one.do(until(showsAs(task, "finish")))
			began = time.Now()
			one.do(until(press(task) + ` || true`))
			other.do(until(fmt.Sprintf(`document.querySelector('.job[data-task="%s"]') === null`, task)))
		}
		took = append(took, time.Since(began))
	}
	t.Logf("seen on the other tablet after %v (started) and %v (finished)", took[0], took[1])
	if slowest := slices.Max(took); slowest > bound {
		t.Errorf("seen after %v, want within %v", slowest, bound)
	}
	one.quiet()
	other.quiet()
}

// TestWithoutANetwork: what is touched while the network is away waits, the page says so, and all of it arrives in order and once when it is
// back.
func TestWithoutANetwork(t *testing.T) {
	d := serveBoard(t, "07:10")
	p := signed(t, tabletUpright, d, "?person=")
	p.do(until(`document.getElementById('line').textContent.includes('all sent')`))
	p.do(until(`navigator.serviceWorker.ready.then(() => true)`))
	p.do(chromedp.Navigate(d.url + "?person=")) // once more, now seen by the worker
	p.do(until(`!document.querySelector('[data-stale]')`))
	tasks := eval[[]string](p, starts)[:3]
	d.network(p, true)
	for _, task := range tasks {
		p.do(until(press(task) + ` || true`))
		p.do(until(press(task) + ` || true`)) // a wet finger touches twice
	}
	p.do(until(`document.getElementById('line').textContent.startsWith('3 wait to be sent')`))
	if got := d.tasks(t, "started"); len(got) != 0 {
		t.Fatalf("arrived without a network: %q", got)
	}
	p.shoot("board-no-network")
	p.do(chromedp.Navigate(d.url + "?person=")) // the page is loaded again without a network
	p.do(until(`document.getElementById('line')?.textContent.startsWith('3 wait to be sent')`))
	if shown := eval[int](p, `document.querySelectorAll('.job.sent').length`); shown < 3 {
		t.Errorf("%d tasks say that they wait to be sent, want 3", shown)
	}
	d.network(p, false)
	p.do(until(`document.getElementById('line').textContent.includes('all sent')`))
	p.do(until(`kettlefrostWaiting() === 0`))
	if got := d.tasks(t, "started"); !slices.Equal(got, tasks) {
		t.Errorf("arrived: %q, want %q", got, tasks)
	}
	p.do(until(showsAs(tasks[0], "finish")))
}

// TestWhoStartsAsksOnce: a tablet on which nobody has said who acts asks at the first touch, loses nothing, and does not ask again.
func TestWhoStartsAsksOnce(t *testing.T) {
	d := serveBoard(t, "07:10")
	p := open(t, phone)
	call(p, network.ClearBrowserCookies, cdp.Empty{})
	p.do(chromedp.Navigate(d.url + "?person="))
	task := eval[[]string](p, starts)[0]
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, until(press(task)+` || true`)))
	value(p, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.SendKeys(chromedp.ID("who"), "Zoë\r")))
	p.do(until(`kettlefrostWaiting() === 0`))
	if got := d.tasks(t, "started"); !slices.Equal(got, []string{task}) {
		t.Errorf("arrived: %q, want %q once", got, task)
	}
}

// TestTimeIsUp: what is under way counts down, and says in large type that its time is up.
func TestTimeIsUp(t *testing.T) {
	d := serveBoard(t, "09:30")
	p := signed(t, tablet, d, "?person=")
	task := eval[[]string](p, starts)[0]
	d.say(t, d.now().Add(-6*time.Hour), "Sam", record.Started{Run: boardRun, Task: task})
	p.do(until(`document.getElementById('ring')?.textContent.includes('Time is up')`))
	p.shoot("board-time-is-up")
	p.do(until(`document.querySelector('#ring button').click() || true`))
	p.do(until(`document.getElementById('ring') === null`))
	if title := eval[string](p, `document.title`); strings.HasPrefix(title, "(!)") {
		t.Errorf("heard, and the title is still %q", title)
	}
	p.quiet()
}

// TestTheBoardOnScreens: the board in the middle of a day, on every screen, large enough to read and to touch.
func TestTheBoardOnScreens(t *testing.T) {
	d := serveBoard(t, "09:20")
	d.asPlanned(t, 9*60+20)
	for name, path := range map[string]string{"everybody": "?person=", "nora": "?person=Nora", "task": "/task?task=ale-cheddar%2Fsauce-chill%2F1", "fill": "/task?task=ale-cheddar-lb%2Ffill%2F1"} {
		t.Run(name, func(t *testing.T) {
			p := signed(t, tablet, d, path)
			p.do(until(`!document.querySelector('[data-stale]')`))
			p.quiet()
			p.onScreens("board-" + name)
		})
	}
}

// asPlanned tells the day as it was planned up to a minute, each task a little late.
func (d *boardDay) asPlanned(t *testing.T, until int) {
	t.Helper()
	house, err := app.New(demo.Book(), d.now)
	if err != nil {
		t.Fatal(err)
	}
	p, err := app.NewBoards(d.records, house).Production(t.Context(), boardRun, false)
	if err != nil {
		t.Fatal(err)
	}
	midnight := time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)
	for i, task := range p.First.Timetable.Tasks {
		late := i % 4
		who := "Nora"
		if len(task.People) > 0 {
			who = task.People[0]
		}
		if int(task.Start)+late <= until {
			d.say(t, midnight.Add(time.Duration(int(task.Start)+late)*time.Minute), who, record.Started{Run: boardRun, Task: task.Key})
		}
		if int(task.End)+late <= until {
			d.say(t, midnight.Add(time.Duration(int(task.End)+late)*time.Minute), who, record.Finished{Run: boardRun, Task: task.Key})
		}
	}
}

// Package browsertest opens the pages in a real browser, as a cook's tablet and telephone would.
package browsertest

import (
	"context"
	"flag"
	"fmt"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/web"
)

var keep = flag.String("screenshots", "", "folder to keep the screenshots in")

// names are the programs that will do, the likeliest first.
var names = []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "headless-shell", "chrome"}

// browser is started once for all tests of the package.
var browser context.Context

func TestMain(m *testing.M) {
	flag.Parse()
	os.Exit(run(m))
}

func run(m *testing.M) int {
	program := ""
	for _, name := range names {
		if path, err := exec.LookPath(name); err == nil {
			program = path
			break
		}
	}
	if program == "" {
		fmt.Fprintf(os.Stderr, "These tests need a browser, and none of %v is on the PATH. On Debian: apt-get install chromium\n", names)
		return 1
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(program),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("hide-scrollbars", true))
	if os.Getuid() == 0 { // the browser refuses its sandbox to root
		options = append(options, chromedp.NoSandbox)
	}
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	defer stop()
	var end context.CancelFunc
	browser, end = chromedp.NewContext(allocator)
	defer end()
	if err := chromedp.Do(browser); err != nil { // the browser lives as long as this context
		fmt.Fprintf(os.Stderr, "%s does not start: %v\n", program, err)
		return 1
	}
	return m.Run()
}

// serve starts the demo kitchen and returns its address.
func serve(t *testing.T) string {
	t.Helper()
	house, err := app.New(demo.Book(), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(web.New(house, web.Options{Records: diary(t)}))
	t.Cleanup(server.Close)
	return server.URL
}

// screen is a device in a cook's hand or on the wall.
type screen struct {
	name          string
	width, height int64
	mobile        bool
	dark          bool
}

var (
	tablet        = screen{name: "tablet", width: 1280, height: 800}
	tabletUpright = screen{name: "tablet-upright", width: 800, height: 1280}
	tabletDark    = screen{name: "tablet-dark", width: 1280, height: 800, dark: true}
	phone         = screen{name: "phone", width: 390, height: 844, mobile: true}
	screens       = []screen{tablet, tabletUpright, tabletDark, phone}
)

// tab is one page open in the browser.
type tab struct {
	t   *testing.T
	ctx context.Context

	mu       sync.Mutex
	messages []string // whatever the page wrote to the console, refusals of the content security policy included
}

// patience is far more than a page needs.
const patience = 60 * time.Second

// newest is the test that opened the last tab.
var newest string

// open opens a tab on a screen.
func open(t *testing.T, s screen) *tab {
	t.Helper()
	p := openIn(t, s)
	if t.Name() != newest { // cookies know no port: who acted in the test before would act in this one
		newest = t.Name()
		call(p, network.ClearBrowserCookies, cdp.Empty{})
	}
	return p
}

// openIn opens a tab with options of the browser's.
func openIn(t *testing.T, s screen, options ...chromedp.ContextOption) *tab {
	t.Helper()
	whole, closeTab := chromedp.NewContext(browser, options...)
	t.Cleanup(closeTab)
	if err := chromedp.Do(whole); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(whole, patience)
	t.Cleanup(cancel)
	p := &tab{t: t, ctx: ctx}
	console := chromedp.Console(ctx)
	go func() {
		for m, err := range console {
			if err != nil {
				return
			}
			p.mu.Lock()
			p.messages = append(p.messages, m.String())
			p.mu.Unlock()
		}
	}()
	p.turn(s)
	return p
}

func emulate(s screen) chromedp.Action[chromedp.Void] {
	if s.mobile {
		return chromedp.EmulateViewport(s.width, s.height, chromedp.EmulateMobile, chromedp.EmulateTouch)
	}
	return chromedp.EmulateViewport(s.width, s.height)
}

func (p *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	if err := chromedp.Do(p.ctx, steps...); err != nil {
		p.t.Fatal(err)
	}
}

// value is what an action or an expression gives.
func value[T any](p *tab, a chromedp.Action[T]) T {
	p.t.Helper()
	v, err := chromedp.Run(p.ctx, a)
	if err != nil {
		p.t.Fatal(err)
	}
	return v
}

func eval[T any](p *tab, expression string) T {
	p.t.Helper()
	return value(p, chromedp.Evaluate[T](expression))
}

// quiet fails if the page has complained.
func (p *tab) quiet() {
	p.t.Helper()
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, m := range p.messages {
		p.t.Errorf("the page wrote to the console: %s", m)
	}
}

// shoot takes a screenshot of the whole page into the test's folder, or into the one that is kept.
func (p *tab) shoot(name string) {
	p.t.Helper()
	folder := *keep
	if folder == "" {
		folder = p.t.TempDir()
	}
	picture := value(p, chromedp.FullScreenshot(100))
	if len(picture) < 1000 {
		p.t.Errorf("the screenshot %s has only %d bytes", name, len(picture))
	}
	if err := os.WriteFile(filepath.Join(folder, name+".png"), picture, 0o644); err != nil {
		p.t.Fatal(err)
	}
}

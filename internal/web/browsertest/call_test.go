package browsertest

import (
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/chromedp"
)

// call sends one command of the browser's protocol.
func call[P, R any](p *tab, command cdp.Command[P, R], params P) {
	p.t.Helper()
	if _, err := chromedp.Call(p.ctx, command, params); err != nil {
		p.t.Fatal(err)
	}
}

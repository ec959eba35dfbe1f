package browsertest

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// lightest is less than any page weighs: below it the measurement is wrong, not the page good.
const lightest = 15_000

// heaviest is what a page may weigh as it comes over the line, in bytes: the page itself, styles and scripts, without pictures.
const heaviest = 200_000

// traffic is what a tab has asked the network for since it was last emptied.
type traffic struct {
	mu    sync.Mutex
	asked []string
	kinds map[network.RequestID]network.ResourceType
	names map[network.RequestID]string
	bytes map[network.RequestID]float64
}

// listen keeps the traffic of a tab, which from now on keeps nothing of what it has loaded: every visit is a first one.
func (p *tab) listen() *traffic {
	p.t.Helper()
	x := &traffic{}
	x.empty()
	call(p, network.SetCacheDisabled, network.SetCacheDisabledParams{CacheDisabled: true})
	call(p, network.SetBypassServiceWorker, network.SetBypassServiceWorkerParams{Bypass: true}) // which keeps some of it, too
	err := chromedp.Listen(p.ctx, func(event any) {
		x.mu.Lock()
		defer x.mu.Unlock()
		switch e := event.(type) {
		case *network.EventRequestWillBeSent:
			x.asked = append(x.asked, e.Request.URL)
			x.kinds[e.RequestID], x.names[e.RequestID] = e.Type, e.Request.URL
		case *network.EventLoadingFinished:
			x.bytes[e.RequestID] = e.EncodedDataLength
		}
	})
	if err != nil {
		p.t.Fatal(err)
	}
	return x
}

func (x *traffic) empty() {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.asked = nil
	x.kinds, x.names, x.bytes = map[network.RequestID]network.ResourceType{}, map[network.RequestID]string{}, map[network.RequestID]float64{}
}

// weight is what came over the line without pictures, in bytes, and the heaviest parts of it.
func (x *traffic) weight() (float64, string) {
	x.mu.Lock()
	defer x.mu.Unlock()
	sum := 0.0
	var parts []network.RequestID
	for id, n := range x.bytes {
		if kind := x.kinds[id]; kind != network.ResourceTypeImage && kind != network.ResourceTypeMedia {
			sum += n
			parts = append(parts, id)
		}
	}
	slices.SortFunc(parts, func(a, b network.RequestID) int { return int(x.bytes[b] - x.bytes[a]) })
	var says []string
	for _, id := range parts[:min(len(parts), 4)] {
		says = append(says, fmt.Sprintf("%s %.0f", x.names[id], x.bytes[id]))
	}
	return sum, strings.Join(says, ", ")
}

// outside are the addresses asked for that are not of the server.
func (x *traffic) outside(base string) []string {
	x.mu.Lock()
	defer x.mu.Unlock()
	found := map[string]bool{}
	for _, address := range x.asked {
		if !strings.HasPrefix(address, base+"/") && !strings.HasPrefix(address, "data:") && !strings.HasPrefix(address, "blob:"+base) {
			found[address] = true
		}
	}
	return slices.Sorted(maps.Keys(found))
}

// light fails if the page that a tab has loaded is heavier than a page may be, or asked another server for something.
func (p *tab) light(x *traffic, base string) float64 {
	p.t.Helper()
	sum, parts := x.weight()
	if sum < lightest || sum > heaviest {
		p.t.Errorf("the page came as %.0f bytes without pictures, want %d to %d: %s", sum, lightest, heaviest, parts)
	}
	if others := x.outside(base); len(others) > 0 {
		p.t.Errorf("the page asks elsewhere: %q", others)
	}
	return sum
}

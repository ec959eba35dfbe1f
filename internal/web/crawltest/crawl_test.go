package crawltest

import (
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// mostPages bounds a crawl; the pages of the demo kitchen, one for each kind of question, are fewer.
const mostPages = 1500

// crawl is a walk over all links.
type crawl struct {
	t      *testing.T
	k      *kitchen
	routes routes
	seen   map[string]bool   // kinds of questions: the route and what is asked of it
	from   map[string]string // an address, and the page that led there
	queue  []string
	pages  map[string]answer
}

func newCrawl(t *testing.T, k *kitchen) *crawl {
	return &crawl{t: t, k: k, routes: readRoutes(t), seen: map[string]bool{}, from: map[string]string{}, pages: map[string]answer{}}
}

// question is what two addresses share that are the same page about something else.
func (c *crawl) question(address string) string {
	u, err := url.Parse(address)
	if err != nil {
		return address
	}
	return c.routes.of(http.MethodGet, u.EscapedPath()) + "?" + strings.Join(slices.Sorted(maps.Keys(u.Query())), "&")
}

// add queues an address, once for each question.
func (c *crawl) add(address, from string) {
	u, err := url.Parse(address)
	if err != nil || u.Host != "" || u.Scheme != "" || !strings.HasPrefix(u.Path, "/") {
		return
	}
	u.Fragment = ""
	nowhere := c.routes.of(http.MethodGet, u.EscapedPath()) == ""
	q := c.question(address)
	if nowhere {
		q = u.Path
	}
	if c.seen[q] || len(c.seen) >= mostPages {
		return
	}
	c.seen[q] = true
	if nowhere {
		c.t.Errorf("%s leads to %s, which no route answers", from, address)
		return
	}
	c.from[u.String()] = from
	c.queue = append(c.queue, u.String())
}

// run follows every link from some addresses on.
func (c *crawl) run(starts ...string) {
	c.t.Helper()
	for _, s := range starts {
		c.add(s, "the start")
	}
	for len(c.queue) > 0 {
		at := c.queue[0]
		c.queue = c.queue[1:]
		a := c.k.get(c.t, at)
		if a.status >= 400 {
			c.t.Errorf("%s, which stands on %s, answers %d: %.200s", at, c.from[at], a.status, mainWords(a))
			continue
		}
		c.pages[at] = a
		a.each(func(n *html.Node) { c.follow(a, n) })
	}
}

// follow queues where an element leads to.
func (c *crawl) follow(a answer, n *html.Node) {
	for _, name := range []string{"href", "src", "hx-get"} {
		if to, ok := attribute(n, name); ok && n.Data != "base" {
			c.add(a.resolve(to), a.address)
		}
	}
	if to, ok := attribute(n, "srcset"); ok {
		c.add(a.resolve(strings.Fields(to)[0]), a.address)
	}
	if n.Data != "form" {
		return
	}
	method := strings.ToUpper(value(n, "method"))
	if method == "" {
		method = http.MethodGet
	}
	if method == "DIALOG" {
		return // it closes what is open, and is not sent
	}
	action := a.address
	if to, ok := attribute(n, "action"); ok {
		action = a.resolve(to)
	}
	if c.routes.of(method, pathOf(action)) == "" {
		c.t.Errorf("a form of %s is sent by %s to %s, which no route answers", a.address, method, action)
	}
}

func pathOf(address string) string {
	u, err := url.Parse(address)
	if err != nil {
		return address
	}
	return u.EscapedPath()
}

func mainWords(a answer) string {
	text := ""
	a.each(func(n *html.Node) {
		if n.Data == "main" {
			text = words(n)
		}
	})
	return text
}

// deadAnchors are the links of a page to places that the page they lead to does not have.
func (c *crawl) deadAnchors(a answer) []string {
	ids := idsOf(a)
	var dead []string
	a.each(func(n *html.Node) {
		to, ok := attribute(n, "href")
		if !ok || n.Data != "a" || !strings.Contains(to, "#") {
			return
		}
		u, err := url.Parse(a.resolve(to))
		if err != nil || u.Fragment == "" || u.Host != "" {
			return
		}
		fragment := u.Fragment
		u.Fragment, u.RawFragment = "", ""
		have := ids
		if other := u.String(); other != a.address {
			page, ok := c.pages[other]
			if !ok {
				if page = c.k.get(c.t, other); page.status >= 400 {
					return // told by the crawl, when it is not about something else of the same kind
				}
				c.pages[other] = page
			}
			have = idsOf(page)
		}
		if !have[fragment] {
			dead = append(dead, fmt.Sprintf("%s (%s)", to, words(n)))
		}
	})
	return dead
}

func idsOf(a answer) map[string]bool {
	ids := map[string]bool{}
	a.each(func(n *html.Node) {
		if id, ok := attribute(n, "id"); ok {
			ids[id] = true
		}
	})
	return ids
}

// Whoever follows links meets no page that is missing or fails, every form is sent somewhere, and every link to a part of a page finds it.
// Then every form is sent, as nobody should and as somebody in a hurry does. One kitchen and one crawl serve all of it, as that takes longest.
func TestEveryLinkAndForm(t *testing.T) {
	c := newCrawl(t, busyKitchen(t))
	c.run("/")
	t.Logf("%d pages and files, %d forms", len(c.pages), len(c.forms()))
	if len(c.pages) < 200 || len(c.forms()) < 50 {
		t.Errorf("the crawl came to %d pages with %d forms only", len(c.pages), len(c.forms()))
	}
	for _, part := range []struct {
		name string
		run  func(*crawl)
	}{{"links to parts", (*crawl).anchors}, {"twice", (*crawl).twice}, {"hostile", (*crawl).attackAll}} {
		t.Run(part.name, func(t *testing.T) {
			c.t = t
			part.run(c)
		})
	}
}

// anchors fails for links to parts of pages that are not there, once for each.
func (c *crawl) anchors() {
	told := map[string]bool{}
	for _, address := range slices.Sorted(maps.Keys(c.pages)) {
		for _, dead := range c.deadAnchors(c.pages[address]) {
			if !told[dead] {
				told[dead] = true
				c.t.Errorf("%s leads to a part that is not there: %s", address, dead)
			}
		}
	}
}

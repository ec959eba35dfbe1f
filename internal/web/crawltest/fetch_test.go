package crawltest

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// answer is what came back for an address.
type answer struct {
	address string
	status  int
	kind    string // of its content
	to      string // where it sends the browser
	body    string
	doc     *html.Node // nil for what is no page
}

// ask sends a request as Nora does, on whose tablet it is already known that it is she.
func (k *kitchen) ask(t *testing.T, method, address, kind, body string) answer {
	t.Helper()
	address, _, _ = strings.Cut(address, "#")
	r := httptest.NewRequest(method, address, strings.NewReader(body)).WithContext(t.Context())
	r.Host = "localhost:8090"
	r.RemoteAddr = "127.0.0.1:4242"
	r.Header.Set("Accept", "text/html")
	if kind != "" {
		r.Header.Set("Content-Type", kind)
		r.Header.Set("Origin", "http://localhost:8090")
	}
	r.AddCookie(&http.Cookie{Name: "kettlefrost-who", Value: "Nora"})
	w := httptest.NewRecorder()
	k.pages.ServeHTTP(w, r)
	a := answer{address: address, status: w.Code, kind: w.Header().Get("Content-Type"), to: w.Header().Get("Location"), body: w.Body.String()}
	if strings.HasPrefix(a.kind, "text/html") {
		doc, err := html.Parse(strings.NewReader(a.body))
		if err != nil {
			t.Fatal(err)
		}
		a.doc = doc
	}
	return a
}

// get asks for a page, and for the one that it leads to.
func (k *kitchen) get(t *testing.T, address string) answer {
	t.Helper()
	a := k.ask(t, http.MethodGet, address, "", "")
	for range 3 {
		if a.to == "" {
			return a
		}
		a = k.ask(t, http.MethodGet, a.resolve(a.to), "", "")
	}
	t.Errorf("%s leads on and on", address)
	return a
}

// resolve is an address that stands on a page, as one of this server.
func (a answer) resolve(address string) string {
	base, err := url.Parse(a.address)
	if err != nil {
		return address
	}
	u, err := base.Parse(address)
	if err != nil {
		return address
	}
	return u.String()
}

// each calls f for every element of a page.
func (a answer) each(f func(n *html.Node)) {
	if a.doc == nil {
		return
	}
	for n := range a.doc.Descendants() {
		if n.Type == html.ElementNode {
			f(n)
		}
	}
}

// attribute is the value of an attribute, and whether it is there.
func attribute(n *html.Node, name string) (string, bool) {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val, true
		}
	}
	return "", false
}

func value(n *html.Node, name string) string {
	v, _ := attribute(n, name)
	return v
}

// words are the text of an element.
func words(n *html.Node) string {
	var b strings.Builder
	for c := range n.Descendants() {
		if c.Type == html.TextNode {
			b.WriteString(c.Data)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

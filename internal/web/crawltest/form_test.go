package crawltest

import (
	"bytes"
	"fmt"
	"maps"
	"mime/multipart"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// form is a form of a page, as a browser would send it.
type form struct {
	page    string // where it stands
	route   string // what answers it
	action  string
	upload  bool       // it takes files
	values  url.Values // what it sends if nothing is changed
	typed   []string   // the fields that take any text
	choices map[string][]string
}

// key is what two forms share that ask for the same: a page may show one for each lot.
func (f form) key() string {
	return f.route + " " + strings.Join(slices.Sorted(maps.Keys(f.values)), " ")
}

// formsOf are the forms of a page that enter something.
func (c *crawl) formsOf(a answer) []form {
	var forms []form
	a.each(func(n *html.Node) {
		if n.Data != "form" || !strings.EqualFold(value(n, "method"), http.MethodPost) {
			return
		}
		f := form{page: a.address, action: a.address, upload: value(n, "enctype") == "multipart/form-data", values: url.Values{}, choices: map[string][]string{}}
		if to, ok := attribute(n, "action"); ok {
			f.action = a.resolve(to)
		}
		f.route = c.routes.of(http.MethodPost, pathOf(f.action))
		id := value(n, "id")
		pressed := false
		a.each(func(e *html.Node) {
			if owner, named := attribute(e, "form"); named && owner != id || !named && !within(e, n) {
				return
			}
			f.control(e, &pressed)
		})
		forms = append(forms, f)
	})
	return forms
}

func within(e, n *html.Node) bool {
	for p := e.Parent; p != nil; p = p.Parent {
		if p == n {
			return true
		}
	}
	return false
}

// control adds what one control sends. Of several buttons the first is pressed.
func (f *form) control(e *html.Node, pressed *bool) {
	name := value(e, "name")
	if _, off := attribute(e, "disabled"); off {
		return
	}
	_, checked := attribute(e, "checked")
	switch kind := strings.ToLower(value(e, "type")); {
	case e.Data == "textarea":
		f.put(name, words(e), true)
	case e.Data == "select":
		f.choose(e, name)
	case e.Data == "button" && (kind == "" || kind == "submit"), e.Data == "input" && kind == "submit":
		if name != "" && !*pressed {
			f.values.Add(name, value(e, "value"))
		}
		*pressed = true
	case e.Data != "input" || kind == "file" || kind == "button" || kind == "reset":
	case kind == "radio" || kind == "checkbox":
		f.choices[name] = append(f.choices[name], value(e, "value"))
		if checked {
			f.put(name, value(e, "value"), false)
		}
	case kind == "hidden":
		f.put(name, value(e, "value"), false)
	default:
		f.put(name, value(e, "value"), true)
	}
}

func (f *form) put(name, text string, typed bool) {
	if name == "" {
		return
	}
	f.values.Add(name, text)
	if typed && !slices.Contains(f.typed, name) {
		f.typed = append(f.typed, name)
	}
}

func (f *form) choose(e *html.Node, name string) {
	first, chosen := "", ""
	for n := range e.Descendants() {
		if n.Type != html.ElementNode || n.Data != "option" {
			continue
		}
		v, ok := attribute(n, "value")
		if !ok {
			v = words(n)
		}
		f.choices[name] = append(f.choices[name], v)
		if first == "" {
			first = v
		}
		if _, is := attribute(n, "selected"); is {
			chosen = v
		}
	}
	if chosen == "" {
		chosen = first
	}
	f.put(name, chosen, false)
}

// with is what the form sends when some of its fields hold a text.
func (f form) with(text string, fields ...string) url.Values {
	sent := url.Values{}
	for name, values := range f.values {
		sent[name] = slices.Clone(values)
	}
	for _, name := range fields {
		for i := range sent[name] {
			sent[name][i] = text
		}
	}
	return sent
}

// send sends the form with these values.
func (k *kitchen) send(t *testing.T, f form, values url.Values) answer {
	t.Helper()
	if !f.upload {
		return k.ask(t, http.MethodPost, f.action, "application/x-www-form-urlencoded", values.Encode())
	}
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	for _, name := range slices.Sorted(maps.Keys(values)) {
		for _, v := range values[name] {
			if err := w.WriteField(name, v); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return k.ask(t, http.MethodPost, f.action, w.FormDataContentType(), b.String())
}

// again finds the form on its page as it stands now: it has a new number then.
func (c *crawl) again(f form) (form, bool) {
	a := c.k.get(c.t, f.page)
	for _, x := range c.formsOf(a) {
		if x.key() == f.key() {
			return x, true
		}
	}
	return f, false
}

// forms are all forms of the pages that were crawled, one of each kind.
func (c *crawl) forms() []form {
	seen := map[string]bool{}
	var all []form
	for _, address := range slices.Sorted(maps.Keys(c.pages)) {
		for _, f := range c.formsOf(c.pages[address]) {
			if !seen[f.key()] {
				seen[f.key()] = true
				all = append(all, f)
			}
		}
	}
	return all
}

func (f form) String() string { return fmt.Sprintf("the form of %s to %s", f.page, f.route) }

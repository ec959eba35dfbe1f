package crawltest

import (
	"net/http"
	"slices"
	"strings"

	"golang.org/x/net/html"
)

// mark stands in every hostile text, so that it is found again.
const mark = "zq7"

// hostile are texts that somebody types by mistake or on purpose.
var hostile = []struct{ name, text string }{
	{"nothing", ""},
	{"a script", mark + `<script>alert(1)</script>"'><img src=x onerror=alert(1)>` + "`{{.}}"},
	{"other writings", mark + " \u202eתבשיל\u202c \u0627\u0644\u0639\u0631\u0628\u064a\u0629 🍲👩🏽‍🍳"},
	{"a zero byte", mark + "\x00 and bytes \xff\xfe\r\nSet-Cookie: x=y\r\n\r\n- a: [b"},
	{"a hundred thousand letters", mark + strings.Repeat("long ", 20_000)},
	{"a number without end", strings.Repeat("9", 400)},
}

// mostAlone is how many fields of a form are tried one at a time: a form of a dish has dozens alike, and each try plans anew.
const mostAlone = 4

// attackAll types all of it into the fields of every form: the server does not fail, nothing that was typed becomes part of a page, and where it
// is refused it still stands in its field.
func (c *crawl) attackAll() {
	sent := 0
	for _, f := range c.forms() {
		now, there := c.again(f)
		attack := func(what, text string, fields []string) {
			if !there {
				return // what was sent before has taken it away
			}
			sent++
			if c.attack(now, what, text, fields) { // the next is another entry, with a number of its own
				now, there = c.again(f)
			}
		}
		for _, h := range hostile {
			attack(h.name, h.text, now.typed)
			if h.name == "a script" && len(now.typed) > 1 { // and one at a time, the others as they stood: further on there are other checks
				for _, name := range now.typed[:min(len(now.typed), mostAlone)] {
					attack(h.name+" in "+name, h.text, []string{name})
				}
			}
		}
	}
	c.t.Logf("forms were sent %d times", sent)
	for address, a := range c.pages {
		if a.doc == nil || strings.HasPrefix(address, "/run/") {
			continue // plans show what the book says
		}
		if active := activeMarks(c.k.get(c.t, address)); len(active) > 0 { // what was entered is now shown everywhere
			c.t.Errorf("%s has what was typed as part of the page: %q", address, active)
		}
	}
}

// attack sends a form with a text in some fields, and judges the answer: true if it was taken.
func (c *crawl) attack(f form, what, text string, fields []string) bool {
	c.t.Helper()
	a := c.k.send(c.t, f, f.with(text, fields...))
	if a.status >= http.StatusInternalServerError {
		c.t.Errorf("%v, with %s: %d: %.300s", f, what, a.status, a.body)
		return false
	}
	taken := a.to != ""
	if taken {
		a = c.k.get(c.t, a.resolve(a.to))
		if a.status >= http.StatusBadRequest {
			c.t.Errorf("%v, with %s, leads to %s: %d: %.200s", f, what, a.address, a.status, mainWords(a))
		}
	}
	if active := activeMarks(a); len(active) > 0 {
		c.t.Errorf("%v, with %s: what was typed is part of the page: %q", f, what, active)
	}
	if a.status == http.StatusUnprocessableEntity && text != "" && !f.upload { // a file cannot be given back
		c.keeps(f, a, what, text, fields)
	}
	return taken
}

// keeps fails if a form that was refused does not hold what was typed.
func (c *crawl) keeps(f form, a answer, what, text string, fields []string) {
	c.t.Helper()
	holds := map[string][]string{}
	a.each(func(n *html.Node) {
		if name := value(n, "name"); n.Data == "input" {
			holds[name] = append(holds[name], value(n, "value"))
		} else if n.Data == "textarea" {
			holds[name] = append(holds[name], strings.TrimSpace(textOf(n)))
		}
	})
	for _, name := range fields {
		if !slices.ContainsFunc(holds[name], func(held string) bool { return same(held, text) }) {
			c.t.Errorf("%v, with %s: refused, and the field %s holds %.200q: %.200s", f, what, name, holds[name], mainWords(a))
			return
		}
	}
}

func textOf(n *html.Node) string {
	var b strings.Builder
	for c := range n.Descendants() {
		if c.Type == html.TextNode {
			b.WriteString(c.Data)
		}
	}
	return b.String()
}

// longestKept is how much of what is typed into a field of one line is given back: more is nobody's number, name or note.
const longestKept = 120

// same tells whether a field holds what was typed: spaces, large letters and what no page can hold, such as a zero byte, apart.
func same(held, typed string) bool {
	plain := func(text string) string {
		text = strings.ToValidUTF8(strings.NewReplacer("\x00", "", "\ufffd", "", "\r", "").Replace(text), "")
		return strings.Join(strings.Fields(text), " ")
	}
	held, typed = plain(held), plain(typed)
	if len(typed) > longestKept && len(held) >= longestKept-1 { // a space at the end may be lost
		return strings.HasPrefix(typed, held)
	}
	return strings.EqualFold(held, typed)
}

// activeMarks are elements and attributes that came about from what was typed.
func activeMarks(a answer) []string {
	var found []string
	a.each(func(n *html.Node) {
		if n.Data == "script" && strings.Contains(textOf(n), "alert(1)") {
			found = append(found, "script: "+textOf(n))
		}
		for _, x := range n.Attr {
			if strings.HasPrefix(x.Key, "on") {
				found = append(found, n.Data+" "+x.Key)
			}
		}
	})
	return found
}

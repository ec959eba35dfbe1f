package pagetext

import (
	"strings"
)

// text goes through text of a template as a browser would.
func (c *collector) text(s string) {
	w := c.w
	for s != "" {
		switch w.in {
		case content:
			s = c.content(s)
		case comment:
			at := strings.Index(s, "-->")
			if at < 0 {
				c.raw(s)
				return
			}
			c.raw(s[:at+3])
			w.in, s = content, s[at+3:]
		case tag:
			s = c.within(s)
		case attribute:
			n := strings.IndexAny(s, " \t\r\n=/>")
			if n < 0 {
				n = len(s)
			}
			w.named(w.attr + s[:n])
			c.raw(s[:n])
			s = s[n:]
			if s != "" {
				w.in = tag
				if s[0] == '=' {
					c.raw("=")
					w.in, s = before, s[1:]
				}
			}
		case before:
			switch s[0] {
			case '"', '\'':
				w.in, w.quote = value, s[0]
				c.raw(s[:1])
				s = s[1:]
			case ' ', '\t', '\r', '\n':
				c.raw(s[:1])
				s = s[1:]
				continue
			default:
				w.in, w.quote = value, 0
			}
			if w.spoken() && w.quote != 0 {
				c.openValue()
			}
		case value:
			s = c.valued(s)
		}
	}
}

// valued reads in the value of an attribute.
func (c *collector) valued(s string) string {
	w := c.w
	ends := string(w.quote)
	if w.quote == 0 {
		ends = " \t\r\n>"
	}
	n := strings.IndexAny(s, ends)
	over := n >= 0
	if !over {
		n = len(s)
	}
	w.valued(s[:n])
	switch {
	case c.speaks && n > 0:
		c.value = append(c.value, token{sort: text, text: s[:n]})
	case w.element == "html" && w.attr == "lang" && w.Lang != "":
		c.raw(w.Lang)
	default:
		c.raw(s[:n])
	}
	s = s[n:]
	if over {
		c.closeValue()
		w.in = tag
		if w.quote != 0 {
			c.raw(s[:1])
			s = s[1:]
		}
	}
	return s
}

// within reads in a tag, between attributes.
func (c *collector) within(s string) string {
	w := c.w
	switch s[0] {
	case '>':
		c.raw(">")
		c.ended()
		return s[1:]
	case ' ', '\t', '\r', '\n', '/', '"', '\'':
		c.raw(s[:1])
		return s[1:]
	}
	w.in, w.attr = attribute, ""
	return s
}

// ended puts a whole tag among the tokens.
func (c *collector) ended() {
	w := c.w
	quietBefore := len(w.hush) > 0
	w.ended()
	t := *c.tag
	c.tag = nil
	t.name = w.element
	quietAfter := len(w.hush) > 0
	switch {
	case quietBefore || quietAfter: // a part of an element that is not translated, its own tags included
		t.sort = wall
		if inline[w.element] && (quietBefore && !quietAfter || quietAfter && inline[w.hush[0]]) {
			t.sort = opaque
		}
	case !inline[w.element] || w.button:
		t.sort = wall
	case w.closing:
		t.sort = closing
	case voids[w.element]:
		t.sort = opaque
	default:
		t.sort = opening
	}
	c.add(t)
}

// content reads text up to a tag, and the beginning of that tag.
func (c *collector) content(s string) string {
	w := c.w
	at := 0
	for {
		i := strings.IndexByte(s[at:], '<')
		if i < 0 {
			c.plain(s)
			return ""
		}
		at += i
		rest := s[at+1:]
		if w.raw != "" {
			if !strings.HasPrefix(strings.ToLower(rest), "/"+w.raw) {
				at++
				continue
			}
			w.raw = ""
		}
		if rest != "" && (rest[0] == '!' || rest[0] == '/' || rest[0]|0x20 >= 'a' && rest[0]|0x20 <= 'z') {
			break
		}
		at++
	}
	c.plain(s[:at])
	s = s[at:]
	if strings.HasPrefix(s, "<!--") {
		c.tokens = append(c.tokens, token{sort: wall, nodes: nil})
		w.in = comment
		return s
	}
	closes := strings.HasPrefix(s, "</")
	from := 1
	if closes {
		from = 2
	}
	n := strings.IndexAny(s[from:], " \t\r\n/>")
	if n < 0 {
		n = len(s) - from
	}
	w.begun(s[from:from+n], closes)
	c.openTag()
	c.raw(s[:from+n])
	return s[from+n:]
}

// plain is text that people read, unless it lies in what is not translated.
func (c *collector) plain(s string) {
	switch {
	case s == "":
	case len(c.w.hush) > 0:
		c.raw(s)
	default:
		c.tokens = append(c.tokens, token{sort: text, text: s})
	}
}

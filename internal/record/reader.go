package record

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// reader walks over the JSON of one body and knows in which field it stands. encoding/json cannot be used for that: it takes a field twice,
// in any case of letters, and null for anything.
type reader struct {
	kind Kind
	data []byte
	pos  int
	path []segment
}

// segment is one step of a path: a field, or a place in a list counting from 0.
type segment struct {
	field string
	index int
}

func (r *reader) enter(field string, index int) { r.path = append(r.path, segment{field, index}) }
func (r *reader) leave()                        { r.path = r.path[:len(r.path)-1] }

// pathText is a path as in lines[2].count; the body itself is "body".
func pathText(path []segment) string {
	var b strings.Builder
	for i, s := range path {
		switch {
		case s.field == "":
			fmt.Fprintf(&b, "[%d]", s.index)
		case i > 0:
			b.WriteString("." + s.field)
		default:
			b.WriteString(s.field)
		}
	}
	if b.Len() == 0 {
		return "body"
	}
	return b.String()
}

func (r *reader) fail(problem, fix string) error {
	return &FieldError{Kind: r.kind, Path: pathText(r.path), Problem: problem, Fix: fix}
}

// expected fails because the next thing is not what is wanted.
func (r *reader) expected(want string) error {
	r.space()
	switch {
	case r.pos >= len(r.data):
		return r.fail("ends early", "write "+want)
	case strings.HasPrefix(string(r.data[r.pos:min(len(r.data), r.pos+4)]), "null"):
		return r.fail("is null", "leave the field out, or write "+want)
	}
	return r.fail(fmt.Sprintf("has %q where something else is meant (byte %d)", r.data[r.pos], r.pos+1), "write "+want)
}

func (r *reader) space() {
	for r.pos < len(r.data) {
		switch r.data[r.pos] {
		case ' ', '\t', '\r', '\n':
			r.pos++
		default:
			return
		}
	}
}

// accept steps over c, and white space before it, if it is next.
func (r *reader) accept(c byte) bool {
	r.space()
	if r.pos < len(r.data) && r.data[r.pos] == c {
		r.pos++
		return true
	}
	return false
}

// items calls each for every item of an object or a list, whose opening bracket is next.
func (r *reader) items(open, shut byte, want string, each func(i int) error) error {
	if !r.accept(open) {
		return r.expected(want)
	}
	if r.accept(shut) {
		return nil
	}
	for i := 0; ; i++ {
		if err := each(i); err != nil {
			return err
		}
		if r.accept(shut) {
			return nil
		}
		if !r.accept(',') {
			return r.expected(fmt.Sprintf("a comma or %c", shut))
		}
	}
}

// text reads a JSON string.
func (r *reader) text(want string) (string, error) {
	if !r.accept('"') {
		return "", r.expected(want)
	}
	start, plain := r.pos, true
	for ; r.pos < len(r.data); r.pos++ {
		switch c := r.data[r.pos]; {
		case c == '\\':
			plain = false
			r.pos++
		case c == '"':
			raw := r.data[start-1 : r.pos+1]
			r.pos++
			return r.unquote(raw, plain)
		case c < ' ':
			return "", r.fail(fmt.Sprintf("has the character %#02x in a text", c), `write a line break as \n`)
		}
	}
	return "", r.fail("ends early", "write a quotation mark at the end of the text")
}

func (r *reader) unquote(raw []byte, plain bool) (string, error) {
	const fix = "write the text in UTF-8"
	if !utf8.Valid(raw) {
		return "", r.fail("is not UTF-8", fix)
	}
	if plain {
		return string(raw[1 : len(raw)-1]), nil
	}
	var s string
	if err := json.Unmarshal(raw, &s); err != nil {
		return "", r.fail("has a backslash that means nothing in JSON", `write \\ for a backslash`)
	}
	// Half of a surrogate pair comes out as the replacement character; one that is written as itself is a character like any other.
	const replacement = string(utf8.RuneError)
	if strings.Count(s, replacement) != strings.Count(string(raw), replacement) {
		return "", r.fail("has a character that is none", fix)
	}
	return s, nil
}

// integer reads a whole number.
func (r *reader) integer() (int64, error) {
	const want = "a whole number"
	r.space()
	start := r.pos
	for r.pos < len(r.data) && strings.IndexByte("+-.0123456789eE", r.data[r.pos]) >= 0 {
		r.pos++
	}
	number := string(r.data[start:r.pos])
	if number == "" {
		return 0, r.expected(want)
	}
	v, err := strconv.ParseInt(number, 10, 64)
	if err != nil || strconv.FormatInt(v, 10) != number {
		return 0, r.fail(fmt.Sprintf("is %.40s", number), "write "+want+" in plain digits")
	}
	return v, nil
}

// word steps over true or false if it is next.
func (r *reader) word(w string) bool {
	r.space()
	if strings.HasPrefix(string(r.data[r.pos:min(len(r.data), r.pos+len(w))]), w) {
		r.pos += len(w)
		return true
	}
	return false
}

// end says what stands behind the body.
func (r *reader) end() error {
	r.space()
	if r.pos < len(r.data) {
		return r.fail(fmt.Sprintf("is followed by %.40q", r.data[r.pos:]), "write one body and nothing behind it")
	}
	return nil
}

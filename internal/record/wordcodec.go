package record

import (
	"encoding"
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Day is a date: 2026-12-01.
type Day string

// Text is what somebody writes or a file holds: it may have several lines.
type Text string

// maxText is how many bytes a Text may have.
const maxText = 1 << 20

// choice is a word of a short list.
type choice interface{ choices() []string }

// wordCodec is a name on one line.
type wordCodec struct{}

func (wordCodec) write(dst []byte, v reflect.Value) []byte { return appendText(dst, v.String()) }

func (wordCodec) read(r *reader, v reflect.Value) error {
	s, err := r.text("a text in quotation marks")
	v.SetString(s)
	return err
}

func (wordCodec) check(c *checker, v reflect.Value) {
	s := v.String()
	if of, ok := v.Interface().(choice); ok {
		c.oneOf(s, of.choices())
		return
	}
	switch problem := badWord(s); {
	case s == "":
		c.wrong("is empty", "write it")
	case problem != "":
		c.wrong(problem, "write a short text on one line")
	case strings.TrimSpace(s) != s:
		c.wrong("begins or ends with a space", "leave the space out")
	}
}

// longCodec is a Text.
type longCodec struct{ wordCodec }

func (longCodec) check(c *checker, v reflect.Value) {
	s := v.String()
	control := func(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\r' && r != '\t' }
	switch {
	case strings.TrimSpace(s) == "":
		c.wrong("is empty", "write it")
	case len(s) > maxText:
		c.wrong(fmt.Sprintf("has %d bytes, more than %d", len(s), maxText), "write it in pieces")
	case !utf8.ValidString(s):
		c.wrong("is not UTF-8", "write the text in UTF-8")
	case strings.ContainsFunc(s, control):
		c.wrong("has a control character", "leave it out")
	}
}

// dayCodec is a Day.
type dayCodec struct{ wordCodec }

func (dayCodec) check(c *checker, v reflect.Value) {
	if !isDay(v.String()) {
		c.wrong(fmt.Sprintf("is %.20q, which is no date from 2000 to 2199", v.String()), "write year, month and day as in 2026-12-01")
	}
}

// isDay says whether s is a date of the Gregorian calendar as in 2026-12-01, from 2000 to 2199.
func isDay(s string) bool {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' || strings.Trim(s[:4]+s[5:7]+s[8:], "0123456789") != "" {
		return false
	}
	year, _ := strconv.Atoi(s[:4])
	month, _ := strconv.Atoi(s[5:7])
	day, _ := strconv.Atoi(s[8:])
	if year < 2000 || year > 2199 || month < 1 || month > 12 {
		return false
	}
	days := [...]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}[month-1]
	if month == 2 && year%4 == 0 && (year%100 != 0 || year%400 == 0) {
		days = 29
	}
	return day >= 1 && day <= days
}

// textCodec is a type that writes and reads itself as a text.
type textCodec[T encoding.TextMarshaler, P interface {
	*T
	encoding.TextUnmarshaler
}] struct{}

func (textCodec[T, P]) write(dst []byte, v reflect.Value) []byte {
	text, err := v.Interface().(T).MarshalText()
	if err != nil { // none of them can fail
		panic(err)
	}
	return appendText(dst, string(text))
}

func (textCodec[T, P]) read(r *reader, v reflect.Value) error {
	s, err := r.text("a text in quotation marks")
	if err != nil {
		return err
	}
	if err := P(v.Addr().Interface().(*T)).UnmarshalText([]byte(s)); err != nil {
		return r.fail(err.Error(), "put it right")
	}
	return nil
}

func (textCodec[T, P]) check(c *checker, v reflect.Value) {
	if empty(v) {
		c.wrong("is empty", "write it")
	}
}

package web

import (
	"net/http"
	"slices"
	"strings"
)

// lookCookie keeps how pages look on a device, as words with points between them, such as dark.high.larger.
const lookCookie = "look"

// Words of how pages look. What no word says is as the device itself is set.
const (
	lightLook   = "light"
	darkLook    = "dark"
	highLook    = "high" // contrast
	largerLook  = "larger"
	largestLook = "largest"
)

// deviceLook is how pages look on a device. The zero value is as the device is set, with type of the usual size.
type deviceLook struct {
	Scheme string // light, dark or nothing
	High   bool   // contrast
	Type   string // larger, largest or nothing
}

// lookOf is how pages look on the device that asks. Words that are none are passed over: a cookie can say anything.
func lookOf(r *http.Request) deviceLook {
	var l deviceLook
	kept := cookie(r, lookCookie)
	if r.URL.Path == componentsPath && r.URL.Query().Has(lookCookie) {
		kept = r.URL.Query().Get(lookCookie) // that page shows every look
	}
	for word := range strings.SplitSeq(kept, ".") {
		l.add(word)
	}
	return l
}

func (l *deviceLook) add(word string) {
	switch word {
	case lightLook, darkLook:
		l.Scheme = word
	case highLook:
		l.High = true
	case largerLook, largestLook:
		l.Type = word
	}
}

// String is the look in the words of its cookie.
func (l deviceLook) String() string {
	words := []string{l.Scheme, "", l.Type}
	if l.High {
		words[1] = highLook
	}
	return strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), ".")
}

// colours are the colour schemes that a page is made for, as browsers are told.
func (l deviceLook) colours() string {
	if l.Scheme == "" {
		return "light dark"
	}
	return l.Scheme
}

// Conditions of style sheets and pictures that a device may have decided, and what stands in their place then.
const (
	whenDark = "(prefers-color-scheme: dark)"
	whenHigh = "(prefers-contrast: more)"
	always   = "(min-width: 0)"
	never    = "(max-width: 0)"
)

// decide is a style sheet or a page with what the device decided in place of the conditions.
func (l deviceLook) decide(text string) string {
	switch l.Scheme {
	case darkLook:
		text = strings.ReplaceAll(text, whenDark, always)
	case lightLook:
		text = strings.ReplaceAll(text, whenDark, never)
	}
	if l.High {
		text = strings.ReplaceAll(text, whenHigh, always)
	}
	return text
}

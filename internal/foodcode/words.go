package foodcode

import (
	"fmt"
	"strings"
)

// Words is the limit as the kitchen holds it; where it differs, what is published stands beside it.
func (h Held) Words() string {
	if h.Was == nil {
		return h.Limit
	}
	return h.figures() + " (published: " + h.Was.Limit + ")"
}

// Figures is the limit as the kitchen holds it, alone.
func (h Held) Figures() string {
	if h.Was == nil {
		return h.Limit
	}
	return h.figures()
}

// figures are a rule's own, in words.
func (r Rule) figures() string {
	var words []string
	if r.TempF != nil {
		side := " or colder"
		if r.Sense == AtLeast {
			side = ""
		}
		words = append(words, fmt.Sprintf("%g °F%s", *r.TempF, side))
	}
	if r.Seconds != nil {
		words = append(words, r.during(*r.Seconds))
	}
	if r.Days > 0 {
		words = append(words, fmt.Sprintf("%d days", r.Days))
	}
	return strings.Join(words, " ")
}

func (r Rule) during(seconds float64) string {
	switch {
	case r.Sense == AtMost:
		return "within " + Time(seconds)
	case seconds == 0:
		return "at once"
	}
	return "for " + Time(seconds)
}

// Time is a time in the words of the rules: 15 s, 2 min, 1 h 30 min.
func Time(seconds float64) string {
	var words []string
	for _, u := range []struct {
		s    float64
		name string
	}{{3600, "h"}, {60, "min"}} {
		if n := int64(seconds / u.s); n > 0 && (seconds >= 120 || u.name == "h") {
			words = append(words, fmt.Sprintf("%d %s", n, u.name))
			seconds -= float64(n) * u.s
		}
	}
	if seconds > 0 || len(words) == 0 {
		words = append(words, fmt.Sprintf("%g s", seconds))
	}
	return strings.Join(words, " ")
}

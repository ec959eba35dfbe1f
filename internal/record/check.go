package record

import (
	"fmt"
	"slices"
	"strings"
)

// FieldErrors is everything in a body that makes no sense, in the order of its fields.
type FieldErrors []*FieldError

func (e FieldErrors) Error() string {
	texts := make([]string, len(e))
	for i, f := range e {
		texts[i] = f.Error()
	}
	return strings.Join(texts, "; ")
}

// Unwrap gives errors.As the single errors.
func (e FieldErrors) Unwrap() []error {
	errs := make([]error, len(e))
	for i, f := range e {
		errs[i] = f
	}
	return errs
}

// checker collects what makes no sense, and knows in which field it stands.
type checker struct {
	kind  Kind
	path  []segment
	found FieldErrors
}

func (c *checker) enter(field string, index int) { c.path = append(c.path, segment{field, index}) }
func (c *checker) leave()                        { c.path = c.path[:len(c.path)-1] }

func (c *checker) wrong(problem, fix string) {
	c.found = append(c.found, &FieldError{Kind: c.kind, Path: pathText(c.path), Problem: problem, Fix: fix})
}

// at is wrong of one field here.
func (c *checker) at(field, problem, fix string) {
	c.enter(field, 0)
	c.wrong(problem, fix)
	c.leave()
}

func (c *checker) oneOf(s string, choices []string) {
	if !slices.Contains(choices, s) {
		c.wrong(fmt.Sprintf("is %.40q", s), "write one of: "+strings.Join(choices, ", "))
	}
}

// given is a field that may be there or not.
type given struct {
	name  string
	there bool
}

// exactlyOne and its kin say how many of some optional fields must be there. The first is named when it is not so.
func (c *checker) exactlyOne(fields ...given) { c.howMany(1, 1, fields) }
func (c *checker) atMostOne(fields ...given)  { c.howMany(0, 1, fields) }
func (c *checker) atLeastOne(fields ...given) { c.howMany(1, len(fields), fields) }

func (c *checker) howMany(low, high int, fields []given) {
	var names []string
	n := 0
	for _, f := range fields {
		names = append(names, f.name)
		if f.there {
			n++
		}
	}
	switch {
	case n < low:
		c.at(names[0], "is missing", "write one of: "+strings.Join(names, ", "))
	case n > high:
		c.at(names[0], "does not go together with the others", "write only one of: "+strings.Join(names, ", "))
	}
}

// needs says that one field makes no sense without another.
func (c *checker) needs(field, other given) {
	if field.there && !other.there {
		c.at(other.name, "is missing", "write it, or leave "+field.name+" out")
	}
}

package heatcase

import (
	"encoding"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/spelling"
	"kettlefrost/internal/unit"
)

// Field is one thing that a case says, as text. Its Key is a flag of the command line, a key of a file and a name in a form.
type Field struct {
	Key     string
	Help    string
	Example string
	Choices []string // the words that may stand there; nil when any may
	Group   string   // of the fields of one group only one is given: "shape"
	Yes     bool     // a yes or no
	set     func(*Case, string) error
	get     func(Case) string
}

// Fields is all of them, in the order in which a person would tell them.
func Fields() []Field { return slices.Clone(fields) }

// Set gives a case a value as text. What it says of a wrong one is to be read behind the key.
func (c *Case) Set(key, text string) error {
	f, ok := fieldOf(key)
	if !ok {
		return fmt.Errorf("there is no such key; %s", nearKey(key))
	}
	return f.set(c, strings.TrimSpace(text))
}

// Text is the value of a key as Set would read it again; empty when it is not given.
func (c Case) Text(key string) string {
	if f, ok := fieldOf(key); ok {
		return f.get(c)
	}
	return ""
}

// Given is every key that has a value, with its text.
func (c Case) Given() map[string]string {
	given := map[string]string{}
	for _, f := range fields {
		if text := f.get(c); text != "" {
			given[f.Key] = text
		}
	}
	return given
}

func fieldOf(key string) (Field, bool) {
	i := slices.IndexFunc(fields, func(f Field) bool { return f.Key == key })
	if i < 0 {
		return Field{}, false
	}
	return fields[i], true
}

func keys() []string {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.Key
	}
	return names
}

func nearKey(key string) string {
	if near := spelling.Nearest(key, keys()); near != "" {
		return "did you mean " + near + "?"
	}
	return "one of these can stand here: " + strings.Join(keys(), ", ")
}

// quantity is a type of package unit.
type quantity[T any] interface {
	*T
	encoding.TextUnmarshaler
	fmt.Stringer
}

// amount is a field that holds a quantity; its zero value is not given.
func amount[T comparable, P quantity[T]](of func(*Case) *T) (func(*Case, string) error, func(Case) string) {
	set := func(c *Case, text string) error {
		var v T
		if err := P(&v).UnmarshalText([]byte(text)); err != nil {
			return err
		}
		*of(c) = v
		return nil
	}
	get := func(c Case) string {
		var zero T
		if v := of(&c); *v != zero {
			return P(v).String()
		}
		return ""
	}
	return set, get
}

// maybe is a field that holds a quantity or nothing.
func maybe[T any, P quantity[T]](of func(*Case) **T) (func(*Case, string) error, func(Case) string) {
	set := func(c *Case, text string) error {
		v := new(T)
		if err := P(v).UnmarshalText([]byte(text)); err != nil {
			return err
		}
		*of(c) = v
		return nil
	}
	get := func(c Case) string {
		if v := *of(&c); v != nil {
			return P(v).String()
		}
		return ""
	}
	return set, get
}

// share is a percentage, with or without its sign: 86 and 86 % are the same.
func share(of func(*Case) *unit.Share) (func(*Case, string) error, func(Case) string) {
	set, get := amount(of)
	return func(c *Case, text string) error {
		if !strings.HasSuffix(text, "%") {
			text += " %"
		}
		return set(c, text)
	}, get
}

// word is a field that holds one of some words, or any.
func word[T ~string](of func(*Case) *T, choices []string) (func(*Case, string) error, func(Case) string) {
	set := func(c *Case, text string) error {
		if choices != nil && !slices.Contains(choices, text) {
			if near := spelling.Nearest(text, choices); near != "" {
				return fmt.Errorf("%s is not known; did you mean %s?", quoted(text), near)
			}
			return fmt.Errorf("%s is not known; it can be %s", quoted(text), strings.Join(choices, ", "))
		}
		*of(c) = T(text)
		return nil
	}
	return set, func(c Case) string { return string(*of(&c)) }
}

// yes is a field that is true or false.
func yes(of func(*Case) *bool) (func(*Case, string) error, func(Case) string) {
	set := func(c *Case, text string) error {
		switch text {
		case "true", "yes":
			*of(c) = true
		case "false", "no":
			*of(c) = false
		default:
			return fmt.Errorf("%s is neither yes nor no", quoted(text))
		}
		return nil
	}
	get := func(c Case) string {
		if *of(&c) {
			return "yes"
		}
		return ""
	}
	return set, get
}

// sizes is a field that gives a shape its kind and its sizes, as many as of returns: 22 in x 24 in.
func sizes(k Kind, of func(*Shape) []*unit.Length) (func(*Case, string) error, func(Case) string) {
	set := func(c *Case, text string) error {
		shape := Shape{Kind: k, Stack: c.Shape.Stack, Touching: c.Shape.Touching}
		to := of(&shape)
		parts := strings.FieldsFunc(text, func(r rune) bool { return r == 'x' || r == '×' })
		if len(parts) != len(to) {
			return fmt.Errorf("%s has %d sizes, want %d, each with its unit and an x between two", quoted(text), len(parts), len(to))
		}
		for i, p := range parts {
			v, err := unit.ParseLength(strings.TrimSpace(p))
			if err != nil {
				return err
			}
			*to[i] = v
		}
		c.Shape = shape
		return nil
	}
	get := func(c Case) string {
		if c.Shape.Kind != k {
			return ""
		}
		var parts []string
		for _, v := range of(&c.Shape) {
			parts = append(parts, v.String())
		}
		return strings.Join(parts, " x ")
	}
	return set, get
}

// stack is a number of bags.
func stack() (func(*Case, string) error, func(Case) string) {
	set := func(c *Case, text string) error {
		n, err := strconv.Atoi(text)
		if err != nil {
			return fmt.Errorf("%s is not a whole number, such as 4", quoted(text))
		}
		c.Shape.Stack = n
		return nil
	}
	get := func(c Case) string {
		if c.Shape.Stack == 0 {
			return ""
		}
		return strconv.Itoa(c.Shape.Stack)
	}
	return set, get
}

func quoted(text string) string {
	if r := []rune(text); len(r) > 60 {
		text = string(r[:57]) + "..."
	}
	return strconv.Quote(text)
}

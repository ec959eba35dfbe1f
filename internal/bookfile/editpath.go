package bookfile

import (
	"encoding"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/spelling"
)

// part is one step of a path as it is written.
type part struct {
	text   string
	quoted bool // a name, whatever it looks like
}

// splitPath takes a path apart; ok is false when a bracket or quote is not closed.
func splitPath(path string) (parts []part, ok bool) {
	if !strings.ContainsAny(path, ".[") {
		path = strings.ReplaceAll(path, "/", ".")
	}
	for path != "" {
		switch {
		case strings.HasPrefix(path, `["`):
			quoted, err := strconv.QuotedPrefix(path[1:])
			if err != nil {
				return nil, false
			}
			rest := path[1+len(quoted):]
			name, err := strconv.Unquote(quoted)
			if err != nil || !strings.HasPrefix(rest, "]") {
				return nil, false
			}
			parts, path = append(parts, part{name, true}), rest[1:]
		case path[0] == '[':
			name, rest, closed := strings.Cut(path[1:], "]")
			if !closed {
				return nil, false
			}
			parts, path = append(parts, part{text: name}), rest
		default:
			end := strings.IndexAny(path, ".[")
			switch {
			case end == 0: // a point with nothing before it
				return nil, false
			case end < 0:
				end = len(path)
			}
			parts, path = append(parts, part{text: path[:end]}), path[end:]
		}
		if strings.HasPrefix(path, ".") {
			if path = path[1:]; path == "" {
				return nil, false
			}
		}
	}
	return parts, len(parts) > 0
}

// step is one step of a path in the book: the key of a group or a table, or the place in a list.
type step struct {
	key string
	i   int // when key does not count
	in  shape
}

// target is what a path leads to.
type target struct {
	steps []step
	kind  reflect.Type
	f     field // what is known of it
	value reflect.Value
	there bool // it has a value; for a key of a group always
}

// find follows a path through the book. What is not there ends the way only where it is a list's entry: the rest may be put there.
func (e *editor) find(path string) (target, error) {
	parts, ok := splitPath(path)
	if !ok {
		return target{}, e.fail("this path cannot be read", "write it like dishes.dal.steps[simmer].time")
	}
	book := reflect.ValueOf(&e.book).Elem()
	t := target{kind: book.Type(), value: book, there: true}
	for _, p := range parts {
		if err := e.into(&t, p); err != nil {
			return t, err
		}
	}
	return t, nil
}

// into goes one step further.
func (e *editor) into(t *target, p part) error {
	t.kind = pointee(t.kind)
	if t.value.Kind() == reflect.Pointer {
		t.there = t.there && !t.value.IsNil()
		if t.there {
			t.value = t.value.Elem()
		} else {
			t.value = reflect.Zero(t.kind)
		}
	}
	switch s := shapeOf(t.kind); s {
	case group:
		fields := fieldsOf(t.kind)
		f, known := find(fields, p.text)
		if !known {
			return e.noKey(p.text, keys(fields))
		}
		t.steps = append(t.steps, step{key: p.text, in: s})
		t.kind, t.f, t.value = f.kind, f, t.value.Field(f.index)
	case table:
		key := reflect.ValueOf(p.text).Convert(t.kind.Key())
		t.kind, t.f = t.kind.Elem(), field{key: p.text}
		one := t.value.MapIndex(key)
		t.there = one.IsValid()
		if !t.there {
			one = reflect.Zero(t.kind)
		}
		t.steps, t.value = append(t.steps, step{key: p.text, in: s}), one
	case list:
		i, err := e.entry(t.value, p, t.f.key)
		if err != nil {
			return err
		}
		t.steps = append(t.steps, step{i: i, in: s})
		t.kind, t.f, t.value = t.kind.Elem(), field{key: t.f.key, choices: t.f.choices}, t.value.Index(i)
	default:
		return e.fail(fmt.Sprintf("%s is a single value: there is no %s in it", t.f.key, p.text), "end the path before it")
	}
	return nil
}

func (e *editor) noKey(name string, known []string) error {
	fix := "one of these can stand there: " + strings.Join(known, ", ")
	if near := spelling.Nearest(name, known); near != "" {
		fix = fmt.Sprintf("did you mean %s?", near)
	}
	return e.fail(fmt.Sprintf("there is no key %s", name), fix)
}

// entry is the place of a list's entry by its number or its name.
func (e *editor) entry(v reflect.Value, p part, what string) (int, error) {
	names := make([]string, v.Len())
	for i := range names {
		names[i] = nameOf(v.Index(i))
	}
	if i, err := strconv.Atoi(p.text); err == nil && !p.quoted {
		if i < 0 || i >= len(names) {
			return 0, e.fail(fmt.Sprintf("%s has %d entries, counted from 0: there is no %d", what, len(names), i), "give one that is there")
		}
		return i, nil
	}
	i := slices.Index(names, p.text)
	if i < 0 {
		fix := "it has none"
		if len(names) > 0 {
			fix = "it has " + strings.Join(names, ", ")
		}
		if near := spelling.Nearest(p.text, names); near != "" {
			fix = fmt.Sprintf("did you mean %s?", near)
		}
		return 0, e.fail(fmt.Sprintf("%s has no %s", what, p.text), fix)
	}
	if next := slices.Index(names[i+1:], p.text); next >= 0 {
		return 0, e.fail(fmt.Sprintf("%s has more than one %s", what, p.text), fmt.Sprintf("say which by its number, %s[%d] or %s[%d]", what, i, what, i+1+next))
	}
	return i, nil
}

// nameOf is what a list's entry is called: its id, or else the first of its single values that is given.
func nameOf(v reflect.Value) string {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return ""
		}
		v = v.Elem()
	}
	switch s := shapeOf(v.Type()); {
	case s == group:
		fields := fieldsOf(v.Type())
		if id, has := find(fields, "id"); has {
			return v.Field(id.index).String()
		}
		for _, f := range fields {
			if one := v.Field(f.index); shapeOf(f.kind).single() && shapeOf(f.kind) != answer && !blank(one) {
				return nameOf(one)
			}
		}
		return ""
	case s == quantity:
		text, err := v.Interface().(encoding.TextMarshaler).MarshalText()
		if err != nil {
			return ""
		}
		return string(text)
	case s == word:
		return v.String()
	default:
		return fmt.Sprint(v.Interface())
	}
}

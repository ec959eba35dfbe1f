package bookfile

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"

	"go.yaml.in/yaml/v4"
)

// wanted is the value of a change, read as the book would read it.
type wanted struct {
	value reflect.Value
	raw   string // as the cook wrote a single value; kept in the file
	given bool   // raw counts
}

// want reads the value of a change for what stands at its path.
func (e *editor) want(t target) (wanted, error) {
	kind := pointee(t.kind)
	s := shapeOf(kind)
	n, raw, given, err := e.node(kind, s)
	if err != nil {
		return wanted{}, err
	}
	d := newDecoder()
	v := reflect.New(t.kind).Elem()
	f := t.f
	if f.key == "" {
		f.key = "the value"
	}
	d.decode(n, n, v, place{path: e.now.Path}, f)
	if found := d.list(); len(found) > 0 {
		err := e.fail(found[0].Message, found[0].Fix)
		err.Found = found
		return wanted{}, err
	}
	return wanted{v, raw, given}, nil
}

// node is the value of a change as a tree.
func (e *editor) node(kind reflect.Type, s shape) (n *yaml.Node, raw string, given bool, err error) {
	if e.now.Value == nil {
		return nil, "", false, e.fail("there is no value to put there", "give one, or delete what is there")
	}
	text, isText := e.now.Value.(string)
	if !isText {
		v := reflect.ValueOf(e.now.Value)
		if v.Kind() == reflect.Pointer && !v.IsNil() {
			v = v.Elem()
		}
		if v.Type() == kind {
			n, err := encode(v, true)
			if err != nil {
				return nil, "", false, e.fail("cannot be written: "+err.Error(), "")
			}
			return n, "", false, nil
		}
		written, err := json.Marshal(e.now.Value) // JSON is YAML
		if err != nil {
			return nil, "", false, e.fail("cannot be written: "+err.Error(), "")
		}
		text = string(written)
	}
	words := s == answer || s == list && shapeOf(kind.Elem()) == word
	switch {
	case s.single() && s != answer:
		if s != word {
			text = strings.TrimSpace(text)
		}
		return textNode(text), text, true, nil
	case words && !strings.HasPrefix(strings.TrimSpace(text), "["):
		n := &yaml.Node{Kind: yaml.SequenceNode}
		for w := range strings.SplitSeq(text, ",") {
			n.Content = append(n.Content, textNode(strings.TrimSpace(w)))
		}
		return n, "", false, nil
	}
	d := newDecoder()
	n, ok := d.parse("the value", []byte(text))
	if !ok || n == nil {
		err := e.fail(fmt.Sprintf("this is not how %s is written", kind.Name()), "write it as in the book, such as {key: value, key: value}")
		err.Found = d.list()
		return nil, "", false, err
	}
	return n, "", false, nil
}

// at is the value of the book where some steps lead.
func at(v reflect.Value, steps []step) reflect.Value {
	for _, s := range steps {
		if v.Kind() == reflect.Pointer {
			v = v.Elem()
		}
		switch s.in {
		case group:
			f, _ := find(fieldsOf(v.Type()), s.key)
			v = v.Field(f.index)
		case table:
			v = v.MapIndex(reflect.ValueOf(s.key).Convert(v.Type().Key()))
		case list:
			v = v.Index(s.i)
		}
	}
	return v
}

// update changes the value where some steps lead, and copies what it goes through: what the value was before stays as it is.
func update(v reflect.Value, steps []step, change func(reflect.Value)) {
	if len(steps) == 0 {
		change(v)
		return
	}
	if v.Kind() == reflect.Pointer {
		one := reflect.New(v.Type().Elem())
		if !v.IsNil() {
			one.Elem().Set(v.Elem())
		}
		v.Set(one)
		v = one.Elem()
	}
	switch s := steps[0]; s.in {
	case group:
		f, _ := find(fieldsOf(v.Type()), s.key)
		update(v.Field(f.index), steps[1:], change)
	case table:
		key := reflect.ValueOf(s.key).Convert(v.Type().Key())
		one := reflect.New(v.Type().Elem()).Elem()
		if was := v.MapIndex(key); was.IsValid() {
			one.Set(was)
		}
		update(one, steps[1:], change)
		all := copyOfMap(v)
		all.SetMapIndex(key, one)
		v.Set(all)
	case list:
		all := copyOfList(v)
		update(all.Index(s.i), steps[1:], change)
		v.Set(all)
	}
}

func copyOfMap(v reflect.Value) reflect.Value {
	all := reflect.MakeMap(v.Type())
	for entries := v.MapRange(); entries.Next(); {
		all.SetMapIndex(entries.Key(), entries.Value())
	}
	return all
}

func copyOfList(v reflect.Value) reflect.Value {
	all := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
	reflect.Copy(all, v)
	return all
}

// without takes out of a value what its last step names; an empty list or table is none.
func without(v reflect.Value, s step) {
	switch s.in {
	case group:
		f, _ := find(fieldsOf(v.Type()), s.key)
		v.Field(f.index).SetZero()
	case table:
		all := copyOfMap(v)
		all.SetMapIndex(reflect.ValueOf(s.key).Convert(v.Type().Key()), reflect.Value{})
		v.Set(all)
	case list:
		all := copyOfList(v)
		v.Set(reflect.AppendSlice(all.Slice(0, s.i), v.Slice(s.i+1, v.Len())))
	}
	if s.in != group && v.Len() == 0 {
		v.SetZero()
	}
}

// put adds a value to a list at a place.
func put(v reflect.Value, i int, one reflect.Value) {
	all := reflect.MakeSlice(v.Type(), 0, v.Len()+1)
	all = reflect.AppendSlice(all, v.Slice(0, i))
	all = reflect.Append(all, one)
	v.Set(reflect.AppendSlice(all, v.Slice(i, v.Len())))
}

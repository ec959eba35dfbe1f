package bookfile

import (
	"encoding"
	"reflect"
	"strings"

	"kettlefrost/internal/kitchen"
)

// shape is how a type stands in a file.
type shape int

const (
	group    shape = iota + 1 // a struct: keys that are known
	table                     // a map: entries that the kitchen names
	list                      // a slice
	answer                    // kitchen.Allergens: a list of words, or the word none
	quantity                  // text that the type reads itself
	word                      // text
	whole                     // a whole number
	decimal                   // a number
	yesNo                     // true or false
)

var (
	textType      = reflect.TypeFor[encoding.TextUnmarshaler]()
	allergensType = reflect.TypeFor[kitchen.Allergens]()
)

// shapeOf says how a type stands in a file; 0 for types that no book has. Pointers are looked through.
func shapeOf(t reflect.Type) shape {
	switch t = pointee(t); {
	case t == allergensType:
		return answer
	case reflect.PointerTo(t).Implements(textType):
		return quantity
	}
	switch t.Kind() {
	case reflect.Struct:
		return group
	case reflect.Map:
		return table
	case reflect.Slice:
		return list
	case reflect.String:
		return word
	case reflect.Int:
		return whole
	case reflect.Float64:
		return decimal
	case reflect.Bool:
		return yesNo
	default:
		return 0
	}
}

func pointee(t reflect.Type) reflect.Type {
	if t.Kind() == reflect.Pointer {
		return t.Elem()
	}
	return t
}

// single says that a shape is one value on one line.
func (s shape) single() bool { return s >= quantity }

// field is one key of a group.
type field struct {
	key      string
	index    int
	kind     reflect.Type
	required bool
	desc     string
	choices  []string // the words that may stand there; nil when any may
}

// fieldsOf lists the keys of a struct in its own order, from its tags.
func fieldsOf(t reflect.Type) []field {
	fields := make([]field, 0, t.NumField())
	for i := range t.NumField() {
		f := t.Field(i)
		key, options, _ := strings.Cut(f.Tag.Get("yaml"), ",")
		if key == "" || key == "-" {
			continue
		}
		one := field{key: key, index: i, kind: f.Type, required: options != "omitempty", desc: f.Tag.Get("desc")}
		if choices := f.Tag.Get("enum"); choices != "" {
			one.choices = strings.Split(choices, ",")
		}
		fields = append(fields, one)
	}
	return fields
}

// keys lists the keys of a group.
func keys(fields []field) []string {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.key
	}
	return names
}

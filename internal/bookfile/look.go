package bookfile

import (
	"reflect"

	"kettlefrost/internal/kitchen"
)

// Key is one key of a group of the book, as its type describes it.
type Key struct {
	Name     string
	Index    int // of the field
	Type     reflect.Type
	Required bool
	Desc     string
	Choices  []string // the words that may stand there; nil when any may
}

// Keys are the keys of a group in the order of the nouns; t is a struct of package kitchen.
func Keys(t reflect.Type) []Key {
	var all []Key
	for _, f := range fieldsOf(t) {
		all = append(all, f.public())
	}
	return all
}

func (f field) public() Key {
	return Key{Name: f.key, Index: f.index, Type: f.kind, Required: f.required, Desc: f.desc, Choices: f.choices}
}

// Standing is what a path of the book leads to.
type Standing struct {
	Path  string // as findings have it, entries of lists by their numbers
	Key   Key    // what is known of it; its type is that of the value
	Value reflect.Value
	There bool // false for an entry that the book has not; its value is then nothing
}

// Look follows a path, written as in a Change. What a table has not is not there; everything else that cannot be followed is an *EditError.
func Look(book kitchen.Book, path string) (Standing, error) {
	e := &editor{book: book, now: Change{Path: path}}
	t, err := e.find(path)
	if err != nil {
		return Standing{}, err
	}
	s := Standing{Key: t.f.public(), Value: t.value, There: t.there}
	s.Key.Type = t.kind
	for _, x := range t.steps {
		if x.in == list {
			s.Path = kitchen.PathAt(s.Path, x.i)
		} else {
			s.Path = kitchen.PathTo(s.Path, x.key)
		}
	}
	return s, nil
}

// Blank says that a value need not be written where it may be left out.
func Blank(v reflect.Value) bool { return blank(v) }

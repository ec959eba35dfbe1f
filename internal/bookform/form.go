// Package bookform makes forms of what stands in a kitchen's book, and reads them back: from the types of package kitchen, their keys and
// their one-line help. It forgives what cooks type ("2 lb 3", "1/2 c", "165"), says how it was read, and gives the changes of the book that
// were meant, and no others. It is pure: a book and what was typed go in, a form or changes come out.
package bookform

import (
	"net/url"
	"reflect"
	"strings"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

// Form is what stands at a path of the book, to be looked at and changed.
type Form struct {
	Path   string // as findings have it
	New    bool   // the book has no such entry yet
	Groups []FieldGroup
}

// FieldGroup is some fields of a form: the common ones first, without a title, then the rare ones.
type FieldGroup struct {
	Title  string
	Open   bool // something in it is filled in or wrong
	Fields []Field
}

// Field is one thing to enter.
type Field struct {
	Name     string // of its control; begins with a point, so that it is no other control of the page
	Path     string // in the book as it would be
	Label    string
	Help     string
	Example  string
	Kind     Kind
	Required bool

	Value   string   // as the book has it
	Typed   string   // what stands in the control
	Picked  []string // of a field of kind Many or Answer: what is chosen
	Read    string   // how what was typed was understood
	Problem string   // what is wrong with it, and what to do
	Found   finding.List
	Choices []Choice // of a field of kind One, Many or Answer
	Suggest []string // words that others use

	Fields []Field // of a group
	Rows   []Row   // of a list or table
	One    string  // what one row is called
	Keyed  bool    // the rows have keys of their own
	Open   bool    // there is something in it
}

// Choice is one of the things that may be chosen.
type Choice struct {
	Value, Name string
	Chosen      bool
}

// Row is one entry of a list or table.
type Row struct {
	Name   string // of what belongs to it: the names of its controls begin with it
	Was    string // which entry of the book it was; "" for a new one
	Title  string
	Key    *Field // of a table: what the entry is called
	Fields []Field
}

// Problem is what is wrong with what was typed in one field.
type Problem struct {
	Name, Path string
	Label      string
	Text       string // what is wrong, and what to do
}

// Make makes the form of what stands at a path of the book; an entry that the book has not gives an empty one. typed is what was sent; nil shows
// the book. What was not sent is as in the book. A path that leads nowhere is a *bookfile.EditError.
func Make(book kitchen.Book, path string, typed url.Values) (Form, error) {
	w, root, err := walk(book, path, typed)
	if err != nil {
		return Form{}, err
	}
	return Form{Path: w.at.Path, New: !w.at.There, Groups: grouping(root)}, nil
}

// Changes are what was typed, where it differs from the book, and what is wrong with it; with problems there are no changes. The error is
// a *bookfile.EditError for a path that leads nowhere.
func Changes(book kitchen.Book, path string, typed url.Values) ([]bookfile.Change, []Problem, error) {
	w, root, err := walk(book, path, typed)
	if err != nil || len(w.problems) > 0 {
		return nil, w.problems, err
	}
	if !w.at.There {
		do := bookfile.DoSet
		if strings.HasSuffix(path, "[+]") {
			do = bookfile.DoAppend
		}
		return w.whole(do, w.at.Path, root.now), nil, nil
	}
	return w.differences(w.at.Key, w.at.Path, w.at.Value, root.now), nil, nil
}

// walked is a field with the value that was read from it.
type walked struct {
	Field
	now reflect.Value
}

// walk goes through what stands at a path, field by field.
func walk(book kitchen.Book, path string, typed url.Values) (*walker, walked, error) {
	w := &walker{book: book, typed: typed, house: House{book.Kitchen.Units, book.Kitchen.Currency}, texts: map[string]written{}, moved: map[string]bool{}}
	at, err := lookUp(book, path)
	if err != nil {
		return w, walked{}, err
	}
	w.at = at
	return w, w.value(at.Key, at.Value, at.There, "", at.Path, ""), nil
}

// lookUp is what stands at a path. A list's path with [+] behind it is an entry that is to be added.
func lookUp(book kitchen.Book, path string) (bookfile.Standing, error) {
	list, adds := strings.CutSuffix(path, "[+]")
	at, err := bookfile.Look(book, list)
	if err == nil && adds && at.Value.Kind() == reflect.Slice {
		at.Key.Type = at.Key.Type.Elem()
		at.Path, at.There = kitchen.PathAt(at.Path, at.Value.Len()), false
		at.Value = reflect.Zero(at.Key.Type)
	}
	return at, err
}

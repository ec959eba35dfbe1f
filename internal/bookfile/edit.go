package bookfile

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"reflect"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

// Do is what a change does.
type Do string

// What changes do.
const (
	DoSet    Do = "set"    // what stands at the path becomes the value; what is not there yet is put there
	DoBefore Do = "before" // the value goes into a list before the entry at the path
	DoAfter  Do = "after"  // the value goes into a list after the entry at the path
	DoAppend Do = "append" // the value goes to the end of the list at the path
	DoDelete Do = "delete" // what stands at the path goes
)

// Change is one change of a book.
//
// Path is as findings have it, dishes.dal.steps[2].use[0].amount, or with entries of lists by their names,
// dishes.dal.steps[simmer].use[salt].amount: a name is an entry's id, or else the first of its keys that is given. A number counts
// from 0; a name that is a number stands in quotes, steps["2"]. A path without . and [ may be written with slashes:
// dishes/dal/steps/simmer/time.
//
// Value is a value of the type that stands at the path (kitchen.Step, unit.Mass), or text as a cook writes it in the book. Text of a
// single value is kept as it is written ("1/4 cup"); an empty one takes a key out that may be left out. Words of a list may be
// separated by commas. Text of anything larger is YAML, such as {of: milk, amount: 1 qt}.
type Change struct {
	Do    Do     `json:"do"`
	Path  string `json:"path"`
	Value any    `json:"value,omitempty"`
	File  string `json:"file,omitempty"` // where a new entry of a section goes; left out, where others of its kind are
}

// Set makes what stands at path the value.
func Set(path string, value any) Change { return Change{Do: DoSet, Path: path, Value: value} }

// Before puts a value into a list before the entry at path.
func Before(path string, value any) Change { return Change{Do: DoBefore, Path: path, Value: value} }

// After puts a value into a list after the entry at path.
func After(path string, value any) Change { return Change{Do: DoAfter, Path: path, Value: value} }

// Append puts a value at the end of the list at path.
func Append(path string, value any) Change { return Change{Do: DoAppend, Path: path, Value: value} }

// Delete takes out what stands at path.
func Delete(path string) Change { return Change{Do: DoDelete, Path: path} }

// Edited is a book after changes.
type Edited struct {
	Files map[string][]byte // the files that are otherwise now, alone; nil is one that nothing is left in, to be removed
	Book  kitchen.Book      // as the files now say it
}

// Names are the changed files in order.
func (e Edited) Names() []string { return slices.Sorted(maps.Keys(e.Files)) }

// EditError says why changes cannot be made; none of them is.
type EditError struct {
	Change  Change
	At      *finding.Position // where it stands in the files, if it does
	Message string
	Fix     string
	Found   finding.List // what is wrong with the files, or with the value

	laidOut bool // by how the file is written: it may do otherwise
}

// Error is one line.
func (e *EditError) Error() string {
	place := e.Change.Path
	if e.At != nil {
		place = e.At.String() + ": " + place
	}
	text := strings.TrimPrefix(fmt.Sprintf("%s: %s", place, e.Message), ": ")
	if e.Fix != "" {
		text += ": " + e.Fix
	}
	return text
}

// Edit makes changes in the files of a book, one after the other, all or none. Only what is changed is written anew: comments, order, quotes,
// line ends and everything else stay as they are, byte for byte. A comment goes only with the lines it stands on or within. What is
// read back is the book as it was with exactly these changes made, which Edit makes sure of. Whether the book still makes sense is
// for kitchen.Check. The error is an *EditError.
func Edit(fsys fs.FS, changes ...Change) (Edited, error) {
	edited, err := edit(fsys, false, changes)
	if wrong, ok := errors.AsType[*EditError](err); ok && wrong.laidOut {
		if flat, again := edit(fsys, true, changes); again == nil {
			return flat, nil
		}
	}
	return edited, err
}

func edit(fsys fs.FS, flat bool, changes []Change) (Edited, error) {
	e, err := newEditor(fsys, flat)
	if err != nil {
		return Edited{}, err
	}
	for _, c := range changes {
		if err := e.change(c); err != nil {
			return Edited{}, err
		}
	}
	return e.edited()
}

// editor holds the files and the book while changes are made.
type editor struct {
	flat bool
	docs map[string]*doc
	book kitchen.Book
	now  Change // the one being made, for errors
}

func newEditor(fsys fs.FS, flat bool) (*editor, error) {
	d := newDecoder()
	texts, _ := readFiles(fsys, d)
	e := &editor{docs: map[string]*doc{}, flat: flat}
	for _, t := range texts {
		one, root, ok := newDoc(t.name, t.text, d)
		if one.flat = flat; ok {
			e.docs[t.name] = one
			d.sections(root, &e.book)
		}
	}
	if found := d.list(); found.Worst() == finding.Stop {
		return nil, unreadable(found)
	}
	return e, nil
}

// unreadable is the first of the mistakes for which the files cannot be edited.
func unreadable(found finding.List) *EditError {
	for _, f := range found {
		if f.Severity == finding.Stop {
			return &EditError{Change: Change{Path: f.Path}, At: f.At, Message: "the files cannot be edited before this is mended: " + f.Message, Fix: f.Fix, Found: found}
		}
	}
	return &EditError{Message: "the files cannot be read", Found: found}
}

func (e *editor) fail(message, fix string) *EditError {
	return &EditError{Change: e.now, Message: message, Fix: fix}
}

// failAt is fail with the place of something written.
func (e *editor) failAt(s *spot, message, fix string) *EditError {
	err := e.fail(message, fix)
	if s != nil {
		err.At = &finding.Position{File: s.d.name, Line: s.at().Line, Column: s.at().Column}
	}
	return err
}

// unwritable says that a file is laid out so that this cannot be put into it.
func (e *editor) unwritable(s *spot) *EditError {
	err := e.failAt(s, "this cannot be written into the file as it is laid out", "change it in the text of the file")
	err.laidOut = true
	return err
}

// edited reads the changed files again: they must say what the changes make of the book.
func (e *editor) edited() (Edited, error) {
	out := Edited{Files: map[string][]byte{}, Book: e.book}
	d := newDecoder()
	var book kitchen.Book
	for _, name := range slices.Sorted(maps.Keys(e.docs)) {
		one := e.docs[name]
		if one.changed() {
			out.Files[name] = one.whole()
		}
		if one.gone() {
			continue
		}
		if root, ok := d.parse(name, one.text); ok {
			d.sections(root, &book)
		}
	}
	if found := d.list(); found.Worst() == finding.Stop {
		err := unreadable(found)
		err.laidOut = true
		err.Change, err.Message = e.now, "this cannot be written into the files as they are: "+err.Message
		return Edited{}, err
	}
	if !reflect.DeepEqual(book, e.book) {
		return Edited{}, e.unwritable(nil)
	}
	return out, nil
}

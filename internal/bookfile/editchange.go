package bookfile

import (
	"fmt"
	"io/fs"
	"path"
	"reflect"
	"slices"
	"strings"
)

// change makes one change, in the book and in the text.
func (e *editor) change(c Change) error {
	e.now = c
	if c.File != "" && !isBookFile(c.File) {
		return e.fail(fmt.Sprintf("%q can be no file of a book", c.File), "name one that ends in .yaml, within the book's folder")
	}
	t, err := e.find(c.Path)
	if err != nil {
		return err
	}
	book := reflect.ValueOf(&e.book).Elem()
	old := e.book
	last := t.steps[len(t.steps)-1]
	switch c.Do {
	case DoSet:
		return e.doSet(t)
	case DoDelete:
		if last.in == group && t.f.required {
			return e.failAt(e.locate(t.steps), t.f.key+" must be given", "set it to something else")
		}
		if !t.there || e.locate(t.steps) == nil && blank(t.value) {
			return e.fail("it is not there", "nothing needs deleting")
		}
		update(book, t.steps[:len(t.steps)-1], func(v reflect.Value) {
			if v.Kind() == reflect.Pointer {
				one := reflect.New(v.Type().Elem())
				one.Elem().Set(v.Elem())
				v.Set(one)
				v = one.Elem()
			}
			without(v, last)
		})
		if last.in == list {
			return e.remove(t.steps)
		}
		return e.sync(t.steps, t.f, at(reflect.ValueOf(&old).Elem(), t.steps), reflect.Zero(t.kind), true)
	case DoBefore, DoAfter:
		if last.in != list {
			return e.fail(c.Path+" is not an entry of a list", "name the entry, such as steps[simmer]")
		}
		i := last.i
		if c.Do == DoAfter {
			i++
		}
		return e.insert(t, t.steps[:len(t.steps)-1], i)
	case DoAppend:
		kind := pointee(t.kind)
		if shapeOf(kind) != list {
			return e.fail(c.Path+" is not a list", "name the list")
		}
		item := target{kind: kind.Elem(), f: field{key: t.f.key, choices: t.f.choices}}
		return e.insert(item, t.steps, t.value.Len())
	}
	return e.fail(fmt.Sprintf("there is no change %q", c.Do), "use set, before, after, append or delete")
}

// isBookFile says that a file of that name would be read.
func isBookFile(name string) bool {
	hidden := slices.ContainsFunc(strings.Split(name, "/"), func(part string) bool { return strings.HasPrefix(part, ".") })
	return fs.ValidPath(name) && !hidden && path.Ext(name) == ".yaml"
}

// doSet makes what stands at a path the value of the change.
func (e *editor) doSet(t target) error {
	if e.nothing(t) {
		if t.steps[len(t.steps)-1].in == group && !t.f.required {
			if e.locate(t.steps) == nil && blank(t.value) {
				return nil
			}
			e.now.Do = DoDelete
			return e.change(e.now)
		}
		return e.failAt(e.locate(t.steps), t.f.key+" must be given", fillIn(t.kind, t.f))
	}
	w, err := e.want(t)
	if err != nil {
		if wrong, ok := err.(*EditError); ok {
			if s := e.locate(t.steps); s != nil {
				return e.placed(wrong, s)
			}
		}
		return err
	}
	old := e.book
	update(reflect.ValueOf(&e.book).Elem(), t.steps, func(v reflect.Value) { v.Set(w.value) })
	was := reflect.Zero(t.kind)
	if t.there {
		was = at(reflect.ValueOf(&old).Elem(), t.steps)
	}
	if s := e.locate(t.steps); w.given && s != nil {
		return e.setScalar(s, w.raw, shapeOf(t.kind) == word)
	}
	if err := e.sync(t.steps, t.f, was, w.value, false); err != nil || !w.given {
		return err
	}
	if s := e.locate(t.steps); s != nil {
		return e.setScalar(s, w.raw, shapeOf(t.kind) == word)
	}
	return e.insertNew(t.steps) // a blank value that was said
}

// nothing says that a set sets nothing: an empty text, or a value that need not be written.
func (e *editor) nothing(t target) bool {
	text, isText := e.now.Value.(string)
	if !isText {
		v := reflect.ValueOf(e.now.Value)
		return v.IsValid() && v.Type() == t.kind && blank(v) && t.steps[len(t.steps)-1].in == group && !t.f.required
	}
	return text == "" || shapeOf(t.kind) != word && strings.TrimSpace(text) == ""
}

// insert puts the value of the change into a list.
func (e *editor) insert(item target, steps []step, i int) error {
	w, err := e.want(item)
	if err != nil {
		return err
	}
	update(reflect.ValueOf(&e.book).Elem(), steps, func(v reflect.Value) { put(v, i, w.value) })
	steps = append(slices.Clone(steps), step{i: i, in: list})
	if err := e.insertNew(steps); err != nil || !w.given {
		return err
	}
	return e.setScalar(e.locate(steps), w.raw, shapeOf(item.kind) == word)
}

package bookform

import (
	"maps"
	"reflect"
	"slices"
	"strings"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
)

// differences are the changes that make one value the other, as small as can be.
func (w *walker) differences(k bookfile.Key, path string, was, now reflect.Value) []bookfile.Change {
	t := plain(k.Type)
	if same(was, now) {
		return nil
	}
	switch {
	case bookfile.Blank(now) && !k.Required && !w.says(path):
		return []bookfile.Change{bookfile.Delete(path)}
	case single(t):
		return []bookfile.Change{w.set(path, t, now)}
	case now.Kind() == reflect.Pointer:
		if was.IsNil() {
			return w.whole(bookfile.DoSet, path, now.Elem())
		}
		was, now = was.Elem(), now.Elem()
	}
	switch t.Kind() {
	case reflect.Struct:
		return w.groupDifferences(t, path, was, now)
	case reflect.Map:
		return w.tableDifferences(t, path, was, now)
	}
	if w.moved[path] {
		return w.whole(bookfile.DoSet, path, now)
	}
	var all []bookfile.Change
	for i := range now.Len() {
		all = append(all, w.differences(bookfile.Key{Type: t.Elem(), Required: true}, kitchen.PathAt(path, i), was.Index(i), now.Index(i))...)
	}
	return all
}

// says that somebody typed a value at a path, even if it is nothing: 0 °C.
func (w *walker) says(path string) bool { _, typed := w.texts[path]; return typed }

// same says that two values are the same; none of a list and an empty one are.
func same(a, b reflect.Value) bool {
	return reflect.DeepEqual(a.Interface(), b.Interface()) || (a.Kind() == reflect.Slice || a.Kind() == reflect.Map) && a.Len() == 0 && b.Len() == 0
}

// set is the change of a single value, or of a list of them: as it was typed, made tidy.
func (w *walker) set(path string, t reflect.Type, now reflect.Value) bookfile.Change {
	if text, typed := w.texts[path]; typed && t.Kind() != reflect.Slice {
		return bookfile.Set(path, text.tidy)
	}
	return bookfile.Set(path, now.Interface())
}

// groupDifferences first gives what must be there, and then takes out what there is no longer.
func (w *walker) groupDifferences(t reflect.Type, path string, was, now reflect.Value) []bookfile.Change {
	var sets, deletes []bookfile.Change
	for _, k := range bookfile.Keys(t) {
		for _, c := range w.differences(k, kitchen.PathTo(path, k.Name), was.Field(k.Index), now.Field(k.Index)) {
			if c.Do == bookfile.DoDelete {
				deletes = append(deletes, c)
			} else {
				sets = append(sets, c)
			}
		}
	}
	return append(sets, deletes...)
}

func (w *walker) tableDifferences(t reflect.Type, path string, was, now reflect.Value) []bookfile.Change {
	var sets, deletes []bookfile.Change
	for _, key := range inOrder(now) {
		at := kitchen.PathTo(path, key.String())
		old := was.MapIndex(key)
		if !old.IsValid() {
			sets = append(sets, w.whole(bookfile.DoSet, at, now.MapIndex(key))...)
			continue
		}
		sets = append(sets, w.differences(bookfile.Key{Type: t.Elem(), Required: true}, at, old, now.MapIndex(key))...)
	}
	for _, key := range inOrder(was) {
		if !now.MapIndex(key).IsValid() {
			deletes = append(deletes, bookfile.Delete(kitchen.PathTo(path, key.String())))
		}
	}
	return append(sets, deletes...)
}

func inOrder(m reflect.Value) []reflect.Value {
	keys := m.MapKeys()
	slices.SortFunc(keys, func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) })
	return keys
}

// whole puts a value there, and then what was typed for parts of it, where the book would write them otherwise.
func (w *walker) whole(do bookfile.Do, path string, now reflect.Value) []bookfile.Change {
	if single(now.Type()) {
		return []bookfile.Change{w.set(path, now.Type(), now)}
	}
	first := bookfile.Change{Do: do, Path: path, Value: now.Interface()}
	if do == bookfile.DoAppend {
		first.Path = path[:strings.LastIndexByte(path, '[')]
	}
	all := []bookfile.Change{first}
	for _, at := range slices.Sorted(maps.Keys(w.texts)) {
		rest, within := strings.CutPrefix(at, path)
		if within && rest != "" && (rest[0] == '.' || rest[0] == '[') && w.texts[at].tidy != w.texts[at].usual {
			all = append(all, bookfile.Set(at, w.texts[at].tidy))
		}
	}
	return all
}

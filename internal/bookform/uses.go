package bookform

import (
	"reflect"
	"strconv"
	"strings"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
)

// Use is a place of the book that names an entry.
type Use struct {
	Path    string // of the name
	Section string // of the entry it stands in
	ID      string
	Where   string // in words: dish dal, step simmer, line salt
}

// Uses are all places of the book that name an entry of it, outside the entry itself. A path that is no entry of a section has none.
func Uses(book kitchen.Book, path string) []Use {
	at, err := bookfile.Look(book, path)
	if err != nil || !at.There {
		return nil
	}
	section, id, ok := entryOf(at.Path)
	if !ok {
		return nil
	}
	u := &uses{id: id, entry: at.Path}
	u.t = keyType(section)
	if u.t == nil {
		return nil
	}
	u.place = u.t == placeType || section == "freezers"
	root := reflect.ValueOf(book)
	for _, k := range bookfile.Keys(bookType) {
		u.walk(root.Field(k.Index), k.Name, spotIn{section: k.Name})
	}
	return u.found
}

// entryOf takes the path of an entry apart: packs.ale is packs and ale.
func entryOf(path string) (section, id string, ok bool) {
	if i := strings.Index(path, `["`); i > 0 {
		id, err := strconv.Unquote(strings.TrimSuffix(path[i+1:], "]"))
		return path[:i], id, err == nil
	}
	section, id, ok = strings.Cut(path, ".")
	return section, id, ok && !strings.ContainsAny(id, ".[")
}

// keyType is the type of the ids of a section; nil when it has none of its own.
func keyType(section string) reflect.Type {
	for _, k := range bookfile.Keys(bookType) {
		if k.Name == section && k.Type.Kind() == reflect.Map && k.Type.Key() != reflect.TypeFor[string]() {
			return k.Type.Key()
		}
	}
	return nil
}

// uses looks for one id.
type uses struct {
	t     reflect.Type
	id    string
	entry string
	place bool // places are also named by texts: chest-1/shelf-2
	found []Use
}

// spotIn is where it looks, in words.
type spotIn struct{ section, id, where string }

func (u *uses) walk(v reflect.Value, path string, at spotIn) {
	if path == u.entry {
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			u.walk(v.Elem(), path, at)
		}
	case reflect.String:
		if v.Type() == u.t && v.String() == u.id || u.place && strings.HasSuffix(path, ".at") && strings.HasPrefix(path, placeFields) && (v.String() == u.id || strings.HasPrefix(v.String(), u.id+"/")) {
			u.found = append(u.found, Use{path, at.section, at.id, at.where})
		}
	case reflect.Struct:
		if !single(v.Type()) {
			for _, k := range bookfile.Keys(v.Type()) {
				u.walk(v.Field(k.Index), kitchen.PathTo(path, k.Name), at)
			}
		}
	case reflect.Map:
		u.table(v, path, at)
	case reflect.Slice:
		key := path[strings.LastIndexByte(path, '.')+1:]
		for i := range v.Len() {
			inner := at
			if !single(v.Type()) {
				inner.where = kitchen.Within(at.where, kitchen.Entry(key, itemName(v.Index(i), i)))
			}
			u.walk(v.Index(i), kitchen.PathAt(path, i), inner)
		}
	}
}

func (u *uses) table(v reflect.Value, path string, at spotIn) {
	for _, key := range inOrder(v) {
		inner, to := at, kitchen.PathTo(path, key.String())
		if at.id == "" {
			inner = spotIn{at.section, key.String(), kitchen.Entry(at.section, key.String())}
		} else if v.Type().Key() == u.t && key.String() == u.id {
			u.found = append(u.found, Use{to, at.section, at.id, at.where})
			continue
		}
		u.walk(v.MapIndex(key), to, inner)
	}
}

// itemName is the id of an entry of a list, or its number from 1.
func itemName(v reflect.Value, i int) string {
	if v.Kind() == reflect.Struct {
		if id := v.FieldByName("ID"); id.IsValid() {
			return id.String()
		}
	}
	return strconv.Itoa(i + 1)
}

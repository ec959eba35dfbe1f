package bookform

import (
	"reflect"
	"slices"
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

// Names are all places of a book that name an entry of it, found in one walk.
type Names struct{ of map[string][]Use } // by the path of the entry

// NamesIn finds them.
func NamesIn(book kitchen.Book) Names {
	n := namer{of: map[string][]Use{}, sections: map[reflect.Type]string{}, keys: map[reflect.Type][]bookfile.Key{}}
	for _, k := range bookfile.Keys(bookType) {
		if k.Type.Kind() == reflect.Map && k.Type.Key() != reflect.TypeFor[string]() {
			n.sections[k.Type.Key()] = k.Name
		}
	}
	root := reflect.ValueOf(book)
	for _, k := range bookfile.Keys(bookType) {
		n.walk(root.Field(k.Index), k.Name, spotIn{section: k.Name})
	}
	return Names{n.of}
}

// Of are the places that name what stands at a path, outside itself.
func (n Names) Of(path string) []Use {
	section, id, ok := entryOf(path)
	if !ok {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(n.of[path]), func(u Use) bool { return u.Section == section && u.ID == id })
}

// Reach are the entries of a section that what stands at a path has a part in: by what names it, and what names that.
func (n Names) Reach(path, section string) []string {
	seen, todo := map[string]bool{path: true}, []string{path}
	var found []string
	for len(todo) > 0 {
		at := todo[0]
		todo = todo[1:]
		for _, u := range n.Of(at) {
			next := kitchen.PathTo(u.Section, u.ID)
			if u.ID == "" || seen[next] {
				continue
			}
			seen[next] = true
			if u.Section == section {
				found = append(found, u.ID)
				continue
			}
			todo = append(todo, next)
		}
	}
	slices.Sort(found)
	return found
}

// Uses are all places of the book that name an entry of it, outside the entry itself. A path that is no entry of a section has none.
func Uses(book kitchen.Book, path string) []Use {
	at, err := bookfile.Look(book, path)
	if err != nil || !at.There {
		return nil
	}
	return NamesIn(book).Of(at.Path)
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

// namer walks through a book.
type namer struct {
	of       map[string][]Use
	sections map[reflect.Type]string // whose entries have ids of a type
	keys     map[reflect.Type][]bookfile.Key
}

// spotIn is where it is, in words.
type spotIn struct{ section, id, where string }

func (n *namer) add(section, id, path string, at spotIn) {
	if id != "" {
		to := kitchen.PathTo(section, id)
		n.of[to] = append(n.of[to], Use{path, at.section, at.id, at.where})
	}
}

func (n *namer) walk(v reflect.Value, path string, at spotIn) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			n.walk(v.Elem(), path, at)
		}
	case reflect.String:
		if section, is := n.sections[v.Type()]; is {
			n.add(section, v.String(), path, at)
		} else if strings.HasPrefix(path, placeFields) && strings.HasSuffix(path, ".at") { // a place by a text: chest-1/shelf-2
			place, _, _ := strings.Cut(v.String(), "/")
			n.add("places", place, path, at)
			n.add("freezers", place, path, at)
		}
	case reflect.Struct:
		if single(v.Type()) {
			return
		}
		keys, known := n.keys[v.Type()]
		if !known {
			keys = bookfile.Keys(v.Type())
			n.keys[v.Type()] = keys
		}
		for _, k := range keys {
			n.walk(v.Field(k.Index), kitchen.PathTo(path, k.Name), at)
		}
	case reflect.Map:
		n.table(v, path, at)
	case reflect.Slice:
		key := path[strings.LastIndexByte(path, '.')+1:]
		for i := range v.Len() {
			inner := at
			if !single(v.Type()) {
				inner.where = kitchen.Within(at.where, kitchen.Entry(key, itemName(v.Index(i), i)))
			}
			n.walk(v.Index(i), kitchen.PathAt(path, i), inner)
		}
	}
}

func (n *namer) table(v reflect.Value, path string, at spotIn) {
	section, names := n.sections[v.Type().Key()]
	for _, key := range inOrder(v) {
		inner, to := at, kitchen.PathTo(path, key.String())
		if at.id == "" {
			inner = spotIn{at.section, key.String(), kitchen.Entry(at.section, key.String())}
		} else if names && section != "places" { // shelves and boxes have ids of their own
			n.add(section, key.String(), to, at)
		}
		n.walk(v.MapIndex(key), to, inner)
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

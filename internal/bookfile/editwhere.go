package bookfile

import (
	"cmp"
	"maps"
	"path"
	"reflect"
	"slices"

	"kettlefrost/internal/kitchen"
)

// inOrder is the files in the order of their names.
func (e *editor) inOrder() []*doc {
	all := make([]*doc, 0, len(e.docs))
	for _, name := range slices.Sorted(maps.Keys(e.docs)) {
		all = append(all, e.docs[name])
	}
	return all
}

// home is a file that has entries of a section.
type home struct {
	file    string
	entries []string
}

// homes are the files that have entries of a section.
func (e *editor) homes(section string) []home {
	var all []home
	for _, d := range e.inOrder() {
		if d.root == nil {
			continue
		}
		s := keyIn(d, d.root, section, nil)
		if s == nil {
			continue
		}
		h := home{file: d.name}
		n := s.value()
		for i := 0; i+1 < len(n.Content); i += 2 {
			h.entries = append(h.entries, n.Content[i].Value)
		}
		all = append(all, h)
	}
	return all
}

// fileFor is where a new entry of a section goes: where the change says; beside what it belongs to, if others stand beside theirs; into a
// file of its own where the others have one each; else to those that are most like it.
func (e *editor) fileFor(steps []step) string {
	if e.now.File != "" {
		return e.now.File
	}
	section, key := steps[0].key, steps[1].key
	own := section + "/" + key + ".yaml"
	if !kitchen.IsID(key) {
		own = section + ".yaml"
	}
	homes := e.homes(section)
	if file := e.besideItsOwner(steps, homes); file != "" {
		return file
	}
	if len(homes) == 0 {
		if section == "dishes" {
			return own
		}
		return section + ".yaml"
	}
	if each := slices.IndexFunc(homes, func(h home) bool { return len(h.entries) > 1 }) < 0; each && (len(homes) > 1 || section == "dishes") {
		if !kitchen.IsID(key) {
			return homes[0].file
		}
		return path.Join(path.Dir(homes[0].file), key+".yaml")
	}
	return e.mostAlike(steps, homes)
}

// besideItsOwner is the file of the entry that a new one belongs to: a pack's dish. Empty when others do not stand so.
func (e *editor) besideItsOwner(steps []step, homes []home) string {
	book := reflect.ValueOf(&e.book).Elem()
	sections := map[reflect.Type]string{}
	for _, f := range fieldsOf(book.Type()) {
		if f.kind.Kind() == reflect.Map && f.kind.Key().Name() != "string" {
			sections[f.kind.Key()] = f.key
		}
	}
	v := at(book, steps)
	if v.Kind() != reflect.Struct {
		return ""
	}
	for _, f := range fieldsOf(v.Type()) {
		owner, known := sections[f.kind]
		if !known || !f.required {
			continue
		}
		beside := 0
		for _, h := range homes {
			for _, name := range h.entries {
				other, there := e.other(steps[0], name)
				if !there {
					continue
				}
				if s := e.locate([]step{{key: owner, in: group}, {key: other.Field(f.index).String(), in: table}}); s != nil && s.d.name == h.file {
					beside++
				}
			}
		}
		mine := e.locate([]step{{key: owner, in: group}, {key: v.Field(f.index).String(), in: table}})
		if mine != nil && (beside > 0 || len(homes) == 0) {
			return mine.d.name
		}
	}
	return ""
}

// other is another entry of a section; false for one that is about to be taken out.
func (e *editor) other(section step, name string) (reflect.Value, bool) {
	all := at(reflect.ValueOf(&e.book).Elem(), []step{section})
	v := all.MapIndex(reflect.ValueOf(name).Convert(all.Type().Key()))
	return v, v.IsValid()
}

// mostAlike is the file whose entries share most with a new one, of the keys that say what kind it is.
func (e *editor) mostAlike(steps []step, homes []home) string {
	book := reflect.ValueOf(&e.book).Elem()
	v := at(book, steps)
	alike := func(h home) (share float64) {
		if v.Kind() != reflect.Struct || len(h.entries) == 0 {
			return 0
		}
		for _, name := range h.entries {
			other, there := e.other(steps[0], name)
			if !there {
				continue
			}
			for _, f := range fieldsOf(v.Type()) {
				if one := v.Field(f.index); one.Kind() == reflect.String && (f.choices != nil || f.key == "function") && !one.IsZero() && one.Equal(other.Field(f.index)) {
					share++
				}
			}
		}
		return share / float64(len(h.entries))
	}
	best := slices.MaxFunc(homes, func(a, b home) int {
		return cmp.Or(cmp.Compare(alike(a), alike(b)), cmp.Compare(len(a.entries), len(b.entries)))
	})
	return best.file
}

package bookfile_test

import (
	"bytes"
	"encoding"
	"fmt"
	"maps"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/kitchen/kitchentest"
)

// drawnEdit is a change of a book and what the book is then, worked out without the text.
type drawnEdit struct {
	change bookfile.Change
	after  kitchen.Book
}

// drawEdit walks down from the book and changes what it comes to.
func drawEdit(t *rapid.T, book kitchen.Book) drawnEdit {
	var e drawnEdit
	e.after = book
	root := reflect.ValueOf(&e.after).Elem()
	root.Set(walk(t, root, "", &e.change))
	return e
}

// walk gives v with something in it changed, and says in c what.
func walk(t *rapid.T, v reflect.Value, path string, c *bookfile.Change) reflect.Value {
	now := reflect.New(v.Type()).Elem()
	now.Set(v)
	switch {
	case v.Kind() == reflect.Struct && !isText(v.Type()):
		var fields []int
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if inner := v.Field(i); f.Tag.Get("yaml") != "" && (path != "" || inner.Kind() != reflect.Map || inner.Len() > 0) {
				fields = append(fields, i)
			}
		}
		i := rapid.SampledFrom(fields).Draw(t, "field")
		f := v.Type().Field(i)
		key, options, _ := strings.Cut(f.Tag.Get("yaml"), ",")
		now.Field(i).Set(afterKey(t, v.Field(i), kitchen.PathTo(path, key), f.Tag.Get("enum"), options == "omitempty", c))
	case v.Kind() == reflect.Map:
		all := reflect.MakeMap(v.Type())
		for m := v.MapRange(); m.Next(); {
			all.SetMapIndex(m.Key(), m.Value())
		}
		keys := slices.SortedFunc(slices.Values(v.MapKeys()), func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) })
		key := keys[rapid.IntRange(0, len(keys)-1).Draw(t, "entry")]
		all.SetMapIndex(key, walk(t, v.MapIndex(key), kitchen.PathTo(path, key.String()), c))
		now.Set(all)
	case v.Kind() == reflect.Slice:
		all := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(all, v)
		i := rapid.IntRange(0, v.Len()-1).Draw(t, "entry")
		all.Index(i).Set(walk(t, v.Index(i), kitchen.PathAt(path, i), c))
		now.Set(all)
	case v.Kind() == reflect.Pointer && !v.IsNil() && v.Elem().Kind() == reflect.Struct && !isText(v.Type().Elem()):
		one := reflect.New(v.Type().Elem())
		one.Elem().Set(walk(t, v.Elem(), path, c))
		now.Set(one)
	default:
		return drawn(t, v.Type(), path, "", c)
	}
	return now
}

var textUnmarshaler = reflect.TypeFor[encoding.TextUnmarshaler]()

func isText(t reflect.Type) bool {
	return reflect.PointerTo(t).Implements(textUnmarshaler) || t == reflect.TypeFor[kitchen.Allergens]()
}

// drawn is another value of a type, which c sets.
func drawn(t *rapid.T, kind reflect.Type, path, enum string, c *bookfile.Change) reflect.Value {
	v := drawValue(t, kind, enum)
	if kind.Kind() == reflect.String && v.Len() == 0 { // an empty text takes the key out, which is another change
		v.SetString("salt")
	}
	*c = bookfile.Set(path, v.Interface())
	return v
}

// drawValue is a value that is given: an empty one or none would be no value to set.
func drawValue(t *rapid.T, kind reflect.Type, enum string) reflect.Value {
	v := reflect.New(kind).Elem()
	if kind.Kind() == reflect.Pointer {
		v.Set(reflect.New(kind.Elem()))
		kitchentest.Fill(t, v.Elem(), enum)
		return v
	}
	kitchentest.Fill(t, v, enum)
	return v
}

// afterKey changes what stands after a key.
func afterKey(t *rapid.T, v reflect.Value, path, enum string, optional bool, c *bookfile.Change) reflect.Value {
	deeper := v.Kind() == reflect.Struct && !isText(v.Type()) || (v.Kind() == reflect.Map || v.Kind() == reflect.Slice) && v.Len() > 0 ||
		v.Kind() == reflect.Pointer && !v.IsNil() && v.Elem().Kind() == reflect.Struct && !isText(v.Type().Elem())
	does := []string{"set", "set"}
	if deeper {
		does = append(does, "walk", "walk", "walk", "walk", "walk", "walk")
	}
	if v.Kind() == reflect.Slice {
		does = append(does, "insert", "insert", "insert")
	}
	if (v.Kind() == reflect.Slice || v.Kind() == reflect.Map) && v.Len() > 0 {
		does = append(does, "delete entry")
	}
	if v.Kind() == reflect.Map {
		does = append(does, "new entry", "new entry")
	}
	if optional && !v.IsZero() {
		does = append(does, "delete")
	}
	now := reflect.New(v.Type()).Elem()
	switch rapid.SampledFrom(does).Draw(t, "do") {
	case "walk":
		return walk(t, v, path, c)
	case "delete":
		*c = bookfile.Delete(path)
	case "insert":
		one := drawValue(t, v.Type().Elem(), enum)
		i := rapid.IntRange(0, v.Len()).Draw(t, "at")
		now.Set(reflect.AppendSlice(reflect.Append(reflect.AppendSlice(now, v.Slice(0, i)), one), v.Slice(i, v.Len())))
		switch {
		case i == v.Len():
			*c = bookfile.Append(path, one.Interface())
		case i > 0 && rapid.Bool().Draw(t, "after"):
			*c = bookfile.After(kitchen.PathAt(path, i-1), one.Interface())
		default:
			*c = bookfile.Before(kitchen.PathAt(path, i), one.Interface())
		}
	case "delete entry":
		if v.Kind() == reflect.Slice {
			i := rapid.IntRange(0, v.Len()-1).Draw(t, "which")
			now.Set(reflect.AppendSlice(reflect.AppendSlice(now, v.Slice(0, i)), v.Slice(i+1, v.Len())))
			*c = bookfile.Delete(kitchen.PathAt(path, i))
			break
		}
		gone := slices.SortedFunc(slices.Values(v.MapKeys()), func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) })
		key := gone[rapid.IntRange(0, len(gone)-1).Draw(t, "which")]
		*c = bookfile.Delete(kitchen.PathTo(path, key.String()))
		now = withEntries(v, func(k string) bool { return k != key.String() })
	case "new entry":
		key := reflect.ValueOf(rapid.OneOf(rapid.StringMatching(`[a-z0-9-]{1,8}`), rapid.String()).Draw(t, "key")).Convert(v.Type().Key())
		one := drawValue(t, v.Type().Elem(), enum)
		*c = bookfile.Set(kitchen.PathTo(path, key.String()), one.Interface())
		now = withEntries(v, func(string) bool { return true })
		if now.IsNil() {
			now.Set(reflect.MakeMap(v.Type()))
		}
		now.SetMapIndex(key, one)
	default:
		return drawn(t, v.Type(), path, enum, c)
	}
	return now
}

func withEntries(v reflect.Value, stay func(string) bool) reflect.Value {
	now := reflect.New(v.Type()).Elem()
	for m := v.MapRange(); m.Next(); {
		if stay(m.Key().String()) {
			if now.IsNil() {
				now.Set(reflect.MakeMap(v.Type()))
			}
			now.SetMapIndex(m.Key(), m.Value())
		}
	}
	return now
}

// alike says that a file is read as before with another text.
func alike(name string, was, text []byte) bool {
	a, b := bookfile.Read(fstest.MapFS{name: {Data: was}}), bookfile.Read(fstest.MapFS{name: {Data: text}})
	return len(a.Findings) == len(b.Findings) && reflect.DeepEqual(a.Book, b.Book)
}

// commented is a file with comments wherever one may stand: on lines of their own, set in as the line below or deeper, and after values. first is the
// number of the first.
func commented(t *rapid.T, name string, text []byte, first int) []byte {
	lines := strings.SplitAfter(string(text), "\n")
	for n := range rapid.IntRange(0, 6).Draw(t, "comments") {
		i := rapid.IntRange(0, len(lines)-1).Draw(t, "line")
		was := lines[i]
		comment := fmt.Sprintf("# c%d.", first+n)
		switch rapid.IntRange(0, 3).Draw(t, "where") {
		case 0:
			lines[i] = strings.TrimRight(was, "\n") + " " + comment + "\n"
		case 1:
			lines[i] = comment + "\n" + was
		case 2:
			lines[i] = strings.Repeat(" ", len(was)-len(strings.TrimLeft(was, " "))) + comment + "\n" + was
		default:
			lines[i] = was + strings.Repeat(" ", 2+len(was)-len(strings.TrimLeft(was, " "))) + comment + "\n\n"
		}
		if trial := []byte(strings.Join(lines, "")); alike(name, text, trial) {
			text = trial
		} else {
			lines[i] = was // it would be part of a text
		}
	}
	return text
}

var commentMark = regexp.MustCompile(`# c\d+\.`)

// cook gives files as people leave them: with comments, Windows line ends, a byte order mark, no line end at the end.
func cook(t *rapid.T, files fstest.MapFS) fstest.MapFS {
	files = maps.Clone(files)
	for n, name := range slices.Sorted(maps.Keys(files)) {
		was := commented(t, name, files[name].Data, 10*n)
		text := was
		switch rapid.IntRange(0, 5).Draw(t, "habit") {
		case 0:
			text = bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n"))
		case 1:
			text = bytes.TrimRight(text, "\n")
		case 2:
			text = append([]byte("\ufeff"), text...)
		}
		if !alike(name, was, text) {
			text = was
		}
		files[name] = &fstest.MapFile{Data: text}
	}
	return files
}

// checkEdit makes a drawn change and holds it to what it should be.
func checkEdit(t *rapid.T, files fstest.MapFS, book kitchen.Book) {
	e := drawEdit(t, book)
	got, err := bookfile.Edit(files, e.change)
	show := func() {
		for name, f := range files {
			if text, changed := got.Files[name]; changed {
				t.Logf("%s:\n%s", name, diff(string(f.Data), string(text)))
			}
		}
	}
	if err != nil {
		for name, f := range files {
			if strings.HasPrefix(e.change.Path, strings.TrimSuffix(name, ".yaml")) {
				t.Logf("%s:\n%q", name, f.Data)
			}
		}
		t.Fatalf("%v: %s %s to %#v", err, e.change.Do, e.change.Path, e.change.Value)
	}
	after := maps.Clone(files)
	for name, text := range got.Files {
		if text == nil {
			delete(after, name)
		} else {
			after[name] = &fstest.MapFile{Data: text}
		}
		if was, there := files[name]; there && text != nil && bytes.Equal(was.Data, text) {
			t.Errorf("%s is said to be changed and is not", name)
		}
	}
	want := written(t, e.after) // so that nil and empty are the same
	l := bookfile.Read(after)
	if diff := cmp.Diff(want, written(t, l.Book)); diff != "" {
		show()
		t.Errorf("%s %s to %#v:\n%s", e.change.Do, e.change.Path, e.change.Value, diff)
	}
	checkComments(t, files, got.Files, e.change, show)
}

// checkComments holds the comments to their rule: none goes but with the lines of what is taken out, and a set or an insertion takes none out.
func checkComments(t *rapid.T, files fstest.MapFS, changed map[string][]byte, c bookfile.Change, show func()) {
	for name, text := range changed {
		was, there := files[name]
		if !there || text == nil {
			continue
		}
		lost := 0
		for _, comment := range commentMark.FindAllString(string(was.Data), -1) {
			if !strings.Contains(string(text), comment) {
				lost++
			}
		}
		_, whole := c.Value.(string)
		if single := !whole && reflect.ValueOf(c.Value).IsValid() && isText(reflect.TypeOf(c.Value)); lost > 0 && (c.Do == bookfile.DoBefore || c.Do == bookfile.DoAfter || c.Do == bookfile.DoAppend || single) {
			show()
			t.Errorf("%s %s took %d comments out", c.Do, c.Path, lost)
		}
	}
}

// Whatever is changed in the demo's book is changed, and nothing else.
func TestAnyEditOfTheDemo(t *testing.T) {
	texts := demoTexts(t)
	rapid.Check(t, func(t *rapid.T) {
		files := fstest.MapFS{}
		for name, text := range texts {
			files[name] = &fstest.MapFile{Data: text}
		}
		if rapid.IntRange(0, 3).Draw(t, "as people leave them") == 0 {
			files = cook(t, files)
		}
		checkEdit(t, files, bookfile.Read(demo.Book()).Book)
	})
}

// Whatever is changed in a book of the strangest names and texts is changed, and nothing else.
func TestAnyEditOfAnyBook(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		book := kitchentest.Book(t)
		files := written(t, book)
		if _, none := files["kitchen.yaml"]; none {
			files = cook(t, files)
		}
		checkEdit(t, files, book)
	})
}

// One figure of a book the size of the demo's, read, changed and read again to make sure.
func BenchmarkEdit(b *testing.B) {
	files := demo.Book()
	for b.Loop() {
		if _, err := bookfile.Edit(files, bookfile.Set("dishes/ale-cheddar/steps/base/loses/evaporation", "5.2 kg/m2h")); err != nil {
			b.Fatal(err)
		}
	}
}

package bookform

import (
	"maps"
	"net/url"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
)

// Behind the name of a row stands what belongs to it alone.
const (
	wasMark = "@" // which entry it was
	keyMark = "#" // what it is called, in a table
)

// row is one row of a list or table as it was sent.
type row struct {
	name string
	was  string
}

// rows are the rows of a list in the order of the form: as sent, or as in the book when nothing was.
func (w *walker) rows(name string, inBook []string) []row {
	var all []row
	if _, sent := w.typed[name]; !sent {
		for i, was := range inBook {
			all = append(all, row{kitchen.PathAt(name, i), was})
		}
		return all
	}
	for _, i := range numbered(w.typed, name) {
		one := kitchen.PathAt(name, i)
		all = append(all, row{one, w.typed.Get(one + wasMark)})
	}
	return all
}

// numbered are the numbers of the rows that were sent of a list.
func numbered(typed url.Values, name string) []int {
	var all []int
	for key := range typed {
		rest, ok := strings.CutPrefix(key, name+"[")
		if !ok {
			continue
		}
		number, _, _ := strings.Cut(rest, "]")
		if i, err := strconv.Atoi(number); err == nil && i >= 0 && i < 10_000 && !slices.Contains(all, i) {
			all = append(all, i)
		}
	}
	slices.Sort(all)
	return all
}

func (w *walker) list(k bookfile.Key, f Field, was reflect.Value) walked {
	t := k.Type.Elem()
	var inBook []string
	for i := range was.Len() {
		inBook = append(inBook, strconv.Itoa(i))
	}
	now := reflect.Zero(k.Type)
	var stay []string
	sent := w.typed.Has(f.Name)
	for _, r := range w.rows(f.Name, inBook) {
		old, there := reflect.Zero(t), false
		if i := slices.Index(inBook, r.was); i >= 0 {
			old, there = was.Index(i), true
		}
		before := len(w.problems)
		inner := w.group(bookfile.Key{Name: k.Name, Type: t, Required: true}, Field{Name: r.name, Path: kitchen.PathAt(f.Path, now.Len())}, old, there)
		f.Rows = append(f.Rows, Row{Name: r.name, Was: r.was, Title: rowTitle(inner.Field, len(f.Rows)), Fields: inner.Fields})
		f.Open = true
		if sent && allEmpty(inner.Fields) { // a row that nobody has filled in
			w.problems = w.problems[:before]
			clearProblems(f.Rows[len(f.Rows)-1].Fields)
			continue
		}
		now, stay = reflect.Append(now, inner.now), append(stay, r.was)
	}
	if !slices.Equal(stay, inBook) {
		w.moved[f.Path] = true
	}
	if now.Len() == 0 && k.Required && sent {
		w.wrong(&f, "At least one is needed: add one.")
	}
	return walked{f, now}
}

func (w *walker) table(k bookfile.Key, f Field, was reflect.Value) walked {
	t := k.Type.Elem()
	f.Keyed = true
	var inBook []string
	for _, key := range was.MapKeys() {
		inBook = append(inBook, key.String())
	}
	slices.Sort(inBook)
	now := reflect.MakeMap(k.Type)
	refs := w.keyChoices(k.Type)
	for _, r := range w.rows(f.Name, inBook) {
		old, there := reflect.Zero(t), false
		if slices.Contains(inBook, r.was) {
			old, there = was.MapIndex(reflect.ValueOf(r.was).Convert(k.Type.Key())), true
		}
		key := Field{Name: r.name + keyMark, Label: keyLabel(k.Name), Kind: Text, Required: true, Value: r.was, Typed: r.was, Suggest: keySuggest(k.Name)}
		if w.typed.Has(key.Name) {
			key.Typed = squeezed(w.typed.Get(key.Name))
		}
		if refs != nil {
			key.Kind, key.Choices = One, offered(refs, key.Typed, key.Typed != "")
		}
		key.Path = kitchen.PathTo(f.Path, key.Typed)
		before := len(w.problems)
		inner := w.value(bookfile.Key{Name: valueName(k.Name), Type: t, Required: true}, old, there, r.name, key.Path, label(valueName(k.Name)))
		fields := inner.Fields
		if inner.Kind != Group {
			fields = []Field{inner.Field}
		}
		f.Open = true
		if key.Typed == "" && allEmpty(fields) {
			w.problems = w.problems[:before]
			clearProblems(fields)
			f.Rows = append(f.Rows, Row{Name: r.name, Was: r.was, Key: &key, Fields: fields})
			continue
		}
		name := reflect.ValueOf(key.Typed).Convert(k.Type.Key())
		switch {
		case key.Typed == "":
			w.wrong(&key, "Say what it is called.")
		case now.MapIndex(name).IsValid():
			w.wrong(&key, "There are two of "+key.Typed+": give one another name, or take one out.")
		default:
			now.SetMapIndex(name, inner.now)
		}
		f.Rows = append(f.Rows, Row{Name: r.name, Was: r.was, Title: key.Typed, Key: &key, Fields: fields})
	}
	if now.Len() == 0 {
		now = reflect.Zero(k.Type)
	}
	return walked{f, now}
}

// allEmpty says that nothing is entered in any of some fields.
func allEmpty(fields []Field) bool {
	return !slices.ContainsFunc(fields, func(f Field) bool {
		return f.Typed != "" && f.Typed != "false" || len(f.Picked) > 0 || !allEmpty(f.Fields) || slices.ContainsFunc(f.Rows, func(r Row) bool { return !allEmpty(r.Fields) })
	})
}

func clearProblems(fields []Field) {
	for i := range fields {
		fields[i].Problem = ""
		clearProblems(fields[i].Fields)
	}
}

// rowTitle is what a row is called: by the first of its values, or its number.
func rowTitle(f Field, i int) string {
	for _, x := range f.Fields {
		if x.Typed == "" || x.Kind == YesNo {
			continue
		}
		if j := slices.IndexFunc(x.Choices, func(c Choice) bool { return c.Value == x.Typed }); j >= 0 {
			return x.Choices[j].Name
		}
		return x.Typed
	}
	return strconv.Itoa(i + 1)
}

// Reorder does with the rows of a form what a button of it says: "add .buy", "drop .buy[1]", "up .fill[2]". What it does not know changes nothing.
func Reorder(typed url.Values, ask string) url.Values {
	do, name, _ := strings.Cut(ask, " ")
	out := url.Values{}
	for k, v := range typed {
		out[k] = v
	}
	list, i, isRow := splitRow(name)
	switch {
	case do == "add" && name != "":
		next := 0
		if all := numbered(typed, name); len(all) > 0 {
			next = all[len(all)-1] + 1
		}
		out[name] = []string{""}
		out[kitchen.PathAt(name, next)+wasMark] = []string{""}
	case do == "drop" && isRow:
		rename(out, name, "")
	case do == "up" && isRow:
		all := numbered(typed, list)
		if at := slices.Index(all, i); at > 0 {
			before := kitchen.PathAt(list, all[at-1])
			rename(out, before, list+"[swap]")
			rename(out, name, before)
			rename(out, list+"[swap]", name)
		}
	}
	return out
}

// splitRow takes ".buy[1]" apart.
func splitRow(name string) (list string, i int, ok bool) {
	open := strings.LastIndexByte(name, '[')
	if open < 0 || !strings.HasSuffix(name, "]") {
		return "", 0, false
	}
	i, err := strconv.Atoi(name[open+1 : len(name)-1])
	return name[:open], i, err == nil
}

// rename gives all controls of a row other names; to "" they go.
func rename(typed url.Values, from, to string) {
	for _, key := range slices.Sorted(maps.Keys(typed)) {
		rest, ok := strings.CutPrefix(key, from)
		if !ok {
			continue
		}
		if to != "" {
			typed[to+rest] = typed[key]
		}
		delete(typed, key)
	}
}

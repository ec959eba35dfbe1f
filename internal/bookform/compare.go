package bookform

import (
	"reflect"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
)

// Pair is one field of two entries of a kind, or of one entry at two times.
type Pair struct {
	Path  string // within the entry: .buy[0].price
	Label string // with what it stands in: Ways to buy it 1, price
	A, B  string // as a form has them; "" where it is not given
	Kind  Kind
}

// Differs says that the two are not the same.
func (p Pair) Differs() bool { return p.A != p.B }

// Compare puts two entries side by side, field by field, in the order of the nouns; what neither has is left out. They are values of one type of
// package kitchen; nil stands for none.
func Compare(a, b any, h House) []Pair {
	va, vb := reflect.ValueOf(a), reflect.ValueOf(b)
	t := reflect.Type(nil)
	for _, v := range []reflect.Value{va, vb} {
		if v.IsValid() {
			t = v.Type()
		}
	}
	if t == nil || va.IsValid() && vb.IsValid() && va.Type() != vb.Type() {
		return nil
	}
	c := &comparer{h: h}
	c.walk(bookfile.Key{Type: t, Required: true}, va, vb, "", "")
	return c.pairs
}

type comparer struct {
	h     House
	pairs []Pair
}

// given is a group, or nothing where it may be left out and is.
func given(k bookfile.Key, v reflect.Value) reflect.Value {
	if !k.Required && v.IsValid() && v.Kind() == reflect.Struct && !single(v.Type()) && bookfile.Blank(v) {
		return reflect.Value{}
	}
	return v
}

// solid looks through a pointer; what is nil is nothing.
func solid(v reflect.Value) reflect.Value {
	if v.IsValid() && v.Kind() == reflect.Pointer {
		return v.Elem()
	}
	return v
}

func (c *comparer) walk(k bookfile.Key, a, b reflect.Value, path, label string) {
	t := plain(k.Type)
	a, b = given(k, solid(a)), given(k, solid(b))
	switch {
	case !a.IsValid() && !b.IsValid():
	case single(t):
		c.add(k, a, b, path, label)
	case t.Kind() == reflect.Struct:
		for _, key := range bookfile.Keys(t) {
			inner := labelOf(t, key.Name)
			if label != "" {
				inner = label + ", " + strings.ToLower(inner[:1]) + inner[1:]
			}
			c.walk(key, fieldOf(a, key.Index), fieldOf(b, key.Index), path+"."+key.Name, inner)
		}
	case t.Kind() == reflect.Map:
		var keys []string
		for _, v := range []reflect.Value{a, b} {
			if v.IsValid() {
				for _, key := range v.MapKeys() {
					keys = append(keys, key.String())
				}
			}
		}
		slices.Sort(keys)
		for _, key := range slices.Compact(keys) {
			at := reflect.ValueOf(key).Convert(t.Key())
			c.walk(bookfile.Key{Type: t.Elem(), Required: true}, entryIn(a, at), entryIn(b, at), kitchen.PathTo(path, key), label+" "+key)
		}
	case t.Kind() == reflect.Slice:
		for i := range max(length(a), length(b)) {
			c.walk(bookfile.Key{Type: t.Elem(), Required: true}, itemOf(a, i), itemOf(b, i), kitchen.PathAt(path, i), label+" "+strconv.Itoa(i+1))
		}
	}
}

// add takes a single value in, unless neither has it.
func (c *comparer) add(k bookfile.Key, a, b reflect.Value, path, label string) {
	text := func(v reflect.Value) string {
		if !v.IsValid() || k.Type.Kind() != reflect.Pointer && bookfile.Blank(v) && !k.Required {
			return ""
		}
		return shown(v, c.h)
	}
	if p := (Pair{path, label, text(a), text(b), kindOf(k, false)}); p.A != "" || p.B != "" {
		c.pairs = append(c.pairs, p)
	}
}

func fieldOf(v reflect.Value, i int) reflect.Value {
	if !v.IsValid() {
		return v
	}
	return v.Field(i)
}

func entryIn(v, key reflect.Value) reflect.Value {
	if !v.IsValid() {
		return v
	}
	return v.MapIndex(key)
}

func itemOf(v reflect.Value, i int) reflect.Value {
	if i >= length(v) {
		return reflect.Value{}
	}
	return v.Index(i)
}

func length(v reflect.Value) int {
	if !v.IsValid() {
		return 0
	}
	return v.Len()
}

package bookfile

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
)

// Between are the changes that make one book another, for Edit: as few places as say it. An entry of a list that stays beside others that stay
// is changed where it stands; one that has got another name is known by its place. What is moved is taken out and put in again.
func Between(was, now kitchen.Book) []Change {
	b := &between{}
	b.group(reflect.ValueOf(was), reflect.ValueOf(now), "")
	return b.changes
}

// Text is the value of a change as text that reads back as that value: a single one as it stands in the book, anything larger on one line.
func Text(value any) (string, error) {
	if text, is := value.(string); is {
		return text, nil
	}
	v := reflect.ValueOf(value)
	if !v.IsValid() || v.Kind() == reflect.Pointer && v.IsNil() {
		return "", fmt.Errorf("there is no value")
	}
	n, err := encode(v, false)
	if err != nil {
		return "", err
	}
	if shapeOf(v.Type()).single() && shapeOf(v.Type()) != answer {
		return n.Value, nil
	}
	return flow(n), nil
}

// between collects changes.
type between struct{ changes []Change }

func (b *between) add(c Change) { b.changes = append(b.changes, c) }

// value compares what stands at a path. May says that it may be left out.
func (b *between) value(was, now reflect.Value, path string, may bool) {
	switch {
	case reflect.DeepEqual(was.Interface(), now.Interface()), blank(was) && blank(now):
	case may && blank(now):
		if !blank(was) {
			b.add(Delete(path))
		}
	case blank(was) || was.Kind() == reflect.Pointer:
		b.add(Set(path, now.Interface()))
	default:
		b.larger(was, now, path)
	}
}

// larger compares two values of which neither is blank.
func (b *between) larger(was, now reflect.Value, path string) {
	switch shapeOf(now.Type()) {
	case group:
		b.group(was, now, path)
	case table:
		b.table(was, now, path)
	case list:
		if shapeOf(now.Type().Elem()) == group {
			b.list(was, now, path)
			return
		}
		b.add(Set(path, now.Interface()))
	default:
		b.add(Set(path, now.Interface()))
	}
}

func (b *between) group(was, now reflect.Value, path string) {
	for _, f := range fieldsOf(now.Type()) {
		at := f.key
		if path != "" {
			at = kitchen.PathTo(path, f.key)
		}
		if path == "" && shapeOf(f.kind) == table { // a section: its entries come and go one by one
			b.table(was.Field(f.index), now.Field(f.index), at)
			continue
		}
		b.value(was.Field(f.index), now.Field(f.index), at, !f.required)
	}
}

func (b *between) table(was, now reflect.Value, path string) {
	before, after := mapOf(was), mapOf(now)
	for _, key := range sortedKeys(before) {
		if _, stays := after[key]; !stays {
			b.add(Delete(kitchen.PathTo(path, key)))
		}
	}
	for _, key := range sortedKeys(after) {
		at := kitchen.PathTo(path, key)
		if one, there := before[key]; there {
			b.value(one, after[key], at, false)
			continue
		}
		b.add(Set(at, after[key].Interface()))
	}
}

func sortedKeys(m map[string]reflect.Value) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, strings.Compare)
	return keys
}

// list compares lists of groups: what goes is taken out from the end, then what comes is put in from the beginning.
func (b *between) list(was, now reflect.Value, path string) {
	from := paired(was, now)
	stays := rising(from)
	if !slices.Contains(stays, true) {
		b.add(Set(path, now.Interface()))
		return
	}
	kept := make([]bool, was.Len())
	for i, s := range stays {
		if s {
			kept[from[i]] = true
		}
	}
	for i := was.Len() - 1; i >= 0; i-- {
		if !kept[i] {
			b.add(Delete(kitchen.PathAt(path, i)))
		}
	}
	left := 0 // of those that stay, not reached yet
	for _, s := range stays {
		if s {
			left++
		}
	}
	for i := range now.Len() {
		at := kitchen.PathAt(path, i)
		switch {
		case stays[i]:
			b.value(was.Index(from[i]), now.Index(i), at, false)
			left--
		case left > 0:
			b.add(Before(at, now.Index(i).Interface()))
		default:
			b.add(Append(path, now.Index(i).Interface()))
		}
	}
}

// paired is for each entry of a list where it was; -1 for a new one. Entries are told by their names; those left over on both sides by their
// order.
func paired(was, now reflect.Value) []int {
	from, taken := make([]int, now.Len()), make([]bool, was.Len())
	for i := range from {
		from[i] = -1
		for k := range was.Len() {
			if !taken[k] && nameOf(was.Index(k)) == nameOf(now.Index(i)) {
				from[i], taken[k] = k, true
				break
			}
		}
	}
	if was.Len() != now.Len() { // something came or went: a new name is a new entry
		return from
	}
	for i := range from {
		if k := slices.Index(taken, false); from[i] < 0 && k >= 0 {
			from[i], taken[k] = k, true
		}
	}
	return from
}

// rising marks the most entries that stay in their order: a longest rising subsequence of where they were.
func rising(from []int) []bool {
	best, prev := make([]int, len(from)), make([]int, len(from))
	last := -1
	for i, f := range from {
		prev[i] = -1
		if f < 0 {
			continue
		}
		best[i] = 1
		for k := range i {
			if from[k] >= 0 && from[k] < f && best[k]+1 > best[i] {
				best[i], prev[i] = best[k]+1, k
			}
		}
		if last < 0 || best[i] > best[last] {
			last = i
		}
	}
	stays := make([]bool, len(from))
	for i := last; i >= 0; i = prev[i] {
		stays[i] = true
	}
	return stays
}

package bookfile

import (
	"maps"
	"reflect"
	"slices"

	"go.yaml.in/yaml/v4"
)

// sync makes the text at steps say a new value where it says an old one; leaveOut says that what is blank then is not written.
func (e *editor) sync(steps []step, f field, old, now reflect.Value, leaveOut bool) error {
	s := e.locate(steps)
	many := len(steps) == 1 && shapeOf(f.kind) == table // a section may stand in several files
	switch {
	case leaveOut && blank(now) && !many:
		if s == nil {
			return nil
		}
		return e.remove(steps)
	case s == nil && !many:
		return e.insertNew(steps)
	case old.IsValid() && reflect.DeepEqual(old.Interface(), now.Interface()):
		return nil
	}
	if now.Kind() == reflect.Pointer {
		now = now.Elem()
		if old = old.Elem(); !old.IsValid() {
			old = reflect.Zero(now.Type())
		}
	}
	switch shape := shapeOf(now.Type()); shape {
	case group:
		return e.syncGroup(steps, old, now)
	case table:
		return e.syncTable(steps, f, old, now)
	case list:
		return e.syncList(steps, f, old, now)
	case answer:
		return e.replace(steps, now)
	default:
		n, err := encode(now, false)
		if err != nil {
			return e.failAt(s, "cannot be written: "+err.Error(), "")
		}
		return e.setScalar(s, n.Value, shape == word)
	}
}

// syncGroup first writes what there is, then takes out what there is no longer, so that a group never stands empty in between.
func (e *editor) syncGroup(steps []step, old, now reflect.Value) error {
	for _, going := range []bool{false, true} {
		for _, f := range fieldsOf(now.Type()) {
			ov, nv := old.Field(f.index), now.Field(f.index)
			goes := !f.required && blank(nv)
			if goes != going || reflect.DeepEqual(ov.Interface(), nv.Interface()) {
				continue
			}
			if err := e.sync(append(slices.Clone(steps), step{key: f.key, in: group}), f, ov, nv, goes); err != nil {
				return err
			}
		}
	}
	return nil
}

func (e *editor) syncTable(steps []step, f field, old, now reflect.Value) error {
	was, is := mapOf(old), mapOf(now)
	for _, key := range slices.Sorted(maps.Keys(is)) {
		one := append(slices.Clone(steps), step{key: key, in: table})
		before, there := was[key]
		if !there {
			before = reflect.Value{}
		}
		if err := e.sync(one, field{key: key, kind: now.Type().Elem()}, before, is[key], false); err != nil {
			return err
		}
	}
	for _, key := range slices.Sorted(maps.Keys(was)) {
		if _, stays := is[key]; !stays {
			if err := e.remove(append(slices.Clone(steps), step{key: key, in: table})); err != nil {
				return err
			}
		}
	}
	return nil
}

// syncList keeps the entries that stay, by their names, and edits them where they stand.
func (e *editor) syncList(steps []step, f field, old, now reflect.Value) error {
	pairs := match(old, now)
	if len(pairs) == 0 && old.Len() > 0 { // nothing stays
		if n := e.locate(steps).value(); n.Kind == yaml.ScalarNode || now.Len() == 0 {
			return e.replace(steps, now)
		}
	}
	at := func(i int) []step { return append(slices.Clone(steps), step{i: i, in: list}) }
	j, kept := 0, pairs
	for i := range now.Len() { // the entries before i are as they should be; those of the old list from j on stand after them
		if len(kept) > 0 && kept[0].now == i {
			for ; j < kept[0].old; j++ {
				if err := e.remove(at(i)); err != nil {
					return err
				}
			}
			if err := e.sync(at(i), field{key: f.key, choices: f.choices}, old.Index(j), now.Index(i), false); err != nil {
				return err
			}
			j, kept = j+1, kept[1:]
			continue
		}
		if err := e.insertNew(at(i)); err != nil {
			return err
		}
	}
	for ; j < old.Len(); j++ {
		if err := e.remove(at(now.Len())); err != nil {
			return err
		}
	}
	return nil
}

// pair is an entry of a list before and after.
type pair struct{ old, now int }

// match pairs the entries of two lists that are the same or have one name, as many as can be in order; and those alone between two pairs.
func match(old, now reflect.Value) []pair {
	n, m := old.Len(), now.Len()
	score := func(i, j int) int {
		switch {
		case reflect.DeepEqual(old.Index(i).Interface(), now.Index(j).Interface()):
			return 3
		case nameOf(old.Index(i)) == nameOf(now.Index(j)):
			return 2
		}
		return 0
	}
	best := make([][]int, n+1)
	for i := range best {
		best[i] = make([]int, m+1)
	}
	for i := n - 1; i >= 0; i-- {
		for j := m - 1; j >= 0; j-- {
			best[i][j] = max(best[i+1][j], best[i][j+1])
			if s := score(i, j); s > 0 {
				best[i][j] = max(best[i][j], s+best[i+1][j+1])
			}
		}
	}
	var pairs []pair
	i, j, lastI, lastJ := 0, 0, 0, 0
	close := func(i, j int) {
		if i-lastI == j-lastJ { // as many as before: each is taken for the one in its place
			for k := range i - lastI {
				pairs = append(pairs, pair{lastI + k, lastJ + k})
			}
		}
	}
	for i < n && j < m {
		switch s := score(i, j); {
		case s > 0 && best[i][j] == s+best[i+1][j+1]:
			close(i, j)
			pairs = append(pairs, pair{i, j})
			i, j = i+1, j+1
			lastI, lastJ = i, j
		case best[i][j] == best[i+1][j]:
			i++
		default:
			j++
		}
	}
	close(n, m)
	return pairs
}

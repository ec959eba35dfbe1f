package folder

import (
	"cmp"
	"encoding/json"
	"maps"
	"slices"
	"strconv"

	"kettlefrost/internal/record"
)

// corrections are the entries that were put right or taken back, in the order in which that was entered.
func (m Material) corrections() (all []Correction) {
	for _, g := range m.Reach.Groups {
		said := map[record.ID]record.Entry{g.First.ID: g.First}
		last := g.First // whose body holds, before each of those that follow
		for _, e := range g.Later {
			c := Correction{Of: g.First.ID, OfSeq: g.First.Seq, Kind: g.First.Kind, By: e.ID, BySeq: e.Seq, Who: e.Who, Entered: e.Entered, Was: m.words(last)}
			if v, is := voided(e); is {
				c.Back, c.Why, c.Was = true, v.Why, m.words(said[e.Corrects])
			} else {
				c.Fields = differences(last.Body, e.Body)
				last = e
			}
			said[e.ID] = e
			all = append(all, c)
		}
	}
	slices.SortFunc(all, func(a, b Correction) int { return cmp.Compare(a.BySeq, b.BySeq) })
	return all
}

func voided(e record.Entry) (record.Voided, bool) {
	body, err := record.Decode(e.Kind, e.Body)
	v, is := body.(record.Voided)
	return v, is && err == nil
}

// words is an entry in words.
func (m Material) words(e record.Entry) string {
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return string(e.Kind)
	}
	return m.Says(body)
}

// differences are the fields in which two bodies of a kind differ, by their paths.
func differences(was, is json.RawMessage) (all []Field) {
	a, b := flat(was), flat(is)
	paths := maps.Clone(a)
	maps.Copy(paths, b)
	for _, path := range slices.Sorted(maps.Keys(paths)) {
		if a[path] != b[path] {
			all = append(all, Field{path, a[path], b[path]})
		}
	}
	return all
}

// flat is the values of a JSON object by their paths, as JSON: from[0].lot.
func flat(object json.RawMessage) map[string]string {
	all := map[string]string{}
	var walk func(path string, value json.RawMessage)
	walk = func(path string, value json.RawMessage) {
		var fields map[string]json.RawMessage
		var list []json.RawMessage
		switch {
		case len(value) > 0 && value[0] == '{' && json.Unmarshal(value, &fields) == nil:
			for name, v := range fields {
				walk(joined(path, name), v)
			}
		case len(value) > 0 && value[0] == '[' && json.Unmarshal(value, &list) == nil:
			for i, v := range list {
				walk(path+"["+strconv.Itoa(i)+"]", v)
			}
		default:
			all[path] = string(value)
		}
	}
	walk("", object)
	return all
}

func joined(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

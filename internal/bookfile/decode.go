package bookfile

import (
	"cmp"
	"fmt"
	"reflect"
	"strings"

	"go.yaml.in/yaml/v4"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/spelling"
)

// decoder fills in a book from the trees of its files, one after the other.
type decoder struct {
	file      string
	plans     map[reflect.Type][]field
	positions map[string]finding.Position
	findings  finding.List
	dropped   int // findings beyond maxFindings
}

func newDecoder() *decoder {
	return &decoder{plans: map[reflect.Type][]field{}, positions: map[string]finding.Position{}}
}

// place is where in the book the decoder is: the path for programs, the words for people.
type place struct{ path, where string }

// under is the place of a key; its words are those of the group it belongs to.
func (p place) under(key string) place {
	return place{path: kitchen.PathTo(p.path, key), where: p.where}
}

func (d *decoder) add(f finding.Finding) {
	if len(d.findings) >= maxFindings {
		d.dropped++
		return
	}
	d.findings = append(d.findings, f)
}

func (d *decoder) report(code string, at *yaml.Node, p place, message, fix string) {
	position := d.at(at)
	d.add(finding.Finding{Code: code, Severity: finding.Stop, Where: cmp.Or(p.where, "the book"), Path: p.path, At: &position, Message: message, Fix: fix})
}

// note keeps where a path stands, and gives the earlier place when it is taken.
func (d *decoder) note(path string, at *yaml.Node) (earlier finding.Position, taken bool) {
	if earlier, taken = d.positions[path]; !taken {
		d.positions[path] = d.at(at)
	}
	return earlier, taken
}

func (d *decoder) plan(t reflect.Type) []field {
	fields, ok := d.plans[t]
	if !ok {
		fields = fieldsOf(t)
		d.plans[t] = fields
	}
	return fields
}

// sections reads what one file holds of the book.
func (d *decoder) sections(root *yaml.Node, book *kitchen.Book) {
	v := reflect.ValueOf(book).Elem()
	top := place{where: "file " + d.file}
	if root == nil || empty(root) || !d.mapping(root, root, top, "the file") {
		return
	}
	fields := d.plan(v.Type())
	d.eachKey(root, top, fields, func(f field, key, value *yaml.Node) {
		p := place{path: f.key}
		if shapeOf(f.kind) == group {
			p.where = f.key
		}
		earlier, taken := d.note(f.key, key)
		if taken && shapeOf(f.kind) == group {
			d.report(CodeDuplicateKey, key, p, fmt.Sprintf("%s stands here and at %s", f.key, earlier), "keep one of them")
			return
		}
		d.decode(value, key, v.Field(f.index), p, f)
	})
}

// missingSections reports the sections that no file has. It is of use only when every file could be read.
func (d *decoder) missingSections() {
	for _, f := range d.plan(reflect.TypeFor[kitchen.Book]()) {
		if _, given := d.positions[f.key]; f.required && !given {
			d.add(finding.Finding{Code: CodeMissingKey, Severity: finding.Stop, Where: "the book", Path: f.key,
				Message: fmt.Sprintf("no file of the book has %s: %s", f.key, f.desc), Fix: "add " + f.key + ": to one of the files"})
		}
	}
}

// single reads a file that holds one thing, into what value points to.
func (d *decoder) single(root *yaml.Node, value any, what string) {
	if root == nil {
		root = &yaml.Node{Kind: yaml.MappingNode, Line: 1, Column: 1}
	}
	d.decode(root, root, reflect.ValueOf(value).Elem(), place{where: what}, field{key: what})
}

// decode reads one value into v. at is where it is blamed: its key, or the value itself in a list. f says what it is for.
func (d *decoder) decode(n, at *yaml.Node, v reflect.Value, p place, f field) {
	switch {
	case n.Kind == yaml.AliasNode: // reported when the file was parsed
		return
	case empty(n):
		d.report(CodeEmptyValue, at, p, f.key+" has nothing after it", fillIn(v.Type(), f))
		return
	}
	if v.Kind() == reflect.Pointer {
		v.Set(reflect.New(v.Type().Elem()))
		v = v.Elem()
	}
	switch s := shapeOf(v.Type()); s {
	case group:
		if d.mapping(n, at, p, f.key) {
			d.group(n, at, v, p)
		}
	case table:
		if d.mapping(n, at, p, f.key) {
			d.table(n, v, p, f)
		}
	case list:
		d.items(n, at, v, p, f)
	case answer:
		d.answer(n, at, v, p, f)
	default:
		d.scalar(n, at, v, p, f, s)
	}
}

// empty says that nothing is written, or one of YAML's words for nothing, without quotes.
func empty(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == "!!null" }

// mapping says whether the value is a group of keys, and reports it when it is not.
func (d *decoder) mapping(n, at *yaml.Node, p place, name string) bool {
	if n.Kind == yaml.MappingNode {
		return true
	}
	d.report(CodeWrongShape, at, p, fmt.Sprintf("%s should be a group of keys, but is %s", name, shapeName(n)), "put each key on a line of its own below it, indented, as key: value")
	return false
}

func shapeName(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "a group of keys"
	case yaml.SequenceNode:
		return "a list"
	default:
		return "a single value"
	}
}

// group reads a struct.
func (d *decoder) group(n, at *yaml.Node, v reflect.Value, p place) {
	fields := d.plan(v.Type())
	given := d.eachKey(n, p, fields, func(f field, key, value *yaml.Node) {
		inner := p.under(f.key)
		blame := key
		if shapeOf(f.kind).single() && value.Kind == yaml.ScalarNode && !empty(value) {
			blame = value
		}
		d.note(inner.path, blame)
		d.decode(value, blame, v.Field(f.index), inner, f)
	})
	for _, f := range fields {
		if f.required && !given[f.key] {
			d.report(CodeMissingKey, at, p.under(f.key), fmt.Sprintf("%s is missing: %s", f.key, f.desc), fillIn(f.kind, f))
		}
	}
}

// eachKey gives the known keys of a group to read, reports the others, and says which were there.
func (d *decoder) eachKey(n *yaml.Node, p place, fields []field, read func(f field, key, value *yaml.Node)) map[string]bool {
	given := make(map[string]bool, len(fields))
	first := make(map[string]*yaml.Node, len(n.Content)/2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		name, ok := d.key(key, p)
		if !ok {
			continue
		}
		if earlier := first[name]; earlier != nil {
			d.report(CodeDuplicateKey, key, p.under(name), fmt.Sprintf("%s stands here and at %s", name, d.at(earlier)), "keep one of them")
			continue
		}
		first[name] = key
		f, known := find(fields, name)
		if !known {
			if n.Style&yaml.FlowStyle != 0 && empty(value) {
				d.report(CodeUnknownKey, key, p.under(name), fmt.Sprintf("there is no key %s here", name), fmt.Sprintf("in { } a comma ends a value: if %s belongs to the value before it, put that whole value in quotes", name))
				continue
			}
			d.unknown(key, p, name, keys(fields))
			continue
		}
		given[name] = true
		read(f, key, value)
	}
	return given
}

func find(fields []field, key string) (field, bool) {
	for _, f := range fields {
		if f.key == key {
			return f, true
		}
	}
	return field{}, false
}

// key is the text of a key.
func (d *decoder) key(key *yaml.Node, p place) (string, bool) {
	switch {
	case key.Kind == yaml.AliasNode, key.Tag == mergeTag: // reported when the file was parsed
		return "", false
	case key.Kind != yaml.ScalarNode:
		d.report(CodeWrongShape, key, p, "a key should be a word, but is "+shapeName(key), "write key: value")
		return "", false
	}
	return key.Value, true
}

func (d *decoder) unknown(key *yaml.Node, p place, name string, known []string) {
	fix := "one of these can stand here: " + strings.Join(known, ", ")
	if near := spelling.Nearest(name, known); near != "" {
		fix = fmt.Sprintf("did you mean %s? Otherwise take it out", near)
	}
	d.report(CodeUnknownKey, key, p.under(name), fmt.Sprintf("there is no key %s here", name), fix)
}

// table reads a map, adding to what earlier files gave.
func (d *decoder) table(n *yaml.Node, v reflect.Value, p place, f field) {
	if v.IsNil() && len(n.Content) > 0 {
		v.Set(reflect.MakeMap(v.Type()))
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		name, ok := d.key(key, p)
		if !ok {
			continue
		}
		entry := place{path: kitchen.PathTo(p.path, name), where: kitchen.Within(p.where, kitchen.Entry(f.key, name))}
		if earlier, taken := d.note(entry.path, key); taken {
			d.report(CodeDuplicateKey, key, entry, fmt.Sprintf("%s stands here and at %s", name, earlier), "keep one of them, or give one another name")
			continue
		}
		one := reflect.New(v.Type().Elem()).Elem()
		d.decode(value, key, one, entry, field{key: name})
		v.SetMapIndex(reflect.ValueOf(name).Convert(v.Type().Key()), one)
	}
}

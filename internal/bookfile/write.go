package bookfile

import (
	"encoding"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"go.yaml.in/yaml/v4"

	"kettlefrost/internal/kitchen"
)

// Write gives the files of a book: file name (with forward slashes) to text. Each section has a file of its own, each dish one in
// the folder dishes. Keys stand in the order of the nouns, entries in the order of their names, so that the same book always
// gives the same files; comments and the order in which the cook wrote are lost. Read gives the same book back, except for text
// that is not UTF-8. The error is that of a quantity which cannot be written, such as a number that is not finite.
func Write(book kitchen.Book) (map[string][]byte, error) {
	files := map[string][]byte{}
	v := reflect.ValueOf(book)
	for _, f := range fieldsOf(v.Type()) {
		section := v.Field(f.index)
		if !f.required && blank(section) {
			continue
		}
		parts := map[string]reflect.Value{f.key + ".yaml": section}
		if f.key == "dishes" {
			parts = oneFileEach(f.key, section)
		}
		for name, part := range parts {
			text, err := writeSection(f, part)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
			files[name] = text
		}
	}
	return files, nil
}

// oneFileEach divides a section into files named like its entries. Names that are not IDs could be no file's name and stay together.
func oneFileEach(key string, section reflect.Value) map[string]reflect.Value {
	parts := map[string]reflect.Value{}
	for entries := section.MapRange(); entries.Next(); {
		name := key + ".yaml"
		if id := entries.Key().String(); kitchen.IsID(id) {
			name = key + "/" + id + ".yaml"
		}
		if _, begun := parts[name]; !begun {
			parts[name] = reflect.MakeMap(section.Type())
		}
		parts[name].SetMapIndex(entries.Key(), entries.Value())
	}
	return parts
}

func writeSection(f field, v reflect.Value) ([]byte, error) {
	value, err := encode(v, true)
	if err != nil {
		return nil, err
	}
	root := &yaml.Node{Kind: yaml.MappingNode, Content: []*yaml.Node{textNode(f.key), value}}
	return yaml.Dump(root, yaml.WithIndent(2), yaml.WithLineWidth(-1))
}

// encode turns a value into YAML. Groups, tables and lists of single values stand on one line, unless tall.
func encode(v reflect.Value, tall bool) (*yaml.Node, error) {
	if v.Kind() == reflect.Pointer {
		v = v.Elem()
	}
	switch shapeOf(v.Type()) {
	case group:
		return encodeGroup(v, tall)
	case table:
		return encodeTable(v, tall)
	case list:
		return encodeList(v)
	case answer:
		return encodeAnswer(v.Interface().(kitchen.Allergens)), nil
	case quantity:
		return encodeQuantity(v.Interface())
	case whole:
		return &yaml.Node{Kind: yaml.ScalarNode, Value: strconv.FormatInt(v.Int(), 10)}, nil
	case decimal:
		return &yaml.Node{Kind: yaml.ScalarNode, Value: strconv.FormatFloat(v.Float(), 'f', -1, 64)}, nil
	case yesNo:
		return &yaml.Node{Kind: yaml.ScalarNode, Value: strconv.FormatBool(v.Bool())}, nil
	default:
		return textNode(v.String()), nil
	}
}

func encodeGroup(v reflect.Value, tall bool) (*yaml.Node, error) {
	n := &yaml.Node{Kind: yaml.MappingNode}
	for _, f := range fieldsOf(v.Type()) {
		value := v.Field(f.index)
		if !f.required && blank(value) {
			continue
		}
		one, err := encode(value, false)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.key, err)
		}
		n.Content = append(n.Content, textNode(f.key), one)
	}
	if !tall {
		onOneLine(n)
	}
	return n, nil
}

func encodeTable(v reflect.Value, tall bool) (*yaml.Node, error) {
	n := &yaml.Node{Kind: yaml.MappingNode}
	entries := mapOf(v)
	for _, key := range slices.Sorted(maps.Keys(entries)) {
		one, err := encode(entries[key], tall)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", key, err)
		}
		n.Content = append(n.Content, textNode(key), one)
	}
	if !tall {
		onOneLine(n)
	}
	return n, nil
}

// mapOf is the entries of a map by the text of their keys.
func mapOf(v reflect.Value) map[string]reflect.Value {
	m := make(map[string]reflect.Value, v.Len())
	for entries := v.MapRange(); entries.Next(); {
		m[entries.Key().String()] = entries.Value()
	}
	return m
}

func encodeList(v reflect.Value) (*yaml.Node, error) {
	n := &yaml.Node{Kind: yaml.SequenceNode}
	for i := range v.Len() {
		one, err := encode(v.Index(i), false)
		if err != nil {
			return nil, fmt.Errorf("%d: %w", i+1, err)
		}
		n.Content = append(n.Content, one)
	}
	onOneLine(n)
	return n, nil
}

func encodeAnswer(a kitchen.Allergens) *yaml.Node {
	names := a.List()
	if len(names) == 1 {
		return textNode(names[0])
	}
	n := &yaml.Node{Kind: yaml.SequenceNode}
	for _, name := range names {
		n.Content = append(n.Content, textNode(name))
	}
	onOneLine(n)
	return n
}

// encodeQuantity leaves the quotes away where a bare number is the text, as with money: it is read as text anyway.
func encodeQuantity(v any) (*yaml.Node, error) {
	text, err := v.(encoding.TextMarshaler).MarshalText()
	if err != nil {
		return nil, err
	}
	if decimalPattern.Match(text) {
		return &yaml.Node{Kind: yaml.ScalarNode, Value: string(text)}, nil
	}
	return textNode(string(text)), nil
}

// onOneLine writes a group or list in brackets when all it holds is single values of one line.
func onOneLine(n *yaml.Node) {
	for _, c := range n.Content {
		if c.Kind != yaml.ScalarNode || c.Style == yaml.LiteralStyle {
			return
		}
	}
	n.Style = yaml.FlowStyle
}

// textNode is text, quoted where YAML would take it for something else.
func textNode(s string) *yaml.Node {
	s = strings.ToValidUTF8(s, "\ufffd")
	n := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: s}
	switch {
	case strings.ContainsFunc(s, func(r rune) bool { return r != '\n' && !unicode.IsPrint(r) }):
		n.Style = yaml.DoubleQuotedStyle
	case strings.Contains(s, "\n"):
		n.Style = yaml.LiteralStyle
	}
	return n
}

// blank says that a value need not be written where its key may be left out.
func blank(v reflect.Value) bool {
	if z, ok := v.Interface().(interface{ IsZero() bool }); ok && v.Kind() != reflect.Pointer {
		return z.IsZero()
	}
	switch v.Kind() {
	case reflect.Slice, reflect.Map:
		return v.Len() == 0
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() && !blank(v.Field(i)) {
				return false
			}
		}
		return true
	default:
		return v.IsZero()
	}
}

// WriteRequest gives the text of a file that holds one request. ReadRequest gives the same request back.
func WriteRequest(request kitchen.Request) ([]byte, error) {
	value, err := encode(reflect.ValueOf(request), true)
	if err != nil {
		return nil, err
	}
	return yaml.Dump(value, yaml.WithIndent(2), yaml.WithLineWidth(-1))
}

// WriteRun gives the text of a file of the book that holds one run.
func WriteRun(name string, request kitchen.Request) ([]byte, error) {
	files, err := Write(kitchen.Book{Runs: map[string]kitchen.Request{name: request}})
	return files["runs.yaml"], err
}

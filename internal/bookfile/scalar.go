package bookfile

import (
	"encoding"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/spelling"
)

// items reads a list. One single value stands for a list of one where the list holds single values.
func (d *decoder) items(n, at *yaml.Node, v reflect.Value, p place, f field) {
	content := n.Content
	switch single := shapeOf(v.Type().Elem()).single(); {
	case n.Kind == yaml.ScalarNode && single:
		content = []*yaml.Node{n}
	case n.Kind != yaml.SequenceNode:
		d.report(CodeWrongShape, at, p, fmt.Sprintf("%s should be a list, but is %s", f.key, shapeName(n)), "begin each entry with a dash, on a line of its own")
		return
	}
	if len(content) == 0 {
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(content), len(content)))
	for i, item := range content {
		inner := place{
			path:  kitchen.PathAt(p.path, i),
			where: kitchen.Within(p.where, kitchen.Entry(f.key, itemName(item, i))),
		}
		d.note(inner.path, item)
		d.decode(item, item, v.Index(i), inner, field{key: f.key, choices: f.choices})
	}
}

// itemName is the id of an entry that has one, otherwise its number, counting from 1.
func itemName(item *yaml.Node, i int) string {
	if item.Kind == yaml.MappingNode {
		for k := 0; k+1 < len(item.Content); k += 2 {
			if id := item.Content[k+1]; item.Content[k].Value == "id" && id.Kind == yaml.ScalarNode && id.Value != "" {
				return id.Value
			}
		}
	}
	return strconv.Itoa(i + 1)
}

// Plain numbers. A leading zero is refused because some readers of YAML take 010 for eight.
var (
	wholePattern   = regexp.MustCompile(`^` + wholeText + `$`)
	decimalPattern = regexp.MustCompile(`^` + decimalText + `$`)
)

const (
	wholeText   = `-?(0|[1-9][0-9]*)`
	decimalText = `-?(0|[1-9][0-9]*)(\.[0-9]+)?`
)

// scalar reads a single value from its text as it was written.
func (d *decoder) scalar(n, at *yaml.Node, v reflect.Value, p place, f field, s shape) {
	if n.Kind != yaml.ScalarNode {
		d.report(CodeWrongShape, at, p, fmt.Sprintf("%s should be a single value, but is %s", f.key, shapeName(n)), fillIn(v.Type(), f))
		return
	}
	text := n.Value
	switch s {
	case quantity:
		if err := v.Addr().Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(text)); err != nil {
			v.SetZero()
			d.report(CodeBadQuantity, at, p, f.key+": "+complaint(err), fillIn(v.Type(), f))
		}
	case word:
		if f.choices != nil && !slices.Contains(f.choices, text) {
			d.badChoice(at, p, f, text)
			return
		}
		v.SetString(text)
	case yesNo:
		if text != "true" && text != "false" {
			d.badChoice(at, p, field{key: f.key, choices: []string{"true", "false"}}, text)
			return
		}
		v.SetBool(text == "true")
	case whole:
		number, err := strconv.ParseInt(text, 10, 32)
		if !wholePattern.MatchString(text) || err != nil {
			d.report(CodeBadNumber, at, p, fmt.Sprintf("%s: %q is not a whole number up to 2147483647", f.key, text), fillIn(v.Type(), f))
			return
		}
		v.SetInt(number)
	case decimal:
		number, err := strconv.ParseFloat(text, 64)
		if !decimalPattern.MatchString(text) || err != nil {
			d.report(CodeBadNumber, at, p, fmt.Sprintf("%s: %q is not a number", f.key, text), fillIn(v.Type(), f))
			return
		}
		v.SetFloat(number)
	}
}

func (d *decoder) badChoice(at *yaml.Node, p place, f field, text string) {
	fix := "write " + strings.Join(f.choices, " or ")
	if near := spelling.Nearest(text, f.choices); near != "" {
		fix = fmt.Sprintf("did you mean %s?", near)
	}
	d.report(CodeBadChoice, at, p, fmt.Sprintf("%s is %q, but should be one of: %s", f.key, text, strings.Join(f.choices, ", ")), fix)
}

// fillIn says how a key is written, with an example of its kind.
func fillIn(t reflect.Type, f field) string {
	switch s := shapeOf(t); {
	case f.choices != nil:
		return fmt.Sprintf("write %s: and one of %s", f.key, strings.Join(f.choices, ", "))
	case s == group, s == table:
		return fmt.Sprintf("write %s: and its keys below it, indented", f.key)
	case s == list && !shapeOf(t.Elem()).single():
		return fmt.Sprintf("write %s: and its entries below it, each with a dash", f.key)
	case s == answer:
		return fmt.Sprintf("write %s: none, or a list such as [milk, wheat]", f.key)
	case s == quantity:
		return fmt.Sprintf("write it like %s: %s", f.key, strings.Join(examples(t), " or "))
	case s == whole:
		return fmt.Sprintf("write it in plain digits, like %s: 3", f.key)
	case s == decimal:
		return fmt.Sprintf("write it in plain digits, like %s: 12.5", f.key)
	case s == yesNo:
		return fmt.Sprintf("write %s: true, or take the key out", f.key)
	default:
		return fmt.Sprintf("write %s: and the text after it", f.key)
	}
}

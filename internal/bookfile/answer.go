package bookfile

import (
	"fmt"
	"reflect"

	"go.yaml.in/yaml/v4"

	"kettlefrost/internal/kitchen"
)

const answerFix = "write none, or a list such as [milk, wheat, fish: trout]"

// answer reads which allergens are in something: the word none, one name, or a list of names.
func (d *decoder) answer(n, at *yaml.Node, v reflect.Value, p place, f field) {
	var items []*yaml.Node
	switch n.Kind {
	case yaml.SequenceNode:
		items = n.Content
	default:
		items = []*yaml.Node{n}
	}
	names := make([]string, 0, len(items))
	for i, item := range items {
		inner := place{path: kitchen.PathAt(p.path, i), where: p.where}
		d.note(inner.path, item)
		name, ok := d.allergen(item, inner)
		if !ok {
			return
		}
		names = append(names, name)
	}
	if err := v.Addr().Interface().(*kitchen.Allergens).SetNames(names); err != nil {
		d.report(CodeBadChoice, at, p, fmt.Sprintf("%s: %v", f.key, err), answerFix)
	}
}

// allergen is one name. A kind of fish, shellfish or nut stands after a colon, which YAML takes for a group of one key.
func (d *decoder) allergen(item *yaml.Node, p place) (string, bool) {
	switch {
	case item.Kind == yaml.AliasNode: // reported when the file was parsed
		return "", false
	case empty(item):
		d.report(CodeEmptyValue, item, p, "this entry has nothing in it", "write the name of an allergen, or take the entry out")
		return "", false
	case item.Kind == yaml.ScalarNode:
		return item.Value, true
	case item.Kind == yaml.MappingNode && len(item.Content) == 2 && isText(item.Content[0]) && isText(item.Content[1]):
		return item.Content[0].Value + ": " + item.Content[1].Value, true
	}
	d.report(CodeWrongShape, item, p, "an allergen should be a single value, but is "+shapeName(item), answerFix)
	return "", false
}

func isText(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && !empty(n) }

package bookfile

import (
	"encoding/json"
	"reflect"

	"kettlefrost/internal/kitchen"
)

// Schema is the JSON Schema (draft 2020-12) of one file of a book, for editors that check and complete while somebody types. No
// section is required in it, as any file may hold any of them. What it refuses, Read refuses; it does not know whether a quantity
// can be read, nor what the entries mean.
func Schema() []byte {
	g := schemaWriter{defs: map[string]any{}}
	root := g.group(reflect.TypeFor[kitchen.Book]())
	delete(root, "required")
	return g.document(root, "kettlefrost book, one file")
}

// RequestSchema is the JSON Schema of a file that holds one request.
func RequestSchema() []byte {
	g := schemaWriter{defs: map[string]any{}}
	return g.document(g.group(reflect.TypeFor[kitchen.Request]()), "kettlefrost request")
}

// schemaWriter collects the definitions of the types it meets.
type schemaWriter struct{ defs map[string]any }

func (g schemaWriter) document(root map[string]any, title string) []byte {
	root["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	root["title"] = title
	root["$defs"] = g.defs
	text, err := json.MarshalIndent(root, "", "  ")
	if err != nil { // maps, slices and strings only
		panic(err)
	}
	return append(text, '\n')
}

// group describes a struct by its fields.
func (g schemaWriter) group(t reflect.Type) map[string]any {
	properties, required := map[string]any{}, []string{}
	for _, f := range fieldsOf(t) {
		one := g.value(f)
		one["description"] = f.desc
		properties[f.key] = one
		if f.required {
			required = append(required, f.key)
		}
	}
	schema := map[string]any{"type": "object", "properties": properties, "additionalProperties": false}
	if len(required) > 0 {
		schema["required"] = required
	}
	return schema
}

// value describes what may stand after a key.
func (g schemaWriter) value(f field) map[string]any {
	t := pointee(f.kind)
	switch shapeOf(t) {
	case group:
		return g.define(t, func() map[string]any { return g.group(t) })
	case quantity:
		return g.define(t, func() map[string]any { return quantitySchema(t) })
	case answer:
		return g.define(t, allergensSchema)
	case table:
		return map[string]any{"type": "object", "additionalProperties": g.value(field{kind: t.Elem()})}
	case list:
		item := g.value(field{kind: t.Elem(), choices: f.choices})
		items := map[string]any{"type": "array", "items": item}
		if shapeOf(t.Elem()).single() {
			return map[string]any{"anyOf": []any{item, items}}
		}
		return items
	case whole:
		return map[string]any{"type": []any{"integer", "string"}, "pattern": "^" + wholeText + "$"}
	case decimal:
		return map[string]any{"type": []any{"number", "string"}, "pattern": "^" + decimalText + "$"}
	case yesNo:
		return map[string]any{"enum": []any{true, false, "true", "false"}}
	default:
		return textSchema(f.choices)
	}
}

// define puts a type among the definitions once, and refers to it.
func (g schemaWriter) define(t reflect.Type, describe func() map[string]any) map[string]any {
	if _, begun := g.defs[t.Name()]; !begun {
		g.defs[t.Name()] = nil // a type may hold itself
		g.defs[t.Name()] = describe()
	}
	return map[string]any{"$ref": "#/$defs/" + t.Name()}
}

// textSchema allows what YAML takes for numbers and truth values too: a name may be 2024.
func textSchema(choices []string) map[string]any {
	if choices == nil {
		return map[string]any{"type": []any{"string", "number", "boolean"}}
	}
	return map[string]any{"enum": choices}
}

func quantitySchema(t reflect.Type) map[string]any {
	text, bare := pattern(t)
	schema := map[string]any{"type": "string", "pattern": text, "examples": examples(t)}
	if bare {
		schema["type"] = []any{"string", "number"}
	}
	return schema
}

func allergensSchema() map[string]any {
	name := map[string]any{"type": []any{"string", "number", "boolean"}}
	kind := map[string]any{
		"type": "object", "minProperties": 1, "maxProperties": 1,
		"additionalProperties": name, "description": "a kind of fish, shellfish or nut, as in fish: trout",
	}
	one := map[string]any{"anyOf": []any{name, kind}}
	return map[string]any{
		"anyOf":    []any{name, kind, map[string]any{"type": "array", "minItems": 1, "items": one}},
		"examples": []any{"none", []any{"milk", "wheat"}},
	}
}

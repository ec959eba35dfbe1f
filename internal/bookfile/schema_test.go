package bookfile_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v4"
	"pgregory.net/rapid"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen/kitchentest"
)

var update = flag.Bool("update", false, "write the schema files anew")

func TestSchemaFilesAreFresh(t *testing.T) {
	for name, text := range map[string][]byte{"book.v1.json": bookfile.Schema(), "request.v1.json": bookfile.RequestSchema()} {
		path := filepath.Join("..", "..", "schema", name)
		if *update {
			if err := os.WriteFile(path, text, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if kept, err := os.ReadFile(path); err != nil || !bytes.Equal(kept, text) {
			t.Errorf("schema/%s is not what the nouns say (%v): run the tests of this package with -update, and look at the change", name, err)
		}
	}
}

// compiled is a schema as an independent validator understands it.
func compiled(t testing.TB, text []byte) *jsonschema.Schema {
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("schema.json", value); err != nil {
		t.Fatal(err)
	}
	schema, err := c.Compile("schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return schema
}

var plainNumber = regexp.MustCompile(`^-?(0|[1-9][0-9]*)(\.[0-9]+)?$`)

// asJSON is a file as an editor sees it: numbers and truth values without quotes are no texts.
func asJSON(n *yaml.Node) any {
	switch n.Kind {
	case yaml.DocumentNode:
		return asJSON(n.Content[0])
	case yaml.MappingNode:
		m := map[string]any{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			m[n.Content[i].Value] = asJSON(n.Content[i+1])
		}
		return m
	case yaml.SequenceNode:
		l := make([]any, 0, len(n.Content))
		for _, c := range n.Content {
			l = append(l, asJSON(c))
		}
		return l
	}
	switch {
	case n.Tag == "!!null":
		return nil
	case n.Tag == "!!bool":
		return n.Value == "true"
	case n.Style == 0 && plainNumber.MatchString(n.Value):
		value, err := jsonschema.UnmarshalJSON(strings.NewReader(n.Value))
		if err != nil {
			panic(err)
		}
		return value
	default:
		return n.Value
	}
}

func parsed(t interface{ Fatal(...any) }, text []byte) any {
	var root yaml.Node
	if err := yaml.Load(text, &root); err != nil {
		t.Fatal(err)
	}
	return asJSON(&root)
}

func TestSchemaPassesTheDemo(t *testing.T) {
	schema := compiled(t, bookfile.Schema())
	for name, text := range demoTexts(t) {
		if err := schema.Validate(parsed(t, text)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestSchemaPassesWhatIsWritten(t *testing.T) {
	schema := compiled(t, bookfile.Schema())
	rapid.Check(t, func(t *rapid.T) {
		book := kitchentest.Book(t)
		for name, file := range written(t, book) {
			if err := schema.Validate(parsed(t, file.Data)); err != nil {
				t.Errorf("%s: %v\n%s", name, err, file.Data)
			}
		}
	})
}

// The ways in which a cook may write the same thing: the reader and the schema take all of them.
func TestSchemaPassesWhatIsRead(t *testing.T) {
	schema := compiled(t, bookfile.Schema())
	lines := map[string][]string{
		"kitchen: {name: Mill Lane, %s}\n":                                                 {"units: us", "units: Metric", "air: 72F", "air: -3 °C", "air: 21 °C", "place: 2024", "note: true", "currency: $"},
		house + "ingredients:\n  x: {name: x, %s}\n":                                       {"allergens: none", "allergens: milk", "allergens: [milk, fish: trout]", "allergens: {fish: trout}", "free: true", `free: "true"`, "trim: 12.5 %", "trim: 3 percent", "stock: ½ bunch", "stock: 1½ cups", "stock: 3 ящик", "density: 1.03 kg/L", "food: 01001", "food: 11282", "measures: {each: 110 g}", "storage: dry"},
		house + "ingredients:\n  x: {name: x, buy: [{pack: 5 lb, price: %s}]}\n":           {"18.75", "$18.75", "€4", `"4"`, "7", `"$1,250.00"`},
		house + "bags:\n  x: {name: x, length: 10 1/2 in, width: 8in, %s}\n":               {"stock: 2", `stock: "2"`, "price: 0.11", "stock: 0"},
		house + "people:\n  x: {name: x, shift: {from: 6:30, to: 15:00}, wage: %s}\n":      {"$19.50/h", "19 per hour", "19.50 / hr"},
		dal + "        use: [{from: a, take: %s}]\n":                                       {"all", "60 %", "33.3%"},
		dal + "        use: [{from: a, take: all}]\n        in: %s\n":                      {"kettle", "[kettle, pot]", "[]", "60"},
		dal + "        use: [{of: a, amount: 1 kg}]\n        loses: {evaporation: %s}\n":   {"6 kg/m2h", "6 kg/m²·h", "2.7 lb/ft2h"},
		dal + "        use: [{of: a, amount: 1 kg}]\n        pace: 3 min/kg\n        %s\n": {"time: 1 h 20 min", "time: 2 days", "hands: {throughout: true}", "skill: kettle", "at-once: true", "load: {surface: 16 kg/m2}", "heat-to: 212 °F"},
	}
	for file, ways := range lines {
		for _, way := range ways {
			text := fmt.Sprintf(file, way)
			l := bookfile.Read(folder(text))
			err := schema.Validate(parsed(t, []byte(text)))
			if read := l.Findings.Worst() < finding.Stop; !read {
				t.Errorf("%s is not read: %v", way, l.Findings)
			}
			if err != nil {
				t.Errorf("%s: %v", way, err)
			}
		}
	}
}

func TestSchemaStopsMistakes(t *testing.T) {
	schema := compiled(t, bookfile.Schema())
	for _, text := range []string{
		"kitchen: {name: Mill Lane, air: 20}\n",
		"kitchen: {name: Mill Lane, air: \"20\"}\n",
		house + "equipement: {}\n",
		house + "suppliers:\n  mill: {name: Mill, nmae: x}\n",
		house + "suppliers:\n  mill: {note: x}\n",
		house + "suppliers:\n  mill: {name: }\n",
		house + "suppliers: [mill]\n",
		house + "ingredients:\n  x: {name: x, trim: 0.5}\n",
		house + "ingredients:\n  x: {name: x, free: yes please}\n",
		house + "ingredients:\n  x: {name: x, allergens: []}\n",
		house + "ingredients:\n  x: {name: x, allergens: {fish: trout, milk: cow}}\n",
		house + "ingredients:\n  x: {name: x, storage: cellar}\n",
		house + "equipment:\n  x: {name: x, kind: vessle, count: 2}\n",
		house + "equipment:\n  x: {name: x, kind: vessel, count: two}\n",
		house + "equipment:\n  x: {name: x, kind: vessel, count: 1.5}\n",
		house + "people:\n  x: {name: x, shift: {from: 6, to: 15:00}}\n",
		house + "equipment:\n  x: {name: x, kind: blender, count: 1, wash: 5}\n",
		house + "people:\n  x: {name: x, shift: {from: 6:30, to: 15:00}, can: {a: b}}\n",
		dal + "        use: lentil\n",
		dal + "        use: [{of: lentil, amount: 3}]\n",
		dal + "        use: [{of: lentil, amount: some}]\n",
		dal + "        use: [{of: lentil, amount: 1 kg}]\n        time: [5 min]\n",
	} {
		if schema.Validate(parsed(t, []byte(text))) == nil {
			t.Errorf("the schema lets this through:\n%s", text)
		}
		if l := bookfile.Read(folder(text)); l.Findings.Worst() < finding.Stop {
			t.Errorf("the reader lets this through:\n%s", text)
		}
	}
}

func TestRequestSchema(t *testing.T) {
	schema := compiled(t, bookfile.RequestSchema())
	for text, good := range map[string]bool{
		"want: [{pack: dal-lb, count: 12}]\nfinish: 17:30\nday: 2026-12-01\n": true,
		"want: [{dish: dal, as-many: true, mix: {a: 2, b: 1}}]\n":             true,
		"want: [{dish: dal, use: {of: bacon, amount: 20 lb}}]\n":              true,
		fullDay:                    true,
		"want: []\naims: finish\n": true,
		"want: []\naims: [fun]\n":  false,
		"want: []\nappointments: [{what: van, at: 9}]\n": false,
		"want: []\nappointments: [{at: 09:00}]\n":        false,
		"want: []\ndays: 1.5\n":                          false,
		"name: nothing\n":                                false,
		"want: [{pack: dal-lb, cuont: 12}]\n":            false,
		"want: {pack: dal-lb, count: 12}\n":              false,
		"want: [{dish: dal, use: {of: bacon}}]\n":        false,
		"want: [{dish: dal, as-many: very}]\n":           false,
		"want: [{pack: dal-lb, count: 12}]\nday:\n":      false,
	} {
		err := schema.Validate(parsed(t, []byte(text)))
		_, found := bookfile.ReadRequest("r.yaml", []byte(text))
		if (err == nil) != good || (len(found) == 0) != good {
			t.Errorf("%s: schema %v, reader %v", text, err, found)
		}
	}
}

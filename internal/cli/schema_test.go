package cli

import (
	"bytes"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
	validator "github.com/santhosh-tekuri/jsonschema/v6"

	"kettlefrost/schema"
)

// keeps FILE SCHEMA wants JSON with this in its schema field, and that an independent validator finds nothing in it that the published
// schema of that name does not allow.
func keepsSchema(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: keeps FILE SCHEMA")
	}
	value, err := validator.UnmarshalJSON(strings.NewReader(ts.ReadFile(args[0])))
	ts.Check(err)
	if got, _ := inside(value, "schema"); got != args[1] {
		ts.Fatalf("the schema field is %v, want %s", got, args[1])
	}
	name, ours := strings.CutPrefix(args[1], "kettlefrost.")
	name, first := strings.CutSuffix(name, "/1")
	if !ours || !first {
		ts.Fatalf("%s is no kettlefrost.name/1", args[1])
	}
	text, err := schema.Of(name)
	ts.Check(err)
	doc, err := validator.UnmarshalJSON(bytes.NewReader(text))
	ts.Check(err)
	c := validator.NewCompiler()
	ts.Check(c.AddResource(name, doc))
	s, err := c.Compile(name)
	ts.Check(err)
	if err := s.Validate(value); err != nil {
		ts.Fatalf("%s: %.1500s", args[0], err)
	}
}

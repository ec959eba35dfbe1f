package schema_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"reflect"
	"testing"

	"github.com/invopop/jsonschema"
	validator "github.com/santhosh-tekuri/jsonschema/v6"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
	"kettlefrost/schema"
)

var update = flag.Bool("update", false, "write plan.v1.json anew")

// quantity is how a type that writes itself looks in JSON.
type quantity struct {
	kind    string
	means   string // said of each field of the type
	pattern string
	words   []any
}

var quantities = map[reflect.Type]quantity{
	reflect.TypeFor[unit.Mass]():        {kind: "number", means: "grams"},
	reflect.TypeFor[unit.Volume]():      {kind: "number", means: "millilitres"},
	reflect.TypeFor[unit.Length]():      {kind: "number", means: "millimetres"},
	reflect.TypeFor[unit.Temp]():        {kind: "number", means: "degrees Celsius"},
	reflect.TypeFor[unit.Area]():        {kind: "number", means: "square metres"},
	reflect.TypeFor[unit.Span]():        {kind: "integer", means: "seconds"},
	reflect.TypeFor[unit.Share]():       {kind: "number", means: "a fraction of one"},
	reflect.TypeFor[unit.Money]():       {kind: "string", means: "in the plan's currency", pattern: `^-?[0-9]+\.[0-9]{2,6}$`},
	reflect.TypeFor[unit.Moment]():      {kind: "string", means: "time of day, with the number of days after the first when it is a later one", pattern: `^([01][0-9]|2[0-3]):[0-5][0-9]([+-][1-9][0-9]*)?$`},
	reflect.TypeFor[unit.System]():      {kind: "string", words: []any{"metric", "us"}},
	reflect.TypeFor[finding.Severity](): {kind: "string", words: []any{"note", "caution", "stop"}},
	reflect.TypeFor[plan.LineKind]():    {kind: "string", words: []any{plan.Fresh, plan.MadeUp, plan.Earlier, plan.Product, plan.ByProduct}},
	reflect.TypeFor[plan.TaskKind]():    {kind: "string", words: []any{plan.Cook, plan.Cool, plan.Filling}},
}

// generate describes the plan by its type, with the comments of its fields. Keys that are not in it are allowed, as a plan may
// learn to say more under the same number.
func generate(t *testing.T) []byte {
	t.Helper()
	r := jsonschema.Reflector{Anonymous: true, ExpandedStruct: true, AllowAdditionalProperties: true}
	for _, folder := range []string{"plan", "finding"} {
		if err := r.AddGoComments("kettlefrost/internal", "../internal/"+folder); err != nil {
			t.Fatal(err)
		}
	}
	comments := r.CommentMap
	r.CommentMap = nil
	r.LookupComment = func(of reflect.Type, field string) string { return describe(comments, of, field) }
	r.Mapper = func(of reflect.Type) *jsonschema.Schema {
		q, ok := quantities[of]
		if !ok && of.PkgPath() == "kettlefrost/internal/unit" {
			t.Fatalf("%s is not among the quantities", of)
		}
		if !ok {
			return nil
		}
		return &jsonschema.Schema{Type: q.kind, Pattern: q.pattern, Enum: q.words}
	}
	s := r.Reflect(plan.Plan{})
	s.Title = plan.Schema
	text, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	return append(text, '\n')
}

// describe is the comment of a type or a field, with the unit of a quantity.
func describe(comments map[string]string, of reflect.Type, field string) string {
	key := of.PkgPath() + "." + of.Name()
	if field == "" {
		return comments[key]
	}
	text, unit := comments[key+"."+field], ""
	if f, ok := of.FieldByName(field); ok {
		kind := f.Type
		for kind.Kind() == reflect.Pointer || kind.Kind() == reflect.Slice {
			kind = kind.Elem()
		}
		unit = quantities[kind].means
	}
	if text == "" || unit == "" {
		return text + unit
	}
	return unit + "; " + text
}

func TestPlanSchemaIsCurrent(t *testing.T) {
	want := generate(t)
	if *update {
		if err := os.WriteFile("plan.v1.json", want, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got, err := schema.Of("plan"); err != nil || !bytes.Equal(got, want) {
		t.Fatalf("plan.v1.json is not what the type of the plan says (%v); read the difference of a run with -update", err)
	}
}

func compiled(t *testing.T, what string) *validator.Schema {
	t.Helper()
	text, err := schema.Of(what)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := validator.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := validator.NewCompiler()
	if err := c.AddResource(what+".json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(what + ".json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func demoPlan(t *testing.T, run string) map[string]any {
	t.Helper()
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	book := bookfile.Read(demo.Book()).Book
	text, err := json.Marshal(plan.Make(t.Context(), book, foods, book.Runs[run]))
	if err != nil {
		t.Fatal(err)
	}
	value, err := validator.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return value.(map[string]any)
}

// Every run of the demo gives a plan that its schema allows, as an independent validator reads it.
func TestDemoPlansKeepTheSchema(t *testing.T) {
	s := compiled(t, "plan")
	for run := range bookfile.Read(demo.Book()).Book.Runs {
		if err := s.Validate(demoPlan(t, run)); err != nil {
			t.Errorf("%s: %.1000s", run, err) // the whole of it fills screens
		}
	}
}

// A plan with something missing or of the wrong kind is not let through.
func TestBrokenPlansAreRefused(t *testing.T) {
	s := compiled(t, "plan")
	for name, damage := range map[string]func(map[string]any){
		"no findings":       func(p map[string]any) { delete(p, "findings") },
		"findings are null": func(p map[string]any) { p["findings"] = nil },
		"money as a number": func(p map[string]any) { p["summary"].(map[string]any)["buy_total"] = 12.5 },
		"mass as text":      func(p map[string]any) { p["summary"].(map[string]any)["food_g"] = "12 lb" },
		"an hour 25":        func(p map[string]any) { p["summary"].(map[string]any)["start"] = "25:00" },
		"a bad severity":    func(p map[string]any) { p["findings"].([]any)[0].(map[string]any)["severity"] = "grave" },
		"other units":       func(p map[string]any) { p["units"] = "imperial" },
	} {
		p := demoPlan(t, "small-friday")
		damage(p)
		if s.Validate(p) == nil {
			t.Errorf("%s: let through", name)
		}
	}
}

func TestUnknownSchema(t *testing.T) {
	if _, err := schema.Of("no-such"); err == nil {
		t.Error("there is a schema of no-such")
	}
}

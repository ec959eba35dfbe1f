package schema_test

import (
	"bytes"
	"encoding"
	"encoding/json"
	"flag"
	"os"
	"path"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/invopop/jsonschema"
	validator "github.com/santhosh-tekuri/jsonschema/v6"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/caution"
	"kettlefrost/internal/cli"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/draftdish"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/folder"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/hazardplan"
	"kettlefrost/internal/hazards"
	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/history"
	"kettlefrost/internal/homecard"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/nextrun"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/roster"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/trials"
	"kettlefrost/internal/unit"
	"kettlefrost/schema"
)

var update = flag.Bool("update", false, "write the schemas that come from types anew")

// quantity is how a type that writes itself looks in JSON.
type quantity struct {
	kind    string
	means   string // said of each field of the type
	pattern string
	words   []any
	orNull  bool // null is written for what is not known
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
	reflect.TypeFor[unit.Density]():     {kind: "number", means: "kilograms per litre"},
	reflect.TypeFor[foodtable.Value]():  {kind: "number", orNull: true},
	reflect.TypeFor[foodtable.Kind]():   {kind: "string", words: []any{foodtable.Liquid.String(), foodtable.Bulk.String()}},
	reflect.TypeFor[record.Numbers]():   {kind: "string", means: "numbers of packs, such as 1-12, 15", pattern: `^([1-9][0-9]*(-[1-9][0-9]*)?(, [1-9][0-9]*(-[1-9][0-9]*)?)*)?$`},
	reflect.TypeFor[record.ID]():        {kind: "string", means: "the id of an entry; empty for none", pattern: `^([0-9a-f]{32})?$`},
	reflect.TypeFor[record.Hash]():      {kind: "string", means: "a SHA-256 hash", pattern: `^[0-9a-f]{64}$`},
	reflect.TypeFor[record.Role]():      {kind: "string", words: []any{record.Owner, record.Cook, record.Packer, record.Inspector}},
	reflect.TypeFor[record.Way]():       {kind: "string", words: []any{record.Collect, record.Deliver}},
	reflect.TypeFor[orders.Status]():    {kind: "string", words: []any{orders.Open, orders.Picking, orders.Ready, orders.PartGone, orders.Gone, orders.Off}},
	reflect.TypeFor[ledger.MoveKind]():  {kind: "string", words: []any{ledger.MoveInvoice, ledger.MoveCredit, ledger.MovePayment, ledger.MoveRefund}},
	reflect.TypeFor[unit.System]():      {kind: "string", words: []any{"metric", "us"}},
	reflect.TypeFor[finding.Severity](): {kind: "string", words: []any{"note", "caution", "stop"}},
	reflect.TypeFor[plan.LineKind]():    {kind: "string", words: []any{plan.Fresh, plan.MadeUp, plan.Earlier, plan.Product, plan.ByProduct}},
	reflect.TypeFor[plan.TaskKind]():    {kind: "string", words: []any{plan.Cook, plan.Cool, plan.Filling, plan.Washing, plan.Visit}},
	reflect.TypeFor[plan.TaskState]():   {kind: "string", words: []any{plan.ToDo, plan.Begun, plan.Done}},
	reflect.TypeFor[kitchen.Aim]():      {kind: "string", words: []any{kitchen.Finish, kitchen.LateStart, kitchen.ShortDay, kitchen.LeastWaiting, kitchen.LeastChange}},
	reflect.TypeFor[coldwatch.Advice](): {kind: "string", words: []any{"note", "look", "inspect", "measure"}},
	reflect.TypeFor[lots.Sort]():        {kind: "string", words: []any{lots.Goods, lots.Batch, lots.Packs, lots.Pot, lots.Unknown}},
	reflect.TypeFor[draftdish.Sure]():   {kind: "string", words: []any{"", "maybe", "likely", "certain"}},
	reflect.TypeFor[heatcase.Process](): {kind: "string", words: []any{heatcase.Cool, heatcase.Freeze, heatcase.Thaw, heatcase.Reheat}},
}

// generated is the schemas that are written from a type, each with the packages that say what its fields are.
var generated = []struct {
	what    string
	of      any
	title   string
	folders []string
}{
	{"plan", plan.Plan{}, plan.Schema, []string{"plan", "finding"}},
	{"day", roster.Day{}, roster.Schema, []string{"roster", "plan"}},
	{"seal", plan.Sealing{}, plan.SealSchema, []string{"plan", "finding"}},
	{"week", plan.Week{}, plan.WeekSchema, []string{"plan", "finding"}},
	{"after", plan.After{}, plan.AfterSchema, []string{"plan", "finding"}},
	{"filling", plan.LotWeights{}, plan.FillingSchema, []string{"plan", "finding"}},
	{"heat", heatcase.Answer{}, heatcase.Schema, []string{"heatcase", "finding"}},
	{"recall", lots.Report{}, lots.RecallSchema, []string{"lots"}},
	{"trace", lots.Story{}, lots.TraceSchema, []string{"lots"}},
	{"found", app.FoundSheet{}, app.FoundSchema, []string{"app", "find"}},
	{"stock", coldstore.Report{}, coldstore.ReportSchema, []string{"coldstore", "finding"}},
	{"probes", app.ProbeList{}, app.ProbeListSchema, []string{"app", "finding"}},
	{"readings-day", app.ReadingDay{}, app.ReadingDaySchema, []string{"app"}},
	{"readings-taken", app.PostedTaken{}, app.PostedTakenSchema, []string{"app"}},
	{"log-file", app.LogReading{}, app.LogFileSchema, []string{"app"}},
	{"watch", coldwatch.Report{}, coldwatch.WatchSchema, []string{"coldwatch", "finding"}},
	{"excursion", coldwatch.ExcursionReport{}, coldwatch.ExcursionSchema, []string{"coldwatch"}},
	{"thermometers", thermometers.Report{}, thermometers.ReportSchema, []string{"thermometers", "finding"}},
	{"safety", app.Safety{}, app.SafetySchema, []string{"app", "critical"}},
	{"safety-run", app.SafetyRunSheet{}, app.SafetyRunSchema, []string{"app", "critical"}},
	{"safety-record", app.SafetyRecordSheet{}, app.SafetyRecordSchema, []string{"app", "critical"}},
	{"orders", app.OrderSheet{}, app.OrdersSchema, []string{"app", "orders", "record", "finding"}},
	{"order", app.OrderView{}, app.OrderSchema, []string{"app", "orders", "record"}},
	{"pick-list", app.PickSheet{}, app.PicksSchema, []string{"app", "orders"}},
	{"trial", trials.Report{}, trials.ReportSchema, []string{"trials", "finding"}},
	{"trials", trials.ListReport{}, trials.ListSchema, []string{"trials", "finding"}},
	{"hazards", hazardplan.Report{}, hazardplan.ReportSchema, []string{"hazardplan", "haccp", "finding"}},
	{"labels", app.LabelList{}, app.LabelsSchema, []string{"app", "finding"}},
	{"label", app.LabelSheet{}, app.LabelSchema, []string{"app", "finding"}},
	{"formula", formula.Report{}, formula.ReportSchema, []string{"formula", "finding"}},
	{"formulas", formula.List{}, formula.ListSchema, []string{"formula"}},
	{"disperse", app.DisperseView{}, app.DisperseSchema, []string{"app", "dispersal", "finding"}},
	{"hazard-plan", haccp.Document{}, haccp.Schema, []string{"haccp", "foodcode"}},
	{"folder", folder.Contents{}, folder.Schema, []string{"folder", "critical"}},
	{"folder-seal", folder.Seal{}, folder.SealSchema, []string{"folder", "record"}},
	{"rules", hazards.RuleSheet{}, hazards.RulesSchema, []string{"hazards"}},
	{"board", app.Report{}, app.BoardSchema, []string{"app", "finding"}},
	{"learned", app.LearnedReport{}, app.LearnedSchema, []string{"app", "finding"}},
	{"bill", ledger.BillView{}, ledger.BillSchema, []string{"ledger", "record"}},
	{"bill-draft", ledger.DraftView{}, ledger.DraftSchema, []string{"ledger", "record", "finding"}},
	{"credit-note", ledger.CreditView{}, ledger.CreditSchema, []string{"ledger", "record"}},
	{"accounts", ledger.AccountsView{}, ledger.AccountsSchema, []string{"ledger", "record"}},
	{"statement", ledger.StatementView{}, ledger.StatementSchema, []string{"ledger", "record"}},
	{"bills-check", ledger.AuditView{}, ledger.AuditSchema, []string{"ledger", "finding"}},
	{"next-run", nextrun.View{}, nextrun.Schema, []string{"nextrun", "finding"}},
	{"import", app.ImportSheet{}, app.ImportSchema, []string{"app", "tables"}},
	{"book-log", app.BookLogSheet{}, app.BookLogSchema, []string{"app"}},
	{"kettle", heatcase.KettleAnswer{}, heatcase.KettleSchema, []string{"heatcase", "finding"}},
	{"calibration", heatcase.Calibration{}, heatcase.CalibrationSchema, []string{"heatcase"}},
	{"properties", heatcase.Properties{}, heatcase.PropertiesSchema, []string{"heatcase", "finding"}},
	{"home-card", homecard.Card{}, homecard.Schema, []string{"homecard", "finding"}},
	{"keeping", app.KeepingSheet{}, app.KeepingSchema, []string{"app", "keeping", "finding"}},
	{"retained", app.RetainedSheet{}, app.RetainedSchema, []string{"app", "retained", "record", "finding"}},
	{"draft", draftdish.Draft{}, draftdish.Schema, []string{"draftdish", "finding"}},
	{"check", cli.Checked{}, "kettlefrost.check/1", []string{"cli", "finding"}},
	{"demo", cli.Demo{}, "kettlefrost.demo/1", []string{"cli"}},
	{"foods", cli.FoodsFound{}, "kettlefrost.foods/1", []string{"cli", "foodtable"}},
	{"made", cli.MadeFoods{}, "kettlefrost.made/1", []string{"cli"}},
	{"media", cli.Media{}, "kettlefrost.media/1", []string{"cli"}},
	{"form", cli.HeatingForm{}, "kettlefrost.form/1", []string{"cli"}},
	{"buy", cli.Shopping{}, "kettlefrost.buy/1", []string{"cli", "plan"}},
	{"cooling", app.CoolingsReport{}, app.CoolingSchema, []string{"app", "finding"}},
	{"boards", cli.Boards{}, "kettlefrost.boards/1", []string{"cli"}},
	{"people", cli.People{}, "kettlefrost.people/1", []string{"cli"}},
	{"version", cli.Version{}, "kettlefrost.version/1", []string{"cli"}},
}

// generate describes a value by its type, with the comments of its fields. Keys that are not in it are allowed, as it may learn to say
// more under the same number.
func generate(t *testing.T, value any, title string, folders []string) []byte {
	t.Helper()
	r := jsonschema.Reflector{Anonymous: true, ExpandedStruct: true, AllowAdditionalProperties: true}
	for _, folder := range folders {
		if err := r.AddGoComments("kettlefrost/internal", "../internal/"+folder); err != nil {
			t.Fatal(err)
		}
	}
	comments := r.CommentMap
	r.CommentMap = nil
	r.LookupComment = func(of reflect.Type, field string) string { return describe(comments, of, field) }
	r.Mapper = func(of reflect.Type) *jsonschema.Schema {
		q, ok := quantities[of]
		text, value := reflect.TypeFor[encoding.TextMarshaler](), reflect.TypeFor[json.Marshaler]()
		if !ok && strings.HasPrefix(of.PkgPath(), "kettlefrost/") && (path.Base(of.PkgPath()) == "unit" || of.Implements(text) || of.Implements(value)) {
			t.Fatalf("%s is not among the quantities", of)
		}
		if !ok {
			return nil
		}
		s := &jsonschema.Schema{Type: q.kind, Pattern: q.pattern, Enum: q.words}
		if q.orNull {
			return &jsonschema.Schema{AnyOf: []*jsonschema.Schema{s, {Type: "null"}}}
		}
		return s
	}
	named := map[string]reflect.Type{}
	r.Namer = func(of reflect.Type) string {
		if _, scalar := quantities[of]; scalar {
			return of.String() // unit.Density: it has no definition, and is not taken for one of the same name
		}
		if other := named[of.Name()]; of.Name() != "" && other != nil && other != of {
			t.Fatalf("%s: %s and %s would be one definition", title, other, of)
		}
		named[of.Name()] = of
		return "" // the type's name
	}
	s := r.Reflect(value)
	s.Title = title
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

func TestSchemasAreCurrent(t *testing.T) {
	for _, g := range generated {
		want := generate(t, g.of, g.title, g.folders)
		file := g.what + ".v1.json"
		if *update {
			if err := os.WriteFile(file, want, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if got, err := schema.Of(g.what); err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s is not what its type says (%v); read the difference of a run with -update", file, err)
		}
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

// A day with everything in it keeps its schema, and nothing that is missing or of the wrong kind is let through.
func TestDaysKeepTheSchema(t *testing.T) {
	now := unit.Moment(1450)
	day := func() map[string]any {
		text, err := json.Marshal(roster.DayOf(plan.Plan{Kitchen: "Test", Run: "soup", Day: "2026-12-01", Timetable: plan.Timetable{Status: "feasible", Now: &now,
			Tasks: []plan.Task{{Key: "soup/boil/1", Kind: plan.Cook, Start: 1440, End: 1500, People: []string{"Ada"}, On: []string{"pot"}, Careful: caution.For(caution.BlendingHot), State: plan.Begun},
				{Key: "visit/1", Kind: plan.Visit, Start: 1500, End: 1510, People: []string{"Ada"}, On: []string{}, Careful: []caution.Caution{}, Slack: unit.Minute}},
			Rows:  []plan.Row{{Name: "Ada", Person: true, Bars: []plan.Bar{{Task: 0, From: 1440, To: 1500}}, Away: []plan.Bar{{Task: -1, From: 0, To: 400}}}},
			Aims:  []plan.AimResult{{Aim: kitchen.LateStart, Value: unit.Hour, Bound: unit.Hour, Status: "optimal"}},
			Moves: []plan.Move{{Task: 1, Was: 1490, Why: "follows another task"}}}}))
		if err != nil {
			t.Fatal(err)
		}
		value, err := validator.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		return value.(map[string]any)
	}
	s := compiled(t, "day")
	if err := s.Validate(day()); err != nil {
		t.Errorf("%.1000s", err)
	}
	for name, damage := range map[string]func(timetable map[string]any){
		"no tasks":       func(t map[string]any) { delete(t, "tasks") },
		"a state":        func(t map[string]any) { t["tasks"].([]any)[0].(map[string]any)["state"] = "late" },
		"an aim":         func(t map[string]any) { t["aims"].([]any)[0].(map[string]any)["aim"] = "fun" },
		"slack as text":  func(t map[string]any) { t["tasks"].([]any)[1].(map[string]any)["slack_s"] = "1 min" },
		"now as minutes": func(t map[string]any) { t["now"] = 1450 },
	} {
		d := day()
		damage(d["timetable"].(map[string]any))
		if s.Validate(d) == nil {
			t.Errorf("%s: let through", name)
		}
	}
}

// A week, a run that is over and a filling of the demo keep their schemas, and what is missing or of the wrong kind is not let through.
func TestMoneyAndWeightsKeepTheirSchemas(t *testing.T) {
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	book := bookfile.Read(demo.Book()).Book
	filling, err := plan.WeighFilling(book, foods, "ale-cheddar-lb", book.Packs["ale-cheddar-lb"].Checks[0])
	if err != nil {
		t.Fatal(err)
	}
	run := plan.Open(t.Context(), book, foods, book.Runs["small-friday"])
	for _, c := range []struct {
		what   string
		value  any
		damage func(map[string]any)
	}{
		{"week", plan.PlanWeek(t.Context(), book, foods), func(w map[string]any) { w["contribution"] = 100 }},
		{"week", plan.PlanWeek(t.Context(), book, foods), func(w map[string]any) { delete(w, "resources") }},
		{"after", run.After(kitchen.Actual{}), func(a map[string]any) { a["packs"] = "none" }},
		{"filling", filling, func(f map[string]any) { f["nets_g"] = []any{"459 g"} }},
		{"filling", filling, func(f map[string]any) { f["net_contents"].(map[string]any)["next"].(map[string]any)["lost"] = 1.99 }},
	} {
		text, err := json.Marshal(c.value)
		if err != nil {
			t.Fatal(err)
		}
		value, err := validator.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		s := compiled(t, c.what)
		if err := s.Validate(value); err != nil {
			t.Errorf("%s: %.1000s", c.what, err)
		}
		c.damage(value.(map[string]any))
		if s.Validate(value) == nil {
			t.Errorf("a damaged %s is let through", c.what)
		}
	}
}

// A recall and a lot's story of a small history keep their schemas, and what is missing or of the wrong kind is not let through.
func TestRecallsKeepTheirSchemas(t *testing.T) {
	h, err := history.Make(history.Size{Runs: 3, Packs: 30}, 1)
	if err != nil {
		t.Fatal(err)
	}
	sealed, err := h.Sealed()
	if err != nil {
		t.Fatal(err)
	}
	var standing record.Standing
	for _, e := range sealed {
		if _, err := standing.Add(e); err != nil {
			t.Fatal(err)
		}
	}
	state, _ := lots.Of(standing.All())
	report, err := state.Report(lots.Ask{Codes: []string{string(h.Bulk[0].Lot)}}, h.End)
	if err != nil {
		t.Fatal(err)
	}
	story, err := state.Story(string(h.Packs[0].Lot))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what   string
		value  any
		damage func(map[string]any)
	}{
		{"recall", report, func(r map[string]any) { r["account"].(map[string]any)["made"] = "all" }},
		{"recall", report, func(r map[string]any) { delete(r, "calls") }},
		{"recall", report, func(r map[string]any) { r["lots"].([]any)[0].(map[string]any)["sort"] = "stuff" }},
		{"trace", story, func(y map[string]any) { y["balance"].(map[string]any)["came_g"] = "1 kg" }},
		{"trace", story, func(y map[string]any) { delete(y["events"].([]any)[0].(map[string]any), "who") }},
	} {
		text, err := json.Marshal(c.value)
		if err != nil {
			t.Fatal(err)
		}
		value, err := validator.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		s := compiled(t, c.what)
		if err := s.Validate(value); err != nil {
			t.Errorf("%s: %.1000s", c.what, err)
		}
		c.damage(value.(map[string]any))
		if s.Validate(value) == nil {
			t.Errorf("a damaged %s is let through", c.what)
		}
	}
}

// What is published is called after the schema field, and the README names it.
func TestNames(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"book", "request"}
	for _, g := range generated {
		want = append(want, g.what)
		if g.title != "kettlefrost."+g.what+"/1" {
			t.Errorf("%s is published as %s", g.title, g.what)
		}
		if !bytes.Contains(readme, []byte("`"+g.what+"`")) {
			t.Errorf("the README does not name %s", g.what)
		}
	}
	slices.Sort(want)
	if got := schema.Names(); !slices.Equal(got, want) {
		t.Errorf("the names are %v, want %v", got, want)
	}
}

func TestUnknownSchema(t *testing.T) {
	if _, err := schema.Of("no-such"); err == nil {
		t.Error("there is a schema of no-such")
	}
}

func answered(t *testing.T, c heatcase.Case) map[string]any {
	t.Helper()
	a, err := c.Answer()
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	value, err := validator.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return value.(map[string]any)
}

// Every kind of answer keeps the schema, and nothing that is missing or of the wrong kind is let through.
func TestHeatAnswersKeepTheSchema(t *testing.T) {
	s := compiled(t, "heat")
	for _, p := range heatcase.Processes() {
		if err := s.Validate(answered(t, heatcase.Example(p))); err != nil {
			t.Errorf("%s: %.1000s", p, err)
		}
	}
	pot := heatcase.Example(heatcase.Cool)
	for _, set := range [][2]string{{"pot", "12 in x 10 in"}, {"stir", "thin"}, {"in", "ice-bath-still"}} {
		if err := pot.Set(set[0], set[1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Validate(answered(t, pot)); err != nil {
		t.Errorf("a stirred pot: %.1000s", err)
	}
	for name, damage := range map[string]func(map[string]any){
		"no time":        func(a map[string]any) { delete(a, "time") },
		"time as text":   func(a map[string]any) { a["time"].(map[string]any)["usual"].(map[string]any)["time_s"] = "2 h" },
		"a new process":  func(a map[string]any) { a["process"] = "boil" },
		"runs are null":  func(a map[string]any) { a["runs"] = nil },
		"case as a list": func(a map[string]any) { a["case"] = []any{} },
		"other units":    func(a map[string]any) { a["units"] = "imperial" },
		"a bad severity": func(a map[string]any) { a["findings"].([]any)[0].(map[string]any)["severity"] = "grave" },
		"a word for ice": func(a map[string]any) { a["food"].(map[string]any)["ice_share"] = "much" },
	} {
		a := answered(t, heatcase.Example(heatcase.Freeze))
		damage(a)
		if s.Validate(a) == nil {
			t.Errorf("%s: let through", name)
		}
	}
}

package bookfile_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// folder is a book of one file, or of several when names and texts alternate.
func folder(text string, more ...string) fstest.MapFS {
	files := fstest.MapFS{"book.yaml": {Data: []byte(text)}}
	for i := 0; i+1 < len(more); i += 2 {
		files[more[i]] = &fstest.MapFile{Data: []byte(more[i+1])}
	}
	return files
}

const house = "kitchen: {name: Mill Lane}\n"

func TestReadSmallBook(t *testing.T) {
	l := bookfile.Read(folder(`# a comment
kitchen:
  name: Mill Lane
  units: us
  air: 0 °C
people:
  ann: {name: Ann, shift: {from: 06:30, to: 15:00, breaks: [{from: 10:00, to: 10:15}]}, wage: $19.50/h}
ingredients:
  lentil:
    name: 1.10
    food: 01001
    measures: {"cup, picked over": 192 g, each: 0.05 g}
    trim: 1.5 %
    buy: [{pack: 5 lb, price: 18.75}]
    allergens: none
  paste:
    name: "null"
    analysis: {water: 70, protein: 8.25, fat: 9, carbohydrate: 10, ash: 2.75, sodium: 0, source: "supplier's sheet"}
    allergens: [milk, fish: trout]
    contains:
      - {name: 0x10, allergens: wheat}
      - name: 1_000
`, "dishes/dal.yaml", `
dishes:
  dal:
    name: dal
    steps:
      - id: simmer
        do: |
          Simmer it.
          Stir.
        use:
          - {of: lentil, amount: "2 1/2 cups, picked over"}
        in: kettle
        stays: false
`, "packs.yaml", "\ufeffpacks:\r\n  dal-lb: {name: Dal, dish: dal, fill: [{of: simmer, pieces: 2}], bag: small, pace: 40 s, price: $6.50}\r\n"))
	if len(l.Findings) != 0 {
		t.Fatalf("findings: %v", l.Findings)
	}
	air, sodium := unit.Temp(0), 0.0
	want := kitchen.Book{
		Kitchen: kitchen.Kitchen{Name: "Mill Lane", Units: unit.US, Air: &air},
		People: map[kitchen.PersonID]kitchen.Person{"ann": {
			Name:  "Ann",
			Shift: kitchen.Shift{From: 390, To: 900, Breaks: []kitchen.Break{{From: 600, To: 615}}},
			Wage:  19_500_000,
		}},
		Ingredients: map[kitchen.IngredientID]kitchen.Ingredient{
			"lentil": {
				Name: "1.10", Food: "01001", Trim: 15_000_000,
				Measures: map[string]unit.Amount{
					"cup, picked over": {Kind: unit.AmountMass, Mass: 192 * unit.Gram},
					"each":             {Kind: unit.AmountMass, Mass: 50 * unit.Milligram},
				},
				Buy:       []kitchen.Offer{{Pack: unit.Amount{Kind: unit.AmountMass, Mass: 5 * unit.Pound}, Price: 18_750_000}},
				Allergens: kitchen.Allergens{Answered: true},
			},
			"paste": {
				Name:      "null",
				Analysis:  &kitchen.Analysis{Water: 70, Protein: 8.25, Fat: 9, Carb: 10, Ash: 2.75, Sodium: &sodium, Source: "supplier's sheet"},
				Allergens: kitchen.Allergens{Answered: true, Names: []string{"milk", "fish: trout"}},
				Contains: []kitchen.SubIngredient{
					{Name: "0x10", Allergens: kitchen.Allergens{Answered: true, Names: []string{"wheat"}}},
					{Name: "1_000"},
				},
			},
		},
		Dishes: map[kitchen.DishID]kitchen.Dish{"dal": {Name: "dal", Steps: []kitchen.Step{{
			ID: "simmer", Do: "Simmer it.\nStir.\n",
			Use: []kitchen.Use{{Of: "lentil", Amount: unit.Amount{Kind: unit.AmountVolume, Volume: 5 * unit.Cup / 2, Measure: "picked over"}}},
			In:  []kitchen.EquipmentID{"kettle"},
		}}}},
		Packs: map[kitchen.PackID]kitchen.Pack{"dal-lb": {
			Name: "Dal", Dish: "dal", Fill: []kitchen.Fill{{Of: "simmer", Pieces: 2}}, Bag: "small", Pace: 40, Price: 6_500_000,
		}},
	}
	if diff := cmp.Diff(want, l.Book); diff != "" {
		t.Errorf("book (-want +got):\n%s", diff)
	}
}

func TestDemoBookIsSound(t *testing.T) {
	l := bookfile.Read(demo.Book())
	if len(l.Findings) != 0 {
		t.Errorf("reading: %v", l.Findings)
	}
	table, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	known := func(ndb string) bool { _, ok := table.Lookup(ndb); return ok }
	for _, f := range l.Place(kitchen.Check(l.Book, known)) {
		if f.Severity == finding.Stop {
			t.Errorf("%s: %s", f.Code, f)
		}
		if f.At == nil {
			t.Errorf("no place in the files for %s: %s", f.Path, f)
		}
	}
	if len(l.Book.Dishes) == 0 || len(l.Book.Runs) == 0 {
		t.Errorf("%d dishes, %d runs", len(l.Book.Dishes), len(l.Book.Runs))
	}
}

func TestPlaceTakesTheNearestLargerThing(t *testing.T) {
	l := bookfile.Read(folder(house + "runs:\n  \"no. 3\":\n    want:\n      - {pack: dal-lb, count: 2}\n"))
	other := finding.Position{File: "elsewhere.yaml", Line: 7}
	placed := l.Place(finding.List{
		{Path: `runs["no. 3"].want[0].count`}, {Path: `runs["no. 3"].want[0].mix.dal-lb`}, {Path: `runs["no. 3"].want[4]`},
		{Path: "freezers.chest"}, {Path: ""}, {Path: "kitchen", At: &other},
	})
	want := []string{"book.yaml:5:31", "book.yaml:5:9", "book.yaml:4:5", "", "", "elsewhere.yaml:7"}
	for i, f := range placed {
		got := ""
		if f.At != nil {
			got = f.At.String()
		}
		if got != want[i] {
			t.Errorf("%s is placed at %q, want %q", f.Path, got, want[i])
		}
	}
}

// fullDay is a request that says all that can be said of a run's days.
const fullDay = `day: 2026-12-01
days: 2
finish: 15:00
want:
  - {pack: dal-lb, count: 12}
appointments:
  - {what: the butcher, at: 09:00, for: 15 min, people: 2, brings: [lentil, onion]}
  - {what: the van, at: 9:30+1, takes: dal-lb}
aims: [late-start, least-waiting]
`

func TestReadARequestForTwoDays(t *testing.T) {
	got, found := bookfile.ReadRequest("two-days.yaml", []byte(fullDay))
	want := kitchen.Request{
		Day: "2026-12-01", Days: 2, Finish: 15 * 60, Want: []kitchen.Want{{Pack: "dal-lb", Count: 12}},
		Visits: []kitchen.Visit{
			{What: "the butcher", At: 9 * 60, For: 15 * unit.Minute, People: 2, Brings: []kitchen.IngredientID{"lentil", "onion"}},
			{What: "the van", At: 24*60 + 9*60 + 30, Takes: []kitchen.PackID{"dal-lb"}},
		},
		Aims: []kitchen.Aim{kitchen.LateStart, kitchen.LeastWaiting},
	}
	if diff := cmp.Diff(want, got); diff != "" || len(found) != 0 {
		t.Errorf("%v\n%s", found, diff)
	}
}

func TestReadSkillsAndWashing(t *testing.T) {
	l := bookfile.Read(folder(dal + `        use: [{from: soak, take: all}]
        skill: kettle
        at-once: true
people:
  ann: {name: Ann, shift: {from: 06:30, to: 15:00}, can: [kettle, sealing]}
  bob: {name: Bob, shift: {from: 06:30, to: 15:00}, can: sealing}
equipment:
  jar: {name: blender, kind: blender, count: 1, wash: 4 min, wash-down: 10 min}
packs:
  dal-lb: {name: dal, dish: dal, fill: [], bag: small, pace: 40 s, skill: sealing}
`))
	if len(l.Findings) != 0 {
		t.Fatal(lines(l.Findings))
	}
	step, jar := l.Book.Dishes["dal"].Steps[0], l.Book.Equipment["jar"]
	if step.Skill != "kettle" || !step.AtOnce || jar.Wash != 4*unit.Minute || jar.WashDown != 10*unit.Minute || l.Book.Packs["dal-lb"].Skill != "sealing" {
		t.Errorf("step %+v, jar %+v", step, jar)
	}
	if diff := cmp.Diff([]kitchen.Skill{"kettle", "sealing"}, l.Book.People["ann"].Can) + cmp.Diff([]kitchen.Skill{"sealing"}, l.Book.People["bob"].Can); diff != "" {
		t.Error(diff)
	}
}

func TestReadRequest(t *testing.T) {
	r, found := bookfile.ReadRequest("tuesday.yaml", []byte("want:\n  - {pack: dal-lb, count: 12}\nfinish: 17:30\nreserve: 5 %\n"))
	want := kitchen.Request{Want: []kitchen.Want{{Pack: "dal-lb", Count: 12}}, Finish: 17*60 + 30, Reserve: 5 * unit.PerCent}
	if diff := cmp.Diff(want, r); diff != "" || len(found) != 0 {
		t.Errorf("%v\n%s", found, diff)
	}
	_, found = bookfile.ReadRequest("tuesday.yaml", []byte("want:\n  - pack: dal-lb\n    cuont: 12\n"))
	if len(found) != 1 || found[0].Where != "the request, target 1" || found[0].Path != "want[0].cuont" || found[0].At.String() != "tuesday.yaml:3:5" ||
		!strings.Contains(found[0].Fix, "count") {
		t.Errorf("%+v", found)
	}
	if _, found = bookfile.ReadRequest("empty.yaml", nil); len(found) != 1 || found[0].Code != bookfile.CodeMissingKey || found[0].Path != "want" {
		t.Errorf("an empty request: %+v", found)
	}
}

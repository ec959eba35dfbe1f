package bookfile_test

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/kitchen/kitchentest"
	"kettlefrost/internal/unit"
)

func written(t interface{ Fatal(...any) }, book kitchen.Book) fstest.MapFS {
	texts, err := bookfile.Write(book)
	if err != nil {
		t.Fatal(err)
	}
	files := fstest.MapFS{}
	for name, text := range texts {
		files[name] = &fstest.MapFile{Data: text}
	}
	return files
}

func TestWriteDemoAndReadItBack(t *testing.T) {
	book := bookfile.Read(demo.Book()).Book
	files := written(t, book)
	l := bookfile.Read(files)
	if diff := cmp.Diff(book, l.Book); diff != "" || len(l.Findings) != 0 {
		t.Errorf("%s\n%s", lines(l.Findings), diff)
	}
	for id := range book.Dishes {
		if files["dishes/"+string(id)+".yaml"] == nil {
			t.Errorf("dish %s has no file of its own", id)
		}
	}
	if again := written(t, l.Book); !cmp.Equal(files, again) {
		t.Error("writing what was read gives other files")
	}
}

// The text is what a cook would write, in the order of the nouns, with quotes where YAML needs them and nowhere else.
func TestWriteReadsWell(t *testing.T) {
	warm := unit.TempF(200)
	texts, err := bookfile.Write(kitchen.Book{
		Kitchen: kitchen.Kitchen{Name: "Mill Lane: the kitchen"},
		Ingredients: map[kitchen.IngredientID]kitchen.Ingredient{
			"salt": {Name: "true", Food: "02047", Buy: []kitchen.Offer{{Pack: mass(3 * unit.Pound), Price: 18_750_000}}, Allergens: kitchen.Allergens{Answered: true}},
			"fish": {Name: "fish", Measures: map[string]unit.Amount{"cup, flaked": mass(unit.Gram * 130)}, Allergens: kitchen.Allergens{Answered: true, Names: []string{"fish: trout", "milk"}}},
		},
		Dishes: map[kitchen.DishID]kitchen.Dish{"dal": {Name: "dal", Steps: []kitchen.Step{{
			ID: "simmer", Do: "Simmer.", How: "Thick:\ndraws a line.\n", In: []kitchen.EquipmentID{"kettle"}, HeatTo: &warm, Time: 40 * unit.Minute,
			Use: []kitchen.Use{{Of: "salt", Amount: mass(unit.Ounce)}, {From: "soak", Take: kitchen.Take{Given: true, Share: unit.Whole}}},
		}}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{
		"kitchen.yaml": "kitchen:\n  name: 'Mill Lane: the kitchen'\n",
		"ingredients.yaml": `ingredients:
  fish:
    name: fish
    measures: {'cup, flaked': 130 g}
    allergens: ['fish: trout', milk]
  salt:
    name: 'true'
    food: '02047'
    buy:
    - {pack: 3 lb, price: 18.75}
    allergens: none
`,
		"dishes/dal.yaml": `dishes:
  dal:
    name: dal
    steps:
    - id: simmer
      do: Simmer.
      how: |
        Thick:
        draws a line.
      use:
      - {of: salt, amount: 1 oz}
      - {from: soak, take: all}
      in: [kettle]
      heat-to: 200 °F
      time: 40 min
`,
	}
	got := map[string]string{}
	for name, text := range texts {
		got[name] = string(text)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func mass(m unit.Mass) unit.Amount { return unit.Amount{Kind: unit.AmountMass, Mass: m} }

func TestWriteSaysWhatCannotBeWritten(t *testing.T) {
	_, err := bookfile.Write(kitchen.Book{Bags: map[kitchen.BagID]kitchen.Bag{"small": {Length: -1}}})
	if err == nil || !strings.Contains(err.Error(), "bags.yaml: small: length: ") {
		t.Errorf("got %v", err)
	}
}

func TestOddDishNamesMakeNoOddFiles(t *testing.T) {
	book := kitchen.Book{Dishes: map[kitchen.DishID]kitchen.Dish{"../../etc/dal": {Name: "a"}, "": {Name: "b"}, "dal": {Name: "c"}}}
	files := written(t, book)
	if len(files) != 3 || files["dishes.yaml"] == nil || files["dishes/dal.yaml"] == nil {
		t.Errorf("got %v", slices.Sorted(mapKeys(files)))
	}
	if diff := cmp.Diff(book, bookfile.Read(files).Book); diff != "" {
		t.Error(diff)
	}
}

func mapKeys(m fstest.MapFS) func(func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// Whatever a book says, down to the strangest name, is read back from its files as it was.
func TestWrittenBooksAreReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		book := kitchentest.Book(t)
		files := written(t, book)
		l := bookfile.Read(files)
		if diff := cmp.Diff(book, l.Book); diff != "" || len(l.Findings) != 0 {
			for name, f := range files {
				t.Logf("%s:\n%s", name, f.Data)
			}
			t.Errorf("%s\n%s", lines(l.Findings), diff)
		}
	})
}

package formula_test

import (
	"io/fs"
	"maps"
	"slices"
	"testing"
	"testing/fstest"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
)

func table(t testing.TB) *foodtable.Table {
	t.Helper()
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	return foods
}

func demoBook(t testing.TB) kitchen.Book { return bookWith(t, "") }

// bookWith is the demo's book with more written into it.
func bookWith(t testing.TB, more string) kitchen.Book {
	t.Helper()
	files := fstest.MapFS{}
	err := fs.WalkDir(demo.Book(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(demo.Book(), name)
		files[name] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if more != "" {
		files["more.yaml"] = &fstest.MapFile{Data: []byte(more)}
	}
	read := bookfile.Read(files)
	if read.Findings.Worst() == finding.Stop {
		t.Fatal(read.Findings)
	}
	return read.Book
}

func pot(t testing.TB, book kitchen.Book, s formula.Subject) formula.Pot {
	t.Helper()
	p, err := formula.PotOf(book, table(t), s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func part(p formula.Pot, id kitchen.IngredientID) formula.Part {
	i := slices.IndexFunc(p.Parts, func(x formula.Part) bool { return x.Ingredient == id })
	if i < 0 {
		return formula.Part{}
	}
	return p.Parts[i]
}

func subjects(book kitchen.Book) []formula.Subject {
	var all []formula.Subject
	for _, id := range slices.Sorted(maps.Keys(book.Dishes)) {
		all = append(all, formula.SubjectsOf(book, id)...)
	}
	return all
}

// larder are ingredients that the demo has none of, each a row of USDA SR28; nobody has said what they do, so that it is guessed.
const larder = `
ingredients:
  sour-cream: {name: sour cream, food: "01056", storage: chilled, allergens: [milk]}
  yogurt: {name: plain yogurt, food: "01116", storage: chilled, allergens: [milk]}
  half-and-half: {name: half-and-half, food: "01049", storage: chilled, allergens: [milk]}
  cream-cheese: {name: cream cheese, food: "01017", storage: chilled, allergens: [milk]}
  gruyere: {name: gruyere, food: "01023", storage: chilled, allergens: [milk]}
  mayonnaise: {name: mayonnaise, food: "04025", storage: chilled, allergens: [egg]}
  potato: {name: russet potato, food: "11353", storage: dry, allergens: none}
  macaroni: {name: elbow macaroni, food: "20120", storage: dry, allergens: [wheat]}
  rice: {name: long-grain rice, food: "20044", storage: dry, allergens: none}
  corn-starch: {name: cornstarch, food: "20027", storage: dry, allergens: none}
  boiled-egg: {name: hard-boiled egg, food: "01129", storage: chilled, allergens: [egg]}
  lettuce: {name: romaine lettuce, food: "11251", storage: chilled, allergens: none}
  beef: {name: beef stew meat, food: "13369", storage: chilled, class: intact-meat, allergens: none}
`

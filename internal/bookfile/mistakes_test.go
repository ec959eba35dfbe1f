package bookfile_test

import (
	"strings"
	"testing"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
)

// dal is a dish with one step, to which lines are added; the first added line is line 8 of the file.
const dal = house + "dishes:\n  dal:\n    name: dal\n    steps:\n      - id: simmer\n        do: Simmer.\n"

func TestMistakesInABook(t *testing.T) {
	const use = "        use: [{of: lentil, amount: 1 kg}]\n"
	for _, c := range []struct {
		name, text   string
		at, code     string
		path, where  string
		message, fix string // parts of them
	}{
		{"misspelt key", dal + "        use:\n          - {of: lentil, amuont: 1 kg}\n",
			"book.yaml:9:26", bookfile.CodeUnknownKey, "dishes.dal.steps[0].use[0].amuont", "dish dal, step simmer, line 1", "no key amuont", "did you mean amount?"},
		{"key from elsewhere", dal + use + "        serves: 12\n",
			"book.yaml:9:9", bookfile.CodeUnknownKey, "dishes.dal.steps[0].serves", "dish dal, step simmer", "no key serves", "make-up"},
		{"misspelt section", house + "equipement: {}\n",
			"book.yaml:2:1", bookfile.CodeUnknownKey, "equipement", "file book.yaml", "no key equipement", "did you mean equipment?"},
		{"comma in a value in brackets", dal + "        use: [{of: lentil, amount: 2 cups, picked}]\n",
			"book.yaml:8:44", bookfile.CodeUnknownKey, "dishes.dal.steps[0].use[0].picked", "dish dal, step simmer, line 1", "no key picked", "in quotes"},
		{"volume for a mass", dal + use + "        load: {at-most: 12 cups}\n",
			"book.yaml:9:25", bookfile.CodeBadQuantity, "dishes.dal.steps[0].load.at-most", "dish dal, step simmer", `"12 cups" is a volume; a mass is meant`, "at-most: 1.2 kg or 2 lb 10 oz"},
		{"bare number for an amount", dal + "        use: [{of: lentil, amount: 3}]\n",
			"book.yaml:8:36", bookfile.CodeBadQuantity, "dishes.dal.steps[0].use[0].amount", "dish dal, step simmer, line 1", "bare number", "amount: 5 lb or"},
		{"temperature without its degree", dal + use + "        heat-to: 165\n",
			"book.yaml:9:18", bookfile.CodeBadQuantity, "dishes.dal.steps[0].heat-to", "dish dal, step simmer", "has no unit", "74 °C or 165 °F"},
		{"share as a fraction", dal + "        use: [{from: soak, take: 0.5}]\n",
			"book.yaml:8:34", bookfile.CodeBadQuantity, "dishes.dal.steps[0].use[0].take", "dish dal, step simmer, line 1", `"0.5" is not a share`, "take: all or 60 %"},
		{"wage without per", house + "people:\n  ann: {name: Ann, shift: {from: 06:30, to: 15:00}, wage: $19}\n",
			"book.yaml:3:59", bookfile.CodeBadQuantity, "people.ann.wage", "person ann", "does not say per what", "$19.50/h"},
		{"time of day", house + "people:\n  ann: {name: Ann, shift: {from: 6.30, to: 15:00}}\n",
			"book.yaml:3:34", bookfile.CodeBadQuantity, "people.ann.shift.from", "person ann", "24-hour clock", "06:30"},
		{"time of a run without its minutes", house + "runs:\n  friday: {want: [], appointments: [{what: van, at: 9+1}]}\n",
			"book.yaml:3:53", bookfile.CodeBadQuantity, "runs.friday.appointments[0].at", "run friday, appointment 1", "24-hour clock", "at: 09:00 or 09:00+1"},
		{"day of a run in words", house + "runs:\n  friday: {want: [], appointments: [{what: van, at: 09:00+one}]}\n",
			"book.yaml:3:53", bookfile.CodeBadQuantity, "runs.friday.appointments[0].at", "run friday, appointment 1", "no time with a number of days", "09:00+1"},
		{"appointment without its time", house + "runs:\n  friday: {want: [], appointments: [{what: van}]}\n",
			"book.yaml:3:37", bookfile.CodeMissingKey, "runs.friday.appointments[0].at", "run friday, appointment 1", "at is missing: when", "at: 09:00 or 09:00+1"},
		{"misspelt aim", house + "runs:\n  friday: {want: [], aims: [finish, least-wating]}\n",
			"book.yaml:3:37", bookfile.CodeBadChoice, "runs.friday.aims[1]", "run friday", `aims is "least-wating"`, "did you mean least-waiting?"},
		{"days in words", house + "runs:\n  friday: {want: [], days: two}\n",
			"book.yaml:3:28", bookfile.CodeBadNumber, "runs.friday.days", "run friday", `"two" is not a whole number`, "days: 3"},
		{"appointments as one group", house + "runs:\n  friday: {want: [], appointments: {what: van, at: 09:00}}\n",
			"book.yaml:3:22", bookfile.CodeWrongShape, "runs.friday.appointments", "run friday", "appointments should be a list", "dash"},
		{"at once with a time", dal + use + "        at-once: 5 min\n",
			"book.yaml:9:18", bookfile.CodeBadChoice, "dishes.dal.steps[0].at-once", "dish dal, step simmer", `at-once is "5 min"`, "true or false"},
		{"bare number for a wash", house + "equipment:\n  jar: {name: jar, kind: blender, count: 1, wash: 5}\n",
			"book.yaml:3:51", bookfile.CodeBadQuantity, "equipment.jar.wash", "equipment jar", "has no unit", "wash: 45 min"},
		{"misspelt wash-down", house + "equipment:\n  jar: {name: jar, kind: blender, count: 1, wash-dwon: 5 min}\n",
			"book.yaml:3:45", bookfile.CodeUnknownKey, "equipment.jar.wash-dwon", "equipment jar", "no key wash-dwon", "did you mean wash-down?"},
		{"skills as a group", house + "people:\n  ann: {name: Ann, shift: {from: 06:30, to: 15:00}, can: {kettle: true}}\n",
			"book.yaml:3:53", bookfile.CodeWrongShape, "people.ann.can", "person ann", "can should be a list", "dash"},
		{"missing key", dal,
			"book.yaml:6:9", bookfile.CodeMissingKey, "dishes.dal.steps[0].use", "dish dal, step simmer", "use is missing: ingredients", "write use:"},
		{"missing quantity", house + "bags:\n  small: {name: small, width: 6 in}\n",
			"book.yaml:3:3", bookfile.CodeMissingKey, "bags.small.length", "bag small", "length is missing: inside, below the seal", "length: 25 mm or 16 in"},
		{"nothing after a key", house + "bags:\n  small:\n    name: small\n    length:\n    width: 6 in\n",
			"book.yaml:5:5", bookfile.CodeEmptyValue, "bags.small.length", "bag small", "length has nothing after it", "25 mm"},
		{"null after a key", house + "suppliers:\n  mill: {name: null}\n",
			"book.yaml:3:10", bookfile.CodeEmptyValue, "suppliers.mill.name", "supplier mill", "name has nothing after it", "write name:"},
		{"key twice", house + "suppliers:\n  mill:\n    name: Mill\n    name: Other mill\n",
			"book.yaml:5:5", bookfile.CodeDuplicateKey, "suppliers.mill.name", "supplier mill", "here and at book.yaml:4:5", "keep one"},
		{"entry twice", house + "suppliers:\n  mill: {name: Mill}\n  mill: {name: Other mill}\n",
			"book.yaml:4:3", bookfile.CodeDuplicateKey, "suppliers.mill", "supplier mill", "here and at book.yaml:3:3", "another name"},
		{"one value for a list of groups", dal + "        use: lentil\n",
			"book.yaml:8:9", bookfile.CodeWrongShape, "dishes.dal.steps[0].use", "dish dal, step simmer", "use should be a list, but is a single value", "dash"},
		{"group for a list", dal + "        use: {of: lentil, amount: 1 kg}\n",
			"book.yaml:8:9", bookfile.CodeWrongShape, "dishes.dal.steps[0].use", "dish dal, step simmer", "use should be a list, but is a group of keys", "dash"},
		{"list for a value", dal + use + "        time: [5 min, 6 min]\n",
			"book.yaml:9:9", bookfile.CodeWrongShape, "dishes.dal.steps[0].time", "dish dal, step simmer", "time should be a single value, but is a list", "45 min"},
		{"value for a group", house + "people: Ann\n",
			"book.yaml:2:1", bookfile.CodeWrongShape, "people", "the book", "people should be a group of keys, but is a single value", "indented"},
		{"list for a file", "- kitchen\n",
			"book.yaml:1:1", bookfile.CodeWrongShape, "", "file book.yaml", "the file should be a group of keys, but is a list", "key: value"},
		{"number in words", house + "bags:\n  small: {name: small, length: 9 in, width: 6 in, stock: many}\n",
			"book.yaml:3:58", bookfile.CodeBadNumber, "bags.small.stock", "bag small", `"many" is not a whole number`, "stock: 3"},
		{"octal trap", house + "bags:\n  small: {name: small, length: 9 in, width: 6 in, stock: 010}\n",
			"book.yaml:3:58", bookfile.CodeBadNumber, "bags.small.stock", "bag small", `"010" is not a whole number`, "plain digits"},
		{"number of a decimal", house + "ingredients:\n  x: {name: x, analysis: {water: 1e2, protein: 0, fat: 0, carbohydrate: 0, ash: 0, source: me}}\n",
			"book.yaml:3:34", bookfile.CodeBadNumber, "ingredients.x.analysis.water", "ingredient x", `"1e2" is not a number`, "water: 12.5"},
		{"yes for true", house + "ingredients:\n  water: {name: water, free: yes}\n",
			"book.yaml:3:30", bookfile.CodeBadChoice, "ingredients.water.free", "ingredient water", `free is "yes"`, "true or false"},
		{"misspelt kind", house + "equipment:\n  pot: {name: pot, kind: vessle, count: 2}\n",
			"book.yaml:3:26", bookfile.CodeBadChoice, "equipment.pot.kind", "equipment pot", `kind is "vessle"`, "did you mean vessel?"},
		{"none beside a name", house + "ingredients:\n  x: {name: x, allergens: [none, milk]}\n",
			"book.yaml:3:16", bookfile.CodeBadChoice, "ingredients.x.allergens", "ingredient x", "none cannot stand beside", "write none, or a list"},
		{"allergens without an answer", house + "ingredients:\n  x: {name: x, allergens: []}\n",
			"book.yaml:3:16", bookfile.CodeBadChoice, "ingredients.x.allergens", "ingredient x", "empty list", "write none"},
		{"allergen in a list in a list", house + "ingredients:\n  x: {name: x, allergens: [[milk]]}\n",
			"book.yaml:3:28", bookfile.CodeWrongShape, "ingredients.x.allergens[0]", "ingredient x", "but is a list", "write none"},
		{"alias", house + "bags: *small\n",
			"book.yaml:2:7", bookfile.CodeSyntax, "", "file book.yaml", "alias", "in quotes"},
		{"anchor", house + "suppliers: &all\n  mill: {name: Mill}\n",
			"book.yaml:2:12", bookfile.CodeRefused, "", "file book.yaml", "&all", "take it out"},
		{"anchor and alias", "kitchen: &k {name: Mill Lane}\nsuppliers:\n  mill: *k\n",
			"book.yaml:3:9", bookfile.CodeRefused, "", "file book.yaml", "*k stands for something written elsewhere", "write the value out"},
		{"merge key", house + "suppliers:\n  mill: {<<: {name: Mill}, name: Mill}\n",
			"book.yaml:3:10", bookfile.CodeRefused, "", "file book.yaml", "merge key", "write the keys out"},
		{"tag", house + "suppliers:\n  mill: {name: !!str Mill}\n",
			"book.yaml:3:16", bookfile.CodeRefused, "", "file book.yaml", "!!str before a value (a tag)", "take it out"},
		{"bare tag", house + "suppliers:\n  mill: {name: ! Mill}\n",
			"book.yaml:3:16", bookfile.CodeRefused, "", "file book.yaml", "! before a value (a tag)", "take it out"},
		{"two documents", house + "---\nsuppliers: {}\n",
			"book.yaml:2:1", bookfile.CodeRefused, "", "file book.yaml", "second document", "one document"},
		{"list as a key", house + "suppliers:\n  [mill]: {name: Mill}\n",
			"book.yaml:3:3", bookfile.CodeWrongShape, "suppliers", "the book", "a key should be a word, but is a list", "key: value"},
		{"tab", "kitchen:\n\tname: Mill Lane\n",
			"book.yaml:2:1", bookfile.CodeSyntax, "", "file book.yaml", "cannot begin like this", "spaces, not tabs"},
		{"colon in a name", "kitchen:\n  name: Mill Lane: the kitchen\n",
			"book.yaml:2:18", bookfile.CodeSyntax, "", "file book.yaml", "a colon stands", "quotes"},
		{"open bracket", house + "bags: {small: {name: x\n",
			"book.yaml:3:1", bookfile.CodeSyntax, "", "file book.yaml", "not closed", "close the bracket"},
		{"open quote", "kitchen:\n  name: \"Mill Lane\n",
			"book.yaml:3:1", bookfile.CodeSyntax, "", "file book.yaml", "quote", "close the quote"},
		{"not in line", "kitchen:\n  name: Mill Lane\n place: Harrow\n",
			"book.yaml:3:2", bookfile.CodeSyntax, "", "file book.yaml", "line up", "indent"},
		{"not UTF-8", "kitchen:\n  name: Caf\xe9\n",
			"book.yaml:2:12", bookfile.CodeNotUTF8, "", "file book.yaml", "E9", "UTF-8"},
		{"UTF-16", "\xff\xfek\x00i\x00",
			"book.yaml:1:1", bookfile.CodeNotUTF8, "", "file book.yaml", "UTF-16", "UTF-8"},
		{"NUL", "kitchen:\n  name: é\x00\n",
			"book.yaml:2:10", bookfile.CodeControl, "", "file book.yaml", "U+0000", "delete it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := bookfile.Read(folder(c.text))
			for _, f := range l.Findings {
				if f.At != nil && f.At.String() == c.at && f.Code == c.code {
					compare(t, "path", f.Path, c.path)
					compare(t, "where", f.Where, c.where)
					contains(t, "message", f.Message, c.message)
					contains(t, "fix", f.Fix, c.fix)
					if f.Severity != finding.Stop {
						t.Errorf("severity %v", f.Severity)
					}
					return
				}
			}
			t.Errorf("want %s at %s, got\n%s", c.code, c.at, lines(l.Findings))
		})
	}
}

// One mistake gives one finding: nothing that follows from it is reported too.
func TestOneMistakeOneFinding(t *testing.T) {
	for _, text := range []string{
		house + "bags:\n  small: {name: small, length: 9 kg, width: 6 in}\n",
		house + "bags:\n  small: {name: small, length: 9 in, width: 6 in, hieght: 2 in}\n",
		house + "bags: [small]\n",
		house + "suppliers:\n  mill: {name: Mill}\n  mill: {name: Mill}\n",
		house + "suppliers: *all\n",
		"kitchen: {}\n",
		"suppliers:\n  mill: {name: Mill}\n",
		"kitchen:\n\tname: x\n",
	} {
		if l := bookfile.Read(folder(text)); len(l.Findings) != 1 {
			t.Errorf("%s gives\n%s", text, lines(l.Findings))
		}
	}
}

func TestAllMistakesAreReportedInTheOrderOfTheFiles(t *testing.T) {
	l := bookfile.Read(folder("bags:\n  small: {name: small, length: x, width: y}\nkitchen: {nmae: z}\n",
		"a.yaml", "suppliers:\n  mill: {name: Mill}\n", "z/z.yaml", "suppliers:\n  mill: {name: Mill}\n  two: 3\n", "broken.yaml", "a: [\n"))
	var got []string
	for _, f := range l.Findings {
		got = append(got, f.At.String()+" "+f.Code)
	}
	want := []string{
		"book.yaml:2:32 book-bad-quantity", "book.yaml:2:42 book-bad-quantity", "book.yaml:3:1 book-missing-key", "book.yaml:3:11 book-unknown-key",
		"broken.yaml:2:1 book-syntax", "z/z.yaml:2:3 book-duplicate-key", "z/z.yaml:3:3 book-wrong-shape",
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	contains(t, "message", l.Findings[5].Message, "a.yaml:2:3")
}

func compare(t *testing.T, what, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("%s is %q, want %q", what, got, want)
	}
}

func contains(t *testing.T, what, got, part string) {
	t.Helper()
	if !strings.Contains(got, part) {
		t.Errorf("%s is %q, which does not have %q", what, got, part)
	}
}

func lines(l finding.List) string {
	var b strings.Builder
	for _, f := range l {
		b.WriteString(f.Code + " " + f.Path + " | " + f.String() + "\n")
	}
	return b.String()
}

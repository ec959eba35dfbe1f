package tables

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/unit"
)

var goods = Form{Name: "delivery", Fields: []Field{
	{Key: "what", Name: "ingredient", Also: []string{"item", "product"}, Required: true},
	{Key: "mass", Name: "mass", Also: []string{"weight", "net weight"}, Kind: Mass, Required: true},
	{Key: "paid", Name: "paid", Also: []string{"price", "amount"}, Kind: Money},
	{Key: "use-by", Name: "use by", Kind: Date},
	{Key: "door", Name: "temperature at the door", Also: []string{"temp"}, Kind: Temp},
	{Key: "count", Name: "count", Kind: Number},
	{Key: "way", Name: "way", Kind: OneOf, Words: []WordOf{{"collect", []string{"pick up"}}, {"deliver", []string{"delivery"}}}},
	{Key: "note", Name: "note", Kind: Lines},
}}

func read(t testing.TB, csv string, settings Settings) Reading {
	t.Helper()
	sheet, err := ReadCSV([]byte(csv), settings.Delimiter())
	if err != nil {
		t.Fatal(err)
	}
	return goods.Read(sheet, settings)
}

// Columns in any order, by their names or what others call them, units in the header or the cell; what is no field is told.
func TestColumnsInAnyOrder(t *testing.T) {
	for _, csv := range []string{
		"Ingredient,Mass (kg),Paid,Use by,Way\nleek,12.5,$18.75,2026-12-09,pick up\n",
		"WAY,use_by,Price,weight_kg,PRODUCT\ncollect,9 Dec 2026,18.75,12.5,leek\n",
		"\n,,,,\nitem;Net weight in g;amount;Use-by;way\nleek;12500;18,75 €;December 9, 2026;Pick-Up\n"[6:],
		"ingredient,mass,paid,use by,way\nleek,12.5 kg,18.75,2026-12-09T00:00:00,collect\n",
	} {
		r := read(t, csv, nil)
		if len(r.Rows) != 1 || r.Mistakes != nil || r.Questions != nil {
			t.Fatalf("%q: %v, %v", csv, r.Mistakes, r.Questions)
		}
		row := r.Rows[0]
		if row.Text("what") != "leek" || row.Mass("mass") != 12500*unit.Gram || row.Money("paid") != 1875*unit.Cent || row.Text("use-by") != "2026-12-09" || row.Text("way") != "collect" || row.Has("note") {
			t.Errorf("%q: %+v", csv, row)
		}
	}
	r := read(t, "item,mass,colour\nleek,2 lb 3 oz,green\n", nil)
	if !slices.Equal(r.Unused, []string{"colour"}) || len(r.Rows) != 1 || r.Rows[0].Mass("mass") != 35*unit.Ounce {
		t.Errorf("%+v", r)
	}
}

// Every mistake is named with its row and column, as a spreadsheet shows them, and with what to do; the rows without one are read.
func TestMistakesNameRowAndColumn(t *testing.T) {
	for _, c := range []struct{ csv, where, says string }{
		{"item,mass\nleek,12 cups\n", "row 2, column B (mass)", "is a volume"},
		{"item,mass\n,1 kg\n", "row 2, column A (item)", "the ingredient is needed"},
		{"item,mass,count\nleek,1 kg,2.5\n", "row 2, column C (count)", "no whole number"},
		{"item,mass,use by\nleek,1 kg,soon\n", "row 2, column C (use by)", "is no day"},
		{"item,mass,use by\nleek,1 kg,2026-02-30\n", "row 2, column C (use by)", "that month has 28"},
		{"item,mass,way\nleek,1 kg,drone\n", "row 2, column C (way)", "write collect or deliver"},
		{"item,mass,paid\nleek,1 kg,a lot\n", "row 2, column C (paid)", "such as"},
		{"item,mass,paid\nleek,1 kg,\"12,34.5\"\n", "row 2, column C (paid)", "groups of three"},
		{"item,weight,mass\nleek,1 kg,1 kg\n", "row 1, column C (mass)", "a second time: column B is it already"},
		{"item,colour\nleek,green\n", "row 1", "no column is the mass: name a column mass, or weight, or net weight"},
		{"item,mass\n", "", "no row under the header"},
		{"", "", "the sheet is empty"},
		{"item,mass\n\"le\nek\",1 kg\n", "row 2, column A (item)", "line break"},
	} {
		r := read(t, c.csv, nil)
		if len(r.Mistakes) != 1 || r.Mistakes[0].Where() != c.where || !strings.Contains(r.Mistakes[0].Error(), c.says) || r.Mistakes[0].Fix == "" || len(r.Rows) != 0 {
			t.Errorf("%q: %v", c.csv, r.Mistakes)
		}
	}
	r := read(t, "item,mass\nleek,1 kg\nsalt,?\n\nbean,2 kg\n,\npea,two\n", nil)
	if len(r.Rows) != 2 || r.Rows[1].Number != 5 || len(r.Mistakes) != 2 || r.Mistakes[1].Row != 7 {
		t.Errorf("%+v", r)
	}
	if got := []string{Letters(1), Letters(26), Letters(27), Letters(702), Letters(703)}; !slices.Equal(got, []string{"A", "Z", "AA", "ZZ", "AAA"}) {
		t.Errorf("columns %v", got)
	}
}

// What a sheet leaves open is asked, with the cell that needs it, and nothing that depends on it is read before.
func TestAskedNeverGuessed(t *testing.T) {
	for _, c := range []struct {
		is, csv, key, because string
		answer, wrong         string // an answer, and one that gives something else
		check                 func(Row) bool
	}{
		{"a day with its parts in some order", "item,mass,use by\nleek,1 kg,2026-12-01\nsalt,1 kg,03/04/2026\n", AskDates, "row 3, column C (use by)", "dmy", "mdy", func(r Row) bool { return r.Text("use-by") == "2026-04-03" }},
		{"also when only one order can be", "item,mass,use by\nleek,1 kg,3/1/2026\nsalt,1 kg,25.12.2026\n", AskDates, "row 2", "dmy", "ymd", func(r Row) bool { return r.Text("use-by") == "2026-12-25" }},
		{"a sign with three figures behind it", "item;mass\nleek;1,500 kg\n", AskDecimal, "row 2, column B", "comma", "point", func(r Row) bool { return r.Mass("mass") == 1500*unit.Gram }},
		{"so with a point", "item,mass\nleek,1.500 kg\n", AskDecimal, "row 2", "point", "comma", func(r Row) bool { return r.Mass("mass") == 1500*unit.Gram }},
		{"both in one sheet", "item;mass\nleek;1,5 kg\nsalt;1.5 kg\n", AskDecimal, "row 3, column B (mass) has \"1.5 kg\", and row 2", "", "", nil},
		{"a mass without a unit", "item,mass\nleek,12.5\n", AskMass, "row 2", "lb", "kg", func(r Row) bool { return r.Mass("mass") == 200*unit.Ounce }},
		{"a temperature without a unit", "item,mass,temp\nleek,1 kg,39\n", AskTemp, "row 2, column C", "f", "c", func(r Row) bool { x, ok := r.Temp("door"); return ok && x == unit.TempF(39) }},
	} {
		r := read(t, c.csv, nil)
		if len(r.Questions) != 1 || r.Questions[0].Key != c.key || !strings.Contains(r.Questions[0].Because, c.because) || len(r.Questions[0].Choices) < 2 {
			t.Errorf("%s: %v", c.is, r.Questions)
			continue
		}
		if c.check == nil {
			continue
		}
		r = read(t, c.csv, Settings{c.key: c.answer})
		if len(r.Rows) == 0 || r.Questions != nil || r.Mistakes != nil || !c.check(r.Rows[len(r.Rows)-1]) {
			t.Errorf("%s, answered %s: %+v", c.is, c.answer, r)
		}
		if other := read(t, c.csv, Settings{c.key: c.wrong}); len(other.Mistakes) == 0 && c.check(other.Rows[len(other.Rows)-1]) {
			t.Errorf("%s: the answer makes no difference", c.is)
		}
	}
	if err := (Settings{AskDates: "any"}).Check(); err == nil || !strings.Contains(err.Error(), "dmy, mdy, ymd") {
		t.Errorf("an answer that is none: %v", err)
	}
	if err := (Settings{"colour": "red"}).Check(); err == nil || (Settings{AskDecimal: "comma", AskMass: ""}).Check() != nil {
		t.Errorf("a setting that is none: %v", err)
	}
}

// One number that can be read in one way only settles the others.
func TestTheSignBeforeDecimals(t *testing.T) {
	for _, c := range []struct {
		numbers []string
		want    sign
		open    bool
	}{
		{[]string{"12", "3"}, unsaid, false},
		{[]string{"1,5"}, comma, false}, {[]string{"1.5"}, point, false}, {[]string{"1.2345"}, point, false}, {[]string{"12345,678"}, comma, false},
		{[]string{"1.234,5"}, comma, false}, {[]string{"1,234.5"}, point, false}, {[]string{"1,234,567"}, point, false}, {[]string{"1.234.567"}, comma, false},
		{[]string{"0.500"}, point, false}, {[]string{"0,500"}, comma, false}, {[]string{",5"}, comma, false},
		{[]string{"1,500"}, unsaid, true}, {[]string{"12.500"}, unsaid, true},
	} {
		for _, n := range c.numbers {
			if got, open := proof(n); got != c.want || open != c.open {
				t.Errorf("%s: %q, open %v", n, got, open)
			}
		}
	}
	for _, c := range []struct {
		text  string
		sign  sign
		plain string
		ok    bool
	}{
		{"$1,234.50", point, "$1234.50", true}, {"1.234,50 €", comma, "1234.50 €", true}, {"1'234.5", point, "1234.5", true}, {"1\u202f234,5", comma, "1234.5", true}, {"2 lb 3 1/2 oz", point, "2 lb 3 1/2 oz", true},
		{"1,23", point, "", false}, {"1.5.2", point, "", false}, {"1,234'567", point, "", false}, {"12,345,67", point, "", false}, {",5 kg", comma, ".5 kg", false},
	} {
		got, problem := plainly(c.text, c.sign)
		if (problem == "") != (c.ok || c.text == ",5 kg") || c.ok && got != c.plain {
			t.Errorf("%q with %q: %q, %s", c.text, c.sign, got, problem)
		}
	}
	r := read(t, "item;mass\nleek;1,500 kg\nsalt;0,5 kg\n", nil)
	if len(r.Rows) != 2 || r.Rows[0].Mass("mass") != 1500*unit.Gram {
		t.Errorf("%+v", r)
	}
}

// A number reads the same whichever way a country writes it.
func TestNumbersOfAllCountries(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole, decimals := rapid.IntRange(0, 9_999_999).Draw(t, "whole"), rapid.StringMatching(`[0-9]{0,4}`).Draw(t, "decimals")
		plain := unit.Count(whole) * unit.One
		digits := strings.TrimSuffix(plain.String(), ".0")
		grouped := func(between string) string {
			s := digits
			for i := len(s) - 3; i > 0; i -= 3 {
				s = s[:i] + between + s[i:]
			}
			return s
		}
		for _, way := range []struct {
			between, sign string
			decimal       sign
		}{{"", ".", point}, {"", ",", comma}, {",", ".", point}, {".", ",", comma}, {"'", ".", point}, {"\u00a0", ",", comma}} {
			text, want := grouped(way.between), digits
			if decimals != "" {
				text, want = text+way.sign+decimals, want+"."+decimals
			}
			if got, problem := plainly(text, way.decimal); got != want || problem != "" {
				t.Fatalf("%q reads as %q (%s), want %q", text, got, problem, want)
			}
			if s, open := proof(text); s != unsaid && s != way.decimal || open && s != unsaid {
				t.Fatalf("%q proves %q", text, s)
			}
		}
	})
}

// A cell that a spreadsheet keeps as a number or a day is read as it is, whatever the texts beside it leave open.
func TestExactCells(t *testing.T) {
	sheet := Sheet{Rows: [][]Cell{{{Text: "item"}, {Text: "mass kg"}, {Text: "use by"}, {Text: "count"}}, {{Text: "leek"}, {Text: "1.500", Exact: true}, {Text: "2026-12-09", Exact: true}, {Text: "3.0", Exact: true}}, {{Text: "salt"}, {Text: "2,5"}}}}
	r := goods.Read(sheet, nil)
	if len(r.Rows) != 2 || r.Rows[0].Mass("mass") != 1500*unit.Gram || r.Rows[1].Mass("mass") != 2500*unit.Gram || r.Rows[0].Whole("count") != 3 {
		t.Errorf("%+v", r)
	}
}

// Whatever stands in a cell, reading ends with rows, a mistake or a question, and the header that the form writes is one that it reads.
func FuzzRead(f *testing.F) {
	f.Add("1,5 kg", "03/04/2026", "12")
	f.Add("2 lb", "9 Dec 2026", "1.234,5")
	f.Add("'", ",.,", "\u00a0")
	f.Fuzz(func(t *testing.T, mass, day, paid string) {
		var head []Cell
		for _, h := range goods.Header("kg", "°C") {
			head = append(head, Cell{Text: h})
		}
		r := goods.Read(Sheet{Rows: [][]Cell{head, {{Text: "leek"}, {Text: mass}, {Text: paid}, {Text: day}}}}, nil)
		if len(r.Rows)+len(r.Mistakes)+len(r.Questions) == 0 || len(r.Unused) > 0 {
			t.Fatalf("%+v", r)
		}
		for _, m := range r.Mistakes {
			if m.Problem == "" || m.Fix == "" {
				t.Fatalf("%+v", m)
			}
		}
	})
}

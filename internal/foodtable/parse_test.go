package foodtable

import (
	"encoding/json"
	"errors"
	"reflect"
	"strings"
	"testing"
	"testing/iotest"
)

// A small table that is right, for tests that put one mistake into it. Its figures are invented.
const (
	fewFoods = "ndb_no,name,description,food_group,refuse_pct,water_g,energy_kcal,protein_g,fat_g,carb_g,fibre_g,sugars_g,ash_g," +
		"sat_fat_g,trans_fat_g,cholesterol_mg,sodium_mg,potassium_mg,calcium_mg,iron_mg,vit_d_ug,alcohol_g\n" +
		"00001,\"leeks, raw\",Leeks,Vegetables,50,83,61,1.5,0.3,14,1.8,,1,0,,0,20,180,59,2.1,0,0\n" +
		"00002,stock,Broth,Soups,,97,6,0.2,0,1,0,0.5,0.7,0,0,0,303,20,3,0.08,,\n"
	fewMeasures  = "ndb_no,amount,measure,grams\n00001,1,cup,89\n"
	fewYields    = "item,method,yield_pct,moisture_change_pct,fat_change_pct,source,basis,ndb_no\nLeeks,boiled,92.5,-7.5,,invented,raw,00003\n"
	fewDensities = "ndb_no,form,kind,g_per_ml,source\n00002,,liquid or paste,1.01,invented\n"
)

func parse(foods, measures, yields, densities string) (*Table, error) {
	return Parse(strings.NewReader(foods), strings.NewReader(measures), strings.NewReader(yields), strings.NewReader(densities))
}

func TestParse(t *testing.T) {
	table, err := parse(fewFoods, fewMeasures, fewYields, fewDensities)
	if err != nil {
		t.Fatal(err)
	}
	leeks, ok := table.Lookup("00001")
	if !ok || leeks.Name != "leeks, raw" || leeks.RefusePct != Given(50) || leeks.Per100g.WaterG != Given(83) || leeks.Per100g.SugarsG.IsGiven() {
		t.Errorf("leeks: %+v", leeks)
	}
	stock, _ := table.Lookup("00002")
	if stock.RefusePct.IsGiven() || stock.Per100g.FatG != Given(0) || stock.Per100g.AlcoholG.IsGiven() {
		t.Errorf("stock: %+v", stock)
	}
	if y := table.Yields("00003"); len(y) != 1 || y[0].MoistureChangeG != Given(-7.5) || y[0].FatChangeG.IsGiven() {
		t.Errorf("yields: %+v", y)
	}
	if _, ok := table.Lookup("1"); ok {
		t.Error("found a food by a number without its zeros")
	}
}

func TestParseSaysWhere(t *testing.T) {
	change := func(s, old, with string) string {
		if !strings.Contains(s, old) {
			t.Fatalf("nothing to change: %q", old)
		}
		return strings.Replace(s, old, with, 1)
	}
	for _, c := range []struct {
		name                               string
		foods, measures, yields, densities string
		want                               string
		alsoWant                           string
	}{
		{name: "a word for a number", foods: change(fewFoods, "83,61", "wet,61"), want: `foods.csv:2:40: water_g: "wet" is not a number`},
		{name: "no such number", foods: change(fewFoods, "83,61", "NaN,61"), want: `foods.csv:2:40: water_g: "NaN" is not a number`},
		{name: "hexadecimal", foods: change(fewFoods, "83,61", "0x1p4,61"), want: `foods.csv:2:40: water_g: "0x1p4" is not a number`},
		{name: "more than all", foods: change(fewFoods, "83,61", "101,61"), want: "foods.csv:2:40: water_g: 101 is not from 0 to 100"},
		{name: "less than nothing", foods: change(fewFoods, "83,61", "-1,61"), want: "foods.csv:2:40: water_g: -1 is not from 0 to 100"},
		{name: "no name", foods: change(fewFoods, ",stock,", ",,"), want: "foods.csv:3:7: name: is empty"},
		{name: "number without its zeros", foods: change(fewFoods, "00002", "2"), want: `foods.csv:3:1: ndb_no: "2" is not a five-digit NDB number`},
		{name: "food twice", foods: change(fewFoods, "00002", "00001"), want: "foods.csv:3:1: ndb_no: 00001 is there twice"},
		{name: "name twice", foods: change(fewFoods, ",stock,", `,"leeks, raw",`), want: `foods.csv:3:7: name: "leeks, raw" names two foods`},
		{name: "two mistakes", foods: change(change(fewFoods, "83,61", "wet,61"), ",stock,", ",,"),
			want: `"wet" is not a number`, alsoWant: "foods.csv:3:7: name: is empty"},
		{name: "a cell short", foods: change(fewFoods, ",,\n", ",\n"), want: "foods.csv:3:1: wrong number of fields"},
		{name: "another column", foods: change(fewFoods, "water_g", "water_oz"), want: `foods.csv:1:47: water_g: the header says "water_oz"`},
		{name: "nothing", foods: "\n", want: "foods.csv:1: empty, want a header line"},
		{name: "quote left open", measures: fewMeasures + "00001,1,\"cup,89\n", want: `measures.csv:3:17: extraneous or missing " in quoted-field`},
		{name: "measure of no food", measures: change(fewMeasures, "00001", "00009"), want: "measures.csv:2:1: ndb_no: no food has the number 00009"},
		{name: "weightless", measures: change(fewMeasures, "89", "0"), want: "measures.csv:2:13: grams: 0 is not from 0.001 to 1e+06"},
		{name: "yield of nothing", yields: change(fewYields, "92.5", ""), want: `yields.csv:2:14: yield_pct: "" is not a number`},
		{name: "yield without basis", yields: change(fewYields, ",raw,", ",,"), want: "yields.csv:2:34: basis: is empty"},
		{name: "no such kind", densities: change(fewDensities, "liquid or paste", "heap"),
			want: `densities.csv:2:8: kind: "heap" is neither "liquid or paste" nor "bulk"`},
		{name: "form twice", densities: fewDensities + "00002,,bulk,0.9,invented\n",
			want: `densities.csv:3:7: form: the form "" of 00002 is there twice`},
	} {
		or := func(s, otherwise string) string {
			if s == "" {
				return otherwise
			}
			return s
		}
		table, err := parse(or(c.foods, fewFoods), or(c.measures, fewMeasures), or(c.yields, fewYields), or(c.densities, fewDensities))
		var bad *ParseError
		if table != nil || !errors.As(err, &bad) {
			t.Errorf("%s: %v, want a *ParseError", c.name, err)
			continue
		}
		if !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), c.alsoWant) {
			t.Errorf("%s:\n%v\nwant\n%s", c.name, err, c.want)
		}
	}
}

func TestParseUnreadable(t *testing.T) {
	broken := errors.New("pipe burst")
	_, err := Parse(iotest.ErrReader(broken), strings.NewReader(""), strings.NewReader(""), strings.NewReader(""))
	if !errors.Is(err, broken) || !strings.HasPrefix(err.Error(), "foods.csv: ") {
		t.Errorf("%v, want the pipe and the file", err)
	}
	if _, err := Parse(nil, nil, nil, nil); err == nil || !strings.Contains(err.Error(), "foods.csv: no file given") {
		t.Errorf("no files: %v", err)
	}
	many := fewFoods + strings.Repeat("x\n", 1000)
	if _, err := parse(many, fewMeasures, fewYields, fewDensities); err == nil || strings.Count(err.Error(), "\n") >= maxErrors {
		t.Errorf("want at most %d errors: %v", maxErrors, err)
	}
}

func TestValue(t *testing.T) {
	var none Value
	if _, given := none.Get(); given || none.IsGiven() || none.Or(7) != 7 || none.String() != "not given" || none == Given(0) {
		t.Errorf("a value that is not given: %v", none)
	}
	if x, given := Given(0).Get(); !given || x != 0 || Given(0).Or(7) != 0 || Given(37.02).String() != "37.02" {
		t.Errorf("given 0: %v %v", x, given)
	}
	got, err := json.Marshal([]Value{none, Given(0), Given(37.02)})
	if err != nil || string(got) != "[null,0,37.02]" {
		t.Errorf("%s, %v, want [null,0,37.02]", got, err)
	}
}

func TestCopiesAreHandedOut(t *testing.T) {
	table := open(t)
	table.Foods()[0].Name = "spoilt"
	table.Measures("01009")[0].Grams = -1
	table.Densities("01009")[0].KgPerL = -1
	table.Yields("05014")[0].Pct = -1
	if table.Foods()[0].Name == "spoilt" || table.Measures("01009")[0].Grams < 0 || table.Densities("01009")[0].KgPerL < 0 || table.Yields("05014")[0].Pct < 0 {
		t.Error("a caller can change the table")
	}
	if again := open(t); again != table {
		t.Error("the table is read twice")
	}
}

func FuzzParse(f *testing.F) {
	f.Add(fewFoods, fewMeasures, fewYields, fewDensities)
	f.Add("", "", "", "")
	f.Add(strings.Replace(fewFoods, "83", "\"", 1), "\xff", "a,b\n", "\r\n")
	f.Fuzz(func(t *testing.T, foods, measures, yields, densities string) {
		table, err := parse(foods, measures, yields, densities)
		again, err2 := parse(foods, measures, yields, densities)
		if (err == nil) != (table != nil) || !reflect.DeepEqual(table, again) || (err == nil) != (err2 == nil) {
			t.Fatalf("%v and %v, %v and %v", table, err, again, err2)
		}
		if err != nil && (err.Error() != err2.Error() || !strings.Contains(err.Error(), ".csv")) {
			t.Errorf("%v, then %v", err, err2)
		}
		if err == nil {
			for _, food := range table.Foods() {
				if got, ok := table.Lookup(food.NDB); !ok || got != food {
					t.Errorf("%s is not found again", food.NDB)
				}
				table.Search(food.Name, 3)
			}
		}
	})
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := parse(foodsCSV, measuresCSV, yieldsCSV, densitiesCSV); err != nil {
			b.Fatal(err)
		}
	}
}

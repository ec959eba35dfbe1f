package foodtable

import (
	"math"
	"regexp"
	"strings"
	"testing"
	"unicode"
)

func open(t testing.TB) *Table {
	t.Helper()
	table, err := Default()
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func food(t testing.TB, ndb string) Food {
	t.Helper()
	f, ok := open(t).Lookup(ndb)
	if !ok {
		t.Fatalf("no food %s", ndb)
	}
	return f
}

// given is a figure that must be there.
func given(t testing.TB, what string, v Value) float64 {
	t.Helper()
	x, ok := v.Get()
	if !ok {
		t.Errorf("%s: not given", what)
	}
	return x
}

func TestRows(t *testing.T) {
	table := open(t)
	measures, densities, dense := 0, 0, 0
	for _, f := range table.Foods() {
		measures += len(table.Measures(f.NDB))
		densities += len(table.Densities(f.NDB))
		if len(table.Densities(f.NDB)) > 0 {
			dense++
		}
	}
	for _, c := range []struct {
		what      string
		got, want int
	}{ // counted when the table was cut from the release (data/README.md)
		{"foods", len(table.Foods()), 607},
		{"measures, each of a food of the table", measures, 1467},
		{"densities, each of a food of the table", densities, 514},
		{"foods with a density", dense, 406},
		{"yields", len(table.yields), 366 + 4 + 38},
	} {
		if c.got != c.want {
			t.Errorf("%s: %d, want %d", c.what, c.got, c.want)
		}
	}
}

// The values are those of USDA SR28, retyped from its reading in a reference table (read).
func TestCheeses(t *testing.T) {
	for _, c := range []struct {
		ndb, name                                 string
		waterG, proteinG, fatG, calcium, sodiumMg float64
	}{
		{"01009", "cheddar", 37.02, 22.87, 33.31, 710, 653},
		{"01023", "gruyere", 33.19, 29.81, 32.34, 1011, 714},
		{"01040", "Swiss cheese", 37.63, 26.96, 30.99, 890, 187},
		{"01029", "mozzarella, low-moisture part-skim", 47.07, 23.75, 19.78, 697, 666},
		{"01033", "parmesan, hard", 29.16, 35.75, 25.83, 1184, 1376},
		{"01006", "brie", 48.42, 20.75, 27.68, 184, 629},
		{"01017", "cream cheese", 52.62, 6.15, 34.44, 97, 314},
	} {
		f := food(t, c.ndb)
		if f.Name != c.name {
			t.Errorf("%s is called %q, want %q", c.ndb, f.Name, c.name)
		}
		n := f.Per100g
		got := [...]float64{
			given(t, "water", n.WaterG), given(t, "protein", n.ProteinG), given(t, "fat", n.FatG),
			given(t, "calcium", n.CalciumMg), given(t, "sodium", n.SodiumMg),
		}
		if want := [...]float64{c.waterG, c.proteinG, c.fatG, c.calcium, c.sodiumMg}; got != want {
			t.Errorf("%s: water, protein, fat, calcium, sodium %v, want %v", f.Name, got, want)
		}
	}
	milk := food(t, "01077").Per100g // whole milk, SR28 (read)
	if milk.WaterG != Given(88.13) || milk.FatG != Given(3.25) || milk.ProteinG != Given(3.15) {
		t.Errorf("whole milk: water %v, fat %v, protein %v, want 88.13, 3.25, 3.15", milk.WaterG, milk.FatG, milk.ProteinG)
	}
}

// Figures that are known without any food table.
func TestPureSubstances(t *testing.T) {
	for _, c := range []struct {
		what      string
		got       Value
		want, tol float64
		source    string
	}{
		{"sodium of table salt", food(t, "02047").Per100g.SodiumMg, 100e3 * 22.990 / 58.443, 700, "standard atomic weights, NaCl (derived here)"},
		{"sodium of baking soda", food(t, "18372").Per100g.SodiumMg, 100e3 * 22.990 / 84.007, 30, "standard atomic weights, NaHCO3 (derived here)"},
		// 40 % alcohol by volume: 0.40 x 0.7892 / 0.9481 g/ml at 20 °C, densities of the alcohol tables (from memory)
		{"alcohol of 80 proof spirits", food(t, "14037").Per100g.AlcoholG, 100 * 0.40 * 0.7892 / 0.9481, 0.2, "alcohol tables (from memory)"},
		{"fat of olive oil", food(t, "04053").Per100g.FatG, 100, 0.01, "a refined oil is all fat"},
		{"carbohydrate of sugar", food(t, "19335").Per100g.CarbG, 100, 0.1, "sucrose"},
		{"fat of whole milk", food(t, "01077").Per100g.FatG, 3.25, 0, "21 CFR 131.110: not less than 3.25 % milkfat (from memory)"},
	} {
		if x := given(t, c.what, c.got); math.Abs(x-c.want) > c.tol {
			t.Errorf("%s: %g, want %.4g ± %g (%s)", c.what, x, c.want, c.tol, c.source)
		}
	}
}

// Edible parts of SR28 in %, 100 less refuse, from a reference table (derived there).
func TestEdiblePart(t *testing.T) {
	table := open(t)
	for query, want := range map[string]float64{
		"onions raw": 90, "carrots raw": 89, "celery raw": 89, "garlic raw": 87, "jalapeno": 92, "broccoli raw": 61,
		"cauliflower raw": 39, "cabbage raw": 80, "spinach raw": 72, "kale raw": 72, "tomatoes raw": 91,
		"white mushrooms raw": 97, "butternut": 84, "zucchini raw": 95, "leeks raw": 44, "ginger raw": 93, "parsnips raw": 85,
		"turnips raw": 81, "rutabaga raw": 85, "beets raw": 67, "fennel bulb": 72, "eggplant raw": 81, "scallions": 96,
		"shallots": 88, "green beans raw": 88, "green peas raw": 38, "corn raw": 36, "parsley fresh": 95, "basil fresh": 64,
		"thyme fresh": 68, "apples with skin": 90, "lemons peeled": 53,
	} {
		first := table.Search(query, 1)
		if len(first) != 1 {
			t.Errorf("%q finds nothing", query)
			continue
		}
		f := first[0].Food
		if got := 100 - given(t, f.Name+": refuse", f.RefusePct); got != want {
			t.Errorf("%q (%s): %g %% edible, want %g", query, f.Name, got, want)
		}
	}
}

func TestCompositionAddsUp(t *testing.T) {
	near, fair := 0, 0
	for _, f := range open(t).Foods() {
		n := f.Per100g
		sum := n.AlcoholG.Or(0) // not given for 63 foods, none of them a drink with alcohol
		for _, v := range []Value{n.WaterG, n.ProteinG, n.FatG, n.CarbG, n.AshG} {
			sum += given(t, f.Name, v)
		}
		const rounding = 1e-9 // the figures are hundredths, so a sum of exactly 100.50 must count as 0.5 off
		if off := math.Abs(sum - 100); off <= 0.5+rounding {
			near++
			fair++
		} else if off <= 1+rounding {
			fair++
		}
	}
	if near != 515 || fair != 563 { // data/README.md
		t.Errorf("%d foods within 0.5 g and %d within 1 g of 100 g, want 515 and 563", near, fair)
	}
}

// An empty cell must not have become a zero: the counts are those of the empty cells in the source.
func TestNotGivenStaysNotGiven(t *testing.T) {
	want := map[string]int{
		"fibre_g": 5, "sugars_g": 70, "sat_fat_g": 4, "trans_fat_g": 238, "cholesterol_mg": 9, "vit_d_ug": 61, "alcohol_g": 63,
	}
	got := map[string]int{}
	for _, f := range open(t).Foods() {
		for i, v := range f.Per100g.columns() {
			if !v.IsGiven() {
				got[foodColumns[firstNutrient+i]]++
			}
		}
	}
	for _, column := range foodColumns[firstNutrient:] {
		if got[column] != want[column] {
			t.Errorf("%s is not given for %d foods, want %d", column, got[column], want[column])
		}
	}
}

func TestNames(t *testing.T) {
	proper := regexp.MustCompile(`^(Atlantic|Boston|Brussels|Canadian|Deglet|English|European|French|Greek|Italian|Noor|Pacific|Polish|Swiss|` +
		`Vienna|Worcestershire|Zante|A|D|C)$`)
	// Words of the description without which two rows would be taken for each other.
	states := []string{"raw", "boiled", "roasted", "stewed", "braised", "simmered", "canned", "smoked", "enriched", "unenriched", "fried", "stir-fried"}
	seen := map[string]string{}
	for _, f := range open(t).Foods() {
		if other, twice := seen[f.Name]; twice {
			t.Errorf("%s and %s are both %q", other, f.NDB, f.Name)
		}
		seen[f.Name] = f.NDB
		for _, w := range strings.FieldsFunc(f.Name, func(r rune) bool { return !unicode.IsLetter(r) }) {
			if w != strings.ToLower(w) && !proper.MatchString(w) {
				t.Errorf("%s %q: %q is no proper noun", f.NDB, f.Name, w)
			}
		}
		if f.Name != strings.Join(strings.Fields(f.Name), " ") || strings.Trim(f.Name, " ,") != f.Name {
			t.Errorf("%s %q: stray blanks or commas", f.NDB, f.Name)
		}
		for _, state := range states {
			if hasWord(f.Name, state) && !hasWord(f.Description, state) && !isRawButSaidOtherwise(f, state) {
				t.Errorf("%s %q says %q, the description %q does not", f.NDB, f.Name, state, f.Description)
			}
		}
	}
}

// isRawButSaidOtherwise: "uncooked" rice is raw; "moist heat" seafood is boiled or steamed.
func isRawButSaidOtherwise(f Food, state string) bool {
	return state == "raw" && hasWord(f.Description, "uncooked") || state == "boiled" && strings.Contains(f.Description, "moist heat") ||
		state == "boiled" && strings.Contains(f.Description, "hard-boiled")
}

func hasWord(text, word string) bool {
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && r != '-' }) {
		if w == word {
			return true
		}
	}
	return false
}

func TestMeasuresAndDensities(t *testing.T) {
	table := open(t)
	for _, c := range []struct { // SR28 weights of a cup, in grams (read); densities over 236.588 ml (derived there)
		ndb, measure, form string
		grams, kgPerL      float64
		kind               Kind
	}{
		{"01077", "cup", "", 244, 1.031, Liquid},
		{"11549", "cup", "", 245, 1.036, Liquid},
		{"11547", "cup", "", 250, 1.057, Liquid},
		{"11546", "cup", "", 262, 1.107, Liquid},
		{"20081", "cup", "", 125, 0.528, Bulk},
		{"11124", "cup chopped", "Chopped", 128, 0.541, Bulk},
		{"01009", "cup, shredded", "shredded", 113, 0.478, Bulk},
	} {
		found := false
		for _, m := range table.Measures(c.ndb) {
			found = found || m == Measure{Amount: 1, Name: c.measure, Grams: c.grams}
		}
		if !found {
			t.Errorf("%s: no %s of %g g in %v", c.ndb, c.measure, c.grams, table.Measures(c.ndb))
		}
		d, ok := table.Density(c.ndb, c.form)
		if !ok || d.Kind != c.kind || math.Abs(float64(d.KgPerL)-c.kgPerL) > 0.0011 {
			t.Errorf("%s in form %q: %+v, want %g kg/L, %v", c.ndb, c.form, d, c.kgPerL, c.kind)
		}
	}
	if d, ok := table.Density("11124", "in sixths"); ok {
		t.Errorf("carrots in sixths: %+v, want none", d)
	}
}

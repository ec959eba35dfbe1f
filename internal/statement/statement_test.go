package statement

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// none is a line that somebody looked at and that has no major allergen.
func none(name string, mass unit.Mass) Line {
	return Line{Name: name, Mass: mass, AllergensKnown: true}
}

func with(l Line, allergens ...string) Line { l.Allergens = allergens; return l }

func part(name string, allergens ...string) Sub {
	return Sub{Name: name, Allergens: allergens, AllergensKnown: true}
}

// soup is an invented batch.
func soup() []Line {
	naan := none("flatbread", 900*unit.Gram)
	naan.Sub = []Sub{{Name: "enriched flour", Sub: []Sub{part("wheat flour", "wheat"), part("niacin")}, AllergensKnown: true}, part("yogurt", "milk"), part("salt")}
	salts := none("sodium citrate", 45*unit.Gram)
	salts.Function = "emulsifier"
	return []Line{
		none("salt", 80*unit.Gram), none("water", 6*unit.Kilogram), none("red lentils", 3*unit.Kilogram), naan,
		with(none("cream", 700*unit.Gram), "milk"), salts, none("water", 2*unit.Kilogram),
	}
}

// 21 CFR 101.4(a)(1): descending order of predominance by weight; 101.4(b)(2)(i): the parts of a compound ingredient in
// parentheses after its name; 21 U.S.C. 343(w)(1)(A): the "Contains" line. Worked by hand: water is 8 kg in two lines.
func TestSoup(t *testing.T) {
	s, err := Write(soup())
	if err != nil {
		t.Fatal(err)
	}
	if want := "Ingredients: water, red lentils, flatbread (enriched flour [wheat flour, niacin], yogurt, salt), cream, salt, " +
		"sodium citrate (emulsifier)."; s.Ingredients != want {
		t.Errorf("got  %s\nwant %s", s.Ingredients, want)
	}
	if want := "Contains: Milk, Wheat."; s.Contains != want || s.Withheld() {
		t.Errorf("got %q, want %q", s.Contains, want)
	}
	if s.Items[0].Mass != 8*unit.Kilogram || len(s.Items) != 6 {
		t.Errorf("water weighs %v in %d entries, want 8 kg in 6", s.Items[0].Mass, len(s.Items))
	}
	if want := []string{"cream", "flatbread"}; !slices.Equal(s.Found[0].From, want) {
		t.Errorf("milk comes from %v, want %v", s.Found[0].From, want)
	}
}

// 21 U.S.C. 343(w)(2): the type of nut and the species of fish and Crustacean shellfish are named, each once; the order is that
// of 321(qq). "Contains: fish" alone would not do.
func TestContains(t *testing.T) {
	for _, c := range []struct {
		allergens []string
		want      string
	}{
		{nil, ""}, // nothing is said, and nothing reassuring either
		{[]string{"sesame", "soybeans", "peanuts", "egg", "milk", "wheat"}, "Contains: Milk, Egg, Wheat, Peanuts, Soybeans, Sesame."},
		{[]string{"fish: Cod", "Fish:  cod", "fish: anchovy"}, "Contains: Fish (anchovy, Cod)."},
		{[]string{"tree nuts: walnut", "Tree nuts: almond"}, "Contains: Tree nuts (almond, walnut)."},
		{[]string{"Crustacean shellfish: shrimp", "milk"}, "Contains: Milk, Crustacean shellfish (shrimp)."},
	} {
		s, err := Write([]Line{with(none("filling", unit.Kilogram), c.allergens...)})
		if err != nil || s.Contains != c.want {
			t.Errorf("%v: got %q, %v; want %q", c.allergens, s.Contains, err, c.want)
		}
	}
}

func TestUnansweredAllergensWithholdTheLabel(t *testing.T) {
	lines := soup()
	lines[2].AllergensKnown = false
	lines[3].Sub[0].Sub[1].AllergensKnown = false
	s, err := Write(lines)
	if err != nil {
		t.Fatal(err)
	}
	var missing []string
	for _, m := range s.Missing {
		missing = append(missing, m.String())
	}
	if want := []string{"flatbread > enriched flour > niacin", "red lentils"}; !slices.Equal(missing, want) {
		t.Errorf("missing %v, want %v", missing, want)
	}
	if !s.Withheld() || s.Contains != "" {
		t.Errorf("the Contains line %q was written although a question is open", s.Contains)
	}
	if len(s.Found) != 2 {
		t.Errorf("what is known already should be there: %v", s.Found)
	}
}

func TestCloseTies(t *testing.T) {
	s, err := Write([]Line{none("onion", 1000*unit.Gram), none("carrot", 980*unit.Gram), none("celery", 960*unit.Gram), none("leek", 960*unit.Gram)})
	if err != nil {
		t.Fatal(err)
	}
	// 980 is 2 % below 1000; 960 is 2.04 % below 980; the two of 960 stand by name.
	want := []CloseTie{{"onion", "carrot", 20 * unit.Gram}, {"celery", "leek", 0}}
	if !slices.Equal(s.Close, want) {
		t.Errorf("got %v, want %v", s.Close, want)
	}
	if s.Ingredients != "Ingredients: onion, carrot, celery, leek." {
		t.Error(s.Ingredients)
	}
}

func TestSameNameOtherPartsIsNotMerged(t *testing.T) {
	plain, gum := with(none("cream", unit.Kilogram), "milk"), with(none("Cream", 2*unit.Kilogram), "milk")
	gum.Sub = []Sub{part("milk fat", "milk"), {Name: "guar gum", Function: "thickener", AllergensKnown: true}}
	s, err := Write([]Line{plain, gum})
	if err != nil {
		t.Fatal(err)
	}
	if s.Ingredients != "Ingredients: Cream (milk fat, guar gum [thickener]), cream." {
		t.Error(s.Ingredients)
	}
	if len(s.Unmerged) != 1 || len(s.Items) != 2 {
		t.Errorf("two creams with different parts: unmerged %v, items %v", s.Unmerged, s.Items)
	}
}

func TestUnknownAllergenNamesTheLine(t *testing.T) {
	for _, word := range []string{"mlik", "fish", "milk: goat", "", "fish: cod, hake"} {
		_, err := Write([]Line{with(none("filling", unit.Kilogram), word)})
		var bad *AllergenError
		if !errors.As(err, &bad) || bad.Err.Word != word || !slices.Equal(bad.Path, []string{"filling"}) {
			t.Errorf("%q: got %v, want it refused in the filling", word, err)
		}
	}
}

func TestEveryFaultIsReported(t *testing.T) {
	nameless := none(" ", unit.Gram)
	nameless.Sub = []Sub{part(""), part("a, b")}
	_, err := Write([]Line{nameless, none("air", 0), none("a lot", math.MaxInt64), none("a lot", 1), with(none("roux", 1), "gluten")})
	if err == nil {
		t.Fatal("nothing was refused")
	}
	for _, want := range []string{"line 1: it has no name", "line 1 > part 1: it has no name", "line 1 > a, b: brackets", "air: its mass", "a lot: its masses", `"gluten"`} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q is not in:\n%v", want, err)
		}
	}
	if _, err := Write(nil); err == nil {
		t.Error("a label without ingredients was written")
	}
}

func anyLine(t *rapid.T) Line {
	words := []string{"milk", "Wheat", "egg", "fish: cod", "fish: hake", "Fish: Cod", "tree nuts: pecan", "soybeans"}
	allergens := rapid.SliceOfN(rapid.SampledFrom(words), 0, 2)
	l := Line{
		Name: rapid.SampledFrom([]string{"water", "onion", "Onion", "cream", "stock", "rice"}).Draw(t, "name"),
		Mass: unit.Gram * unit.Mass(rapid.IntRange(1, 60).Draw(t, "grams")), Allergens: allergens.Draw(t, "allergens"),
		AllergensKnown: rapid.IntRange(0, 9).Draw(t, "asked") > 0,
	}
	for range rapid.IntRange(0, 2).Draw(t, "parts") {
		l.Sub = append(l.Sub, Sub{Name: rapid.SampledFrom([]string{"salt", "flour", "yeast"}).Draw(t, "part"),
			Allergens: allergens.Draw(t, "part allergens"), AllergensKnown: rapid.IntRange(0, 9).Draw(t, "part asked") > 0})
	}
	return l
}

func TestNothingIsLostWhateverTheOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := rapid.SliceOfN(rapid.Custom(anyLine), 1, 8).Draw(t, "lines")
		s, err := Write(lines)
		if err != nil {
			t.Fatal(err)
		}
		shuffled, err := Write(rapid.Permutation(lines).Draw(t, "shuffled"))
		if err != nil || shuffled.Ingredients != s.Ingredients || shuffled.Contains != s.Contains || !slices.Equal(shuffled.Close, s.Close) || !slices.Equal(shuffled.Unmerged, s.Unmerged) {
			t.Fatalf("another order, another label:\n%+v\n%+v", s, shuffled)
		}
		var in, out unit.Mass
		asked := true
		union := map[string]bool{}
		for _, l := range lines {
			in += l.Mass
			asked = asked && l.AllergensKnown
			words := slices.Clone(l.Allergens)
			for _, p := range l.Sub {
				asked = asked && p.AllergensKnown
				words = append(words, p.Allergens...)
			}
			for _, w := range words {
				union[strings.ToLower(w)] = true
			}
			if !slices.ContainsFunc(s.Items, func(i Item) bool { return strings.EqualFold(i.Name, l.Name) }) {
				t.Fatalf("%s is lost", l.Name)
			}
		}
		for i, item := range s.Items {
			out += item.Mass
			if i > 0 && item.Mass > s.Items[i-1].Mass {
				t.Fatalf("%s stands after something lighter", item.Name)
			}
		}
		if in != out {
			t.Fatalf("%v in, %v on the label", in, out)
		}
		found := map[string]bool{}
		plain := map[string]string{"Milk": "milk", "Egg": "egg", "Wheat": "wheat", "Soybeans": "soybeans"}
		for _, f := range s.Found {
			for _, species := range f.Species {
				found[strings.ToLower(f.Allergen+": "+species)] = true
			}
			if len(f.Species) == 0 {
				found[plain[f.Allergen]] = true
			}
		}
		if len(found) != len(union) {
			t.Fatalf("found %v, put in %v", found, union)
		}
		for w := range union {
			if !found[w] {
				t.Fatalf("%s was put in and not found: %v", w, found)
			}
		}
		if s.Withheld() == asked {
			t.Fatalf("asked about everything: %v, withheld: %v", asked, s.Withheld())
		}
		if (s.Contains != "") != (asked && len(union) > 0) {
			t.Fatalf("Contains line %q, asked about everything: %v", s.Contains, asked)
		}
	})
}

func BenchmarkWrite(b *testing.B) {
	lines := soup()
	for b.Loop() {
		if _, err := Write(lines); err != nil {
			b.Fatal(err)
		}
	}
}

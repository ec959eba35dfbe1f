package labelrule_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/allergen"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/unit"
)

// Annex II of Regulation (EU) 1169/2011: 14 groups (quoted). Every one of the nine tells of one of them.
func TestFourteen(t *testing.T) {
	all := labelrule.EUAllergens()
	if len(all) != 14 {
		t.Fatalf("%d", len(all))
	}
	told := 0
	for _, a := range all {
		if a.Major != "" {
			told++
			if !slices.Contains(allergen.Words(), a.Major) {
				t.Errorf("%s: no major allergen %q", a.Code, a.Major)
			}
		}
	}
	if told != 9 {
		t.Errorf("%d tell", told)
	}
}

// What each answer about the nine is in annex II; a nut that is none of its eight is none of the fourteen.
func TestFromTheNine(t *testing.T) {
	for word, want := range map[string]string{"milk": "milk", "egg": "eggs", "fish: trout": "fish", "crustacean shellfish: shrimp": "crustaceans", "wheat": "wheat",
		"peanuts": "peanuts", "soybeans": "soybeans", "sesame": "sesame", "tree nuts: almond": "almond", "tree nuts: cashews": "cashew", "tree nuts: brazil": "Brazil nut",
		"tree nuts: macadamia": "macadamia", "tree nuts: pine nut": "", "tree nuts: coconut": "", "tree nuts: chestnut": ""} {
		a, err := allergen.Parse(word)
		if err != nil {
			t.Fatal(err)
		}
		f, is := labelrule.FromMajor(a)
		if is != (want != "") || is && f.Name() != want {
			t.Errorf("%s: %+v, want %q", word, f, want)
		}
	}
	if _, is := labelrule.FromMajor(allergen.Allergen{Major: -1}); is {
		t.Error("an unknown one is one of the fourteen")
	}
}

func TestAnswers(t *testing.T) {
	ans, err := labelrule.EUAllergensOf([]labelrule.EUPart{
		{Name: "pale ale", Major: []string{"wheat"}, Known: true},
		{Name: "chicken stock", Known: true, More: []string{"celery"}, Asked: true},
		{Name: "cream", Major: []string{"milk"}, Known: true, Asked: true},
		{Name: "butter", Major: []string{"milk"}, Known: true},
		{Name: "pesto", Major: []string{"tree nuts: pine nut"}, Known: true, Asked: true},
		{Name: "spice mix", Asked: true},
	})
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range ans.Found {
		names = append(names, f.Name()+" from "+strings.Join(f.From, ", "))
	}
	if want := []string{"wheat from pale ale", "milk from cream, butter", "celery from chicken stock"}; !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
	var asks []string
	for _, q := range ans.Questions {
		asks = append(asks, q.Part+": "+q.Allergen)
		if q.Asks == "" || q.Source == "" {
			t.Errorf("%+v", q)
		}
	}
	// Wheat was answered of the ale, and barley was not. The butter's milk was.
	if want := []string{"pale ale: gluten", "pale ale: ", "butter: ", "spice mix: "}; !slices.Equal(asks, want) {
		t.Errorf("%q, want %q", asks, want)
	}
	if !slices.Equal(ans.NotThere, []string{"tree nuts: pine nut"}) {
		t.Errorf("%q", ans.NotThere)
	}
	_, err = labelrule.EUAllergensOf([]labelrule.EUPart{{Name: "x", More: []string{"gluten"}}})
	if wrong := (*labelrule.MoreError)(nil); !errors.As(err, &wrong) || !slices.Contains(wrong.Do, "barley") {
		t.Errorf("gluten without its cereal: %v", err)
	}
	if _, err = labelrule.EUAllergensOf([]labelrule.EUPart{{Name: "x", More: []string{"parsley"}}}); err == nil {
		t.Error("parsley is an allergen")
	}
	if _, err = labelrule.EUAllergensOf([]labelrule.EUPart{{Name: "x", Major: []string{"parsley"}}}); err == nil {
		t.Error("parsley is a major allergen")
	}
}

func TestEmphasis(t *testing.T) {
	show := func(runs []labelrule.Run) string {
		text := ""
		for _, r := range runs {
			if r.Emphasised {
				text += "*" + r.Text + "*"
			} else {
				text += r.Text
			}
		}
		return text
	}
	milk, barley, fish, nut := labelrule.EUFound{Code: "milk"}, labelrule.EUFound{Code: "gluten", Kind: "barley"}, labelrule.EUFound{Code: "fish"}, labelrule.EUFound{Code: "nuts", Kind: "almond"}
	for _, c := range []struct {
		item string
		of   []labelrule.EUFound
		want string
	}{
		{"skimmed milk", []labelrule.EUFound{milk}, "skimmed *milk*"},
		{"cream", []labelrule.EUFound{milk}, "cream (*milk*)"},
		{"Milk powder (milk)", []labelrule.EUFound{milk}, "*Milk* powder (*milk*)"},
		{"coconut milk", nil, "coconut milk"},
		{"coconut milk with cream", []labelrule.EUFound{milk}, "coconut milk with cream (*milk*)"},
		{"ale", []labelrule.EUFound{barley}, "ale (*barley*)"},
		{"barley malt", []labelrule.EUFound{barley}, "*barley* malt"},
		{"ground almonds", []labelrule.EUFound{nut}, "ground *almonds*"},
		{"fish sauce", []labelrule.EUFound{fish}, "*fish* sauce"},
		{"crayfish", []labelrule.EUFound{fish}, "crayfish (*fish*)"},
		{"sauce", []labelrule.EUFound{barley, fish}, "sauce (*barley*, *fish*)"},
		{"crème", []labelrule.EUFound{milk}, "crème (*milk*)"},
	} {
		if got := show(labelrule.Emphasise(c.item, c.of)); got != c.want {
			t.Errorf("%s: %q, want %q", c.item, got, c.want)
		}
	}
}

// Whatever the item, its words stay as they are, and every allergen stands out somewhere.
func TestEmphasisAlways(t *testing.T) {
	var found []labelrule.EUFound
	for _, a := range labelrule.EUAllergens() {
		f := labelrule.EUFound{Code: a.Code}
		if len(a.Kinds) > 0 {
			f.Kind = a.Kinds[0]
		}
		found = append(found, f)
	}
	rapid.Check(t, func(t *rapid.T) {
		item := rapid.OneOf(rapid.String(), rapid.StringMatching(`(milk|oat|Wheat|soy|fish|eggs|coconut| |-|é){0,8}`)).Draw(t, "item")
		of := rapid.SliceOfNDistinct(rapid.SampledFrom(found), 0, 4, func(f labelrule.EUFound) string { return f.Code }).Draw(t, "of")
		runs := labelrule.Emphasise(item, of)
		if !strings.HasPrefix(labelrule.Text(runs), item) {
			t.Errorf("%q became %q", item, labelrule.Text(runs))
		}
		if len(of) > 0 && len(labelrule.Emphasised(runs)) == 0 {
			t.Errorf("%q: nothing stands out of %v", item, of)
		}
	})
}

// 120 g of tomatoes reduced to 100 g of sauce (derived, by annex VIII from memory), and shares by hand.
func TestQuantities(t *testing.T) {
	g := unit.Gram
	sauce := labelrule.Quids("Tomato sauce", []labelrule.Item{{Name: "tomatoes", Mass: 1200 * g}, {Name: "olive oil", Mass: 20 * g}}, 1000*g)
	if len(sauce) != 1 || sauce[0].Text != "prepared with 120 g of tomatoes per 100 g" {
		t.Errorf("%+v", sauce)
	}
	soup := labelrule.Quids("Ale and cheddar soup", []labelrule.Item{
		{Name: "water", Mass: 600 * g, Water: true}, {Name: "pale ale", Mass: 200 * g}, {Name: "sharp cheddar", Mass: 150 * g}, {Name: "carrots", Mass: 100 * g, Pictured: true},
		{Name: "mustard powder", Mass: 2 * g}, {Name: "bay leaf", Mass: g, Essential: true, Flavouring: true}, {Name: "roux", Mass: 27 * g, Essential: true},
	}, 1000*g)
	var got []string
	for _, q := range soup {
		got = append(got, q.Name+" "+q.Text)
		if q.Why == "" {
			t.Errorf("%+v", q)
		}
	}
	if want := []string{"pale ale 20 %", "sharp cheddar 15 %", "carrots 10 %", "roux 2.7 %"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	dry := labelrule.Quids("Lentil salad", []labelrule.Item{{Name: "red lentils", Mass: 300 * g}, {Name: "dressing", Mass: 300 * g}}, 600*g)
	if len(dry) != 1 || dry[0].Text != "50 %" {
		t.Errorf("%+v", dry)
	}
	if labelrule.Quids("Nothing", nil, 0) != nil {
		t.Error("something in nothing")
	}
}

// Annex VII A.1 (read): water counts with the finished weight less all other ingredients, and may be left out up to 5 %.
func TestOrderOfWater(t *testing.T) {
	g := unit.Gram
	items := []labelrule.Item{{Name: "water", Mass: 500 * g, Water: true}, {Name: "beef", Mass: 400 * g}, {Name: "onions", Mass: 250 * g}}
	for _, c := range []struct {
		finished, water unit.Mass
		first           string
		out             bool
	}{{1150, 500, "water", false}, {1000, 350, "beef", false}, {680, 30, "beef", true}, {684, 34, "beef", true}, {685, 35, "beef", false}, {600, 0, "beef", false}} {
		ordered, water, out := labelrule.OrderEU(items, c.finished*g)
		if water != c.water*g || ordered[0].Name != c.first || out != c.out && c.water > 0 {
			t.Errorf("finished %d g: %v of water, %+v, may be left out %v", c.finished, water, ordered, out)
		}
	}
}

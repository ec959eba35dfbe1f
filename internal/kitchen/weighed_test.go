package kitchen_test

import (
	"strings"
	"testing"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
	"testing/fstest"
)

func TestParseWeighed(t *testing.T) {
	for text, want := range map[string]kitchen.Weighed{
		"sauce=71 lb":                {Output: "sauce", Amount: unit.Amount{Kind: unit.AmountMass, Mass: 71 * unit.Pound}},
		"ale-cheddar/sauce = 29 gal": {Dish: "ale-cheddar", Output: "sauce", Amount: unit.Amount{Kind: unit.AmountVolume, Volume: 29 * unit.Gallon}},
		"finish=12 kg":               {Output: "finish", Amount: unit.Amount{Kind: unit.AmountMass, Mass: 12 * unit.Kilogram}},
	} {
		if got, err := kitchen.ParseWeighed(text); err != nil || got != want {
			t.Errorf("%q is read as %+v, %v", text, got, err)
		}
	}
	for text, says := range map[string]string{
		"": "does not say what was weighed", "sauce": "does not say what was weighed", "=71 lb": "does not say", "sauce=": "does not say",
		"sauce=71": "no unit", "sauce=1 1/2": "no unit", "sauce=heavy": "number", long + "x": "does not say",
	} {
		_, err := kitchen.ParseWeighed(text)
		complains(t, text, err, says, "sauce=71 lb")
	}
}

func TestCheckWeighed(t *testing.T) {
	book := bookfile.Read(fstest.MapFS{"book.yaml": {Data: []byte(sound)}}).Book
	kg := unit.Amount{Kind: unit.AmountMass, Mass: unit.Kilogram}
	dishes := []kitchen.DishID{"dal"}
	got, found := kitchen.CheckWeighed(book, []kitchen.Weighed{{Output: "finish", Amount: kg}}, dishes)
	if len(found) > 0 || got[0].Dish != "dal" {
		t.Errorf("%+v: %v", got, found)
	}
	two := book
	two.Dishes = map[kitchen.DishID]kitchen.Dish{"dal": book.Dishes["dal"], "soup": book.Dishes["dal"]}
	two.Packs = map[kitchen.PackID]kitchen.Pack{"dal-lb": book.Packs["dal-lb"], "soup-lb": {Dish: "soup", Fill: []kitchen.Fill{{Of: "finish"}}}}
	for _, c := range []struct {
		name    string
		book    kitchen.Book
		weighed []kitchen.Weighed
		code    kitchen.Code
		says    string
	}{
		{"a slip of the pen", book, []kitchen.Weighed{{Output: "finis", Amount: kg}}, kitchen.UnknownReference, "no output to be packed finis"},
		{"another dish", book, []kitchen.Weighed{{Dish: "balls", Output: "ball", Amount: kg}}, kitchen.UnknownReference, "no dish in this run balls"},
		{"twice", book, []kitchen.Weighed{{Output: "finish", Amount: kg}, {Dish: "dal", Output: "finish", Amount: kg}}, kitchen.WeighedTwice, "finish of dal is weighed twice"},
		{"of two", two, []kitchen.Weighed{{Output: "finish", Amount: kg}}, kitchen.WeighedOfWhich, "2 dishes of this run give finish"},
		{"less than nothing", book, []kitchen.Weighed{{Output: "finish", Amount: unit.Amount{Kind: unit.AmountMass, Mass: -1}}}, kitchen.OutOfRange, "less than nothing"},
	} {
		_, found := kitchen.CheckWeighed(c.book, c.weighed, append(dishes, "soup"))
		if len(found) != 1 || found[0].Code != string(c.code) || !strings.Contains(found[0].Message, c.says) || found[0].Fix == "" {
			t.Errorf("%s: %v", c.name, found)
		}
	}
}

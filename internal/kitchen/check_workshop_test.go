package kitchen

import (
	"testing"

	"kettlefrost/internal/unit"
)

func TestKeepingAndScaleAreChecked(t *testing.T) {
	keeps := func(k Keeping) func(*checker) {
		return func(c *checker) { c.keeping(entrySpot("packs", "stew"), Pack{BestBefore: k}) }
	}
	scale := func(s Scale) func(*checker) { return func(c *checker) { c.fineScale(spot{path: "kitchen"}, s) } }
	trace := func(a Analysis) func(*checker) {
		return func(c *checker) { c.traces(spot{path: "ingredients.salt.analysis"}, a) }
	}
	shares := func(of ...float64) func(*checker) {
		var parts []SubIngredient
		for _, x := range of {
			parts = append(parts, SubIngredient{Name: "part", Share: unit.ShareOf(x / 100)})
		}
		return func(c *checker) { c.shares(entrySpot("ingredients", "mix"), parts) }
	}
	mg := func(x float64) *float64 { return &x }
	for _, c := range []struct {
		name  string
		check func(*checker)
		code  Code
		path  string
	}{
		{"nobody has said", keeps(Keeping{}), "", ""},
		{"four months, by a trial", keeps(Keeping{16, "trial of 2026"}), "", ""},
		{"by nobody", keeps(Keeping{16, ""}), EmptyText, "packs.stew.best-before.source"},
		{"no time", keeps(Keeping{0, "trial"}), SizeMissing, "packs.stew.best-before.weeks"},
		{"eleven years", keeps(Keeping{572, "trial"}), OutOfRange, "packs.stew.best-before.weeks"},
		{"no fine scale", scale(Scale{}), "", ""},
		{"a tenth of a gram up to 500 g", scale(Scale{unit.Gram / 10, 500 * unit.Gram}), "", ""},
		{"a scale that shows nothing", scale(Scale{0, 500 * unit.Gram}), SizeMissing, "kitchen.fine-scale.division"},
		{"a step of half a kilogram", scale(Scale{500 * unit.Gram, unit.Kilogram}), OutOfRange, "kitchen.fine-scale.division"},
		{"a scale that holds less than its step", scale(Scale{5 * unit.Gram, unit.Gram}), RangeBackwards, "kitchen.fine-scale.capacity"},
		{"parts by their shares, rounded on the sheet", shares(60.4, 39.8, 0.3), "", ""},
		{"parts of which only one share is known", shares(60, 0), "", ""},
		{"more than all of it", shares(60, 45), OutOfRange, "ingredients.mix.contains"},
		{"pure potassium chloride", trace(Analysis{Potassium: mg(52_440)}), "", ""},
		{"more potassium than that", trace(Analysis{Potassium: mg(60_000)}), OutOfRange, "ingredients.salt.analysis.potassium"},
		{"calcium below nothing", trace(Analysis{Calcium: mg(-1)}), OutOfRange, "ingredients.salt.analysis.calcium"},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := &checker{}
			c.check(k)
			switch {
			case c.code == "" && len(k.found) > 0:
				t.Errorf("found %v", k.found)
			case c.code != "" && (len(k.found) != 1 || k.found[0].Code != string(c.code) || k.found[0].Path != c.path):
				t.Errorf("found %+v, want %s at %s", k.found, c.code, c.path)
			}
		})
	}
}

func TestLabelsAreChecked(t *testing.T) {
	labels := func(l Labels) func(*checker) { return func(c *checker) { c.labels(spot{path: "kitchen"}, l) } }
	gtin := func(text string) func(*checker) { return func(c *checker) { c.gtin(spot{path: "packs.stew"}, text) } }
	for _, c := range []struct {
		name  string
		check func(*checker)
		path  string
	}{
		{"nothing said", labels(Labels{}), ""},
		{"two languages on a roll", labels(Labels{Languages: []string{"en-US", "es-US"}, Wide: unit.LengthM(0.1), High: unit.LengthM(0.075)}), ""},
		{"a language that is not spoken", labels(Labels{Languages: []string{"en", "tlh"}}), "kitchen.labels.languages[1]"},
		{"one side", labels(Labels{Wide: unit.LengthM(0.1)}), "kitchen.labels"},
		{"a label of a metre", labels(Labels{Wide: unit.LengthM(1), High: unit.LengthM(0.1)}), "kitchen.labels.wide"},
		{"a link to nowhere", labels(Labels{QR: QRLink}), "kitchen.labels.link"},
		{"a link without lock", labels(Labels{QR: QRLink, Link: "http://example.org/"}), "kitchen.labels.link"},
		// 4006381333931 is the example of the check digit that is printed most (from memory); each digit more, it is wrong.
		{"a number that was assigned", gtin("4006381333931"), ""},
		{"twelve digits", gtin("036000291452"), ""}, // a usual example of UPC-A, from memory
		{"mistyped", gtin("4006381333932"), "packs.stew.gtin"},
		{"too short", gtin("40063"), "packs.stew.gtin"},
		{"letters", gtin("40063813339AB"), "packs.stew.gtin"},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := &checker{}
			c.check(k)
			switch {
			case c.path == "" && len(k.found) > 0:
				t.Errorf("found %v", k.found)
			case c.path != "" && (len(k.found) != 1 || k.found[0].Path != c.path):
				t.Errorf("found %+v, want one at %s", k.found, c.path)
			}
		})
	}
}

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

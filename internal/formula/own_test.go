package formula_test

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/formula"
	"kettlefrost/internal/unit"
)

// Doses as recipes give them. A US cup is 236.5882 ml (231 cubic inches to a gallon), a litre of soup 1.036 kg (middle of 119 soups, USDA SR28), so
// half a gram in a cup is 0.204 %.
func TestDosesAsTheyAreGiven(t *testing.T) {
	for _, c := range []struct {
		text    string
		share   float64
		mass    unit.Mass
		assumed bool
	}{
		{"0.25 %", 0.0025, 0, false}, {"0.25%", 0.0025, 0, false}, {"0.25 percent", 0.0025, 0, false}, {"0.25", 0.0025, 0, true}, {"22 g", 0, 22 * unit.Gram, false},
		{"2 g/L", 2 / 1036.0, 0, true}, {"0.5 g per cup", 0.5 / (236.5882 * 1.036), 0, true}, {"10 g/gal", 10 / (3785.411784 * 1.036), 0, true}, {"1 g/lb", 1 / 453.59237, 0, false},
		{"15 g per 10 kg", 0.0015, 0, false},
	} {
		o, err := formula.ParseOwn(c.text)
		if err != nil || math.Abs(o.Share-c.share) > 1e-7 || o.Mass != c.mass || (o.Assumed != "") != c.assumed {
			t.Errorf("%q: %+v, %v", c.text, o, err)
		}
	}
	for _, text := range []string{"", "a pinch", "1 tsp per cup", "0 %", "120 %", "5 kg/L", "2 g per", "2 g per person", "-1 g"} {
		_, err := formula.ParseOwn(text)
		if bad := (*formula.OwnError)(nil); !errors.As(err, &bad) || bad.Fix == "" {
			t.Errorf("%q: %v", text, err)
		}
	}
}

func FuzzParseOwn(f *testing.F) {
	for _, text := range []string{"0.25 %", "22 g", "0.5 g per cup", "1 g/lb", "x/y", "1e400", "1 g/0 cup"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		o, err := formula.ParseOwn(text)
		if err == nil && !(o.Mass > 0 || o.Share > 0 && o.Share <= 1) {
			t.Errorf("%q is %+v", text, o)
		}
	})
}

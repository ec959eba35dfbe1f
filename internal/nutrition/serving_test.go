package nutrition_test

import (
	"errors"
	"testing"

	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/unit"
)

func reference(t *testing.T, code string) nutrition.Reference {
	t.Helper()
	r, ok := nutrition.ReferenceOf(code)
	if !ok {
		t.Fatalf("no reference amount %q", code)
	}
	return r
}

// 21 CFR 101.12(b), table 2, 2015 (read), and 9 CFR 317.312(b) (read).
func TestReferenceAmounts(t *testing.T) {
	for code, want := range map[string]unit.Mass{"soup": 245 * unit.Gram, "mixed-dish-piece": 140 * unit.Gram, "mixed-dish-piece-sauced": 195 * unit.Gram,
		"main-sauce": 125 * unit.Gram, "beans-in-sauce": 130 * unit.Gram, "beans": 90 * unit.Gram, "potatoes": 140 * unit.Gram,
		"meat-entree-sauced": 140 * unit.Gram, "meat-entree": 85 * unit.Gram, "meat-entree-raw": 114 * unit.Gram} {
		if m, err := reference(t, code).Weighs(0); err != nil || m != want {
			t.Errorf("%s: %v (%v), want %v", code, m, err, want)
		}
	}
	for code, want := range map[string]unit.Mass{"mixed-dish-cup": 252 * unit.Gram, "minor-sauce": 63 * unit.Gram, "dip": 31500 * unit.Milligram} { // at 1.05 g/ml
		r := reference(t, code)
		if m, err := r.Weighs(1.05); err != nil || m != want {
			t.Errorf("%s: %v (%v), want %v", code, m, err, want)
		}
		if _, err := r.Weighs(0); err == nil {
			t.Errorf("%s weighs something without a density", code)
		}
	}
	if len(nutrition.References()) != 13 {
		t.Error("a reference amount goes untried")
	}
}

// The steps of 21 CFR 101.9(b)(5), by hand: a label's cup is 240 ml, its tablespoon 15, its teaspoon 5; halfway is up.
func TestServingByMeasure(t *testing.T) {
	for _, c := range []struct {
		g, gPerML float64
		want      string
	}{
		{245, 1.02, "1 cup (245 g)"},      // 240.2 ml
		{245, 0.85, "1 1/4 cups (255 g)"}, // 288.2 ml: 300 is nearer than 280? no: 280 is 8.2 off, 300 is 11.8
		{125, 1.04, "1/2 cup (125 g)"},    // 120.2 ml
		{140, 1.0, "2/3 cup (160 g)"},     // halfway between 120 and 160 ml
		{139, 1.0, "1/2 cup (120 g)"},     // 139 ml
		{70, 1.0, "1/3 cup (80 g)"},       // halfway between 60 and 80
		{60, 1.0, "1/4 cup (60 g)"},       //
		{52.5, 1.0, "1/4 cup (60 g)"},     // halfway between 3 tbsp and 1/4 cup
		{50, 1.0, "3 tbsp (45 g)"},        //
		{30, 1.0, "2 tbsp (30 g)"},        //
		{21, 1.0, "1 1/3 tbsp (20 g)"},    //
		{23.75, 1.0, "1 2/3 tbsp (25 g)"}, // halfway between 22.5 and 25
		{12, 1.0, "2 tsp (10 g)"},         //
		{1.9, 1.0, "1/2 tsp (2.5 g)"},     // 2.5 ml; 2 to 5 g to a half
		{1.25, 1.0, "1/4 tsp (1.3 g)"},    // under 2 g to a tenth, a half up
		{480, 1.0, "2 cups (480 g)"},      //
	} {
		s, err := nutrition.Reference{Mass: unit.MassKg(c.g / 1000)}.ByMeasure(c.gPerML)
		if err != nil || s.Text != c.want {
			t.Errorf("%g g at %g g/ml: %q (%v), want %q", c.g, c.gPerML, s.Text, err, c.want)
		}
	}
	if s, err := reference(t, "mixed-dish-cup").ByMeasure(1.06); err != nil || s.Text != "1 cup (254 g)" { // 254.4 g
		t.Errorf("%+v (%v)", s, err)
	}
	_, err := reference(t, "soup").ByMeasure(0)
	if wrong := (*nutrition.InputError)(nil); !errors.As(err, &wrong) {
		t.Errorf("a cup that weighs nothing: %v", err)
	}
}

// Pieces against a reference amount of 140 g, by the shares of 21 CFR 101.9(b)(2)(i), read in FDA's NLEA guide.
func TestServingByPieces(t *testing.T) {
	r := reference(t, "mixed-dish-piece")
	for _, c := range []struct {
		g      unit.Mass
		atOnce bool
		want   string
		more   int
	}{
		{30, false, "5 pieces (150 g)", 1}, // 4.67
		{70, false, "2 pieces (140 g)", 1}, // 50 %
		{71, false, "2 pieces (142 g)", 2}, // just over 50 %
		{93, false, "2 pieces (186 g)", 2}, // 66.4 %: 46 over, or 47 under
		{94, false, "1 piece (94 g)", 1},   // 67.1 %
		{279, false, "1 piece (279 g)", 1}, // 199 %
		{280, true, "1 piece (280 g)", 1},  // 200 %, eaten at once
		{280, false, "1/2 piece (140 g)", 1},
		{1200, false, "1/9 piece (133 g)", 1}, // 1/8 is 150, 1/9 133.3
	} {
		all, err := r.ByPieces(c.g*unit.Gram, "piece", c.atOnce)
		if err != nil || len(all) != c.more || all[0].Text != c.want {
			t.Errorf("%d g: %+v (%v), want %q first of %d", c.g, all, err, c.want, c.more)
		}
	}
	if s, err := r.ByOunces(); err != nil || s.Text != "about 5 oz (140 g)" { // 1 oz is 28 g on a label
		t.Errorf("ounces: %+v (%v)", s, err)
	}
	if _, err := reference(t, "dip").ByOunces(); err == nil {
		t.Error("a volume in ounces")
	}
	for net, want := range map[unit.Mass]string{340 * unit.Gram: "1 container (340 g)", 14 * unit.Ounce: "1 container (396 g)"} { // 396.89 g: a net quantity never says more
		if s := nutrition.Whole(net, "container"); s.Text != want {
			t.Errorf("%+v, want %q", s, want)
		}
	}
}

// 21 CFR 101.9(b)(8)(i): whole, from 2 to 5 halves, with about where rounded.
func TestServingsPerContainer(t *testing.T) {
	for _, c := range []struct {
		pack, serving unit.Mass
		want          string
	}{
		{680, 245, "about 3 servings per container"}, {735, 245, "3 servings per container"}, {736, 245, "about 3 servings per container"},
		{860, 245, "about 3.5 servings per container"}, {490, 245, "2 servings per container"}, {245, 245, "1 serving per container"},
		{1500, 245, "about 6 servings per container"}, {100, 245, "about 1 serving per container"},
	} {
		s := nutrition.Serving{Mass: c.serving * unit.Gram}
		if n, err := nutrition.ServingsIn(c.pack*unit.Gram, s); err != nil || n.Text != c.want {
			t.Errorf("%d of %d: %q (%v), want %q", c.pack, c.serving, n.Text, err, c.want)
		}
	}
}

// Soup, reference amount 245 g (derived by hand from the shares): 489 g is 199.6 %.
func TestColumns(t *testing.T) {
	for _, c := range []struct {
		rules  nutrition.Rules
		pack   unit.Mass
		exempt nutrition.Exempt
		want   nutrition.Columns
	}{
		{nutrition.FDA, 245, 0, nutrition.OneServing}, {nutrition.FDA, 367, 0, nutrition.OneServing}, {nutrition.FDA, 368, 0, nutrition.OneServingMayAdd},
		{nutrition.FDA, 489, 0, nutrition.OneServingMayAdd}, {nutrition.FDA, 490, 0, nutrition.PerContainer}, {nutrition.FDA, 680, 0, nutrition.PerContainer},
		{nutrition.FDA, 735, 0, nutrition.PerContainer}, {nutrition.FDA, 736, 0, nutrition.ManyServings}, {nutrition.FDA, 680, nutrition.SmallPanel, nutrition.ManyServings},
		{nutrition.USDA, 367, 0, nutrition.OneServing}, {nutrition.USDA, 368, 0, nutrition.OneOrTwoServings}, {nutrition.USDA, 489, 0, nutrition.OneOrTwoServings},
		{nutrition.USDA, 490, 0, nutrition.ManyServings}, {nutrition.USDA, 680, 0, nutrition.ManyServings},
	} {
		got, err := c.rules.Container(c.pack*unit.Gram, 245*unit.Gram, c.exempt)
		if err != nil || got.Columns != c.want {
			t.Errorf("%v, %d g: %v (%v), want %v", c.rules, c.pack, got.Columns, err, c.want)
		}
	}
	if got, _ := nutrition.USDA.Container(140*unit.Gram, 85*unit.Gram, 0); got.Columns != nutrition.OneServing { // a reference amount below 100 g
		t.Errorf("meat entree: %v", got.Columns)
	}
}

// 21 CFR 101.12(f) (read), by hand: 125 g of sauce to which 300 g of pasta belong for each 250 g.
func TestPackedTogether(t *testing.T) {
	if m, err := nutrition.PackedTogether(125*unit.Gram, 250*unit.Gram, 300*unit.Gram); err != nil || m != 275*unit.Gram {
		t.Errorf("%v (%v)", m, err)
	}
	if _, err := nutrition.PackedTogether(125*unit.Gram, 0, 300*unit.Gram); err == nil {
		t.Error("with none of the main food")
	}
}

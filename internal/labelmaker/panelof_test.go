package labelmaker

import (
	"errors"
	"strings"
	"testing"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/unit"
)

// lentils are cooked lentils with salt, as the table of foods has them.
func lentils(t *testing.T, change func(*nutrition.Composition)) nutrition.Food {
	t.Helper()
	table, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	found, _ := table.Lookup("16070")
	c := nutrition.FromTable(found.Per100g)
	c[nutrition.AddedSugars] = foodtable.Given(0)
	c[nutrition.TransFat] = foodtable.Given(0)
	change(&c)
	food, err := nutrition.Of(nutrition.Batch{Parts: []nutrition.Part{{Name: "lentils", Mass: unit.Kilogram, Per100g: c}}, Finished: unit.Kilogram})
	if err != nil {
		t.Fatal(err)
	}
	return food
}

// A panel that was worked out is printed line by line as it says; with a figure missing it is not printed.
func TestPanelsThatWereWorkedOut(t *testing.T) {
	asked := func(change func(*nutrition.Composition)) nutrition.Panel {
		p, err := nutrition.PanelOf(nutrition.Asked{Rules: nutrition.FDA, Food: lentils(t, change), Net: 680 * unit.Gram, Reference: 245 * unit.Gram, Serving: nutrition.Whole(245*unit.Gram, "cup")})
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	worked := asked(func(*nutrition.Composition) {})
	panel, err := PanelOf(worked)
	if err != nil {
		t.Fatal(err)
	}
	l := laid(t, Content{Panel: panel}, Roll(150, 200), US(20))
	drawn := strings.Join(drawnOn(l)[PanelLine.String()], " ")
	for _, row := range worked.Rows {
		for i, c := range row.Cells {
			if text := row.Text(i); i == 0 && strings.Contains(row.Name, "%s") && !strings.Contains(drawn, text) {
				t.Errorf("%q is not on the panel", text)
			}
			if !strings.Contains(drawn, c.Amount) || !strings.Contains(drawn, strings.ReplaceAll(c.Percent, " %", "%")) {
				t.Errorf("%s: %q %q is not on the panel", row.Name, c.Amount, c.Percent)
			}
		}
	}
	if found := Check(l); len(found) > 0 {
		t.Error(found)
	}
	_, err = PanelOf(asked(func(c *nutrition.Composition) { c[nutrition.Sodium] = foodtable.Value{} }))
	var open *PanelError
	if !errors.As(err, &open) || !strings.Contains(err.Error(), "sodium") {
		t.Errorf("with its sodium unknown: %v", err)
	}
}

func TestDeclarations(t *testing.T) {
	d, err := nutrition.EUDeclarationOf(nutrition.EUAsked{Food: lentils(t, func(*nutrition.Composition) {}), Intakes: true, Voluntary: []nutrition.Nutrient{nutrition.Fibre}})
	if err != nil {
		t.Fatal(err)
	}
	panel, err := DeclarationOf(d, "Nutrition declaration")
	if err != nil {
		t.Fatal(err)
	}
	if panel.Lines[0].Name != "Energy" || !strings.Contains(panel.Footnote, "8 400 kJ") || panel.PercentOf != "" {
		t.Errorf("%+v", panel)
	}
	for _, f := range Check(laid(t, Content{Panel: panel}, Roll(80, 80), EU(100, 400))) {
		t.Error(f)
	}
}

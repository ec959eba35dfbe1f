package cli

import (
	"fmt"
	"strings"

	"kettlefrost/internal/foodtable"
)

// foodsCommand searches the composition table.
type foodsCommand struct {
	Words []string `arg:"" help:"Words of a food's name, or its number."`
	Limit int      `default:"10" help:"At most so many foods (${default})."`
	JSON  bool     `name:"json" help:"As JSON (kettlefrost.foods/1), with measures, densities and yields."`
}

// FoodsFound is the JSON of a search.
type FoodsFound struct {
	Schema  string      `json:"schema"`
	Query   string      `json:"query"`
	Matches []FoodFound `json:"matches"` // best first
}

// FoodFound is one food with all that the table says of it.
type FoodFound struct {
	foodtable.Match
	Measures  []foodtable.Measure `json:"measures"`
	Densities []foodtable.Density `json:"densities"`
	Yields    []foodtable.Yield   `json:"yields"`
}

func (c foodsCommand) Run(s *surroundings) error {
	if c.Limit < 1 {
		return failure{badUsage, "--limit", fmt.Sprintf("%d foods are none", c.Limit), "give at least 1"}
	}
	table, err := foodtable.Default()
	if err != nil {
		return fmt.Errorf("composition table: %w", err)
	}
	found := FoodsFound{Schema: foodsSchema, Query: strings.Join(c.Words, " "), Matches: []FoodFound{}}
	for _, m := range table.Search(found.Query, c.Limit) {
		found.Matches = append(found.Matches, FoodFound{m, listed(table.Measures(m.Food.NDB)), listed(table.Densities(m.Food.NDB)), listed(table.Yields(m.Food.NDB))})
	}
	switch {
	case c.JSON:
		return s.showJSON(found)
	case len(found.Matches) == 0:
		s.say("no food has these words: %q (try fewer or plainer ones)", found.Query)
		return nil
	case len(found.Matches) == 1:
		return s.show(foodSheet(found.Matches[0]))
	}
	return s.show(foodList(found.Matches))
}

// listed is a list that JSON writes as [] when it is empty.
func listed[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

const per100g = "per 100 g of the edible part; - is not given by the source, which is USDA SR28"

// foodList is one line for each food.
func foodList(matches []FoodFound) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%-5s  %6s %7s %6s %6s %6s %8s  %s\n", "NDB", "water", "protein", "fat", "carb", "ash", "sodium", "food")
	for _, m := range matches {
		n := m.Food.Per100g
		fmt.Fprintf(&b, "%-5s  %6s %7s %6s %6s %6s %8s  %s\n", m.Food.NDB, dash(n.WaterG), dash(n.ProteinG), dash(n.FatG), dash(n.CarbG), dash(n.AshG), dash(n.SodiumMg), m.Food.Name)
	}
	b.WriteString("g, sodium in mg, " + per100g + "\n")
	return b.String()
}

func dash(v foodtable.Value) string {
	if !v.IsGiven() {
		return "-"
	}
	return v.String()
}

// foodSheet is all that the table says of one food.
func foodSheet(m FoodFound) string {
	var b strings.Builder
	n := m.Food.Per100g
	fmt.Fprintf(&b, "%s  %s\n%s; %s\n%s\n", m.Food.NDB, m.Food.Name, m.Food.Description, m.Food.Group, per100g)
	for _, v := range []struct {
		name, unit string
		value      foodtable.Value
	}{
		{"water", "g", n.WaterG}, {"energy", "kcal", n.EnergyKcal}, {"protein", "g", n.ProteinG}, {"fat", "g", n.FatG}, {"saturated fat", "g", n.SatFatG},
		{"trans fat", "g", n.TransFatG}, {"cholesterol", "mg", n.CholesterolMg}, {"carbohydrate", "g", n.CarbG}, {"fibre", "g", n.FibreG}, {"sugars", "g", n.SugarsG},
		{"ash", "g", n.AshG}, {"alcohol", "g", n.AlcoholG}, {"sodium", "mg", n.SodiumMg}, {"potassium", "mg", n.PotassiumMg}, {"calcium", "mg", n.CalciumMg},
		{"iron", "mg", n.IronMg}, {"vitamin D", "µg", n.VitDUg}, {"refuse as it comes", "%", m.Food.RefusePct},
	} {
		fmt.Fprintf(&b, "  %-20s %8s %s\n", v.name, dash(v.value), v.unit)
	}
	for _, e := range m.Measures {
		fmt.Fprintf(&b, "measure: %g %s weighs %g g\n", e.Amount, e.Name, e.Grams)
	}
	for _, d := range m.Densities {
		fmt.Fprintf(&b, "density: %s (%s)\n", strings.TrimPrefix(d.Form+" "+d.KgPerL.String(), " "), d.Kind)
	}
	for _, y := range m.Yields {
		fmt.Fprintf(&b, "yield: %s, %s: %g %% of %s\n", y.Item, y.Method, y.Pct, y.Basis)
	}
	return b.String()
}

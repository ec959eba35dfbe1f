package foodtable

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"kettlefrost/internal/unit"
)

// The columns of the four files, in order.
var (
	foodColumns = []string{
		"ndb_no", "name", "description", "food_group", "refuse_pct",
		"water_g", "energy_kcal", "protein_g", "fat_g", "carb_g", "fibre_g", "sugars_g", "ash_g", "sat_fat_g", "trans_fat_g",
		"cholesterol_mg", "sodium_mg", "potassium_mg", "calcium_mg", "iron_mg", "vit_d_ug", "alcohol_g",
	}
	measureColumns = []string{"ndb_no", "amount", "measure", "grams"}
	yieldColumns   = []string{"item", "method", "yield_pct", "moisture_change_pct", "fat_change_pct", "source", "basis", "ndb_no"}
	densityColumns = []string{"ndb_no", "form", "kind", "g_per_ml", "source"}
)

// firstNutrient is the column of foods.csv where the nutrients begin.
const firstNutrient = 5

// Parse reads the four files of a table, laid out like those in the folder data. What it returns as an error names file, line
// and column of each mistake (*ParseError, joined): the first 20 of a file. The other files are read only when the foods are right.
func Parse(foods, measures, yields, densities io.Reader) (*Table, error) {
	t := &Table{
		at:        map[string]int{},
		measures:  map[string][]Measure{},
		yieldsOf:  map[string][]int{},
		densities: map[string][]Density{},
	}
	if err := t.readFoods(foods); err != nil {
		return nil, err
	}
	if err := errors.Join(t.readMeasures(measures), t.readYields(yields), t.readDensities(densities)); err != nil {
		return nil, err
	}
	t.buildIndexes()
	return t, nil
}

func (t *Table) readFoods(r io.Reader) error {
	names := map[string]bool{}
	s := sheet{file: "foods.csv", columns: foodColumns}
	return s.read(r, func(s *sheet) {
		f := Food{NDB: s.ndb(0), Name: s.text(1), Description: s.text(2), Group: s.text(3), RefusePct: s.value(4, 0, 100)}
		for i, v := range f.Per100g.columns() {
			*v = s.value(firstNutrient+i, 0, mostPer100g(foodColumns[firstNutrient+i]))
		}
		if _, twice := t.at[f.NDB]; twice {
			s.fail(0, fmt.Errorf("%s is there twice", f.NDB))
		}
		if names[f.Name] {
			s.fail(1, fmt.Errorf("%q names two foods", f.Name))
		}
		names[f.Name] = true
		t.at[f.NDB] = len(t.foods)
		t.foods = append(t.foods, f)
	})
}

// mostPer100g is the most that 100 g can hold of a nutrient, in the unit its column names: 100 g of it, or 1000 kcal (pure fat
// has 902).
func mostPer100g(column string) float64 {
	switch {
	case strings.HasSuffix(column, "_kcal"):
		return 1000
	case strings.HasSuffix(column, "_mg"):
		return 100e3
	case strings.HasSuffix(column, "_ug"):
		return 100e6
	default:
		return 100
	}
}

func (t *Table) readMeasures(r io.Reader) error {
	s := sheet{file: "measures.csv", columns: measureColumns}
	return s.read(r, func(s *sheet) {
		ndb := t.knownFood(s, 0)
		m := Measure{Amount: s.number(1, 0.001, 1e6), Name: s.text(2), Grams: s.number(3, 0.001, 1e6)}
		t.measures[ndb] = append(t.measures[ndb], m)
	})
}

func (t *Table) readYields(r io.Reader) error {
	s := sheet{file: "yields.csv", columns: yieldColumns}
	return s.read(r, func(s *sheet) {
		y := Yield{
			Item: s.text(0), Method: s.text(1), Pct: s.number(2, 0.1, 1000),
			MoistureChangeG: s.value(3, -100, 900), FatChangeG: s.value(4, -100, 900),
			Source: s.text(5), Basis: s.text(6),
		}
		if s.cells[7] != "" {
			y.NDB = s.ndb(7)
			t.yieldsOf[y.NDB] = append(t.yieldsOf[y.NDB], len(t.yields))
		}
		t.yields = append(t.yields, y)
	})
}

func (t *Table) readDensities(r io.Reader) error {
	s := sheet{file: "densities.csv", columns: densityColumns}
	return s.read(r, func(s *sheet) {
		ndb := t.knownFood(s, 0)
		d := Density{Form: s.cells[1], KgPerL: unit.Density(s.number(3, 0.01, 25)), Source: s.text(4)}
		switch s.cells[2] {
		case Liquid.String():
			d.Kind = Liquid
		case Bulk.String():
			d.Kind = Bulk
		default:
			s.fail(2, fmt.Errorf("%q is neither %q nor %q", s.cells[2], Liquid, Bulk))
		}
		if _, twice := t.Density(ndb, d.Form); twice {
			s.fail(1, fmt.Errorf("the form %q of %s is there twice", d.Form, ndb))
		}
		t.densities[ndb] = append(t.densities[ndb], d)
	})
}

// knownFood is a cell that must hold the number of a food of the table.
func (t *Table) knownFood(s *sheet, column int) string {
	ndb := s.ndb(column)
	if _, known := t.at[ndb]; !known && len(ndb) == 5 {
		s.fail(column, fmt.Errorf("no food has the number %s", ndb))
	}
	return ndb
}

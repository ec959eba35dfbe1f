package nutrition

import (
	"slices"

	"kettlefrost/internal/foodtable"
)

// Nutrient is one thing that a panel declares, or that is needed to reckon what it declares.
type Nutrient int

const (
	Energy Nutrient = iota // kcal, as the source of the composition has it
	Fat
	SaturatedFat
	TransFat
	PolyunsaturatedFat
	MonounsaturatedFat
	Cholesterol // mg
	Sodium      // mg
	Carbohydrate
	Fibre
	Sugars
	AddedSugars
	SugarAlcohol
	Protein
	VitaminD // µg
	Calcium  // mg
	Iron     // mg
	Potassium
	Water
	Alcohol
	Ash
	nutrients
)

// kind is what is known of a nutrient whatever the food.
type kind struct {
	name, unit string
	line       string   // in the tables of rules
	within     Nutrient // it is a part of this one
}

// Carbohydrate is by difference and includes fibre, sugars and sugar alcohols.
var kinds = [nutrients]kind{
	Energy:             {"energy", "kcal", "calories", Energy},
	Fat:                {"fat", "g", "total_fat", Fat},
	SaturatedFat:       {"saturated fat", "g", "saturated_fat", Fat},
	TransFat:           {"trans fat", "g", "trans_fat", Fat},
	PolyunsaturatedFat: {"polyunsaturated fat", "g", "polyunsaturated_fat", Fat},
	MonounsaturatedFat: {"monounsaturated fat", "g", "monounsaturated_fat", Fat},
	Cholesterol:        {"cholesterol", "mg", "cholesterol", Cholesterol},
	Sodium:             {"sodium", "mg", "sodium", Sodium},
	Carbohydrate:       {"carbohydrate", "g", "total_carbohydrate", Carbohydrate},
	Fibre:              {"fibre", "g", "dietary_fiber", Carbohydrate},
	Sugars:             {"sugars", "g", "total_sugars", Carbohydrate},
	AddedSugars:        {"added sugars", "g", "added_sugars", Sugars},
	SugarAlcohol:       {"sugar alcohol", "g", "sugar_alcohol", Carbohydrate},
	Protein:            {"protein", "g", "protein", Protein},
	VitaminD:           {"vitamin D", "mcg", "vitamin_d", VitaminD},
	Calcium:            {"calcium", "mg", "calcium", Calcium},
	Iron:               {"iron", "mg", "iron", Iron},
	Potassium:          {"potassium", "mg", "potassium", Potassium},
	Water:              {"water", "g", "water", Water},
	Alcohol:            {"alcohol", "g", "alcohol", Alcohol},
	Ash:                {"ash", "g", "ash", Ash},
}

// proximates are what a food is made up of: 100 g of them are 100 g.
var proximates = []Nutrient{Water, Protein, Fat, Carbohydrate, Alcohol, Ash}

// apart are the parts of the same whole of which no gram is of two kinds. Trans fat is not apart from the unsaturated fats.
var apart = map[Nutrient][]Nutrient{
	SaturatedFat: {MonounsaturatedFat, PolyunsaturatedFat, TransFat}, MonounsaturatedFat: {SaturatedFat, PolyunsaturatedFat}, PolyunsaturatedFat: {SaturatedFat, MonounsaturatedFat},
	TransFat: {SaturatedFat}, Fibre: {Sugars, SugarAlcohol}, Sugars: {Fibre, SugarAlcohol}, SugarAlcohol: {Fibre, Sugars},
}

// Nutrients are all of them.
func Nutrients() []Nutrient {
	all := make([]Nutrient, nutrients)
	for i := range all {
		all[i] = Nutrient(i)
	}
	return all
}

// String is its name.
func (n Nutrient) String() string {
	if n < 0 || n >= nutrients {
		return "unknown nutrient"
	}
	return kinds[n].name
}

// MarshalText writes the name.
func (n Nutrient) MarshalText() ([]byte, error) { return []byte(n.String()), nil }

// Unit is what its amounts are counted in: kcal, g, mg or mcg.
func (n Nutrient) Unit() string { return kinds[n].unit }

// Composition is what 100 g of a food hold, nutrient by nutrient, each given or not.
type Composition [nutrients]foodtable.Value

// FromTable is the composition of a food of the table. Added sugars, sugar alcohols and the unsaturated fats are not in the table, so they are
// not given: set them where they are known.
func FromTable(n foodtable.Nutrients) Composition {
	return Composition{
		Energy: n.EnergyKcal, Fat: n.FatG, SaturatedFat: n.SatFatG, TransFat: n.TransFatG, Cholesterol: n.CholesterolMg, Sodium: n.SodiumMg,
		Carbohydrate: n.CarbG, Fibre: n.FibreG, Sugars: n.SugarsG, Protein: n.ProteinG, VitaminD: n.VitDUg, Calcium: n.CalciumMg,
		Iron: n.IronMg, Potassium: n.PotassiumMg, Water: n.WaterG, Alcohol: n.AlcoholG, Ash: n.AshG,
	}
}

// of is one figure: what is given, or none where the nutrient is a part of one of which there is none.
func (c Composition) of(n Nutrient) foodtable.Value {
	if c[n].IsGiven() {
		return c[n]
	}
	if whole := kinds[n].within; whole != n {
		if x, given := c.of(whole).Get(); given && x == 0 {
			return foodtable.Given(0)
		}
	}
	return foodtable.Value{}
}

// most is what a figure can be at most: itself; else what the others leave of the whole that it is a part of, or of 100 g; not given where
// nothing bounds it.
func (c Composition) most(n Nutrient) foodtable.Value {
	switch whole := kinds[n].within; {
	case c[n].IsGiven():
		return c[n]
	case whole != n:
		most, bounded := c.most(whole).Get()
		if !bounded {
			return foodtable.Value{}
		}
		return c.left(most, apart[n])
	case slices.Contains(proximates, n):
		return c.left(100, proximates)
	}
	return foodtable.Value{}
}

// left is what these leave of a whole. What is not given of them counts as nothing, which leaves too much.
func (c Composition) left(whole float64, others []Nutrient) foodtable.Value {
	for _, n := range others {
		whole -= c[n].Or(0)
	}
	return foodtable.Given(max(0, whole))
}

// check says which figure cannot be.
func (c Composition) check(name string) error {
	for n, v := range c {
		x, given := v.Get()
		if given && (!(x >= 0 && x <= 1e5) || kinds[n].unit == "g" && x > 100.5) {
			return &InputError{name + ": " + Nutrient(n).String(), "is " + v.String() + " " + kinds[n].unit + " per 100 g", "correct it"}
		}
	}
	return nil
}

package foodtable

import (
	"strconv"

	"kettlefrost/internal/unit"
)

// A Value is a figure that the source gives, or does not give. The zero Value is not given. There is no way to read the number
// without also hearing whether there is one.
type Value struct {
	amount float64
	given  bool
}

// Given is the value x.
func Given(x float64) Value { return Value{amount: x, given: true} }

// Get is the figure and whether the source gives it; the figure is 0 when it does not.
func (v Value) Get() (amount float64, given bool) { return v.amount, v.given }

// Or is the figure, or instead where the source gives none.
func (v Value) Or(instead float64) float64 {
	if v.given {
		return v.amount
	}
	return instead
}

// IsGiven says whether the source gives the figure.
func (v Value) IsGiven() bool { return v.given }

// String is the figure as short as it can be read back, or "not given".
func (v Value) String() string {
	if !v.given {
		return "not given"
	}
	return strconv.FormatFloat(v.amount, 'g', -1, 64)
}

// MarshalJSON writes a number, or null where the source gives none.
func (v Value) MarshalJSON() ([]byte, error) {
	if !v.given {
		return []byte("null"), nil
	}
	return strconv.AppendFloat(nil, v.amount, 'f', -1, 64), nil
}

// Nutrients are amounts per 100 g of the edible part of a food.
type Nutrients struct {
	WaterG        Value `json:"water_g"`
	EnergyKcal    Value `json:"energy_kcal"` // by USDA's specific factors, so not 4/4/9/7
	ProteinG      Value `json:"protein_g"`
	FatG          Value `json:"fat_g"`
	CarbG         Value `json:"carb_g"` // by difference, fibre included, alcohol not
	FibreG        Value `json:"fibre_g"`
	SugarsG       Value `json:"sugars_g"`
	AshG          Value `json:"ash_g"`
	SatFatG       Value `json:"sat_fat_g"`
	TransFatG     Value `json:"trans_fat_g"`
	CholesterolMg Value `json:"cholesterol_mg"`
	SodiumMg      Value `json:"sodium_mg"`
	PotassiumMg   Value `json:"potassium_mg"`
	CalciumMg     Value `json:"calcium_mg"`
	IronMg        Value `json:"iron_mg"`
	VitDUg        Value `json:"vit_d_ug"`
	AlcoholG      Value `json:"alcohol_g"`
}

// columns are the nutrients in the order of foods.csv.
func (n *Nutrients) columns() [17]*Value {
	return [...]*Value{
		&n.WaterG, &n.EnergyKcal, &n.ProteinG, &n.FatG, &n.CarbG, &n.FibreG, &n.SugarsG, &n.AshG, &n.SatFatG, &n.TransFatG,
		&n.CholesterolMg, &n.SodiumMg, &n.PotassiumMg, &n.CalciumMg, &n.IronMg, &n.VitDUg, &n.AlcoholG,
	}
}

// Food is one food of the table.
type Food struct {
	NDB         string    `json:"ndb"`         // USDA's five-digit number, text: "01009"
	Name        string    `json:"name"`        // as a cook would say it: "chicken thigh, skinless, raw"
	Description string    `json:"description"` // USDA's own
	Group       string    `json:"group"`       // USDA's food group
	RefusePct   Value     `json:"refuse_pct"`  // peel, bone, core ...: % of the food's weight as it comes
	Per100g     Nutrients `json:"per_100g"`    // of the edible part
}

// Measure is a household measure of a food: Amount times Name weighs Grams. Cups and spoons are US customary. A name that speaks
// of a yield ("unit (yield from 1 lb ready-to-cook chicken)") is a cooked weight from a raw amount.
type Measure struct {
	Amount float64 `json:"amount"`
	Name   string  `json:"name"`
	Grams  float64 `json:"grams"`
}

// Yield is what is left of a food after cooking, thawing or draining.
type Yield struct {
	Item   string `json:"item"`
	Method string `json:"method"`
	// Pct is the weight afterwards as % of the weight that Basis names. Read Basis first: "raw, with bone or other refuse" and
	// "raw meat as weighed" are far apart.
	Pct             float64 `json:"yield_pct"`
	Basis           string  `json:"basis"`
	MoistureChangeG Value   `json:"moisture_change_g"` // per 100 g before; a loss is negative
	FatChangeG      Value   `json:"fat_change_g"`      // per 100 g before; a loss is negative
	Source          string  `json:"source"`
	NDB             string  `json:"ndb"` // USDA's number of the cooked food, which need not be in the table; may be empty
}

// Kind says what a density may be used for.
type Kind int

const (
	// Liquid is the true density of a liquid or paste, to 1-2 %.
	Liquid Kind = iota + 1
	// Bulk is a heap of pieces or powder, air included. It turns cups into grams; it does not fill tanks or bags.
	Bulk
)

// String is "liquid or paste" or "bulk".
func (k Kind) String() string {
	switch k {
	case Liquid:
		return "liquid or paste"
	case Bulk:
		return "bulk"
	default:
		return "kind(" + strconv.Itoa(int(k)) + ")"
	}
}

// MarshalText writes the kind as its words.
func (k Kind) MarshalText() ([]byte, error) { return []byte(k.String()), nil }

// Density is what a litre of a food weighs, in one form: "chopped", "melted", or "" when the source names none.
type Density struct {
	Form   string       `json:"form"`
	Kind   Kind         `json:"kind"`
	KgPerL unit.Density `json:"kg_per_l"`
	Source string       `json:"source"`
}

package nutrition

import (
	_ "embed"
	"fmt"
	"slices"

	"kettlefrost/internal/sourced"
	"kettlefrost/internal/unit"
)

// Reference is the amount that is customarily eaten at once of a kind of product (RACC): what a serving is made from.
type Reference struct {
	Code    string    `json:"code"` // "soup"
	Product string    `json:"product"`
	Mass    unit.Mass `json:"mass_g"` // 0: it is a volume
	ML      float64   `json:"ml"`     // where it is one, with the cup of 240 ml
	Say     string    `json:"say"`    // cup, tbsp or piece
	Agency  string    `json:"agency"` // FDA or USDA
	Source  string    `json:"source"`
	Confirm string    `json:"confirm,omitempty"`
}

//go:embed data/references.csv
var referenceData string

var references = sourced.MustRead(referenceData, func(row sourced.Row) (r Reference, err error) {
	r = Reference{Code: row["code"], Product: row["product"], Say: row["say"], Agency: row["agency"], Source: row["source"], Confirm: row["confirm"]}
	if row["mass_g"] != "" {
		g, err := number(row["mass_g"])
		r.Mass = unit.MassKg(g / 1000)
		return r, err
	}
	r.ML, err = number(row["volume_ml"])
	return r, err
})

// References are all rows of the table.
func References() []Reference { return slices.Clone(references) }

// ReferenceOf is the row of a code.
func ReferenceOf(code string) (Reference, bool) {
	for _, r := range references {
		if r.Code == code {
			return r, true
		}
	}
	return Reference{}, false
}

// Weighs is the reference amount as a mass. One that is a volume is turned into a mass by weighing a cup of that product, which is what
// gPerML comes from; it may be 0 where the amount is a mass. Errors are *InputError.
func (r Reference) Weighs(gPerML float64) (unit.Mass, error) {
	if r.Mass > 0 {
		return r.Mass, nil
	}
	if err := checkDensity(gPerML); err != nil {
		return 0, err
	}
	return unit.MassKg(r.ML * gPerML / 1000), nil
}

func checkDensity(gPerML float64) error {
	if gPerML > 0.1 && gPerML < 3 {
		return nil
	}
	return &InputError{"what a cup of it weighs", fmt.Sprintf("is %.0f g", 240*gPerML), "weigh a cup of 240 ml of the finished product and give grams per millilitre"}
}

// PackedTogether is the reference amount of foods that are packed to be eaten together: that of the main one, with as much of the others as
// belongs to it in the pack (21 CFR 101.12(f), read). Errors are *InputError.
func PackedTogether(main unit.Mass, mainInPack, othersInPack unit.Mass) (unit.Mass, error) {
	if main <= 0 || mainInPack <= 0 || othersInPack < 0 {
		return 0, &InputError{"foods packed together", "need a reference amount and a mass of the main one", "give both"}
	}
	return main + unit.MassKg(othersInPack.Kg()*main.Kg()/mainInPack.Kg()), nil
}

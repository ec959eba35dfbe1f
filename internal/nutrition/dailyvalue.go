package nutrition

import (
	_ "embed"
	"slices"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/sourced"
)

// Rules is whose panel it is.
type Rules int

const (
	FDA  Rules = iota + 1 // 21 CFR 101.9 with the daily values of the 2016 rule
	USDA                  // meat and poultry: 9 CFR 317.309 as of 2015. Whether its older daily values still apply is a question for FSIS
)

// String is the text the rules are from.
func (r Rules) String() string {
	switch r {
	case FDA:
		return "21 CFR 101.9"
	case USDA:
		return "9 CFR 317.309"
	}
	return "no rules"
}

// MarshalText writes what String says.
func (r Rules) MarshalText() ([]byte, error) { return []byte(r.String()), nil }

// DailyValue is how much of a nutrient a day has, age 4 and over.
type DailyValue struct {
	Line    string          `json:"line"`
	Unit    string          `json:"unit"`
	FDA     foodtable.Value `json:"fda"`
	USDA    foodtable.Value `json:"usda"` // not given: it has none
	Source  string          `json:"source"`
	Confirm string          `json:"confirm,omitempty"` // what of it is from memory
}

//go:embed data/daily_values.csv
var dailyValueData string

var dailyValues = sourced.MustRead(dailyValueData, func(row sourced.Row) (v DailyValue, err error) {
	v = DailyValue{Line: row["line"], Unit: row["unit"], Source: row["source"], Confirm: row["confirm"]}
	for name, to := range map[string]*foodtable.Value{"fda": &v.FDA, "usda": &v.USDA} {
		if row[name] != "" {
			x, err := number(row[name])
			if err != nil {
				return v, err
			}
			*to = foodtable.Given(x)
		}
	}
	return v, nil
})

// DailyValues are all of them.
func DailyValues() []DailyValue { return slices.Clone(dailyValues) }

// daily is the daily value of a nutrient.
func (r Rules) daily(n Nutrient) (float64, bool) {
	for _, v := range dailyValues {
		if v.Line == kinds[n].line {
			if r == USDA {
				return v.USDA.Get()
			}
			return v.FDA.Get()
		}
	}
	return 0, false
}

// Micronutrient says whether its per cent of the daily value is rounded in the wide steps of vitamins and minerals.
func (n Nutrient) Micronutrient() bool {
	return n == VitaminD || n == Calcium || n == Iron || n == Potassium
}

// AllowedDV is every per cent of the daily value that may stand beside an amount that is declared so: of the actual amount first, of the
// declared one too where the rules leave the choice ((d)(7)(ii)). Beside a zero it is zero first, so that the label does not read oddly.
// Nothing for what has no daily value, and for protein, whose per cent needs its digestibility.
func (r Rules) AllowedDV(n Nutrient, actual float64, declared Print) []Print {
	dv, has := r.daily(n)
	if !has || n == Protein {
		return nil
	}
	if n.Micronutrient() {
		return Allowed("percent_dv_vitamin_mineral", 100*actual/dv)
	}
	all := Allowed("percent_dv_drv", 100*actual/dv)
	for _, p := range Allowed("percent_dv_drv", 100*declared.Amount/dv) {
		if same := func(q Print) bool { return q.Text == p.Text }; slices.ContainsFunc(all, same) {
			continue
		}
		if declared.Amount == 0 {
			all = append([]Print{p}, all...)
		} else {
			all = append(all, p)
		}
	}
	return all
}

package nutrition

import (
	_ "embed"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/sourced"
)

var (
	//go:embed data/eu_tolerances.csv
	euToleranceData string
	//go:embed data/us_tolerances.csv
	usToleranceData string
)

// Tolerance is between what an analysis of a food may be for the label to be true. The bounds are in the unit of the declaration; not given:
// none.
type Tolerance struct {
	Least   foodtable.Value `json:"least"`
	Most    foodtable.Value `json:"most"`
	Source  string          `json:"source"`
	Confirm string          `json:"confirm,omitempty"`
}

type usTolerance struct {
	line            string
	isMost, isAdded bool
	natural         bool
	pct             float64
	source, confirm string
}

var usTolerances = sourced.MustRead(usToleranceData, func(row sourced.Row) (r usTolerance, err error) {
	r = usTolerance{line: row["line"], isMost: row["sense"] == "most", isAdded: row["of"] != "natural", natural: row["of"] != "added", source: row["source"], confirm: row["confirm"]}
	r.pct, err = number(row["pct"])
	return r, err
})

// Tolerance is that of a declared amount, 21 CFR 101.9(g): no more than 120 % of the calories, sugars, fats, cholesterol and sodium that are
// declared, no less than 80 % of what is in food by nature, or 100 % of what was added. Not ok for a nutrient without one.
func (n Nutrient) Tolerance(declared float64, added bool) (Tolerance, bool) {
	for _, r := range usTolerances {
		if r.line != kinds[n].line || added && !r.isAdded || !added && !r.natural {
			continue
		}
		t := Tolerance{Source: r.source, Confirm: r.confirm}
		if at := foodtable.Given(declared * r.pct / 100); r.isMost {
			t.Most = at
		} else {
			t.Least = at
		}
		return t, true
	}
	return Tolerance{}, false
}

type tolerance struct {
	line                      string
	from, to                  bound
	plus, minus               float64
	plusIsShare, minusIsShare bool
	source, confirm           string
}

var euTolerances = sourced.MustRead(euToleranceData, func(row sourced.Row) (r tolerance, err error) {
	r = tolerance{line: row["line"], source: row["source"], confirm: row["confirm"], plusIsShare: row["plus_pct"] != "", minusIsShare: row["minus_pct"] != ""}
	if r.from, err = readBound(row["from"]); err != nil {
		return r, err
	}
	if r.to, err = readBound(row["to"]); err != nil {
		return r, err
	}
	if r.plus, err = number(row["plus_g"] + row["plus_pct"]); err != nil {
		return r, err
	}
	r.minus, err = number(row["minus_g"] + row["minus_pct"])
	return r, err
})

// ToleranceEU is the tolerance of an amount declared per 100 g on a line of the guidance ("nutrients", "fat", "fatty_acids", "sodium", "salt",
// "vitamins", "minerals"), measurement uncertainty included; there is none for energy. All of them are from memory.
func ToleranceEU(line string, declared float64) (Tolerance, bool) {
	for _, r := range euTolerances {
		if x := microOf(declared); r.line != line || !r.from.holds(x) || !r.to.holds(x) {
			continue
		}
		off := func(by float64, isShare bool) float64 {
			if isShare {
				return declared * by / 100
			}
			return by
		}
		least, most := max(0, declared-off(r.minus, r.minusIsShare)), declared+off(r.plus, r.plusIsShare)
		return Tolerance{foodtable.Given(least), foodtable.Given(most), r.source, r.confirm}, true
	}
	return Tolerance{}, false
}

package nutrition

import (
	_ "embed"

	"kettlefrost/internal/sourced"
)

//go:embed data/eu_tolerances.csv
var euToleranceData string

// Tolerance is how far a food may be off what its label declares. The bounds are in the unit of the declaration.
type Tolerance struct {
	Least, Most     float64
	Source, Confirm string
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
		return Tolerance{max(0, declared-off(r.minus, r.minusIsShare)), declared + off(r.plus, r.plusIsShare), r.source, r.confirm}, true
	}
	return Tolerance{}, false
}

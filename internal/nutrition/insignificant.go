package nutrition

import (
	_ "embed"

	"kettlefrost/internal/sourced"
)

// limit is under which amount a nutrient is insignificant.
type limit struct {
	line            string
	below           float64
	percent         bool // of the daily value
	source, confirm string
}

//go:embed data/insignificant.csv
var insignificantData string

var limits = sourced.MustRead(insignificantData, func(row sourced.Row) (l limit, err error) {
	l = limit{line: row["line"], percent: row["of"] == "percent", source: row["source"], confirm: row["confirm"]}
	l.below, err = number(row["below"])
	return l, err
})

// Insignificant says whether an amount is an insignificant one, 21 CFR 101.9(j)(4). One that is not known whole is, if it is at its most.
func (r Rules) Insignificant(n Nutrient, a Amount) bool {
	most, bounded := a.Most.Get()
	if !bounded {
		return false
	}
	for _, l := range limits {
		if l.line != kinds[n].line {
			continue
		}
		if l.percent {
			dv, has := r.daily(n)
			most = 100 * most / dv
			if !has {
				return false
			}
		}
		return microOf(most) < microOf(l.below)
	}
	return false
}

// Simplified is whether a panel may be of the simplified format.
type Simplified struct {
	May           bool       `json:"may"`
	Insignificant []Nutrient `json:"insignificant"` // of the fifteen
	Need          int        `json:"need"`          // how many of them must be
	Source        string     `json:"source"`
	Confirm       string     `json:"confirm"`
}

// Simplified says whether a serving may be declared in the simplified format: 8 of the fifteen or more are insignificant.
func (r Rules) Simplified(a Amounts) Simplified {
	s := Simplified{Need: 8, Source: "21 CFR 101.9(f)", Confirm: "that 8 of the 15 must be insignificant is from memory"}
	for _, n := range required {
		if r.Insignificant(n, declaredOf(a, n)) {
			s.Insignificant = append(s.Insignificant, n)
		}
	}
	s.May = len(s.Insignificant) >= s.Need
	return s
}

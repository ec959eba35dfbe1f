package nutrition

import (
	_ "embed"
	"slices"
	"strings"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/sourced"
)

// Retained is what cooking leaves of minerals and alcohol, in % of what the raw food holds. Not given: the source has no figure, and nothing
// is taken off. It has none for vitamin D.
type Retained struct {
	Code         string          `json:"code"`        // four digits, text
	Description  string          `json:"description"` // USDA's own
	CalciumPct   foodtable.Value `json:"calcium_pct"`
	IronPct      foodtable.Value `json:"iron_pct"`
	PotassiumPct foodtable.Value `json:"potassium_pct"`
	SodiumPct    foodtable.Value `json:"sodium_pct"`
	AlcoholPct   foodtable.Value `json:"alcohol_pct"`
	Source       string          `json:"source"`
}

//go:embed data/retention.csv
var retentionData string

var (
	retained       = sourced.MustRead(retentionData, readRetained)
	retainedByCode = index(retained)
)

func index(rows []Retained) map[string]Retained {
	by := map[string]Retained{}
	for _, r := range rows {
		by[r.Code] = r
	}
	return by
}

func readRetained(row sourced.Row) (r Retained, err error) {
	r = Retained{Code: row["code"], Description: row["description"], Source: row["source"]}
	for name, to := range map[string]*foodtable.Value{"calcium_pct": &r.CalciumPct, "iron_pct": &r.IronPct, "potassium_pct": &r.PotassiumPct,
		"sodium_pct": &r.SodiumPct, "alcohol_pct": &r.AlcoholPct} {
		if row[name] == "" {
			continue
		}
		x, err := number(row[name])
		if err != nil {
			return r, err
		}
		*to = foodtable.Given(x)
	}
	return r, nil
}

// Retentions are all rows of the table.
func Retentions() []Retained { return slices.Clone(retained) }

// RetainedBy is the row of a code.
func RetainedBy(code string) (Retained, bool) {
	r, ok := retainedByCode[code]
	return r, ok
}

// FindRetained are the rows whose description has all these words: "chicken simmer".
func FindRetained(words string) []Retained {
	var found []Retained
	for _, r := range retained {
		fits := true
		for _, w := range strings.Fields(strings.ToUpper(words)) {
			fits = fits && strings.Contains(r.Description, w)
		}
		if fits {
			found = append(found, r)
		}
	}
	return found
}

// of is the share that is left of a nutrient.
func (r Retained) of(n Nutrient) float64 {
	pct := map[Nutrient]foodtable.Value{Calcium: r.CalciumPct, Iron: r.IronPct, Potassium: r.PotassiumPct, Sodium: r.SodiumPct, Alcohol: r.AlcoholPct}
	return pct[n].Or(100) / 100
}

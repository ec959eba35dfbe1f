package dosing

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/sourced"
	"kettlefrost/internal/unit"
)

//go:embed data/emulsifiers.csv
var emulsifierData string

//go:embed data/standards.csv
var standardData string

// Emulsifier is an emulsifying salt as tables have it; what they leave empty was not read. Doses were found for citrate alone.
type Emulsifier struct {
	Name, Formula                                 string
	Sodium                                        float64 // share of its mass; 0: not known
	PHOfOnePercent                                float64
	BindsCalcium, Buffers, Emulsifies, OnBacteria string
	Source, Confirm                               string
}

// Standard is a cheese product whose name the law defines. A sauce by another name is none of them. Shares are of the product; 0: no limit.
type Standard struct {
	Name                            string
	MostWater, LeastWater, LeastFat unit.Share
	MostSalts                       unit.Share // emulsifying salts, as solids
	LowestPH                        float64    // from memory
	LeastCheese                     unit.Share // from memory
	Source, Confirm                 string
}

// HeldC and HeldS are the heat that each of the standards asks for: 150 °F for 30 s.
const (
	HeldC = (150 - 32) / 1.8
	HeldS = 30
)

var (
	emulsifiers = sourced.MustRead(emulsifierData, readEmulsifier)
	standards   = sourced.MustRead(standardData, readStandard)
)

// Emulsifiers are the salts that were found.
func Emulsifiers() []Emulsifier { return slices.Clone(emulsifiers) }

// Standards are the cheese products whose names the law defines.
func Standards() []Standard { return slices.Clone(standards) }

func readEmulsifier(row sourced.Row) (Emulsifier, error) {
	e := Emulsifier{Name: row["name"], Formula: row["formula"], BindsCalcium: row["binds_calcium"], Buffers: row["buffers"], Emulsifies: row["emulsifies"],
		OnBacteria: row["against_bacteria"], Source: row["source"], Confirm: row["confirm"]}
	var sodium unit.Share
	if err := readPercent(row["sodium_pct"], &sodium); err != nil {
		return e, err
	}
	e.Sodium = sodium.F()
	var err error
	e.PHOfOnePercent, err = strconv.ParseFloat(row["ph_1pct"], 64)
	return e, err
}

func readStandard(row sourced.Row) (Standard, error) {
	s := Standard{Name: row["name"], Source: row["source"], Confirm: row["confirm"]}
	for name, to := range map[string]*unit.Share{"most_water_pct": &s.MostWater, "least_water_pct": &s.LeastWater, "least_fat_pct": &s.LeastFat, "most_salts_pct": &s.MostSalts, "least_cheese_pct": &s.LeastCheese} {
		if err := readPercent(row[name], to); err != nil {
			return s, err
		}
	}
	var err error
	s.LowestPH, err = strconv.ParseFloat(row["lowest_ph"], 64)
	return s, err
}

// Named is what is wrong with calling a sauce with its citrate by a name that the law defines. What was read stops; what is from memory does not.
// Nothing found is no permission: the law says more than these figures. Errors: *InputError.
func (c CitrateDoses) Named(standard string, w Salted) (finding.List, error) {
	i := slices.IndexFunc(standards, func(s Standard) bool { return s.Name == standard })
	if i < 0 {
		var names []string
		for _, s := range standards {
			names = append(names, s.Name)
		}
		return nil, &InputError{"the name", fmt.Sprintf("is %q", standard), "take one of " + strings.Join(names, ", ")}
	}
	s := standards[i]
	var all finding.List
	judge := func(what string, have, limit float64, over bool, severity finding.Severity) {
		if limit == 0 || over && have <= limit || !over && have >= limit {
			return
		}
		side := "under"
		if over {
			side = "over"
		}
		f := finding.Finding{Code: "not-of-the-standard", Severity: severity, Where: s.Name, Message: fmt.Sprintf("%s is %.3g, %s %.3g", what, have, side, limit),
			Figures: []finding.Figure{plain(what, have), plain("limit", limit)}, Source: s.Source, Fix: "call it a cheese sauce, or change it"}
		if severity < finding.Stop {
			f.Source += "; from memory: " + s.Confirm
		}
		all = append(all, f)
	}
	cheese := ratio(c.sauce.cheese(), w.Total)
	judge("moisture, %", 100*w.Whole.Water, 100*s.MostWater.F(), true, finding.Stop)
	judge("moisture, %", 100*w.Whole.Water, 100*s.LeastWater.F(), false, finding.Stop)
	judge("fat, %", 100*w.Whole.Fat, 100*s.LeastFat.F(), false, finding.Stop)
	judge("emulsifying salt, %", 100*w.OfTotal, 100*s.MostSalts.F(), true, finding.Stop)
	judge("cheese, %", 100*cheese, 100*s.LeastCheese.F(), false, finding.Caution)
	if c.sauce.PH > 0 {
		judge("pH", c.sauce.PH, s.LowestPH, false, finding.Caution)
	}
	return all, nil
}

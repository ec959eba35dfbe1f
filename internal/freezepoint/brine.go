package freezepoint

import (
	_ "embed"
	"fmt"
	"strconv"

	"kettlefrost/internal/sourced"
)

//go:embed data/brine.csv
var brineData string

// Brine is one measured freezing point of table salt in water.
type Brine struct {
	MolKgWater float64 // of salt, not of particles
	LowersK    float64
	Source     string
	Confirm    string // what of it is from memory: nothing so far
}

// Brines is the table, thin to strong.
func Brines() []Brine { return append([]Brine(nil), brines...) }

var brines = sourced.MustRead(brineData, func(row sourced.Row) (Brine, error) {
	b := Brine{Source: row["source"], Confirm: row["confirm"]}
	var err error
	if b.MolKgWater, err = strconv.ParseFloat(row["mol_per_kg_water"], 64); err != nil {
		return b, err
	}
	b.LowersK, err = strconv.ParseFloat(row["lowers_k"], 64)
	return b, err
})

// SaltLowersK is by how much salt alone lowers the freezing point of water, K, straight between measured values. molKgWater is of salt, from
// 0 to 0.75. Errors: *InputError.
func SaltLowersK(molKgWater float64) (float64, error) {
	strongest := brines[len(brines)-1].MolKgWater
	if !(molKgWater >= 0 && molKgWater <= strongest) {
		return 0, &InputError{"salt", fmt.Sprintf("is %g mol per kg of water", molKgWater), fmt.Sprintf("the table goes from 0 to %g", strongest)}
	}
	var from Brine
	for _, to := range brines {
		if molKgWater <= to.MolKgWater {
			return from.LowersK + (to.LowersK-from.LowersK)*(molKgWater-from.MolKgWater)/(to.MolKgWater-from.MolKgWater), nil
		}
		from = to
	}
	return from.LowersK, nil
}

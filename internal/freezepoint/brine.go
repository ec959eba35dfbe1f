package freezepoint

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
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

var brines = mustRead(brineData)

// mustRead reads the embedded table. A mistake in it stops the program as it starts.
func mustRead(text string) []Brine {
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		panic("freezepoint: " + err.Error())
	}
	var all []Brine
	for _, l := range lines[1:] {
		mol, err1 := strconv.ParseFloat(l[0], 64)
		k, err2 := strconv.ParseFloat(l[1], 64)
		if err1 != nil || err2 != nil || l[2] == "" {
			panic(fmt.Sprintf("freezepoint: row %q of the brine table", l))
		}
		all = append(all, Brine{mol, k, l[2], l[3]})
	}
	return all
}

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

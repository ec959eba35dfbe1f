package dosing

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"

	"kettlefrost/internal/sourced"
	"kettlefrost/internal/unit"
)

//go:embed data/levels.csv
var levelData string

//go:embed data/maxima.csv
var maximumData string

// Maximum is what law allows of a substance in a category of food, as served.
type Maximum struct {
	Substance, Category string
	Most                unit.Share // 0: no number, good manufacturing practice
	Law, Source         string
	Confirm             string // what of it is from memory
}

var (
	levels  = sourced.MustRead(levelData, readLevel)
	maxima  = sourced.MustRead(maximumData, readMaximum)
	thicken = sourced.MustRead(thickenerData, readThickener)
)

// Levels are all levels that were found.
func Levels() []Level { return slices.Clone(levels) }

// Maxima are all maxima in law that were found.
func Maxima() []Maximum { return slices.Clone(maxima) }

func readLevel(row sourced.Row) (Level, error) {
	l := Level{Substance: row["substance"], Use: row["use"], Basis: Basis(row["basis"]), Source: row["source"], Confirm: row["confirm"]}
	for name, to := range map[string]*unit.Share{"low_pct": &l.Low, "target_pct": &l.Target, "high_pct": &l.High, "warn_pct": &l.Warn, "err_pct": &l.Err} {
		if err := readPercent(row[name], to); err != nil {
			return l, err
		}
	}
	if !(0 < l.Low && l.Low <= l.Target && l.Target <= l.High) {
		return l, fmt.Errorf("levels %v", l.Range)
	}
	return l, nil
}

func readMaximum(row sourced.Row) (Maximum, error) {
	m := Maximum{Substance: row["substance"], Category: row["category"], Law: row["law"], Source: row["source"], Confirm: row["confirm"]}
	return m, readPercent(row["max_pct"], &m.Most)
}

// readPercent reads a percentage, or leaves 0 where there is none.
func readPercent(text string, to *unit.Share) error {
	if text == "" {
		return nil
	}
	pct, err := strconv.ParseFloat(text, 64)
	*to = unit.ShareOf(pct / 100)
	return err
}

// levelFor is the level of a substance in a use by a basis.
func levelFor(substance, use string, basis Basis) (Level, bool) {
	i := slices.IndexFunc(levels, func(l Level) bool { return l.Substance == substance && l.Use == use && l.Basis == basis })
	if i < 0 {
		return Level{}, false
	}
	return levels[i], true
}

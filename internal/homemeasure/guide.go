package homemeasure

import (
	_ "embed"
	"fmt"

	"kettlefrost/internal/sourced"
	"kettlefrost/internal/unit"
)

//go:embed data/round.csv
var roundCSV string

// band is a row of the rounding guide: amounts from From to below Below go to whole steps. Below 0 is without end; step 0 is none.
type band[T ~int64] struct {
	from, below, step T
	source, confirm   string
}

// Rounded is an amount by the institutional rounding guide.
type Rounded[T ~int64] struct {
	Amount T
	Step   T       // 0: the guide gives none here, and says to measure
	Off    float64 // as a share of the amount
	Worst  float64 // the largest share that rounding can be off in this band
	Source string
	Memory bool // the row is from memory and has to be confirmed
}

var massBands, volumeBands = guide()

func guide() (masses []band[unit.Mass], volumes []band[unit.Volume]) {
	sourced.MustRead(roundCSV, func(row sourced.Row) (struct{}, error) {
		var err error
		switch row["kind"] {
		case "mass":
			masses, err = addBand(masses, row, unit.ParseMass)
		case "volume":
			volumes, err = addBand(volumes, row, unit.ParseVolume)
		default:
			err = fmt.Errorf("kind %q", row["kind"])
		}
		return struct{}{}, err
	})
	return masses, volumes
}

func addBand[T ~int64](to []band[T], row sourced.Row, parse func(string) (T, error)) ([]band[T], error) {
	b := band[T]{source: row["source"], confirm: row["confirm"]}
	for name, into := range map[string]*T{"from": &b.from, "below": &b.below, "step": &b.step} {
		if row[name] == "" {
			continue
		}
		var err error
		if *into, err = parse(row[name]); err != nil {
			return to, err
		}
	}
	if n := len(to); n > 0 && to[n-1].below != b.from {
		return to, fmt.Errorf("begins at %s, and not where the row before ends", row["from"])
	}
	return append(to, b), nil
}

// GuideMass rounds a mass, 0 or more, as institutions do when they scale a recipe.
func GuideMass(m unit.Mass) Rounded[unit.Mass] { return roundBy(massBands, m) }

// GuideVolume rounds a volume, 0 or more, as institutions do when they scale a recipe.
func GuideVolume(v unit.Volume) Rounded[unit.Volume] { return roundBy(volumeBands, v) }

// roundBy rounds half up, by steps to the nearest grain: a quarter ounce is no whole number of nanograms.
func roundBy[T ~int64](bands []band[T], x T) Rounded[T] {
	for _, b := range bands {
		if b.below > 0 && x >= b.below {
			continue
		}
		r := Rounded[T]{Amount: x, Step: b.step, Source: b.source, Memory: b.confirm != ""}
		if b.step > 0 {
			steps := (x + b.step/2) / b.step
			r.Amount = steps * b.step
			if x > 0 {
				r.Off = float64(r.Amount-x) / float64(x)
			}
			r.Worst = 1
			if b.from > 0 {
				r.Worst = float64(b.step) / 2 / float64(b.from)
			}
		}
		return r
	}
	return Rounded[T]{Amount: x}
}

// Ounces are pounds and quarter ounces to the nearest, as a recipe card of the armed forces rounds them: from .13 oz a quarter, from .38 a
// half, from .63 three quarters, from .88 the next ounce.
func Ounces(m unit.Mass) unit.Mass {
	quarters := (8*(int64(m)/int64(unit.Ounce)) + 8*(int64(m)%int64(unit.Ounce))/int64(unit.Ounce) + 1) / 2
	return unit.Mass((quarters*int64(unit.Ounce) + 2) / 4)
}

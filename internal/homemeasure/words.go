package homemeasure

import (
	_ "embed"
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"kettlefrost/internal/sourced"
	"kettlefrost/internal/unit"
)

//go:embed data/words.csv
var wordsCSV string

// word is a row of data/words.csv: what home recipes say that is no exact measure.
type word struct {
	Word      string
	spellings []string
	Kind      string    // small, container, counted, size, liquid, taste
	Tsp       *big.Rat  // of small measures
	Mass      unit.Mass // of one container or one counted thing, where something is assumed; of taste, in 100 g of the finished food
	Of        string    // the food that Mass is of; empty: any
	Source    string
	Memory    bool // to be confirmed
}

func (w word) volume() unit.Volume { return volumeOf(w.Tsp, unit.Teaspoon) }

var wordTable = sourced.MustRead(wordsCSV, readWord)

// wordRows are found by every spelling.
var wordRows = func() map[string]word {
	all := map[string]word{}
	for _, w := range wordTable {
		for _, spelling := range w.spellings {
			if _, known := all[spelling]; known {
				panic(fmt.Sprintf("homemeasure: the word %q is in the table twice", spelling))
			}
			all[spelling] = w
		}
	}
	return all
}()

// smallWords are those of up to an eighth of a teaspoon.
var smallWords = func() (small []word) {
	for _, w := range wordTable {
		if w.Kind == "small" && w.Tsp.Cmp(big.NewRat(1, 8)) <= 0 {
			small = append(small, w)
		}
	}
	return small
}()

func readWord(row sourced.Row) (word, error) {
	w := word{Word: row["word"], Kind: row["kind"], Of: row["of"], Source: row["source"], Memory: row["confirm"] != ""}
	if row["tsp"] != "" {
		var ok bool
		if w.Tsp, ok = new(big.Rat).SetString(row["tsp"]); !ok {
			return w, fmt.Errorf("%q is no part of a teaspoon", row["tsp"])
		}
	}
	if row["g"] != "" {
		g, err := strconv.ParseFloat(row["g"], 64)
		if err != nil {
			return w, err
		}
		w.Mass = unit.MassKg(g / 1000)
	}
	switch w.Kind {
	case "small":
		if w.Tsp == nil {
			return w, fmt.Errorf("%s has no size", w.Word)
		}
	case "container", "counted", "size", "liquid", "taste":
	default:
		return w, fmt.Errorf("kind %q", w.Kind)
	}
	w.spellings = []string{w.Word}
	if row["also"] != "" {
		w.spellings = append(w.spellings, strings.Split(row["also"], "|")...)
	}
	return w, nil
}

// measureUnit is a unit that is exact.
type measureUnit struct {
	mass   unit.Mass
	volume unit.Volume
}

// units by their spellings, in small letters. T and t, and oz of a liquid, are looked at apart.
var units = func() map[string]measureUnit {
	all := map[string]measureUnit{}
	add := func(u measureUnit, spellings string) {
		for _, s := range strings.Split(spellings, "|") {
			all[s] = u
		}
	}
	add(measureUnit{mass: unit.Kilogram}, "kg|kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes")
	add(measureUnit{mass: unit.Gram}, "g|gr|gm|gms|gram|grams|gramme|grammes")
	add(measureUnit{mass: unit.Milligram}, "mg|milligram|milligrams")
	add(measureUnit{mass: unit.Pound}, "lb|lbs|pound|pounds")
	add(measureUnit{mass: unit.Ounce}, "oz|ozs|ounce|ounces")
	add(measureUnit{volume: unit.Litre}, "l|litre|litres|liter|liters")
	add(measureUnit{volume: 100 * unit.Millilitre}, "dl|decilitre|decilitres|deciliter|deciliters")
	add(measureUnit{volume: 10 * unit.Millilitre}, "cl|centilitre|centilitres|centiliter|centiliters")
	add(measureUnit{volume: unit.Millilitre}, "ml|mls|millilitre|millilitres|milliliter|milliliters|cc")
	add(measureUnit{volume: unit.Gallon}, "gal|gals|gallon|gallons")
	add(measureUnit{volume: unit.Quart}, "qt|qts|quart|quarts")
	add(measureUnit{volume: unit.Pint}, "pt|pts|pint|pints")
	add(measureUnit{volume: unit.Cup}, "cup|cups|c")
	add(measureUnit{volume: unit.FluidOunce}, "fl oz|fl ozs|floz|fluid oz|fluid ounce|fluid ounces|fl ounce|fl ounces")
	add(measureUnit{volume: unit.Tablespoon}, "tbsp|tbsps|tbs|tb|tblsp|tablespoon|tablespoons|tablespoonful|tablespoonfuls")
	add(measureUnit{volume: unit.Teaspoon}, "tsp|tsps|teaspoon|teaspoons|teaspoonful|teaspoonfuls")
	return all
}()

// numberWords are numbers that are written out.
var numberWords = map[string]*big.Rat{
	"a": big.NewRat(1, 1), "an": big.NewRat(1, 1), "one": big.NewRat(1, 1), "two": big.NewRat(2, 1), "three": big.NewRat(3, 1), "four": big.NewRat(4, 1),
	"five": big.NewRat(5, 1), "six": big.NewRat(6, 1), "seven": big.NewRat(7, 1), "eight": big.NewRat(8, 1), "nine": big.NewRat(9, 1), "ten": big.NewRat(10, 1),
	"eleven": big.NewRat(11, 1), "twelve": big.NewRat(12, 1), "half": big.NewRat(1, 2), "quarter": big.NewRat(1, 4), "third": big.NewRat(1, 3), "dozen": big.NewRat(12, 1),
}

// vagueNumbers are assumed numbers (common practice), and asked about.
var vagueNumbers = map[string]int64{"couple": 2, "few": 3, "several": 4, "some": 0}

// volumeOf is n times a unit, to the nearest femtolitre; below 0 if it does not fit.
func volumeOf(n *big.Rat, of unit.Volume) unit.Volume { return unit.Volume(times(n, int64(of))) }

func massOf(n *big.Rat, of unit.Mass) unit.Mass { return unit.Mass(times(n, int64(of))) }

func countOf(n *big.Rat) unit.Count { return unit.Count(times(n, int64(unit.One))) }

// times is n of a number of grains, rounded half up; -1 if that is more than an int64 holds. n is not below 0.
func times(n *big.Rat, grains int64) int64 {
	x := new(big.Rat).Mul(n, new(big.Rat).SetInt64(grains))
	num := new(big.Int).Lsh(x.Num(), 1)
	num.Add(num, x.Denom())
	num.Quo(num, new(big.Int).Lsh(x.Denom(), 1))
	if !num.IsInt64() {
		return -1
	}
	return num.Int64()
}

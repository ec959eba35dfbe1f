package dosing

import (
	_ "embed"
	"fmt"
	"strconv"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/sourced"
	"kettlefrost/internal/unit"
)

//go:embed data/thickeners.csv
var thickenerData string

// Thickness of a sauce.
type Thickness string

// Thicknesses.
const (
	Thin   Thickness = "thin"
	Medium Thickness = "medium"
	Thick  Thickness = "thick"
)

// Series is whose figures a sauce follows. The professional and the home series differ by up to a third: do not mix them.
type Series string

// Series that were found.
const (
	Professional Series = "professional" // roux, ounces per gallon
	Home         Series = "home"         // roux, tablespoons per cup
	Slurry       Series = "slurry"       // corn starch in cold water, tablespoons per cup
)

// Masses of measures, g: USDA SR28 (flour 125 g/cup, milk 244 g/cup and 976 g/qt, corn starch 128 g/cup, butter 227 g/cup); water 1 g/ml.
const (
	tbspPerCup      = 16
	flourCupG       = 125
	starchCupG      = 128
	fatCupG         = 227
	milkCupG        = 244
	milkGallonG     = 4 * 976
	waterCupG       = 236.5882365
	gramsPerOz      = 28.349523125
	starchPerFlour  = 8.0 / 15.6 // 1 Tbsp of corn starch thickens as 2 Tbsp of flour (two web notes, read; a third says 3)
	tbspOfFlourG    = flourCupG / float64(tbspPerCup)
	boilCornStarchS = 120 // common practice
)

type thickener struct {
	Series         Series
	Thickness      Thickness
	Share          Range[unit.Share] // of milk, or of water for a slurry
	Fat            unit.Share
	source, notice string
}

func readThickener(row sourced.Row) (thickener, error) {
	t := thickener{Series: Series(row["series"]), Thickness: Thickness(row["thickness"]), source: row["source"], notice: row["confirm"]}
	low, err1 := strconv.ParseFloat(row["amount_low"], 64)
	high, err2 := strconv.ParseFloat(row["amount_high"], 64)
	if err1 != nil || err2 != nil {
		return t, fmt.Errorf("amounts %q and %q", row["amount_low"], row["amount_high"])
	}
	fat, _ := strconv.ParseFloat(row["fat"], 64) // a slurry has none
	each, fatEach := 0.0, 0.0
	switch {
	case row["unit"] == "oz per gallon":
		each, fatEach = gramsPerOz/milkGallonG, gramsPerOz/milkGallonG
	case t.Series == Home:
		each, fatEach = tbspOfFlourG/milkCupG, fatCupG/float64(tbspPerCup)/milkCupG
	default:
		each = starchCupG / float64(tbspPerCup) / waterCupG
	}
	t.Share = Range[unit.Share]{unit.ShareOf(low * each), unit.ShareOf((low + high) / 2 * each), unit.ShareOf(high * each)}
	t.Fat = unit.ShareOf(fat * fatEach)
	return t, nil
}

// Thickened is what goes into a sauce, and how.
type Thickened struct {
	Dose     // of flour or corn starch
	Fat      unit.Mass
	BoilS    int     // seconds at a full boil; 0: until the taste of flour is gone
	AsFlour  float64 // the target as a share of the liquid, in flour that thickens as much
	HomeTbsp float64 // the target in tablespoons to a cup
}

// Sauce is what is to be thickened.
type Sauce struct {
	Liquid    unit.Mass // milk for a roux, water or stock for a slurry
	PH        float64   // 0: not known
	BoilsMin  float64   // that it goes on boiling after it has thickened
	Thickness Thickness
	Series    Series
}

// Thicken is how much flour and fat, or corn starch, a sauce takes. Errors: *InputError.
func Thicken(s Sauce) (Thickened, error) {
	if err := positive("the liquid", s.Liquid); err != nil {
		return Thickened{}, err
	}
	for _, t := range thicken {
		if t.Series == s.Series && t.Thickness == s.Thickness {
			return t.of(s), nil
		}
	}
	return Thickened{}, &InputError{"the sauce", fmt.Sprintf("is %q by the %q series", s.Thickness, s.Series), "take thin, medium or thick, by professional, home or slurry"}
}

func (t thickener) of(s Sauce) Thickened {
	l := Level{Substance: "flour", Basis: OfMilk, Range: t.Share, Source: t.source + "; by weight: derived", Confirm: t.notice}
	out := Thickened{Fat: t.Fat.Of(s.Liquid), AsFlour: t.Share.Target.F()}
	cupG, tbspG := float64(milkCupG), tbspOfFlourG
	if t.Series == Slurry {
		l.Substance, l.Basis = "corn starch", OfWater
		out.BoilS, out.AsFlour = boilCornStarchS, t.Share.Target.F()/starchPerFlour
		cupG, tbspG = waterCupG, starchCupG/float64(tbspPerCup)
	}
	out.Dose = l.of(s.Liquid)
	out.HomeTbsp = t.Share.Target.F() * cupG / tbspG
	out.Found = s.weakens()
	return out
}

// weakens is what makes a starch sauce thinner than its dose.
func (s Sauce) weakens() finding.List {
	var all finding.List
	if s.PH > 0 && s.PH < 5 {
		all = append(all, finding.Finding{Code: "starch-in-acid", Severity: finding.Note, Where: "sauce",
			Message: fmt.Sprintf("pH %.1f: acid shortens starch and thins the sauce, that of roots first below pH 5", s.PH), Figures: []finding.Figure{plain("pH", s.PH)},
			Source: "On Food and Cooking, starch sauces (read)", Fix: "add the acid when it has thickened, and boil no longer than needed; how much thinner it gets was not found: try it"})
	}
	if s.BoilsMin > longBoilMin {
		all = append(all, finding.Finding{Code: "starch-long-boil", Severity: finding.Note, Where: "sauce",
			Message: fmt.Sprintf("%.0f min of boiling after it has thickened make it thinner", s.BoilsMin), Figures: []finding.Figure{plain("minutes", s.BoilsMin)},
			Source: "common practice; no figure was found", Fix: "thicken near the end"})
	}
	return all
}

// longBoilMin is when a corn starch or flour sauce begins to thin: common practice.
const longBoilMin = 30

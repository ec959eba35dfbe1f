package netdeclare

import (
	_ "embed"
	"fmt"
	"math"
	"strconv"
	"strings"

	"kettlefrost/internal/sourced"
	"kettlefrost/internal/unit"
)

// Height is the least height of type of a net quantity.
type Height struct {
	Least    unit.Length
	Fraction unit.Length // of each numeral of a common fraction
	Of       string      // what is measured
	Source   string
	Confirm  string
}

type heightRow struct {
	upTo float64 // square inches, or grams; 0: no end
	Height
}

var (
	//go:embed data/us_heights.csv
	usHeightData string
	//go:embed data/eu_heights.csv
	euHeightData string
)

var usHeights = sourced.MustRead(usHeightData, func(row sourced.Row) (r heightRow, err error) {
	r.Source, r.Confirm = row["source"], row["confirm"]
	if r.upTo, err = end(row["up_to_sq_in"]); err != nil {
		return r, err
	}
	r.Least, err = unit.ParseLength(row["height_in"] + " in")
	return r, err
})

var euHeights = sourced.MustRead(euHeightData, func(row sourced.Row) (r heightRow, err error) {
	r.Source, r.Confirm = row["source"], row["confirm"]
	if r.upTo, err = end(row["up_to"]); err != nil {
		return r, err
	}
	r.Least, err = unit.ParseLength(row["height_mm"] + " mm")
	return r, err
})

func end(text string) (float64, error) {
	if text == "" {
		return 0, nil
	}
	return strconv.ParseFloat(strings.TrimSpace(text), 64)
}

func find(rows []heightRow, x float64) Height {
	for _, r := range rows {
		if r.upTo == 0 || x <= r.upTo {
			return r.Height
		}
	}
	return Height{}
}

const moulded = unit.Inch / 16

// USHeight is the least height on a principal display panel of so many square inches; letters moulded into the pack are taller by 1/16 in.
// Errors are *InputError.
func USHeight(panelSqIn float64, isMoulded bool) (Height, error) {
	if !(panelSqIn > 0 && panelSqIn < 1e6) {
		return Height{}, &InputError{"the panel", fmt.Sprintf("has %g sq in", panelSqIn), "give the area of the principal display panel"}
	}
	h := find(usHeights, panelSqIn)
	h.Of = "capitals, or the lower-case o where both are used"
	if isMoulded {
		h.Least += moulded
	}
	h.Fraction = h.Least / 2
	return h, nil
}

// EUHeight is the least height of the figures of a nominal quantity. Errors are *InputError.
func EUHeight(nominal unit.Mass) (Height, error) {
	if nominal <= 0 {
		return Height{}, &InputError{"the nominal quantity", "is " + nominal.String(), "give what a pack is said to hold"}
	}
	h := find(euHeights, nominal.Kg()*1000)
	h.Of = "figures"
	return h, nil
}

// LeastEMark is the least height of the mark "e" of Directive 76/211/EEC (quoted); it stands in the same field of vision as the quantity (from
// memory).
const LeastEMark = 3 * unit.Millimetre

// sqIn is in square inches, as whole millionths, so that 5 x 5 is not over 25.
func sqIn(m2 float64) float64 {
	const inch = 0.0254
	return math.Round(m2/(inch*inch)*1e6) / 1e6
}

// FlatSqIn is the principal display panel of a pack with a flat side for it: all of that side, square inches (21 CFR 101.1, read).
func FlatSqIn(height, width unit.Length) float64 { return sqIn(height.M() * width.M()) }

// CylinderSqIn is that of a cylinder: 40 % of height times circumference, square inches.
func CylinderSqIn(height, circumference unit.Length) float64 {
	return sqIn(0.4 * height.M() * circumference.M())
}

// OtherSqIn is that of a pack of any other shape without an obvious face: 40 % of its total surface, square inches.
func OtherSqIn(totalSqIn float64) float64 { return math.Round(0.4*totalSqIn*1e6) / 1e6 }

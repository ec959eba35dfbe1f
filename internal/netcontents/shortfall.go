package netcontents

import (
	"fmt"

	"kettlefrost/internal/unit"
)

const (
	hundredthLb  = unit.Pound / 100  // exact
	thousandthLb = unit.Pound / 1000 // exact
	tenthG       = unit.Gram / 10
)

// mavRow is one row of the table: labels up to and including, and how far a pack may be short.
type mavRow struct {
	upToLb, mavLb int // hundredths and thousandths of a pound
	upToG, mavG   int // grams and tenths of a gram
}

// mavs is NIST Handbook 133, appendix A, table 2-5, packs labelled by weight (from memory; two spot values seen in quotations: 8 oz gives
// 7/16 oz, 113 g gives 7 g). Gram limits above 970 are the pound limits, truncated. Rows for more than 17.7 lb are left out.
var mavs = []mavRow{
	{12, 8, 54, 36}, {18, 12, 81, 54}, {26, 16, 117, 72}, {34, 20, 154, 90}, {46, 24, 208, 108}, {58, 28, 263, 127}, {70, 32, 317, 145},
	{84, 36, 381, 163}, {94, 40, 426, 181}, {108, 44, 489, 199}, {126, 48, 571, 217}, {140, 52, 635, 235}, {154, 56, 698, 254},
	{170, 60, 771, 272}, {188, 64, 852, 290}, {214, 70, 970, 317}, {248, 78, 1124, 353}, {276, 86, 1251, 390}, {320, 94, 1451, 426},
	{390, 110, 1769, 490}, {470, 120, 2131, 540}, {580, 140, 2630, 630}, {680, 150, 3084, 680}, {790, 170, 3583, 770}, {940, 190, 4263, 860},
	{1170, 220, 5307, 990}, {1430, 250, 6486, 1130}, {1770, 280, 8028, 1270},
}

const (
	mavFromLb = 8  // hundredths of a pound: below, a tenth of the label
	mavFromG  = 36 // grams
)

// MAV is the maximum allowable variation of Handbook 133 for a labelled net weight: how far a single pack may be short. The row is found,
// and the figure taken, in the unit of the label; labels under 0.08 lb or 36 g may be short by a tenth. Errors are *InputError and
// *TableError.
func MAV(label unit.Mass, in unit.System) (unit.Mass, error) {
	if label <= 0 {
		return 0, noLabel()
	}
	from := mavFromG * unit.Gram
	if in == unit.US {
		from = mavFromLb * hundredthLb
	}
	if label < from {
		return label / 10, nil
	}
	for _, r := range mavs {
		if in == unit.US && label <= unit.Mass(r.upToLb)*hundredthLb {
			return unit.Mass(r.mavLb) * thousandthLb, nil
		}
		if in != unit.US && label <= unit.Mass(r.upToG)*unit.Gram {
			return unit.Mass(r.mavG) * tenthG, nil
		}
	}
	return 0, &TableError{"the table of maximum allowable variations", "a label of " + label.String(), "to 17.7 lb or 8028 g"}
}

// tneRow is one band of the Directive: labels up to and including, and what a pack may be short, as a share or as a mass.
type tneRow struct {
	upToG int
	share unit.Share
	mass  unit.Mass
}

// tnes is Directive 76/211/EEC, annex I, 2.4 (read, up to 1000 g; the last band from a national text).
var tnes = []tneRow{
	{50, 9 * unit.PerCent, 0}, {100, 0, 4500 * unit.Milligram}, {200, 45 * unit.PerCent / 10, 0}, {300, 0, 9 * unit.Gram},
	{500, 3 * unit.PerCent, 0}, {1000, 0, 15 * unit.Gram}, {10_000, 15 * unit.PerCent / 10, 0},
}

// TNE is the tolerable negative error of Directive 76/211/EEC for a nominal weight of 5 g to 10 kg; shares are rounded up to a tenth of a
// gram. Errors are *InputError and *TableError.
func TNE(nominal unit.Mass) (unit.Mass, error) {
	if nominal <= 0 {
		return 0, noLabel()
	}
	for _, r := range tnes {
		if nominal < 5*unit.Gram || nominal > unit.Mass(r.upToG)*unit.Gram {
			continue
		}
		return r.mass + upTo(r.share.Of(nominal), tenthG), nil
	}
	return 0, &TableError{"the table of tolerable negative errors", "a nominal weight of " + nominal.String(), "from 5 g to 10 kg"}
}

// upTo is m, 0 or more, rounded up to a multiple of step.
func upTo(m, step unit.Mass) unit.Mass { return (m + step - 1) / step * step }

func noLabel() error {
	return &InputError{"Label", "is not above 0", "give the net weight on the pack"}
}

func noLot(lot int) error {
	return &InputError{"Lot", fmt.Sprintf("is %d packs", lot), "say how many packs of this label there are, 1 or more"}
}

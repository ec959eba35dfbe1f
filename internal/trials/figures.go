package trials

import (
	"slices"

	"kettlefrost/internal/record"
	"kettlefrost/internal/tastetrial"
	"kettlefrost/internal/unit"
)

// The figures that are measured of a pack. Any other is scored by tasters.
const (
	Separation = "separation"
	Drip       = "drip"
)

// The units of figures.
const (
	Share  = "share" // 1 is the whole: of the volume that has separated, of the mass that has run out
	Grams  = "g"
	Points = "points" // from 0, the worst, to 10
)

// MostPoints is the top of the scale of scores.
const MostPoints = 10

// isScored says whether a figure is scored by tasters.
func isScored(f record.Figured) bool { return f.Unit == Points }

// thousandths of a Decimal.
const thousandths = 1000.0

func number(d record.Decimal) float64 { return float64(d) / thousandths }

// Seen is one value of a figure: of a pack, or of a taster.
type Seen struct {
	Variant int
	Week    record.Week
	Taster  int   // of a score; -1 for what was measured
	Number  int64 // of the pack; 0 for a score
	Value   float64
	Entry   record.ID
}

// SeenOf is all that was seen of a figure, in the order of weeks, packs and tasters.
func (t Trial) SeenOf(f record.Figured) []Seen {
	var all []Seen
	if isScored(f) {
		for _, s := range t.Scored {
			for _, x := range s.Body.Scores {
				if x.Figure == f.Figure {
					all = append(all, Seen{Variant: s.Variant, Week: s.Body.Week, Taster: s.Taster, Value: number(x.Points), Entry: s.Entry})
					break
				}
			}
		}
	} else {
		for _, o := range t.Opened {
			if v, ok := measured(f, o.Body); ok {
				all = append(all, Seen{Variant: t.VariantOf(o.Body.Variant), Week: o.Body.Week, Taster: -1, Number: o.Body.Number, Value: v, Entry: o.Entry})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b Seen) int {
		for _, d := range [...]int64{int64(a.Week - b.Week), int64(a.Taster - b.Taster), a.Number - b.Number, int64(a.Variant - b.Variant)} {
			if d != 0 {
				return int(d)
			}
		}
		return 0
	})
	return all
}

// measured is what a pack shows of a figure. Drip may be told in grams, or as a share of the pack.
func measured(f record.Figured, o record.TrialOpened) (float64, bool) {
	switch {
	case f.Figure == Separation && f.Unit == Share && o.Separation != nil:
		return o.Separation.F(), true
	case f.Figure == Drip && f.Unit == Grams && o.Drip != nil:
		return number(*o.Drip), true
	case f.Figure == Drip && f.Unit == Share && o.Drip != nil && o.Whole > 0:
		return number(*o.Drip) / (float64(o.Whole) / float64(unit.Gram)), true
	}
	return 0, false
}

// observations are what was seen, for the engine. What is compared within is a taster, who is the same in every week; or the packs of one
// number in one week, which are others in every week.
func (t Trial) observations(seen []Seen) []tastetrial.Observation {
	all := make([]tastetrial.Observation, len(seen))
	for i, s := range seen {
		block := s.Taster
		if block < 0 {
			block = int(s.Week)*mostPacks + int(s.Number)
		}
		all[i] = tastetrial.Observation{Variant: s.Variant, Week: int(s.Week), Block: block, Value: s.Value}
	}
	return all
}

// mostPacks is more than are opened of a variant in one week.
const mostPacks = 1_000_000

// independent are the values of a variant that a trend may be put through, with their weeks: of packs each; of tasters, who come again, the
// mean of each week.
func independent(seen []Seen, variant int) (weeks, values []float64) {
	for i := 0; i < len(seen); {
		week := seen[i].Week
		sum, n := 0.0, 0
		for ; i < len(seen) && seen[i].Week == week; i++ {
			switch s := seen[i]; {
			case s.Variant != variant:
			case s.Taster < 0:
				weeks, values = append(weeks, float64(week)), append(values, s.Value)
			default:
				sum += s.Value
				n++
			}
		}
		if n > 0 {
			weeks, values = append(weeks, float64(week)), append(values, sum/float64(n))
		}
	}
	return weeks, values
}

// stepOf is the step of the scale that scores were given by: 1, a half, or a tenth; 0 for what is measured.
func stepOf(f record.Figured, seen []Seen) float64 {
	if !isScored(f) {
		return 0
	}
	step := 1.0
	for _, s := range seen {
		tenths := int(s.Value*10 + 0.5)
		switch {
		case tenths%5 != 0:
			return 0.1
		case tenths%10 != 0:
			step = 0.5
		}
	}
	return step
}

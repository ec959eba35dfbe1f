package costing

import "kettlefrost/internal/unit"

// Batch is all that the packs of one kind cost together.
type Batch struct {
	Packs int // how many of them
	Charges
}

// Sheet is the cost sheet of a batch. When anything is Missing, every total is a lower bound and not the cost.
type Sheet struct {
	Lines   []Line
	Food    unit.Money // less what trim is worth
	Packing unit.Money
	Labour  unit.Money
	Energy  unit.Money
	Over    unit.Money
	Clean   unit.Money
	Total   unit.Money
	PerPack unit.Money // Total over the packs, up to the millionth, so that the packs together bear all of it
	Missing []Line     // lines without a price
}

// LowerBound reports whether a price is missing, so that the batch costs more than Total.
func (s Sheet) LowerBound() bool { return len(s.Missing) > 0 }

// Cost writes the cost sheet of a batch. An error is a figure that makes no sense; a price that is missing is no error but a line
// of Missing.
func Cost(b Batch) (Sheet, error) {
	if b.Packs <= 0 {
		return Sheet{}, &RangeError{"packs", "are fewer than 1", "give how many are made"}
	}
	lines, err := b.lines()
	if err != nil {
		return Sheet{}, err
	}
	s := Sheet{Lines: lines}
	for _, l := range lines {
		if !l.Known {
			s.Missing = append(s.Missing, l)
		}
	}
	return s.addUp(b.Packs)
}

// addUp fills in the totals.
func (s Sheet) addUp(packs int) (Sheet, error) {
	totals := map[Kind]*unit.Money{Food: &s.Food, Credit: &s.Food, Packaging: &s.Packing, Labour: &s.Labour, Energy: &s.Energy, Overhead: &s.Over, Cleaning: &s.Clean}
	for _, l := range s.Lines {
		sum, err := Sum(*totals[l.Kind], l.Cost)
		if err != nil {
			return Sheet{}, err
		}
		*totals[l.Kind] = sum
	}
	var err error
	if s.Total, err = Sum(s.Food, s.Packing, s.Labour, s.Energy, s.Over, s.Clean); err != nil {
		return Sheet{}, err
	}
	each, err := over([]int64{int64(s.Total)}, []int64{int64(packs)}).whole("cost of a pack", up)
	s.PerPack = unit.Money(each)
	return s, err
}

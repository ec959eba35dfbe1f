package costing

import "kettlefrost/internal/unit"

// Kind is the part of the cost sheet that a line stands in.
type Kind int

const (
	Food Kind = iota + 1
	Packaging
	Labour
	Energy
	Overhead
)

// Component is one food of a batch: how much of it goes in as edible portion, its yield and its AP price.
type Component struct {
	Name  string
	Mass  unit.Mass // edible portion
	Yield Yield     // the zero Yield is a food that is used whole
	Price Price
}

// Item is packaging: bags, labels, cartons.
type Item struct {
	Name  string
	Count int
	Each  unit.Money // 0 is a price that is not known, unless Free
	Free  bool
}

// Work is time of the timetable at an hourly rate.
type Work struct {
	Name string
	Time unit.Span
	Rate unit.Wage // 0 is a rate that is not known, unless Free
	Free bool
}

// Heat is energy that heaters used.
type Heat struct {
	Name    string
	EnergyJ float64
	Price   unit.Tariff // 0 is a price that is not known
}

// Batch is all that the packs of one kind cost together.
type Batch struct {
	Packs      int // how many of them
	Components []Component
	Packaging  []Item
	Labour     []Work
	Energy     []Heat
	Overhead   []Work
}

// Line is one line of a cost sheet. Cost is 0 and means nothing when it is not Known.
type Line struct {
	Kind  Kind
	Name  string
	Cost  unit.Money
	Known bool
}

// Sheet is the cost sheet of a batch. When anything is Missing, every total is a lower bound and not the cost.
type Sheet struct {
	Lines   []Line
	Food    unit.Money
	Packing unit.Money
	Labour  unit.Money
	Energy  unit.Money
	Over    unit.Money
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
		return Sheet{}, &RangeError{"packs", "must be 1 or more"}
	}
	var s Sheet
	for _, c := range b.Components {
		cost, err := c.cost()
		if err := s.add(Line{Food, c.Name, cost, c.Price.Known()}, err); err != nil {
			return Sheet{}, err
		}
	}
	for _, i := range b.Packaging {
		cost, err := i.cost()
		if err := s.add(Line{Packaging, i.Name, cost, i.Free || i.Each > 0}, err); err != nil {
			return Sheet{}, err
		}
	}
	for _, w := range b.Labour {
		cost, err := w.cost()
		if err := s.add(Line{Labour, w.Name, cost, w.known()}, err); err != nil {
			return Sheet{}, err
		}
	}
	for _, h := range b.Energy {
		cost, err := h.cost()
		if err := s.add(Line{Energy, h.Name, cost, h.Price > 0}, err); err != nil {
			return Sheet{}, err
		}
	}
	for _, w := range b.Overhead {
		cost, err := w.cost()
		if err := s.add(Line{Overhead, w.Name, cost, w.known()}, err); err != nil {
			return Sheet{}, err
		}
	}
	return s.addUp(b.Packs)
}

func (c Component) cost() (unit.Money, error) {
	if c.Price == (Price{}) {
		return 0, nil
	}
	if c.Price.Money == 0 && !c.Price.Free && c.Price.Per > 0 {
		return 0, nil // so much of it for nothing said: a price that was left open
	}
	y := c.Yield
	if y == (Yield{}) {
		y = AtYield(unit.Whole)
	}
	return y.EPCost(c.Price, c.Mass)
}

func (i Item) cost() (unit.Money, error) {
	if i.Count < 0 || i.Each < 0 || (i.Free && i.Each != 0) {
		return 0, &RangeError{i.Name, "count and price must be 0 or more, and what is free has no price"}
	}
	m, err := over([]int64{int64(i.Each), int64(i.Count)}, nil).whole(i.Name, halfUp)
	return unit.Money(m), err
}

func (w Work) known() bool { return w.Free || w.Rate > 0 }

func (w Work) cost() (unit.Money, error) {
	if w.Free && w.Rate != 0 {
		return 0, &RangeError{w.Name, "what is free has no rate"}
	}
	return WorkCost(w.Rate, w.Time)
}

func (h Heat) cost() (unit.Money, error) {
	if !(h.EnergyJ >= 0 && h.EnergyJ < 1e15) || h.Price < 0 {
		return 0, &RangeError{h.Name, "energy and its price must be 0 or more"}
	}
	return h.Price.Of(h.EnergyJ), nil
}

// add puts a line on the sheet unless working it out failed.
func (s *Sheet) add(l Line, err error) error {
	if err != nil {
		return err
	}
	s.Lines = append(s.Lines, l)
	if !l.Known {
		s.Missing = append(s.Missing, l)
	}
	return nil
}

// addUp fills in the totals.
func (s Sheet) addUp(packs int) (Sheet, error) {
	totals := map[Kind]*unit.Money{Food: &s.Food, Packaging: &s.Packing, Labour: &s.Labour, Energy: &s.Energy, Overhead: &s.Over}
	for _, l := range s.Lines {
		sum, err := Sum(*totals[l.Kind], l.Cost)
		if err != nil {
			return Sheet{}, err
		}
		*totals[l.Kind] = sum
	}
	var err error
	if s.Total, err = Sum(s.Food, s.Packing, s.Labour, s.Energy, s.Over); err != nil {
		return Sheet{}, err
	}
	each, err := over([]int64{int64(s.Total)}, []int64{int64(packs)}).whole("cost of a pack", up)
	s.PerPack = unit.Money(each)
	return s, err
}

package costing

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Kind is the part of the cost sheet that a line stands in.
type Kind int

const (
	Food Kind = iota + 1
	Packaging
	Labour
	Energy
	Overhead
	Credit   // what trim and by-products are worth, below 0
	Cleaning // time and what is used up
	Waste    // what the packs that get lost cost, borne by the others
)

var kindNames = [...]string{Food: "food", Packaging: "packaging", Labour: "labour", Energy: "energy", Overhead: "overhead", Credit: "by-product credit", Cleaning: "cleaning", Waste: "expected waste"}

// String is the kind in words.
func (k Kind) String() string {
	if k < Food || k > Waste {
		return fmt.Sprintf("kind(%d)", int(k))
	}
	return kindNames[k]
}

// Charges is what a piece of work uses up.
type Charges struct {
	Components []Component
	Packaging  []Item
	Labour     []Work
	Energy     []Heat
	Overhead   []Work // at an hourly rate; see Carry for other bases
	Cleaning   []Work
	Supplies   []Item // what cleaning uses up
}

// Component is one food: how much of it goes in as edible portion, its yield and its AP price.
type Component struct {
	Name  string
	Mass  unit.Mass // edible portion
	Yield Yield     // the zero Yield is a food that is used whole
	Price Price
}

// Item is packaging or what cleaning uses up: bags, labels, cartons, sanitiser by the sachet.
type Item struct {
	Name  string
	Count int
	Each  unit.Money // 0 is a price that is not known, unless Free
	Free  bool
}

// Work is time of the timetable at an hourly rate.
type Work struct {
	Name   string
	Time   unit.Span // of each of them
	People int       // how many work that long at this rate; 0 is one
	Rate   unit.Wage // 0 is a rate that is not known, unless Free
	Free   bool
}

// Heat is energy that heaters used.
type Heat struct {
	Name    string
	EnergyJ float64
	Price   unit.Tariff // 0 is a price that is not known
}

// What the units on an energy bill are in joules: the kilowatt-hour, and the US therm of 100,000 Btu (NIST Handbook 44, appendix C).
const (
	KilowattHourJ = 3.6e6
	ThermJ        = 100_000 * 1055.05585262
)

// Line is one line of a cost sheet. Cost is 0 and means nothing when it is not Known. What nothing is used of is known to cost nothing,
// whatever its price.
type Line struct {
	Kind  Kind
	Name  string
	Cost  unit.Money
	Known bool
}

// lines works every charge out; the components' lines come first, in their order.
func (c Charges) lines() ([]Line, error) {
	var lines []Line
	var failed error
	put := func(kind Kind, name string, cost unit.Money, known bool, err error) {
		if failed == nil {
			failed = at(name, err)
		}
		lines = append(lines, Line{kind, name, cost, known})
	}
	work := func(kind Kind, list []Work) {
		for _, w := range list {
			cost, err := w.cost()
			put(kind, w.Name, cost, w.known(), err)
		}
	}
	items := func(kind Kind, list []Item) {
		for _, i := range list {
			cost, err := i.cost()
			put(kind, i.Name, cost, i.known(), err)
		}
	}
	credits := make([]unit.Money, len(c.Components))
	for i, f := range c.Components {
		gross, credit, err := f.cost()
		credits[i] = credit
		put(Food, f.Name, gross, f.Price.Known() || f.Mass == 0, err)
	}
	for i, f := range c.Components {
		if credits[i] != 0 {
			put(Credit, "trim of "+f.Name, credits[i], true, nil)
		}
	}
	items(Packaging, c.Packaging)
	work(Labour, c.Labour)
	for _, h := range c.Energy {
		cost, err := h.cost()
		put(Energy, h.Name, cost, h.Price > 0 || h.EnergyJ == 0, err)
	}
	work(Overhead, c.Overhead)
	work(Cleaning, c.Cleaning)
	items(Cleaning, c.Supplies)
	return lines, failed
}

// cost is what the food costs before what its trim is worth, and that worth, 0 or below.
func (c Component) cost() (gross, credit unit.Money, err error) {
	if c.Price == (Price{}) {
		return 0, 0, nil
	}
	if c.Price.Money == 0 && !c.Price.Free && c.Price.Per > 0 {
		return 0, 0, nil // so much of it for nothing said: a price that was left open
	}
	y := c.Yield
	if y == (Yield{}) {
		y = AtYield(unit.Whole)
	}
	net, err := y.EPCost(c.Price, c.Mass)
	if err != nil {
		return 0, 0, err
	}
	y.TrimWorth = 0
	gross, err = y.EPCost(c.Price, c.Mass)
	return gross, net - gross, err
}

func (i Item) known() bool { return i.Free || i.Each > 0 || i.Count == 0 }

func (i Item) cost() (unit.Money, error) {
	if i.Count < 0 || i.Each < 0 || (i.Free && i.Each != 0) {
		return 0, &RangeError{"price of a piece", "is negative, or free and not 0", "count and price must be 0 or more, and what is free has no price"}
	}
	m, err := over([]int64{int64(i.Each), int64(i.Count)}, nil).whole("cost", halfUp)
	return unit.Money(m), err
}

func (w Work) known() bool { return w.Free || w.Rate > 0 || w.Time == 0 }

// longest keeps every sum of times inside the range.
const longest unit.Span = 1 << 40

// hours is the time of all who work.
func (w Work) hours() (unit.Span, error) {
	if w.Time < 0 || w.People < 0 {
		return 0, &RangeError{"work", "its time or its people are negative", "give both as 0 or more"}
	}
	if w.Time > longest/unit.Span(max(1, w.People)) {
		return 0, &RangeError{"work", "it takes more than thirty thousand years", "check the time and the people"}
	}
	return w.Time * unit.Span(max(1, w.People)), nil
}

func (w Work) cost() (unit.Money, error) {
	if w.Free && w.Rate != 0 {
		return 0, &RangeError{"rate", "is free and not 0", "leave out the rate, or do not call it free"}
	}
	time, err := w.hours()
	if err != nil {
		return 0, err
	}
	return WorkCost(w.Rate, time)
}

func (h Heat) cost() (unit.Money, error) {
	if !(h.EnergyJ >= 0 && h.EnergyJ < 1e15) || h.Price < 0 {
		return 0, &RangeError{"energy", "it or its price is negative or absurdly large", "give joules and a price, both 0 or more"}
	}
	return h.Price.Of(h.EnergyJ), nil
}

package heatcase

import (
	"kettlefrost/internal/heat"
	"kettlefrost/internal/unit"
)

// Process is what is to happen to the food.
type Process string

// The processes.
const (
	Cool   Process = "cool"   // without freezing
	Freeze Process = "freeze" // from above its freezing point to below
	Thaw   Process = "thaw"   // from frozen, gently
	Reheat Process = "reheat" // from frozen or chilled to hot
)

// Processes is all of them.
func Processes() []Process { return []Process{Cool, Freeze, Thaw, Reheat} }

func (p Process) chills() bool { return p == Cool || p == Freeze }

// Food is what is cooled or warmed: a food of the composition table, or its composition.
type Food struct {
	Find        string // an NDB number or words of the table's name; empty when Composition says it
	Composition Composition
	FreezesAt   *unit.Temp // where it begins to freeze, when that is known
}

// Composition is parts of the whole by weight, as printed tables give them.
type Composition struct {
	Water, Protein, Fat unit.Share
	Carbohydrate        unit.Share // fibre included, as printed
	Fibre, Ash, Alcohol unit.Share // salt counts as ash
}

// fractions is the composition with fibre counted once.
func (c Composition) fractions() heat.Composition {
	return heat.Composition{Water: c.Water.F(), Protein: c.Protein.F(), Fat: c.Fat.F(), Carb: (c.Carbohydrate - c.Fibre).F(), Fibre: c.Fibre.F(),
		Ash: c.Ash.F(), Alcohol: c.Alcohol.F()}
}

// Kind is the kind of a shape.
type Kind string

// The kinds. All but pots and bricks are wide and flat: what passes through their edges is left out, so small ones are faster in truth.
const (
	Slab  Kind = "slab"  // a flat layer with nothing around it
	Pan   Kind = "pan"   // a layer in a pan
	Bag   Kind = "bag"   // a flat bag
	Pot   Kind = "pot"   // a pot or round tub: a cylinder
	Brick Kind = "brick" // a box or block
)

// Shape is the form of the food itself, without its vessel.
type Shape struct {
	Kind                  Kind
	Thickness             unit.Length // of a slab, the food in a pan, or one bag
	Diameter, Depth       unit.Length // of the food in a pot
	Length, Width, Height unit.Length // of a brick; the height stands upright
	Stack                 int         // so many bags lying on each other; 0 is 1
	Touching              bool        // they touch without air between them
}

func (s Shape) flat() bool { return s.Kind == Slab || s.Kind == Pan || s.Kind == Bag }

// Surroundings is what one side of the food meets. What is left out comes from the medium's entry in package medium.
type Surroundings struct {
	Medium string     // an ID of package medium, or Closed
	At     *unit.Temp // its temperature, which it is taken to hold
	// Film is its surface coefficient when it is known, such as from a logged batch; 30 % either way is then computed as well.
	Film *unit.Film
}

// Closed is no medium: nothing passes through that side.
const Closed = "closed"

// Package is what lies between the food and the medium on all sides.
type Package string

// The packages; resistances are those of package medium.
const (
	NoPackage Package = "none"
	Film      Package = "film"   // a bag of plastic film
	Carton    Package = "carton" // one millimetre of cardboard
	AirGap    Package = "air"    // one millimetre of trapped air
)

// Stirring is what moves inside a pot.
type Stirring string

// The kinds of stirring. What is not stirred is taken as solid: heat is conducted through it.
const (
	Unstirred    Stirring = "none"
	StirredThin  Stirring = "thin"  // a thin soup, stirred all the time
	StirredThick Stirring = "thick" // a thick food, stirred and scraped all the time
)

// Case is one question. The zero values of all but the food and the shape mean "as usual": see WithDefaults.
type Case struct {
	Process Process
	Name    string // what the cook calls it
	Food    Food
	Shape   Shape
	Piece   unit.Mass // what one pan, bag or slab holds, for the heat of one; a pot's and a brick's follow from their size

	Around Surroundings // on all sides but those named next
	Below  Surroundings // under it
	Above  Surroundings // over it

	Package Package
	Open    bool // no lid: water leaves the upper face of hot food and cools it
	Stir    Stirring
	U       *unit.Film // overall coefficient of a stirred pot, when it is known

	From, To *unit.Temp
	Units    unit.System // in which people read the answer
}

// usual is what a process has when nothing else is said.
type usual struct {
	fromF, toF float64
	medium     string
}

var usuals = map[Process]usual{
	Cool:   {200, 41, "walk-in-fan"},
	Freeze: {41, 0, "freezer-air"},
	Thaw:   {0, 32, "still-air"},
	Reheat: {0, 165, "simmering-water"},
}

// airGapK is how much warmer than the freezer's air a core is asked to become, when nothing is said: it never gets to the air's own
// temperature.
const airGapK = 1

// WithDefaults is the case with what is usual filled in: the temperatures and the medium of the process (200 to 41 °F in the stream of a
// walk-in's fan; 41 to 0 °F in a freezer's still air; 0 to 32 °F in a refrigerator; 0 to 165 °F in simmering water), film around a
// bag, no stirring. Where freezer air is not colder than the usual 0 °F, the core is asked for 1 °C above the air.
func (c Case) WithDefaults() Case {
	u, known := usuals[c.Process]
	if c.Around.Medium == "" && known {
		c.Around.Medium = u.medium
	}
	if c.From == nil && known {
		c.From = new(unit.TempF(u.fromF))
	}
	if c.To == nil && known {
		to := unit.TempF(u.toF)
		if c.Process == Freeze {
			if coldest, ok := c.coldest(); ok {
				to = max(to, unit.TempC(coldest+airGapK))
			}
		}
		c.To = &to
	}
	if c.Package == "" {
		c.Package = NoPackage
		if c.Shape.Kind == Bag {
			c.Package = Film
		}
	}
	if c.Stir == "" {
		c.Stir = Unstirred
	}
	return c
}

// New is the empty question about a process: it has neither food nor shape yet.
func New(p Process) Case { return Case{Process: p, Units: unit.US} }

// Example is a question with everything in it, to start sliders from: an invented vegetable soup, in a 2 in pan to cool and in a
// flat 1 in bag otherwise.
func Example(p Process) Case {
	c := New(p)
	c.Name = "an invented vegetable soup"
	c.Food.Composition = Composition{Water: 86 * unit.PerCent, Protein: 35 * unit.PerCent / 10, Fat: 3 * unit.PerCent, Carbohydrate: 65 * unit.PerCent / 10,
		Fibre: 1 * unit.PerCent, Ash: 1 * unit.PerCent}
	c.Shape = Shape{Kind: Bag, Thickness: unit.Inch}
	c.Piece = 24 * unit.Ounce
	if p == Cool {
		c.Shape, c.Piece = Shape{Kind: Pan, Thickness: 2 * unit.Inch}, 0
	}
	return c.WithDefaults()
}

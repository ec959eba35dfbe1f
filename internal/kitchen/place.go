package kitchen

import "kettlefrost/internal/unit"

// PlaceID names a place, a shelf within one or a box on one. Records name them from the large to the small: chest-1/shelf-2/box-b.
type PlaceID string

// Climate says how cold it is somewhere, in the words that Ingredient.Storage has.
type Climate string

const (
	DryStore Climate = "dry"
	Chilled  Climate = "chilled"
	Frozen   Climate = "frozen"
)

// Place is somewhere that lots are kept: one freezer, a walk-in, a dry store. A freezer of the book that no place is one of is a place by itself,
// called by its ID, or chest-1, chest-2 where there are several.
type Place struct {
	Name    string            `yaml:"name" desc:"what the crew calls it"`
	Freezer FreezerID         `yaml:"freezer,omitempty" desc:"it is one of these freezers: frozen, with the volume and room of one of them where volume and room are left out"`
	Kind    Climate           `yaml:"kind,omitempty" desc:"dry, chilled or frozen; needed unless it is a freezer" enum:"dry,chilled,frozen"`
	Volume  unit.Volume       `yaml:"volume,omitempty" desc:"inside"`
	Room    unit.Mass         `yaml:"room,omitempty" desc:"what it can store, by mass"`
	Stow    unit.Density      `yaml:"stow,omitempty" desc:"what a litre of it holds as things lie there, air between them included; common practice when left out"`
	Shelves map[PlaceID]Shelf `yaml:"shelves,omitempty" desc:"shelves, baskets or bays in it"`
}

// Shelf is a part of a place.
type Shelf struct {
	Name   string          `yaml:"name" desc:"what the crew calls it"`
	Volume unit.Volume     `yaml:"volume,omitempty" desc:"inside"`
	Room   unit.Mass       `yaml:"room,omitempty" desc:"what it can store, by mass"`
	Reach  int             `yaml:"reach,omitempty" desc:"1 for what is at hand, 2 and more for what lies below or behind it; 1 when left out"`
	Boxes  map[PlaceID]Box `yaml:"boxes,omitempty" desc:"boxes on it"`
}

// Box is the smallest place there is.
type Box struct {
	Name   string      `yaml:"name" desc:"what the crew calls it"`
	Volume unit.Volume `yaml:"volume,omitempty" desc:"inside"`
	Room   unit.Mass   `yaml:"room,omitempty" desc:"what it can store, by mass"`
	Reach  int         `yaml:"reach,omitempty" desc:"1 for what is at hand, 2 and more for what lies below or behind it; that of the shelf when left out"`
}

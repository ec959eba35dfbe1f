package kitchen

import "kettlefrost/internal/unit"

// Kind says what a piece of equipment does for a step.
type Kind string

const (
	Vessel  Kind = "vessel"  // pot, pan or kettle: holds food and is heated
	Burner  Kind = "burner"  // heats one vessel
	Blender Kind = "blender" // jar or bowl with a motor
	Oven    Kind = "oven"    // holds a number of trays
	Table   Kind = "table"   // a place to work: board, scale, sealing table
	Sealer  Kind = "sealer"  // closes bags
)

// Equipment is a number of equal pieces of one kind.
type Equipment struct {
	Name       string        `yaml:"name" desc:"what the crew calls it"`
	Kind       Kind          `yaml:"kind" desc:"vessel, burner, blender, oven, table or sealer" enum:"vessel,burner,blender,oven,table,sealer"`
	Count      int           `yaml:"count" desc:"how many equal ones there are"`
	Volume     unit.Volume   `yaml:"volume,omitempty" desc:"to the brim"`
	Working    unit.Share    `yaml:"working,omitempty" desc:"share of the volume that may be filled"`
	Diameter   unit.Length   `yaml:"diameter,omitempty" desc:"inside, of the open surface and base"`
	Power      unit.Power    `yaml:"power,omitempty" desc:"heat it is given, such as 30,000 Btu/h or 24 kW"`
	Efficiency unit.Share    `yaml:"efficiency,omitempty" desc:"share of the power that reaches the food"`
	Needs      []EquipmentID `yaml:"needs,omitempty" desc:"what it stands on while in use: a pot needs a burner"`
	Places     int           `yaml:"places,omitempty" desc:"trays it takes at once, for an oven"`
}

// Method says how a way of chilling takes the heat out.
type Method string

const (
	StirredBath Method = "stirred bath" // pot standing in ice water, stirred: all of it at one temperature
	ShallowPans Method = "shallow pans" // unstirred layers in moving or still air: conduction
	PotInAir    Method = "pot in air"   // the pot as it is, unstirred, in cold air: conduction
)

// Chilling is one way to cool hot food.
type Chilling struct {
	Name   string      `yaml:"name" desc:"what the crew calls it"`
	Method Method      `yaml:"method" desc:"stirred bath, shallow pans or pot in air" enum:"stirred bath,shallow pans,pot in air"`
	Medium unit.Temp   `yaml:"medium" desc:"temperature of the air or the bath"`
	Count  int         `yaml:"count" desc:"how many pots or pans can cool at once"`
	Vessel EquipmentID `yaml:"vessel,omitempty" desc:"the pot that stands in the bath or the air"`
	Length unit.Length `yaml:"length,omitempty" desc:"of a pan, inside"`
	Width  unit.Length `yaml:"width,omitempty" desc:"of a pan, inside"`
	Depth  unit.Length `yaml:"depth,omitempty" desc:"of the food in a pan"`
	Top    unit.Film   `yaml:"top,omitempty" desc:"surface coefficient above, W/m2K"`
	Bottom unit.Film   `yaml:"bottom,omitempty" desc:"surface coefficient below, W/m2K"`
	Wall   unit.Film   `yaml:"wall,omitempty" desc:"overall coefficient of a stirred pot's wall, W/m2K"`
	Set    unit.Span   `yaml:"set-up,omitempty" desc:"hands to set it up, each pot or pan"`
	Tend   unit.Share  `yaml:"tending,omitempty" desc:"share of the time that somebody stirs or watches"`
}

// Freezer is one or more equal freezers.
type Freezer struct {
	Name    string      `yaml:"name" desc:"what the crew calls it"`
	Count   int         `yaml:"count" desc:"how many equal ones there are"`
	Volume  unit.Volume `yaml:"volume" desc:"inside, of one"`
	Air     unit.Temp   `yaml:"air" desc:"its air when it runs steadily"`
	Cooling unit.Power  `yaml:"cooling" desc:"heat that one can take out beside its own leaks"`
	Film    unit.Film   `yaml:"film" desc:"surface coefficient on a bag lying in it, W/m2K"`
	Holds   unit.Mass   `yaml:"holds,omitempty" desc:"frozen stock in all of them now"`
	Room    unit.Mass   `yaml:"room" desc:"packs that all of them can store, by mass"`
}

// Bag is what a pack is filled into.
type Bag struct {
	Name   string      `yaml:"name" desc:"as on the box"`
	Length unit.Length `yaml:"length" desc:"inside, below the seal"`
	Width  unit.Length `yaml:"width" desc:"inside"`
	Price  unit.Money  `yaml:"price,omitempty" desc:"price of one"`
	Stock  int         `yaml:"stock,omitempty" desc:"how many are on hand"`
}

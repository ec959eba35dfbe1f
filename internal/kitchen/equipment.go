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
	Fuel       Fuel          `yaml:"fuel,omitempty" desc:"gas or electricity: what it burns, for the cost" enum:"gas,electricity"`
	Needs      []EquipmentID `yaml:"needs,omitempty" desc:"what it stands on while in use: a pot needs a burner"`
	Places     int           `yaml:"places,omitempty" desc:"trays it takes at once, for an oven"`
	Wash       unit.Span     `yaml:"wash,omitempty" desc:"hands to clean it between two dishes in the same piece"`
	WashDown   unit.Span     `yaml:"wash-down,omitempty" desc:"hands instead of wash when the dish before has an allergen that the next has not"`
}

// Fuel is what a heater burns.
type Fuel string

const (
	Gas         Fuel = "gas"
	Electricity Fuel = "electricity"
)

// Method says how a way of chilling takes the heat out.
type Method string

const (
	StirredBath Method = "stirred bath" // pot standing in ice water or cold air, stirred: all of it at one temperature
	ShallowPans Method = "shallow pans" // unstirred layers in moving or still air: conduction
	PotInAir    Method = "pot in air"   // the pot as it is, unstirred, in cold air: conduction
	InStages    Method = "in stages"    // one way down to a temperature, then another
)

// Chilling is one way to cool hot food.
type Chilling struct {
	Name   string     `yaml:"name" desc:"what the crew calls it"`
	Method Method     `yaml:"method" desc:"stirred bath, shallow pans, pot in air or in stages" enum:"stirred bath,shallow pans,pot in air,in stages"`
	Medium *unit.Temp `yaml:"medium,omitempty" desc:"temperature of the air or the bath; the usual one of what it stands in when left out"`
	Count  int        `yaml:"count,omitempty" desc:"how many pots or pans can cool at once; needed unless it goes in stages"`

	First ChillingID `yaml:"first,omitempty" desc:"the way to begin with, of one that goes in stages"`
	Until *unit.Temp `yaml:"until,omitempty" desc:"where the first way ends"`
	Then  ChillingID `yaml:"then,omitempty" desc:"the way that follows"`

	In     MediumID    `yaml:"in,omitempty" desc:"what it stands in: the medium's surface coefficients hold where top, bottom and wall say nothing"`
	Vessel EquipmentID `yaml:"vessel,omitempty" desc:"the pot that stands in the bath or the air"`
	Length unit.Length `yaml:"length,omitempty" desc:"of a pan, inside"`
	Width  unit.Length `yaml:"width,omitempty" desc:"of a pan, inside"`
	Depth  unit.Length `yaml:"depth,omitempty" desc:"of the food in a pan"`
	Top    unit.Film   `yaml:"top,omitempty" desc:"surface coefficient above, W/m2K"`
	Bottom unit.Film   `yaml:"bottom,omitempty" desc:"surface coefficient below, W/m2K"`
	Wall   unit.Film   `yaml:"wall,omitempty" desc:"overall coefficient of a stirred pot's wall, W/m2K"`
	Open   bool        `yaml:"open,omitempty" desc:"pans without a lid until cold: thin food also cools by evaporating"`
	Power  unit.Power  `yaml:"cooling,omitempty" desc:"heat that the cabinet's machine can take out; left out, its air is taken to stay as cold as it is"`
	Paddle *Paddle     `yaml:"paddles,omitempty" desc:"frozen paddles that stir the pot"`
	Set    unit.Span   `yaml:"set-up,omitempty" desc:"hands to set it up, each pot or pan"`
	Tend   unit.Share  `yaml:"tending,omitempty" desc:"share of the time that somebody stirs or watches"`
}

// Paddle is a closed bottle of frozen water that stirs a pot, and how many there are.
type Paddle struct {
	Count    int         `yaml:"count" desc:"how many are frozen and ready"`
	Water    unit.Mass   `yaml:"water" desc:"in one"`
	Length   unit.Length `yaml:"length" desc:"of the part in the food"`
	Diameter unit.Length `yaml:"diameter" desc:"of that part"`
	Start    unit.Temp   `yaml:"from" desc:"temperature of the freezer it comes from"`
	Refreeze unit.Span   `yaml:"refreeze,omitempty" desc:"until a melted one is frozen again; a day when left out"`
}

// Medium is what this kitchen knows of a medium from logs of its own, instead of the published range.
type Medium struct {
	Low   unit.Film `yaml:"low" desc:"surface coefficient at its worst, W/m2K"`
	Usual unit.Film `yaml:"usual" desc:"surface coefficient as it mostly is, W/m2K"`
	High  unit.Film `yaml:"high" desc:"surface coefficient at its best, W/m2K"`
	Note  string    `yaml:"note" desc:"how it was found: which log, which day"`
}

// Lay says how packs lie in a freezer.
type Lay string

const (
	Apart   Lay = "apart"   // free, air on both faces
	OnPlate Lay = "plate"   // one face on a cold shelf
	Stacked Lay = "stacked" // on each other, among others
)

// Freezer is one or more equal freezers.
type Freezer struct {
	Name    string      `yaml:"name" desc:"what the crew calls it"`
	Count   int         `yaml:"count" desc:"how many equal ones there are"`
	Volume  unit.Volume `yaml:"volume" desc:"inside, of one"`
	Air     unit.Temp   `yaml:"air" desc:"its air when it runs steadily"`
	Cooling unit.Power  `yaml:"cooling" desc:"heat that one can take out beside its own leaks"`
	In      MediumID    `yaml:"in,omitempty" desc:"its air as a medium, for the surface coefficient when film is left out; freezer-air when both are"`
	Film    unit.Film   `yaml:"film,omitempty" desc:"surface coefficient on a bag lying in it, W/m2K"`
	Lay     Lay         `yaml:"lay,omitempty" desc:"how fresh packs lie: apart, plate or stacked; apart when left out" enum:"apart,plate,stacked"`
	High    int         `yaml:"high,omitempty" desc:"how many packs lie on each other when stacked"`
	Holds   unit.Mass   `yaml:"holds,omitempty" desc:"frozen stock in all of them now"`
	Room    unit.Mass   `yaml:"room" desc:"packs that all of them can store, by mass"`
}

// Bag is what a pack is filled into.
type Bag struct {
	Name   string      `yaml:"name" desc:"as on the box"`
	Length unit.Length `yaml:"length" desc:"inside, below the seal"`
	Width  unit.Length `yaml:"width" desc:"inside"`
	Reheat string      `yaml:"reheat,omitempty" desc:"the maker's letter that says food may be frozen and heated in it"`
	Price  unit.Money  `yaml:"price,omitempty" desc:"price of one"`
	Stock  int         `yaml:"stock,omitempty" desc:"how many are on hand"`
}

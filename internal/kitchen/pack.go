package kitchen

import "kettlefrost/internal/unit"

// Pack is a sellable unit: how much of which outputs, in which bag.
type Pack struct {
	Name      string      `yaml:"name" desc:"as sold"`
	Dish      DishID      `yaml:"dish" desc:"the dish it is filled from; two packs may share one dish's outputs"`
	Fill      []Fill      `yaml:"fill" desc:"what goes in, in the order of filling: pieces first, sauce after"`
	Bag       BagID       `yaml:"bag" desc:"the bag it is sealed in"`
	Thickness unit.Length `yaml:"thickness,omitempty" desc:"of the filled bag lying flat; from its fill and the bag when left out"`
	Thinnest  unit.Length `yaml:"thinnest,omitempty" desc:"of filled bags that were measured; 20 % below the thickness when left out"`
	Thickest  unit.Length `yaml:"thickest,omitempty" desc:"of filled bags that were measured; 30 % above the thickness when left out"`
	Pace      unit.Span   `yaml:"pace" desc:"hands to fill, weigh, seal and label one"`
	Crew      int         `yaml:"crew,omitempty" desc:"people at the filling table"`
	Skill     Skill       `yaml:"skill,omitempty" desc:"only people who can do this fill and seal it"`
	Price     unit.Money  `yaml:"price,omitempty" desc:"what a customer pays"`
	Tax       TaxID       `yaml:"tax,omitempty" desc:"the tax on it, one of tax-rates; none when left out"`
	Label     unit.Money  `yaml:"label-cost,omitempty" desc:"price of one printed label"`
	Labels    int         `yaml:"labels,omitempty" desc:"how many blank labels of it are on hand; not counted when left out"`
	Frozen    int         `yaml:"frozen,omitempty" desc:"how many are in the freezer now"`
	Keep      int         `yaml:"keep,omitempty" desc:"how many the freezer should never fall below"`
	Batch     int         `yaml:"batch,omitempty" desc:"how many are made at once, for the choice of a week's dishes; half of what sells when left out"`
	Sells     int         `yaml:"sells,omitempty" desc:"how many a week can be sold at most, for the choice of a week's dishes"`
	Waste     unit.Share  `yaml:"waste,omitempty" desc:"share of the packs that are never sold: torn, out of date, given away"`
	Sauce     SauceRange  `yaml:"sauce,omitempty" desc:"how much sauce may go with the solids, in a pack of both"`
	Checks    []Weighing  `yaml:"checks,omitempty" desc:"check-weighings of earlier fillings: how much this kitchen's hands scatter is learned from them"`
	Trials    []Trial     `yaml:"trials,omitempty" desc:"measured heatings, for its heating card; kettlefrost heat form prints the form"`
	Serving   unit.Mass   `yaml:"serving,omitempty" desc:"what one person eats of it at a meal"`

	Reference  string    `yaml:"reference-amount,omitempty" desc:"which food it is of the reference amounts customarily consumed (21 CFR 101.12), such as soup; kettlefrost label list shows them"`
	Cup        unit.Mass `yaml:"cup,omitempty" desc:"what a level cup (240 ml) of it weighs, weighed; reckoned from its composition when left out"`
	GTIN       string    `yaml:"gtin,omitempty" desc:"its trade item number, 8, 12, 13 or 14 digits, when one was assigned"`
	BestBefore Keeping   `yaml:"best-before,omitempty" desc:"for how long it is at its best in the freezer"`

	Identity string `yaml:"statement-of-identity,omitempty" desc:"what the food is, for the label; the name when left out"`
}

// SauceRange is how much sauce, the last thing filled, may go with one part of what was filled before.
type SauceRange struct {
	Least float64 `yaml:"least,omitempty" desc:"parts of sauce to one of solids, at least"`
	Most  float64 `yaml:"most,omitempty" desc:"parts of sauce to one of solids, at most"`
}

// Weighing is the check-weights of one filling.
type Weighing struct {
	Date  string      `yaml:"date" desc:"the day, such as 2026-11-20"`
	Lot   int         `yaml:"lot,omitempty" desc:"how many packs were filled"`
	Who   string      `yaml:"who,omitempty" desc:"who weighed"`
	Tare  []unit.Mass `yaml:"tare" desc:"empty bags with their labels, weighed one by one"`
	Gross []unit.Mass `yaml:"gross" desc:"filled packs, in the order in which they were filled"`
}

// Fill is one component of a pack: a mass, or a number of pieces.
type Fill struct {
	Of     OutputID  `yaml:"of" desc:"an output of the pack's dish"`
	Mass   unit.Mass `yaml:"mass,omitempty" desc:"how much of it"`
	Pieces int       `yaml:"pieces,omitempty" desc:"or how many pieces of it"`
}

// Trial is one measured heating of a pack: what a heating card may say of a microwave or an oven comes from these alone.
type Trial struct {
	Method    HeatMethod  `yaml:"method" desc:"microwave, oven or simmering water" enum:"microwave,oven,simmering water"`
	Appliance string      `yaml:"appliance" desc:"make and model"`
	Power     unit.Power  `yaml:"power,omitempty" desc:"as rated, of a microwave"`
	Set       *unit.Temp  `yaml:"set,omitempty" desc:"what an oven was set to, or the water as measured"`
	Mass      unit.Mass   `yaml:"mass" desc:"of the pack that was heated"`
	Start     unit.Temp   `yaml:"start" desc:"temperature at the start"`
	Time      unit.Span   `yaml:"time" desc:"of heating"`
	Stand     unit.Span   `yaml:"stand,omitempty" desc:"covered, before measuring"`
	Spots     []unit.Temp `yaml:"spots" desc:"after standing, unstirred: middle, thickest place, a corner, opposite corner, edge of a long side"`
	Who       string      `yaml:"who" desc:"who measured"`
	Date      string      `yaml:"date" desc:"the day, such as 2026-11-20"`
}

// HeatMethod is a way to heat a pack whose time is measured.
type HeatMethod string

const (
	Microwave      HeatMethod = "microwave"
	HotOven        HeatMethod = "oven"
	SimmeringWater HeatMethod = "simmering water"
)

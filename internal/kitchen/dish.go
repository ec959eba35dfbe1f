package kitchen

import "kettlefrost/internal/unit"

// Dish is a graph of steps, written for one batch of any size. The plan scales it.
type Dish struct {
	Name     string     `yaml:"name" desc:"what the kitchen calls it"`
	About    string     `yaml:"about,omitempty" desc:"what it is, for people"`
	HoldBack unit.Share `yaml:"hold-back,omitempty" desc:"share of its tap water that it can be cooked without: kept back and added as ice to cool it"`
	PH       float64    `yaml:"ph,omitempty" desc:"as measured when it is done; not known when left out"`
	Steps    []Step     `yaml:"steps" desc:"in any order that reads well; each uses ingredients and what earlier steps give"`
}

// Step is one thing done to food. At the scale it is written for it uses the amounts as written; its outputs are its inputs less
// what it loses.
type Step struct {
	ID      string        `yaml:"id" desc:"short word, unique in the dish; the output's name when gives is left out"`
	Do      string        `yaml:"do" desc:"what to do, in one short sentence"`
	How     string        `yaml:"how,omitempty" desc:"how to tell it is right, what to watch"`
	AtHome  string        `yaml:"at-home,omitempty" desc:"how it is done in a home kitchen, when otherwise, for the home card; the words leave out leave the step out"`
	Use     []Use         `yaml:"use" desc:"ingredients and earlier outputs that go in"`
	MakeUp  IngredientID  `yaml:"make-up,omitempty" desc:"the ingredient of this step (usually water) that is adjusted so that the output keeps its written ratio to the rest when evaporation and residue do not scale"`
	In      []EquipmentID `yaml:"in,omitempty" desc:"equipment that will do; the plan takes the one with the fewest loads, and single loads go to others where only the time differs"`
	Stays   bool          `yaml:"stays,omitempty" desc:"goes on in the vessel of the earlier step, without emptying it"`
	Load    LoadLimit     `yaml:"load,omitempty" desc:"what one load may hold, besides the working volume"`
	Bulk    unit.Density  `yaml:"bulk,omitempty" desc:"mass by volume in the vessel at its fullest, for heaps such as leaves; from composition when left out"`
	HeatTo  *unit.Temp    `yaml:"heat-to,omitempty" desc:"brought to this temperature first; the time is computed"`
	Time    unit.Span     `yaml:"time,omitempty" desc:"then this long, each load"`
	Pace    unit.Pace     `yaml:"pace,omitempty" desc:"hands-on work by mass, such as 3 min/kg"`
	Hands   Hands         `yaml:"hands,omitempty" desc:"when somebody must stand by; the whole time when pace is given or nothing is said and there is no heat"`
	Skill   Skill         `yaml:"skill,omitempty" desc:"only people who can do this may put their hands to it"`
	Within  unit.Span     `yaml:"within,omitempty" desc:"must start at most this long after its inputs are ready"`
	AtOnce  bool          `yaml:"at-once,omitempty" desc:"must start the minute its inputs are ready: it cannot wait at all"`
	Loses   Losses        `yaml:"loses,omitempty" desc:"what goes missing, by cause"`
	Gives   []Output      `yaml:"gives,omitempty" desc:"outputs; the first without takes is the main product; one output named like the step when left out"`
	ReadyAt *unit.Temp    `yaml:"ready-at,omitempty" desc:"temperature of what it gives when it differs from heat-to"`
}

// Outputs are what a step gives: as written, or the one output that is named like the step.
func (s Step) Outputs() []Output {
	if len(s.Gives) == 0 {
		return []Output{{ID: OutputID(s.ID)}}
	}
	return s.Gives
}

// Use is one thing that goes into a step: an ingredient (Of) or what an earlier step gave (From).
type Use struct {
	Of     IngredientID `yaml:"of,omitempty" desc:"an ingredient of the book"`
	From   OutputID     `yaml:"from,omitempty" desc:"an output of an earlier step"`
	Amount unit.Amount  `yaml:"amount,omitempty" desc:"edible portion, at the written scale"`
	Take   Take         `yaml:"take,omitempty" desc:"of an output: all, or a share such as 60 %; leave out when amount is given"`
	Or     IngredientID `yaml:"or,omitempty" desc:"an ingredient that is bought to stand in when the by-product falls short"`

	Instead []IngredientID `yaml:"instead,omitempty" desc:"ingredients that may take its place, mass for mass, when it cannot be had; somebody decides, not the plan"`
}

// Take is how much of an earlier output a step uses when it is not a fixed amount.
type Take struct {
	Given bool       // false: the amount counts
	Share unit.Share // unit.Whole is "all"
}

// LoadLimit is what one load may hold besides the working volume.
type LoadLimit struct {
	AtMost  unit.Mass     `yaml:"at-most,omitempty" desc:"mass of one load"`
	Surface unit.AreaLoad `yaml:"surface,omitempty" desc:"mass on a square metre of base, for searing in one layer, such as 16 kg/m2"`
}

// Hands is when a step needs somebody.
type Hands struct {
	Throughout bool      `yaml:"throughout,omitempty" desc:"the whole time"`
	Start      unit.Span `yaml:"start,omitempty" desc:"at the start of each load"`
	End        unit.Span `yaml:"end,omitempty" desc:"at the end of each load"`
	Every      unit.Span `yaml:"every,omitempty" desc:"and again every so often between"`
	For        unit.Span `yaml:"for,omitempty" desc:"for this long each time"`
}

// Losses are what a step loses, each by its cause.
type Losses struct {
	Evaporation unit.Evaporation `yaml:"evaporation,omitempty" desc:"water from each square metre of open surface in an hour, over the time of the step"`
	Open        bool             `yaml:"open,omitempty" desc:"lid off: evaporation from the published table at the step's temperature; at a rolling boil, what the burner boils off"`
	ReduceTo    unit.Share       `yaml:"reduce-to,omitempty" desc:"boiled down to this share of what went in; the time follows from the surface"`
	Water       unit.Share       `yaml:"water,omitempty" desc:"cooking loss taken from the water, as a share of what went in"`
	Fat         unit.Share       `yaml:"fat,omitempty" desc:"cooking loss taken from the fat, as a share of what went in"`
	Drain       unit.Share       `yaml:"drain,omitempty" desc:"poured off and thrown away, as a share of what went in"`
	Residue     unit.Mass        `yaml:"residue,omitempty" desc:"left sticking in the vessel at each filling"`
}

// Part is what an output is made of.
type Part string

const (
	Mixed Part = "mixed" // the same mixture as the rest
	Fat   Part = "fat"   // rendered or skimmed fat
	Water Part = "water" // strained off thin
)

// Output is something a step gives.
type Output struct {
	ID        OutputID   `yaml:"id" desc:"unique in the dish"`
	Name      string     `yaml:"name,omitempty" desc:"for people; the id when left out"`
	Takes     unit.Share `yaml:"takes,omitempty" desc:"share of what went into the step; the main product takes the rest"`
	Part      Part       `yaml:"part,omitempty" desc:"what it is drawn from: mixed, fat or water" enum:"mixed,fat,water"`
	ByProduct bool       `yaml:"by-product,omitempty" desc:"comes along: nobody cooks more to get it"`
	Piece     unit.Mass  `yaml:"piece,omitempty" desc:"mass of one piece as it leaves the step, when it is counted in pieces"`
	Spread    unit.Share `yaml:"spread,omitempty" desc:"how far its mass turns out otherwise than planned, as one standard deviation; the kitchen's when left out"`
	Left      LeftUse    `yaml:"left,omitempty" desc:"what becomes of what no pack takes: next-run, crew or discard; the crew eats it when left out" enum:"next-run,crew,discard"`
}

// LeftUse is what becomes of what is left over.
type LeftUse string

const (
	NextRun LeftUse = "next-run" // kept for the next run
	Crew    LeftUse = "crew"     // the crew eats it
	Discard LeftUse = "discard"  // thrown away
)

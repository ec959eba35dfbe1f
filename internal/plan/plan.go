// Package plan turns a kitchen's book and a request into a plan: every figure, load, time, caution and sheet of a run as one value.
// It translates the kitchen's nouns into numbers for the computing packages and their answers back, and decides nothing that they
// could decide. The same book, foods and request give the same plan; pages, prints, JSON and the command line all show this value.
package plan

import (
	"kettlefrost/internal/caution"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Schema names the shape of the JSON; its number goes up when a reader of the old one could be misled.
const Schema = "kettlefrost.plan/1"

// Plan is a run before it happens.
type Plan struct {
	Schema    string       `json:"schema"`
	Kitchen   string       `json:"kitchen"`
	Note      string       `json:"note,omitempty"` // of the kitchen, such as that it is invented
	Units     unit.System  `json:"units"`          // what the kitchen reads first
	Currency  string       `json:"currency"`
	Run       string       `json:"run"`
	Day       string       `json:"day,omitempty"`
	Findings  finding.List `json:"findings"` // gravest first
	Summary   Summary      `json:"summary"`
	Dishes    []Dish       `json:"dishes"`
	Timetable Timetable    `json:"timetable"`
	Chill     []Chill      `json:"chill"`
	Fill      []PackFill   `json:"fill"`
	Freeze    Freeze       `json:"freeze"`
	Buy       Buy          `json:"buy"`
	Cost      []PackCost   `json:"cost"`
	Money     CostSheet    `json:"money"`
	Prices    []PackPrice  `json:"prices"`
	BreakEven *BreakEven   `json:"break_even,omitempty"` // of a week, in the proportions of this run
	Ranges    *Ranges      `json:"ranges,omitempty"`     // how the run may turn out
	Labels    []Label      `json:"labels"`
	Cards     []Card       `json:"cards"` // how the customer heats each pack
}

// Summary is the run in a few figures.
type Summary struct {
	Packs     int         `json:"packs"`
	FoodMass  unit.Mass   `json:"food_g"` // in the packs
	Start     unit.Moment `json:"start"`
	End       unit.Moment `json:"end"`
	HandsOn   unit.Span   `json:"hands_on_s"`
	BuyTotal  unit.Money  `json:"buy_total"`
	CostTotal unit.Money  `json:"cost_total"` // of what goes into the packs; a lower bound when CostLower
	CostLower bool        `json:"cost_is_lower_bound"`
}

// Dish is one dish at scale.
type Dish struct {
	ID       string    `json:"id"`
	Name     string    `json:"name"`
	Target   string    `json:"target"`          // what was asked for, in words
	Limit    string    `json:"limit,omitempty"` // what stopped "as many as possible", in words
	Steps    []Step    `json:"steps"`           // in the order of cooking
	Surplus  []Line    `json:"surplus"`         // outputs that no step and no pack takes
	BoughtIn []Line    `json:"bought_in"`       // ingredients standing in for a by-product that falls short
	In       unit.Mass `json:"in_g"`
	Out      unit.Mass `json:"out_g"`
	Lost     unit.Mass `json:"lost_g"`
	Closure  float64   `json:"closure"` // |in - out - lost| / in, as computed
}

// Step is one step of a dish at scale.
type Step struct {
	ID        string        `json:"id"`
	Do        string        `json:"do"`
	How       string        `json:"how,omitempty"`
	Scale     float64       `json:"scale"` // times the written amounts
	Equipment string        `json:"equipment,omitempty"`
	Loads     Loads         `json:"loads"`
	In        []Line        `json:"in"`
	Out       []Line        `json:"out"`
	Losses    []Loss        `json:"losses"`
	HeatTo    *unit.Temp    `json:"heat_to_c,omitempty"`
	HeatUp    unit.Span     `json:"heat_up_s"`  // each load
	Time      unit.Span     `json:"time_s"`     // each load, after heating up, hands-on work by mass included
	HandsOn   unit.Span     `json:"hands_on_s"` // each load
	EnergyKWh float64       `json:"energy_kwh"` // that its heater uses, all loads
	Starts    []unit.Moment `json:"starts"`     // of each load
}

// Loads is how a step is split.
type Loads struct {
	Count  int         `json:"count"`
	Mass   unit.Mass   `json:"mass_g"`    // of each
	Volume unit.Volume `json:"volume_ml"` // of each, when fullest
	Limit  string      `json:"limit"`     // what decides the number: volume, mass or no limit
	Full   unit.Share  `json:"full"`      // part of that limit that each uses
}

// Line is an amount of something.
type Line struct {
	ID      string      `json:"id"`
	Name    string      `json:"name"`
	Mass    unit.Mass   `json:"mass_g"`
	Each    unit.Mass   `json:"each_g,omitempty"`    // of one load, when there are several
	Volume  unit.Volume `json:"volume_ml,omitempty"` // of liquids
	Pieces  int         `json:"pieces,omitempty"`
	Kind    LineKind    `json:"kind"`
	StandIn string      `json:"stand_in,omitempty"` // what is bought for the part that is missing
	Short   unit.Mass   `json:"short_g,omitempty"`  // that part
}

// LineKind says what a line is.
type LineKind string

const (
	Fresh     LineKind = "ingredient"
	MadeUp    LineKind = "make-up" // an ingredient adjusted to the losses
	Earlier   LineKind = "earlier" // an output of an earlier step
	Product   LineKind = "product"
	ByProduct LineKind = "by-product"
)

// Loss is mass that left, by cause.
type Loss struct {
	Cause string    `json:"cause"` // evaporation, cooking water, rendered fat, drained, residue, trim
	Mass  unit.Mass `json:"mass_g"`
}

// Timetable is the day.
type Timetable struct {
	Status   string       `json:"status"` // optimal, feasible, infeasible, unknown or empty
	Start    unit.Moment  `json:"start"`
	End      unit.Moment  `json:"end"`
	Length   unit.Span    `json:"length_s"` // start to end
	Bound    unit.Span    `json:"bound_s"`  // no timetable is shorter
	BoundWhy string       `json:"bound_why"`
	Tasks    []Task       `json:"tasks"`              // by start
	Rows     []Row        `json:"rows"`               // people first, then equipment
	Clash    []string     `json:"clash,omitempty"`    // what contradicts, when it can't be done
	Remedies []string     `json:"remedies,omitempty"` // the smallest changes found, each of which alone would make it possible
	Aims     []AimResult  `json:"aims"`               // in the order of their importance
	Now      *unit.Moment `json:"now,omitempty"`      // of a day under way, whose rest was timed again
	Moves    []Move       `json:"moves,omitempty"`    // what that changed, by the new start
}

// AimResult is how well the timetable does by one aim.
type AimResult struct {
	Aim    kitchen.Aim `json:"aim"`
	Value  unit.Span   `json:"value_s"` // finish: from the opening to the end; late-start: from the opening to the first hands; the others: that much
	Bound  unit.Span   `json:"bound_s"` // no timetable that is as good by the aims before does better
	Status string      `json:"status"`  // optimal, or feasible when better is not ruled out
}

// Move is a task that now starts at another time than planned.
type Move struct {
	Task int         `json:"task"` // index into Timetable.Tasks
	Was  unit.Moment `json:"was"`
	Why  string      `json:"why"` // late itself, follows another task, people, or equipment that is short
}

// Task is one load of one step, one chill or one filling.
type Task struct {
	Key    string      `json:"key"` // dish/step/load, names the task for good
	Dish   string      `json:"dish"`
	Step   string      `json:"step"`
	Label  string      `json:"label"` // what to do, short
	Load   int         `json:"load"`  // from 1
	Loads  int         `json:"loads"`
	Kind   TaskKind    `json:"kind"`
	Start  unit.Moment `json:"start"`
	End    unit.Moment `json:"end"`
	People []string    `json:"people"`
	On     []string    `json:"on"`      // equipment, each with its number when there are several
	Slack  unit.Span   `json:"slack_s"` // may start so much later, others making way, and the day ends no later; 0: critical
	State  TaskState   `json:"state,omitempty"`

	Careful []caution.Caution `json:"careful"` // what whoever does it must be told
}

// TaskKind groups tasks.
type TaskKind string

const (
	Cook    TaskKind = "cook"
	Cool    TaskKind = "chill"
	Filling TaskKind = "fill"
	Washing TaskKind = "wash"
	Visit   TaskKind = "appointment"
)

// TaskState says how far a task is, on a day under way.
type TaskState string

const (
	ToDo  TaskState = ""
	Begun TaskState = "begun"
	Done  TaskState = "done"
)

// Row is one person's or one piece of equipment's day.
type Row struct {
	Name   string `json:"name"`
	Person bool   `json:"person"`
	Bars   []Bar  `json:"bars"`
	Away   []Bar  `json:"away,omitempty"` // breaks, and the time before and after the shift within the day
}

// Bar is a piece of a row. Task is an index into Timetable.Tasks, -1 when away.
type Bar struct {
	Task int         `json:"task"`
	From unit.Moment `json:"from"`
	To   unit.Moment `json:"to"`
}

// PackFill is how many of a pack the masses give.
type PackFill struct {
	Pack   string    `json:"pack"`
	Name   string    `json:"name"`
	Dish   string    `json:"dish"`
	Count  int       `json:"count"`
	Low    int       `json:"low"`  // a tenth of the draws give fewer: see Ranges
	High   int       `json:"high"` // a tenth give more
	Wanted int       `json:"wanted,omitempty"`
	Each   []Line    `json:"each"`             // in the order of filling
	Net    unit.Mass `json:"net_g"`            // on the label
	Over   unit.Mass `json:"over_g,omitempty"` // filled beyond it, as check-weights ask
	Bag    string    `json:"bag"`
	Proof  string    `json:"proof"` // optimal, or the gap
	Time   unit.Span `json:"time_s"`
}

// Ranges is how a run may turn out, by drawing yields, times and prices with a seed. The same seed gives the same draws on every machine.
type Ranges struct {
	Draws  int         `json:"draws"`
	Seed   uint64      `json:"seed"`
	Yields unit.Share  `json:"yields"` // standard deviations; an output may have its own
	Times  unit.Share  `json:"times"`
	Prices unit.Share  `json:"prices"`
	Packs  []PackRange `json:"packs"`
	Earned MoneyRange  `json:"earned"` // sales when all packs are sold, less all that was put in and done; overhead not counted
}

// PackRange is how many of a pack there may be, and what one may cost: a tenth of the draws lie below Low, half below Middle, a tenth above
// High.
type PackRange struct {
	Pack   string     `json:"pack"`
	Low    int        `json:"low"`
	Middle int        `json:"middle"`
	High   int        `json:"high"`
	Cost   MoneyRange `json:"cost"` // of the draws that give any
}

// MoneyRange is an amount of money that scatters.
type MoneyRange struct {
	Low    unit.Money `json:"low"`
	Middle unit.Money `json:"middle"`
	High   unit.Money `json:"high"`
}

// Buy is the shopping list.
type Buy struct {
	Lines    []BuyLine  `json:"lines"`  // by storage, then name
	Orders   []BuyOrder `json:"orders"` // by supplier
	Goods    unit.Money `json:"goods"`
	Delivery unit.Money `json:"delivery"`
	Total    unit.Money `json:"total"`               // of both
	LeftOver unit.Money `json:"left_over,omitempty"` // what is bought too much and keeps is worth: not taken off the total
	Proof    string     `json:"proof"`               // optimal, or the gap

	Alternatives []BuyAlternative `json:"alternatives,omitempty"`
}

// BuyOrder is what one supplier brings.
type BuyOrder struct {
	Supplier string     `json:"supplier"`
	Name     string     `json:"name"`
	Note     string     `json:"note,omitempty"`
	OrderBy  string     `json:"order_by,omitempty"` // the last day, when the day of the run is known
	Goods    unit.Money `json:"goods"`
	Delivery unit.Money `json:"delivery"`
	Minimum  unit.Money `json:"minimum,omitempty"`
	ToFree   unit.Money `json:"to_free,omitempty"` // so much more, and it is brought for nothing
}

// BuyAlternative is the best list on some other condition.
type BuyAlternative struct {
	Is        string     `json:"is"` // without whom, or from how many
	Total     unit.Money `json:"total"`
	Extra     unit.Money `json:"extra"` // over the list
	Suppliers int        `json:"suppliers"`
}

// BuyLine is one ingredient.
type BuyLine struct {
	ID      string    `json:"id"`
	Name    string    `json:"name"`
	Storage string    `json:"storage"`
	Aisle   string    `json:"aisle,omitempty"`
	Instead []string  `json:"instead,omitempty"` // what a dish lets take its place, when somebody decides so
	Need    unit.Mass `json:"need_ep_g"`         // edible portion
	Trim    unit.Mass `json:"trim_g"`
	AP      unit.Mass `json:"ap_g"`    // as purchased, reserve included
	Stock   unit.Mass `json:"stock_g"` // that may still be used
	ToBuy   unit.Mass `json:"to_buy_g"`
	Packs   []BuyPack `json:"packs"`

	FromStock []BuyLot   `json:"from_stock,omitempty"` // the lot that goes off first in front
	Total     unit.Money `json:"total"`
	Over      unit.Mass  `json:"over_g"`
	OverWorth unit.Money `json:"over_worth,omitempty"` // what that is worth to a later run; nothing, unless the book says that it keeps
	Late      *BuyLate   `json:"late,omitempty"`       // nobody brings enough of it in time
	Free      bool       `json:"free,omitempty"`
	Missing   string     `json:"missing,omitempty"` // why it cannot be bought
}

// BuyLot is what the run takes of a lot on hand.
type BuyLot struct {
	Lot   string    `json:"lot,omitempty"`
	Until string    `json:"until,omitempty"` // the last day it may be used
	Mass  unit.Mass `json:"mass_g"`
}

// BuyPack is whole purchase packs of one offer.
type BuyPack struct {
	Supplier   string     `json:"supplier"`
	SupplierID string     `json:"supplier_id"`
	Name       string     `json:"name"` // of the pack: 25 lb sack
	Count      int        `json:"count"`
	Price      unit.Money `json:"price"` // of one
}

// PackCost is what one pack costs.
type PackCost struct {
	Pack        string     `json:"pack"`
	Name        string     `json:"name"`
	Ingredients []CostLine `json:"ingredients"` // dearest first
	Food        unit.Money `json:"food"`
	Packaging   unit.Money `json:"packaging"`
	Labour      unit.Money `json:"labour"`   // hands-on time of the timetable at the crew's mean wage
	Energy      unit.Money `json:"energy"`   // of what heats the pots
	Cleaning    unit.Money `json:"cleaning"` // hands and materials for washing between dishes, shared by mass of all packs
	Overhead    unit.Money `json:"overhead"`
	Waste       unit.Money `json:"waste"` // its part of the packs that are never sold
	Total       unit.Money `json:"total"` // of all these
	Price       unit.Money `json:"price"`
	FoodShare   unit.Share `json:"food_share"` // food over price

	OverheadBase string   `json:"overhead_base,omitempty"` // what overhead is spread over, in words
	Missing      []string `json:"missing,omitempty"`       // prices not known: the cost is a lower bound
}

// CostSheet is what the run costs, carried from step to step. Steps in order; each passes what came in and what it adds on to its outputs.
type CostSheet struct {
	Rule     string      `json:"rule"`  // by which several outputs of one step share its cost
	Spent    unit.Money  `json:"spent"` // all of it: what the packs bear, and what is left over
	LeftCost unit.Money  `json:"left_cost"`
	Steps    []StepMoney `json:"steps"`
	Left     []LeftMoney `json:"left"`
	Joint    []JointCost `json:"joint"` // of each dish with several packs: by mass, and by what they sell for
}

// StepMoney is one step on the cost sheet.
type StepMoney struct {
	Dish    string        `json:"dish"`
	Step    string        `json:"step"`
	Carried unit.Money    `json:"carried"` // with what it took from earlier steps
	Own     unit.Money    `json:"own"`     // ingredients, hands, heat
	Outputs []OutputMoney `json:"outputs"`
}

// OutputMoney is what one output of a step bears.
type OutputMoney struct {
	Output string     `json:"output"`
	Share  unit.Share `json:"share"`
	Cost   unit.Money `json:"cost"`
}

// LeftMoney is what something left over bears.
type LeftMoney struct {
	Output string     `json:"output"`
	Mass   unit.Mass  `json:"mass_g"`
	Cost   unit.Money `json:"cost"`
}

// JointCost is what the packs of a dish bear of its pots by one rule.
type JointCost struct {
	Dish  string        `json:"dish"`
	Rule  string        `json:"rule"`
	Total unit.Money    `json:"total"`
	Parts []OutputMoney `json:"parts"` // by pack
	Used  bool          `json:"used"`  // by this rule the packs' costs are told
}

// PackPrice is what a pack leaves at its price, and what its price would be for a target.
type PackPrice struct {
	Pack         string     `json:"pack"`
	Name         string     `json:"name"`
	Price        unit.Money `json:"price"`
	Variable     unit.Money `json:"variable"`     // what it costs, overhead aside
	Contribution unit.Money `json:"contribution"` // price less that
	Margin       unit.Share `json:"margin"`       // of the price
	MarkUp       unit.Share `json:"mark_up"`      // of the cost
	FoodShare    unit.Share `json:"food_share"`   // of the price
	AtMost       bool       `json:"at_most"`      // a price is missing: it leaves less
	FoodTarget   unit.Share `json:"food_target"`
	ForFood      unit.Money `json:"price_for_food_target"`
	MarginTarget unit.Share `json:"margin_target,omitempty"`
	ForMargin    unit.Money `json:"price_for_margin_target,omitempty"` // over the full cost
	Moves        []CostMove `json:"moves"`                             // widest first
}

// CostMove is what one input alone does to the cost of a pack.
type CostMove struct {
	Input string     `json:"input"` // and how far it is moved
	Base  unit.Money `json:"base"`
	Low   unit.Money `json:"low"`   // the cost at its low end
	High  unit.Money `json:"high"`  // the cost at its high end
	Share unit.Share `json:"share"` // of the sum of what all inputs do
}

// BreakEven is what must be sold in a week to pay what it costs anyway.
type BreakEven struct {
	Fixed unit.Money  `json:"fixed"`
	Sales unit.Money  `json:"sales"`
	Packs []PackCount `json:"packs"`
	Why   string      `json:"why,omitempty"` // there is none
}

// CostLine is one ingredient's part in a pack.
type CostLine struct {
	Name string     `json:"name"`
	Mass unit.Mass  `json:"mass_g"` // as put in
	Cost unit.Money `json:"cost"`
}

// Label is what must stand on a pack, as far as it is known.
type Label struct {
	Pack      string    `json:"pack"`
	Name      string    `json:"name"` // statement of identity
	Net       unit.Mass `json:"net_g"`
	Statement string    `json:"ingredients"`
	Contains  string    `json:"contains"`
	Withheld  bool      `json:"withheld"` // something is missing: do not print
	Missing   []string  `json:"missing,omitempty"`
	NearTies  []string  `json:"near_ties,omitempty"` // whose order the weighing could turn
	Cautions  []string  `json:"cautions"`

	Inside Inside `json:"-"` // what one pack holds, at the scale of the run
}

package haccp

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
)

// Plan is a hazard plan: what the seven principles ask for, and what has to be settled before it can be one.
type Plan struct {
	Product    string       `json:"product"`
	Category   string       `json:"category"` // of food, as FDA Food Code 8-201.14(A) asks for it
	Packed     string       `json:"packed,omitempty"`
	Intended   string       `json:"intended_use"`
	Life       string       `json:"shelf_life,omitempty"`  // how long it keeps, and how it is known
	Team       []string     `json:"team,omitempty"`        // who made the plan
	Walked     string       `json:"flow_walked,omitempty"` // who held the flow against the work, and when
	Flow       []FlowStep   `json:"flow"`
	Hazards    []Hazard     `json:"hazards"` // principle 1
	Points     []Point      `json:"points"`  // principles 2 to 7
	Dropped    []Dropped    `json:"dropped,omitempty"`
	Programmes []Programme  `json:"programmes"` // what must be in order before any of this holds
	Training   []Training   `json:"training"`
	Science    []string     `json:"science"` // what the limits rest on
	Open       []Open       `json:"open,omitempty"`
	Cautions   []string     `json:"cautions"`
	Principles [7]Principle `json:"principles"`
	Basis      string       `json:"basis"` // changes when anything changes that a point rests on: then the plan has to be looked at again
	Draft      string       `json:"draft"` // what stands on every page of it until it is accepted
}

// FlowStep is one box of the flow.
type FlowStep struct {
	ID        string   `json:"id"`
	Do        string   `json:"do"`
	How       string   `json:"how,omitempty"`
	From      []string `json:"from,omitempty"`      // boxes before it
	In        []string `json:"in,omitempty"`        // what goes in here, as the recipe has it
	Equipment []string `json:"equipment,omitempty"` // any of these
	Point     string   `json:"point,omitempty"`     // the number of the control point in it; "" for none
}

// Kind of hazard.
type Kind string

const (
	Biological Kind = "biological"
	Chemical   Kind = "chemical"
	Physical   Kind = "physical"
)

// Hazard is what could hurt somebody, where, and what is done about it.
type Hazard struct {
	Key         string `json:"key"`  // the same from draft to draft: edits name it
	Step        string `json:"step"` // box of the flow
	Kind        Kind   `json:"kind"`
	What        string `json:"what"` // pathogen, allergen, foreign body
	Why         string `json:"why"`
	Significant bool   `json:"significant"` // it needs a point, here or later, or a programme that is named
	Reason      string `json:"reason,omitempty"`
	Control     string `json:"control"`             // what keeps it down
	Point       string `json:"point,omitempty"`     // numbers of the control points, here or later
	Programme   string `json:"programme,omitempty"` // or the programme that keeps it down
	Added       bool   `json:"added,omitempty"`     // by a person

	cooks []string // the ingredients whose cooking is its point
	later Stage    // or the stage whose point it is
	at    string   // or the key of that point
}

// Stage is what a control point is about; programs know it by this.
type Stage string

const (
	CookingStage   Stage = "cooking"
	CoolingStage   Stage = "cooling"
	LabellingStage Stage = "labelling"
	FrozenStage    Stage = "frozen"
	OwnStage       Stage = "own" // added by a person
)

// Point is a critical control point.
type Point struct {
	Number     string   `json:"number"` // CCP 1
	Key        string   `json:"key"`    // step and stage: the same from draft to draft
	Stage      Stage    `json:"stage"`
	Step       string   `json:"step"` // box of the flow
	Why        string   `json:"why"`  // principle 2: why it is here
	Hazards    []string `json:"hazards"`
	Limit      Limit    `json:"limit"`
	Watch      Watch    `json:"watch"`
	Corrective []string `json:"corrective"`
	Verify     []string `json:"verify"`
	Records    []string `json:"records"`
}

// Dropped is a point of the draft that a person took out.
type Dropped struct {
	Step   string `json:"step"`
	Limit  string `json:"limit"`
	Reason string `json:"reason"`
	By     string `json:"by"`
}

// Watch is how a limit is watched.
type Watch struct {
	What  string `json:"what"`
	How   string `json:"how"`
	Often string `json:"often"`
	Who   string `json:"who"`
}

// Programme is what is no point and without which no point holds.
type Programme struct {
	Name    string `json:"name"`
	What    string `json:"what"`
	Often   string `json:"often"`
	Who     string `json:"who"`
	Confirm string `json:"confirm,omitempty"`
}

// Training is what somebody must have learned before they do it.
type Training struct {
	Who  string `json:"who"`
	What string `json:"what"`
	When string `json:"when"`
}

// Principle is one of the seven, and where in the plan its answer stands.
type Principle struct {
	Name   string `json:"name"`
	Answer string `json:"answer"`
}

// Open is something to settle.
type Open struct {
	Code  string `json:"code"` // stable, for programs
	Stop  bool   `json:"stop"` // not to be made like this
	Where string `json:"where"`
	Says  string `json:"says"`
	Fix   string `json:"fix"`
}

// The codes of what is open.
const (
	RawNotCooked   = "raw-not-cooked"        // a raw ingredient that no step heats far enough
	BeansNotBoiled = "beans-not-boiled"      // beans that no step boils as long as is said, from memory
	ClassUnknown   = "class-unknown"         // nobody has said what an ingredient is
	ClassGuessed   = "class-guessed"         // nobody has said, and a guess was drafted with
	HeatGuessed    = "heat-not-written"      // the temperature of a point was not written as one to heat to
	AllergensOpen  = "allergens-open"        // nobody has said what allergens are in it
	NoApproval     = "vacuum-not-approved"   // vacuum without an approval
	NotFrozen      = "vacuum-not-frozen"     // vacuum and sold chilled
	FishInVacuum   = "fish-in-vacuum"        // fish: the bag is opened before thawing
	AddedAfterHeat = "added-after-last-heat" // something is added after the last heat
	HazardNoPoint  = "hazard-without-point"  // significant, and neither a point nor a programme keeps it down
	FlowNotWalked  = "flow-not-walked"       // nobody has held the flow against the work
	TeamNotNamed   = "team-not-named"        // nobody is named who made the plan
	LifeNotSaid    = "shelf-life-not-said"   // nobody has said how long it keeps
)

const draftWords = "DRAFT. To be reviewed by a qualified person and by the authority before it is used. Your local code and a licensed professional decide."

// basis is a digest of everything that a plan rests on: ingredients with class and allergens, steps with their heat, how it is packed, and the
// figures of its limits. Names and words may change without it.
func basis(p Product, points []Point) string {
	var lines []string
	for _, g := range p.Ingredients {
		allergens := slices.Sorted(slices.Values(g.Allergens))
		lines = append(lines, fmt.Sprintf("ingredient %q %q %q %v %q", g.ID, g.Class, g.Storage, g.AllergensKnown, allergens))
	}
	slices.Sort(lines)
	for _, s := range p.Steps {
		lines = append(lines, fmt.Sprintf("step %q %q %q %s %.3f %v %v", s.ID, s.Uses, s.From, s.heat(), s.HoldS, s.Blend, s.Cut))
	}
	lines = append(lines, fmt.Sprintf("pack %v %v %q", p.Vacuum, p.Frozen, p.Packed))
	for _, x := range points {
		for _, f := range x.Limit.Figures {
			lines = append(lines, fmt.Sprintf("limit %q %q %.3f %.3f", x.Key, f.Sense, f.TempC, f.Seconds))
		}
	}
	sum := sha256.Sum256([]byte(strings.Join(lines, "\n")))
	return hex.EncodeToString(sum[:8])
}

func (s Step) heat() string {
	if s.HeatToC == nil {
		return "none"
	}
	return fmt.Sprintf("%.3f", *s.HeatToC)
}

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
	Product   string
	Flow      []FlowStep
	Hazards   []Hazard // principle 1
	Points    []Point  // principles 2 to 7
	Before    []string // what must be in order before any of this holds: the programmes that are not points
	Open      []Open   // what nobody has said, and what speaks against the product as it is
	Cautions  []string
	Basis     string // changes when anything changes that a point rests on: then the plan has to be looked at again
	Draft     string // what stands on every page of it
	Principle [7]string
}

// FlowStep is one box of the flow.
type FlowStep struct {
	ID, Do string
	From   []string // boxes before it
	Point  string   // the number of the control point in it; "" for none
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
	Step        string // box of the flow
	Kind        Kind
	What        string // pathogen, allergen, foreign body
	Why         string
	Significant bool   // it needs a point, or a later one
	Control     string // what keeps it down
	Point       string // number of the control point; "" where a programme does it
}

// Point is a critical control point.
type Point struct {
	Number     string // CCP 1
	Step       string // box of the flow
	Hazards    []string
	Limit      Limit
	Watch      Watch
	Corrective []string
	Verify     []string
	Records    []string
}

// Watch is how a limit is watched.
type Watch struct{ What, How, Often, Who string }

// Open is something to settle.
type Open struct {
	Code  string // stable, for programs
	Stop  bool   // not to be made like this
	Where string
	Says  string
	Fix   string
}

// The codes of what is open.
const (
	RawNotCooked   = "raw-not-cooked"        // a raw ingredient that no step heats far enough
	ClassUnknown   = "class-unknown"         // nobody has said what an ingredient is
	AllergensOpen  = "allergens-open"        // nobody has said what allergens are in it
	NoApproval     = "vacuum-not-approved"   // vacuum without an approval
	NotFrozen      = "vacuum-not-frozen"     // vacuum and sold chilled
	FishInVacuum   = "fish-in-vacuum"        // fish: the bag is opened before thawing
	AddedAfterHeat = "added-after-last-heat" // something is added after the last heat
)

const draftWords = "DRAFT. To be reviewed by a qualified person and by the authority before it is used. Your local code and a licensed professional decide."

// Principles of HACCP, in their order (Codex CXC 1-1969).
var principles = [7]string{"Hazard analysis", "Critical control points", "Critical limits", "Monitoring", "Corrective actions", "Verification", "Records"}

// basis is a digest of everything that a plan rests on: ingredients with class and allergens, steps with their heat, how it is packed. Names and
// words may change without it.
func (p Product) basis() string {
	var lines []string
	for _, g := range p.Ingredients {
		allergens := slices.Sorted(slices.Values(g.Allergens))
		lines = append(lines, fmt.Sprintf("ingredient %q %q %q %v %q", g.ID, g.Class, g.Storage, g.AllergensKnown, allergens))
	}
	slices.Sort(lines)
	for _, s := range p.Steps {
		heat := "none"
		if s.HeatToC != nil {
			heat = fmt.Sprintf("%.3f", *s.HeatToC)
		}
		lines = append(lines, fmt.Sprintf("step %q %q %q %s %.3f %v %v", s.ID, s.Uses, s.From, heat, s.HoldS, s.Blend, s.Cut))
	}
	lines = append(lines, fmt.Sprintf("pack %v %v", p.Vacuum, p.Frozen))
	sum := sha256.Sum256([]byte(strings.Join(lines, "\n")))
	return hex.EncodeToString(sum[:8])
}

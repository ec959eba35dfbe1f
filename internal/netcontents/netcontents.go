// Package netcontents is the law of averages for packs of a labelled weight: how many of a lot to weigh, what passes, how far from the
// label packs scatter, and how full to fill so that a lot passes.
//
// Two sets of rules are known: NIST Handbook 133 (category A plan, packs labelled by weight) and Directive 76/211/EEC (reference test and
// packers' rules). Not in here: allowances for moisture lost after packing, the separate limits and the category B plan for meat and
// poultry packed under inspection, labels by volume or count. The figures of both are from memory
// unless they say otherwise: confirm them in the text before anybody relies on a verdict.
//
// Masses that are compared with a limit are exact. What is reckoned about the future (spreads, chances, targets) is in float64 and
// supposes that net weights scatter normally about one mean, each pack apart from the others, and that weighing adds nothing of its own.
package netcontents

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Rules is a set of rules by which a lot is judged.
type Rules int

const (
	// Handbook133 is what an inspector does: the average may be short by the sample error limit, which is his benefit of the doubt.
	Handbook133 Rules = iota + 1
	// OwnCheck is a packer's check of himself: Handbook 133 without that benefit. The sample's average must reach the label.
	OwnCheck
	// Directive76211 is the reference test of Directive 76/211/EEC with the packer's duties.
	Directive76211
)

var rulesNames = [...]string{Handbook133: "NIST Handbook 133", OwnCheck: "NIST Handbook 133 without the sample error limit", Directive76211: "Directive 76/211/EEC"}

// String is the text the rules are from.
func (r Rules) String() string {
	if r < Handbook133 || r > Directive76211 {
		return fmt.Sprintf("rules(%d)", int(r))
	}
	return rulesNames[r]
}

// Terms are what a lot is judged by.
type Terms struct {
	Rules Rules
	Lot   int // packs in it, all of one label
	// Label is the net weight on the pack. Where it is given in two units that differ, take the larger: that is the one enforced.
	Label       unit.Mass
	LabelIn     unit.System // the unit by which Handbook 133 finds the row: pounds and ounces, or grams
	Destructive bool        // packs are opened to be checked; only the Directive has another plan for it
}

// InputError says which figure makes no sense, and what would do.
type InputError struct {
	What   string // the name of the field
	Reason string // to be read after it
	Fix    string
}

// Error is one line.
func (e *InputError) Error() string {
	return fmt.Sprintf("netcontents: %s %s; %s", e.What, e.Reason, e.Fix)
}

// TableError says that a table does not reach so far.
type TableError struct {
	Table string
	What  string // what was looked up: "a label of 9000 g"
	Reach string // from where to where the table goes
}

// Error is one line.
func (e *TableError) Error() string {
	return fmt.Sprintf("netcontents: %s has no row for %s; it goes %s", e.Table, e.What, e.Reach)
}

// SampleError says that another number of packs was weighed than the plan asks for.
type SampleError struct {
	Want []int // numbers that would do
	Have int
}

// Error is one line.
func (e *SampleError) Error() string {
	return fmt.Sprintf("netcontents: %d packs were weighed; the plan takes %v, chosen without looking at their weights", e.Have, e.Want)
}

// Package fill decides at the sealing table: from what was really weighed, how many of each pack are made so that the packs
// earn the most, what stays over, and what stops one pack more.
//
// Masses are whole nanograms and every pack is whole, so a plan fits or it does not; nothing is rounded. Plans are compared by
// these rules, in this order:
//
//  1. the highest value;
//  2. then the least mass left over;
//  3. then the most even counts: the smallest count as high as it can be, then the second smallest, and so on;
//  4. then more of the pack that is listed first.
//
// The method is branch and bound. Each bound is a linear relaxation whose multipliers come from a floating-point simplex and
// whose value is then worked out in whole numbers: any multipliers >= 0 give a true bound (weak duality), so rounding in the
// simplex can make the search slower but never wrong. When the budget of steps runs out, the Proof says what is still open.
package fill

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Problem is what lies on the table and what may be made of it.
type Problem struct {
	Stock []unit.Mass // what there is of each output
	// PieceMass is the mass of one piece of each output, 0 for an output that is weighed out. Empty when nothing is counted.
	// An output that is counted is never cut: only whole pieces of it are used.
	PieceMass []unit.Mass
	Packs     []Pack
	Budget    int // most search steps for the proof of value and left-over; ties get about as many again; 0 is DefaultBudget
}

// DefaultBudget is the number of search steps after which the proof is given up.
const DefaultBudget = 20_000

// Pack is one sellable unit.
type Pack struct {
	Name  string
	Needs []Need
	Value int64 // what one pack contributes, in micro-money; 1 for all packs means as many packs as possible
	Min   int   // fewest to make
	Max   int   // most to make; negative means no limit
}

// Need is what one pack takes of one output: a mass of an output that is weighed, or pieces of an output that is counted.
type Need struct {
	Output int // index into Problem.Stock
	Mass   unit.Mass
	Pieces int
}

// Plan is how many of each pack to make.
type Plan struct {
	Count []int       // of each pack
	Left  []unit.Mass // of each output, broken pieces included
	Value int64       // of all packs
	Proof Proof
	Why   Why
}

// Proof says how sure the plan is.
type Proof struct {
	Optimal bool  // no plan has a higher value, nor the same value with less left over
	Even    bool  // and none of those that tie is more even, or earlier in the order of the list
	Bound   int64 // no plan has a higher value than this
	Steps   int   // search steps used
}

// Gap is how much more value a better plan could have at most; 0 means the value is proven to be the highest.
func (p Plan) Gap() int64 { return p.Proof.Bound - p.Value }

// Rule is one of the rules by which plans are compared.
type Rule int

const (
	ByValue Rule = iota + 1 // the highest value
	ByLeft                  // the least left over
	ByEven                  // the most even counts
	ByOrder                 // more of the pack that is listed first
)

var ruleNames = [...]string{ByValue: "highest value", ByLeft: "least left over", ByEven: "most even counts", ByOrder: "order of the list"}

// String is the rule in words.
func (r Rule) String() string {
	if r < ByValue || r > ByOrder {
		return fmt.Sprintf("rule(%d)", int(r))
	}
	return ruleNames[r]
}

// Why is the reason for a plan, as data.
type Why struct {
	// Decided is the last rule that had to be asked among the plans that the search met.
	Decided Rule
	// Stops says for each pack what stops one more of it.
	Stops []Stop
}

// Stop is what stops one more of a pack: its maximum, or the output that is the most short for it, or neither, when one more
// would fit but would lower the value (a pack of negative value).
type Stop struct {
	AtMax  bool
	Output int       // -1 when no output is short
	Short  unit.Mass // how much more of the output one more pack would take
}

// Shortage is one output of which there is not enough for the minima.
type Shortage struct {
	Output   int
	Need     unit.Mass // for the minima of all packs; whole pieces by their mass
	Have     unit.Mass // that can be used; whole pieces by their mass
	By       unit.Mass // Need less Have
	ByPieces int       // the same in pieces, 0 for an output that is weighed
}

// ShortError says that the minima can't be made, and what is short.
type ShortError struct{ Short []Shortage }

// Error names the first output that is short.
func (e *ShortError) Error() string {
	s := e.Short[0]
	return fmt.Sprintf("fill: the minima need %.6g kg of output %d, there are %.6g kg: short by %.6g kg (%d outputs are short)",
		s.Need.Kg(), s.Output, s.Have.Kg(), s.By.Kg(), len(e.Short))
}

// InputError says which part of a Problem makes no sense. Pack and Output are -1 where they do not apply.
type InputError struct {
	Pack, Output int
	Reason       string
}

func (e *InputError) Error() string {
	switch {
	case e.Pack >= 0 && e.Output >= 0:
		return fmt.Sprintf("fill: pack %d, output %d: %s", e.Pack, e.Output, e.Reason)
	case e.Pack >= 0:
		return fmt.Sprintf("fill: pack %d: %s", e.Pack, e.Reason)
	case e.Output >= 0:
		return fmt.Sprintf("fill: output %d: %s", e.Output, e.Reason)
	default:
		return "fill: " + e.Reason
	}
}

// Solve finds the best plan. It returns *InputError for a problem that makes no sense and *ShortError when the minima can't
// be made.
func Solve(p Problem) (Plan, error) {
	t, err := newTable(p)
	if err != nil {
		return Plan{}, err
	}
	if short := t.shortages(p); len(short) > 0 {
		return Plan{}, &ShortError{Short: short}
	}
	s := newSearch(t, p.Budget)
	s.run(false)
	proof := Proof{Optimal: s.done, Bound: s.bound, Steps: s.steps}
	if s.done {
		s.raise()
		s.run(true)
		proof.Even = s.done
		proof.Steps = s.steps
	}
	return t.plan(p, s.best, proof, s.decided), nil
}

// Pieces is how many whole pieces of mass piece there are in m; 0 when either is not positive.
func Pieces(m, piece unit.Mass) int {
	if m <= 0 || piece <= 0 {
		return 0
	}
	return int(m / piece)
}

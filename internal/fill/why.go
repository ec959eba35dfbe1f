package fill

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Rule is one of the rules by which plans are compared.
type Rule int

const (
	ByMinimum Rule = iota + 1 // the fewest packs below the minima; only when they are softened and can't be made
	ByOrders                  // the least penalty for orders not met
	ByKeep                    // the fewest packs short of the minimum stock
	ByValue                   // the highest value
	ByLeft                    // the least left over
	ByEven                    // the most even counts
	ByList                    // more of the pack that is listed first
)

var ruleNames = [...]string{ByMinimum: "fewest packs below the minima", ByOrders: "open orders", ByKeep: "minimum stock", ByValue: "highest value",
	ByLeft: "least left over", ByEven: "most even counts", ByList: "order of the list"}

// String is the rule in words.
func (r Rule) String() string {
	if r < ByMinimum || r > ByList {
		return fmt.Sprintf("rule(%d)", int(r))
	}
	return ruleNames[r]
}

// Why is the reason for a plan, as data.
type Why struct {
	// Decided is the last rule that had to be asked among the plans that the search met.
	Decided Rule
	// Rejected is the best of the plans that the search met and that Decided turned down; nil when it met none.
	Rejected *Alternative
	// Stops says for each pack what stops one more of it.
	Stops []Stop
}

// Alternative is a plan that was not taken.
type Alternative struct {
	Count []int
	// Worse is by how much it falls behind under the rule that decided, in the unit of Reached; 0 for ByEven and ByList.
	Worse int64
}

// Stop is what stops one more of a pack: its maximum, the output that is the most short for it, the supply that is, or none of
// these, when one more would fit but would make the plan worse.
type Stop struct {
	AtMax       bool
	Output      int       // -1 when no output is short
	Short       unit.Mass // how much more of the output one more pack would take
	Supply      int       // -1 when no supply is short
	ShortPieces int       // how many more pieces of the supply one more pack would take
}

// Shortage is one output or one supply of which there is not enough for the minima.
type Shortage struct {
	Output   int       // -1 when it is a supply
	Supply   int       // -1 when it is an output
	Need     unit.Mass // for the minima of all packs; whole pieces by their mass; 0 for a supply
	Have     unit.Mass // that can be used; whole pieces by their mass; 0 for a supply
	By       unit.Mass // Need less Have
	ByPieces int       // the same in pieces, 0 for an output that is weighed
}

// ShortError says that the minima can't be made, and what is short.
type ShortError struct {
	Short    []Shortage
	supplies []Supply
}

// Error names the first thing that is short.
func (e *ShortError) Error() string {
	s := e.Short[0]
	if s.Supply >= 0 {
		have := e.supplies[s.Supply]
		return fmt.Sprintf("fill: the minima need %d of supply %d (%s), there are %d: short by %d (%d are short)",
			have.Have+s.ByPieces, s.Supply, have.Name, have.Have, s.ByPieces, len(e.Short))
	}
	return fmt.Sprintf("fill: the minima need %.6g kg of output %d, there are %.6g kg: short by %.6g kg (%d are short)",
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

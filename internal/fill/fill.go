// Package fill decides at the sealing table: from what was really weighed, how many of each pack are made, what stays over, and
// what stops one pack more. It also offers a use for what is left (Uses), shares pieces and sauce out over packs (Portion), and
// questions a weight that can't be right (Doubt).
//
// Masses are whole nanograms, supplies whole pieces, and every pack is whole, so a plan fits or it does not; nothing is rounded.
// Plans are compared by these rules, one after another:
//
//  1. open orders: the least penalty for packs that are ordered and not made;
//  2. minimum stock: the fewest packs short of what should remain when every order has gone out;
//  3. the highest value;
//  4. the least mass left over;
//  5. the most even counts: the smallest count as high as it can be, then the second smallest, and so on;
//  6. more of the pack that is listed first.
//
// The caller may put the first four in another order or leave some out; a rule about which the problem says nothing never decides.
//
// The method is branch and bound, one pass for each rule with all earlier ones held at their best. Each bound is a linear
// relaxation whose multipliers come from a floating-point simplex and whose value is then worked out in whole numbers: any
// multipliers >= 0 give a true bound (weak duality), so rounding in the simplex can make the search slower but never wrong. When
// the budget of steps runs out, the Proof says what is still open.
package fill

import "kettlefrost/internal/unit"

// Problem is what lies on the table and what may be made of it.
type Problem struct {
	Stock []unit.Mass // what there is of each output
	// PieceMass is the mass of one piece of each output, 0 for an output that is weighed out. Empty when nothing is counted.
	// An output that is counted is never cut: only whole pieces of it are used.
	PieceMass []unit.Mass
	Supplies  []Supply // bags, labels and the like: limits, but no mass
	Packs     []Pack
	// Goals are the rules among ByOrders, ByKeep, ByValue and ByLeft that count, the most important first. Empty means all four in
	// this order. ByEven and ByList always come last.
	Goals []Rule
	// Soften asks for the best plan even when the minima can't all be made: the fewest packs below them then come before all else.
	Soften bool
	Budget int // most search steps for the proof of the goals; ties get a quarter as many; 0 is DefaultBudget
}

// DefaultBudget is the number of search steps after which the proof is given up.
const DefaultBudget = 20_000

// Supply is something counted of which packs take whole pieces. Several packs may share it.
type Supply struct {
	Name string
	Have int
}

// Pack is one sellable unit.
type Pack struct {
	Name  string
	Needs []Need
	Uses  []Use // of supplies
	Value int64 // what one pack contributes, in micro-money; 1 for all packs means as many packs as possible
	Min   int   // fewest to make
	Max   int   // most to make; negative means no limit
	// Ordered is how many are ordered and not yet in stock; Penalty is what each that is not made counts, 0 meaning 1.
	Ordered int
	Penalty int64
	// Keep is how many should remain when all that is ordered has gone out. An order that can't be met is still owed, so that it
	// counts as stock below nothing.
	Keep int
}

// Need is what one pack takes of one output: a mass of an output that is weighed, or pieces of an output that is counted.
type Need struct {
	Output int // index into Problem.Stock
	Mass   unit.Mass
	Pieces int
}

// Use is what one pack takes of one supply.
type Use struct {
	Supply int // index into Problem.Supplies
	Pieces int
}

// Plan is how many of each pack to make.
type Plan struct {
	Count []int       // of each pack
	Left  []unit.Mass // of each output, broken pieces included
	Spare []int       // of each supply
	Value int64       // of all packs
	Goals []Reached   // what each rule came to, the most important first
	Proof Proof
	Why   Why
}

// Reached is what a rule came to. Orders count in penalty, minima and stock in packs short, value in micro-money, left-over in ng.
type Reached struct {
	Rule   Rule
	Amount int64
	Best   int64 // no plan that is as good by the earlier rules does better than this
	Proven bool  // Amount is the best there is, given that the earlier rules are at their best
}

// Proof says how sure the plan is.
type Proof struct {
	Optimal bool  // no plan is better by any of the goals in their order
	Even    bool  // and none of those that tie is more even, or earlier in the order of the list
	Bound   int64 // no plan as good by the goals that come before the value has a higher value than this
	Steps   int   // search steps used
}

// Gap is how much more value a better plan could have at most; 0 means the value is proven to be the highest.
func (p Plan) Gap() int64 { return p.Proof.Bound - p.Value }

// Solve finds the best plan. It returns *InputError for a problem that makes no sense and *ShortError when the minima can't
// be made and are not to be softened.
func Solve(p Problem) (Plan, error) {
	t, err := newTable(p)
	if err != nil {
		return Plan{}, err
	}
	if short := t.shortages(p); len(short) > 0 {
		if !p.Soften {
			return Plan{}, &ShortError{Short: short, supplies: p.Supplies}
		}
		t.soften()
	}
	goals, err := t.goals(p)
	if err != nil {
		return Plan{}, err
	}
	s := newSearch(t, goals, p.Budget)
	s.run()
	return t.plan(p, s), nil
}

// Pieces is how many whole pieces of mass piece there are in m; 0 when either is not positive.
func Pieces(m, piece unit.Mass) int {
	if m <= 0 || piece <= 0 {
		return 0
	}
	return int(m / piece)
}

package fill

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Check adds up a plan with none of the search's code: every count within its limits, nothing used that is not there, and the
// left-over and the value as they are stated. It does not say that the plan is the best.
func Check(p Problem, plan Plan) error {
	if len(plan.Count) != len(p.Packs) || len(plan.Left) != len(p.Stock) {
		return &InputError{Pack: -1, Output: -1, Reason: "the plan is for another problem"}
	}
	left := append([]unit.Mass(nil), p.Stock...)
	var value int64
	for i, k := range p.Packs {
		c := plan.Count[i]
		if c < k.Min || (k.Max >= 0 && c > k.Max) {
			return &InputError{Pack: i, Output: -1, Reason: fmt.Sprintf("count %d is outside its limits", c)}
		}
		value += int64(c) * k.Value
		for _, n := range k.Needs {
			if n.Output < 0 || n.Output >= len(p.Stock) || (n.Pieces > 0 && n.Output >= len(p.PieceMass)) {
				return &InputError{Pack: i, Output: n.Output, Reason: "no such output, or no mass of a piece"}
			}
			each := n.Mass
			if n.Pieces > 0 {
				each = unit.Mass(n.Pieces) * p.PieceMass[n.Output]
			}
			if each > 0 && unit.Mass(c) > left[n.Output]/each {
				return &InputError{Pack: i, Output: n.Output, Reason: "takes more than there is"}
			}
			left[n.Output] -= unit.Mass(c) * each
		}
	}
	if value != plan.Value {
		return &InputError{Pack: -1, Output: -1, Reason: fmt.Sprintf("value is %d, not %d", value, plan.Value)}
	}
	for j := range left {
		if left[j] != plan.Left[j] {
			return &InputError{Pack: -1, Output: j, Reason: fmt.Sprintf("left over is %d ng, not %d", left[j], plan.Left[j])}
		}
	}
	return nil
}

package fill

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Check adds up a plan with none of the search's code: every count within its limits, nothing used that is not there, and the
// left-over, the value and what the goals came to as they are stated. It does not say that the plan is the best.
func Check(p Problem, plan Plan) error {
	if len(plan.Count) != len(p.Packs) || len(plan.Left) != len(p.Stock) || len(plan.Spare) != len(p.Supplies) {
		return &InputError{Pack: -1, Output: -1, Reason: "the plan is for another problem"}
	}
	left := append([]unit.Mass(nil), p.Stock...)
	var value int64
	for i, k := range p.Packs {
		c := plan.Count[i]
		if c < 0 || c < k.Min && !p.Soften || (k.Max >= 0 && c > k.Max) {
			return &InputError{Pack: i, Output: -1, Reason: fmt.Sprintf("count %d is outside its limits", c)}
		}
		value += int64(c) * k.Value
		if err := draw(p, i, c, left); err != nil {
			return err
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
	if err := checkSupplies(p, plan); err != nil {
		return err
	}
	return checkGoals(p, plan)
}

// draw takes c of pack i from what is left.
func draw(p Problem, i, c int, left []unit.Mass) error {
	for _, n := range p.Packs[i].Needs {
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
	return nil
}

func checkSupplies(p Problem, plan Plan) error {
	for j, s := range p.Supplies {
		have := s.Have
		for i, k := range p.Packs {
			for _, u := range k.Uses {
				if u.Supply == j {
					have -= u.Pieces * plan.Count[i]
				}
			}
		}
		if have < 0 || have != plan.Spare[j] {
			return &InputError{Pack: -1, Output: -1, Reason: fmt.Sprintf("supply %s has %d to spare, not %d", s.Name, have, plan.Spare[j])}
		}
	}
	return nil
}

func checkGoals(p Problem, plan Plan) error {
	for _, r := range plan.Goals {
		var sum int64
		for i, k := range p.Packs {
			c := int64(plan.Count[i])
			switch r.Rule {
			case ByMinimum:
				sum += max(0, int64(k.Min)-c)
			case ByOrders:
				sum += max(1, k.Penalty) * max(0, int64(k.Ordered)-c)
			case ByKeep:
				sum += max(0, int64(k.Ordered)+int64(k.Keep)-c)
			case ByValue:
				sum += c * k.Value
			}
		}
		if r.Rule == ByLeft {
			for _, m := range plan.Left {
				sum += int64(m)
			}
		}
		if sum != r.Amount {
			return &InputError{Pack: -1, Output: -1, Reason: fmt.Sprintf("%v comes to %d, not %d", r.Rule, sum, r.Amount)}
		}
	}
	return nil
}

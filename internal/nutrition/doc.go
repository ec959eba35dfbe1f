// Package nutrition is what stands in a nutrition panel: amounts from parts with a composition, what the rules allow to be printed of them,
// and the panel itself as a value.
//
// A figure that nobody gives is not zero. An amount with a missing part is a lower bound that names its parts, with an upper bound where one
// follows (no more of the fat can be saturated than there is fat); a panel prints it only if both ends print the same.
//
// Two sets of rules: United States (21 CFR 101.9, and the panel of 9 CFR 317.309 for meat and poultry) and European Union (Regulation
// 1169/2011). Every figure of either is in a table with its source, and with a remark of what in it is from memory: confirm that in the text
// first. Where a rule leaves a choice, all answers that it allows are given, the usual one first.
package nutrition

import "fmt"

// InputError says which figure makes no sense, and what would do.
type InputError struct{ What, Reason, Fix string }

// Error is one line.
func (e *InputError) Error() string {
	return fmt.Sprintf("nutrition: %s %s; %s", e.What, e.Reason, e.Fix)
}

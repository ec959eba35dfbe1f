// Package netdeclare is the statement of net quantity on a pack of frozen food: what it says in pounds, ounces and grams, how tall its type
// is and where it stands (21 CFR 101.7, formerly 101.105, and 15 U.S.C. 1453), and the same for the European Union.
//
// A rounded figure never says more than is in the pack: all are rounded down. Where two figures of a statement differ the larger is the one
// that is enforced, so every statement comes with the mass that its average must reach.
//
// Food that is solid, semisolid, viscous, or a mix of solid and liquid is declared by weight; one that is liquid by fluid measure, unless firm
// custom of the trade says otherwise. Which of them a clear stock is that is sold frozen is a question for the authority.
package netdeclare

import "fmt"

// InputError says which figure makes no sense, and what would do.
type InputError struct{ What, Reason, Fix string }

// Error is one line.
func (e *InputError) Error() string {
	return fmt.Sprintf("netdeclare: %s %s; %s", e.What, e.Reason, e.Fix)
}

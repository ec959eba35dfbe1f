package stability

import "fmt"

// How what goes wrong is spread in the pot.
const (
	dispersed = "dispersed"
	pieces    = "pieces"
	topping   = "topping"
)

// Shares of the pot from which something counts: judgement.
const (
	trace = 0.01 // under it, nothing
	small = 0.05
	large = 0.15
)

// weigh is how much of a severity is left at a share of the pot, and why. It never rises as the share falls or the pot is held.
func weigh(s Severity, spread string, of float64, p Protection) (Severity, string) {
	amount := fmt.Sprintf("%.2g %% of the pot", 100*of)
	switch {
	case spread == topping || s == Good:
		return s, ""
	case of < trace:
		return Good, amount
	case spread == pieces && of < small:
		return s.less(), amount
	case spread == pieces:
		return s, ""
	case p.Holds() && of < small:
		return Good, amount + ", and " + p.why()
	case p.Holds() && of < large:
		return min(Note, s.less()), amount + ", and " + p.why()
	case p.Holds():
		return s.less(), p.why()
	case of < small:
		return s.less(), amount
	}
	return s, ""
}

package purchase

import (
	"fmt"
	"strings"

	"kettlefrost/internal/unit"
)

// InputError says what of a basket makes no sense, where, and what to do.
type InputError struct{ Where, Reason, Fix string }

func (e *InputError) Error() string {
	return fmt.Sprintf("purchase: %s: %s: %s", e.Where, e.Reason, e.Fix)
}

// NoOfferError says that there is a need and nothing is known to buy.
type NoOfferError struct{ Need unit.Mass }

func (e *NoOfferError) Error() string {
	return fmt.Sprintf("purchase: no pack is known for a need of %.6g kg", e.Need.Kg())
}

// ShortError says that all that can be had does not cover the need.
type ShortError struct{ Need, Have, By unit.Mass }

func (e *ShortError) Error() string {
	return fmt.Sprintf("purchase: the need is %.6g kg, all packs together are %.6g kg: short by %.6g kg", e.Need.Kg(), e.Have.Kg(), e.By.Kg())
}

// Unmet is a need that the suppliers who can deliver do not cover.
type Unmet struct {
	Need     int
	Name     string
	Mass     unit.Mass
	Have     unit.Mass // all that can be had
	Without  []int     // suppliers that are left out and list it
	NoOffers bool      // nobody lists it
}

// Err is *NoOfferError if nothing at all can be had, otherwise *ShortError.
func (u Unmet) Err() error {
	if u.Have == 0 {
		return &NoOfferError{Need: u.Mass}
	}
	return &ShortError{Need: u.Mass, Have: u.Have, By: u.Mass - u.Have}
}

// UnmetError lists every need that cannot be met, whatever is ordered from whom. To buy the rest, set their mass to 0.
type UnmetError struct {
	Unmet   []Unmet
	LeftOut []LeftOut // suppliers that cannot be ordered from
}

func (e *UnmetError) Error() string {
	texts := make([]string, len(e.Unmet))
	for i, u := range e.Unmet {
		switch {
		case u.NoOffers:
			texts[i] = fmt.Sprintf("%s: nobody lists it: give it an offer", u.Name)
		case u.Have == 0:
			texts[i] = fmt.Sprintf("%s: nobody who lists it can deliver: find another supplier, or another day", u.Name)
		default:
			texts[i] = fmt.Sprintf("%s: %.6g kg are needed and %.6g kg can be had: find another offer, or need less", u.Name, u.Mass.Kg(), u.Have.Kg())
		}
	}
	return "purchase: " + strings.Join(texts, "; ")
}

// TermsError says that each need can be met but not all on these terms: the cap on suppliers, or lowest order values and most packs
// that contradict each other. Proven says that this is certain; otherwise the search ended before it found anything.
type TermsError struct {
	AtMost int // 0: no cap
	Proven bool
	Steps  int64
}

func (e *TermsError) Error() string {
	switch {
	case !e.Proven:
		return fmt.Sprintf("purchase: nothing found in %d steps: allow more steps", e.Steps)
	case e.AtMost > 0:
		return fmt.Sprintf("purchase: no %d suppliers together sell everything on their terms: allow one more", e.AtMost)
	}
	return "purchase: the lowest order values cannot be reached with the packs that are to be had: find another supplier"
}

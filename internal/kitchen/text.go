package kitchen

import (
	"fmt"
	"strings"

	"kettlefrost/internal/unit"
)

// UnmarshalText reads "all" or a share such as "60 %".
func (t *Take) UnmarshalText(text []byte) error {
	if strings.TrimSpace(string(text)) == "all" {
		*t = Take{Given: true, Share: unit.Whole}
		return nil
	}
	share, err := unit.ParseShare(string(text))
	if err != nil {
		return fmt.Errorf("%q is not a share of an output: write all, or a share such as 60 %%", text)
	}
	*t = Take{Given: true, Share: share}
	return nil
}

// MarshalText writes what UnmarshalText reads.
func (t Take) MarshalText() ([]byte, error) {
	if t.Share == unit.Whole {
		return []byte("all"), nil
	}
	return t.Share.MarshalText()
}

// IsZero says that no share was given.
func (t Take) IsZero() bool { return !t.Given }

// none is how the book says that somebody checked and found no major allergen.
const none = "none"

// SetNames takes the answer as the book writes it: the single word none, or names.
func (a *Allergens) SetNames(names []string) error {
	if len(names) == 1 && names[0] == none {
		*a = Allergens{Answered: true}
		return nil
	}
	if len(names) == 0 {
		return fmt.Errorf("an empty list does not say whether anybody checked: write none, or name the allergens")
	}
	for _, n := range names {
		if n == none {
			return fmt.Errorf("none cannot stand beside other allergens")
		}
	}
	*a = Allergens{Answered: true, Names: names}
	return nil
}

// List is what SetNames takes; nil when nobody has answered.
func (a Allergens) List() []string {
	switch {
	case !a.Answered:
		return nil
	case len(a.Names) == 0:
		return []string{none}
	default:
		return a.Names
	}
}

// IsZero says that nobody has answered.
func (a Allergens) IsZero() bool { return !a.Answered }

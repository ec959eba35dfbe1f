package nutrition

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Columns is how many columns of figures a panel has, and of what.
type Columns int

const (
	OneServing       Columns = iota + 1 // the pack is one serving: one column
	OneServingMayAdd                    // the pack is one serving; a column for the reference amount may be added
	OneOrTwoServings                    // the pack may be called one serving or two
	PerContainer                        // several servings, and a second column for the whole pack
	ManyServings                        // several servings, one column
)

var columnWords = [...]string{OneServing: "one serving, one column", OneServingMayAdd: "one serving; a column of the reference amount may be added",
	OneOrTwoServings: "one serving or two", PerContainer: "a column of a serving and one of the whole container", ManyServings: "several servings, one column"}

// String is what the panel has, in words.
func (c Columns) String() string {
	if c < OneServing || c > ManyServings {
		return "no columns"
	}
	return columnWords[c]
}

// MarshalText writes what String says.
func (c Columns) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// Exempt is why a pack of two to three reference amounts has no second column.
type Exempt int

const (
	NotExempt    Exempt = iota
	SmallPanel          // its panel is tabular or linear for want of room
	ToBePrepared        // it needs further preparation, and a second column says what it is prepared
	RawFood             // raw produce or seafood
)

// Container is how a pack is portioned on its panel.
type Container struct {
	Columns Columns `json:"columns"`
	Ratio   float64 `json:"ratio"` // what is in the pack, in reference amounts
	Why     string  `json:"why"`
	Source  string  `json:"source"`
	Confirm string  `json:"confirm,omitempty"`
}

// Container says whether a pack is a single serving and how many columns its panel has, from its net mass and the reference amount.
// Errors are *InputError.
func (r Rules) Container(net, reference unit.Mass, exempt Exempt) (Container, error) {
	if net <= 0 || reference <= 0 {
		return Container{}, &InputError{"a container", "needs a net mass and a reference amount", "give both"}
	}
	c := Container{Ratio: net.Kg() / reference.Kg()}
	c.Why = fmt.Sprintf("it holds %.1f %% of the reference amount", 100*c.Ratio)
	if r == USDA {
		c.Columns, c.Source = usdaColumns(net, reference), "9 CFR 317.309(b)(8), 2015 (read): it asks for no second column"
		return c, nil
	}
	c.Columns, c.Source = fdaColumns(net, reference), "21 CFR 101.9(b)(6), (b)(12)(i), 2016 rule (quoted)"
	if c.Columns == PerContainer {
		c.Confirm = "that 200 % and 300 % themselves take the second column is from memory"
		if exempt != NotExempt {
			c.Columns = ManyServings
			c.Why += "; exempt from the second column"
		}
	}
	return c, nil
}

func fdaColumns(net, reference unit.Mass) Columns {
	switch {
	case 2*net < 3*reference:
		return OneServing
	case net < 2*reference:
		return OneServingMayAdd
	case net <= 3*reference:
		return PerContainer
	}
	return ManyServings
}

// usdaColumns keeps the rule that was before 2016.
func usdaColumns(net, reference unit.Mass) Columns {
	switch {
	case net >= 2*reference:
		return ManyServings
	case reference >= 100*unit.Gram && 2*net > 3*reference:
		return OneOrTwoServings
	}
	return OneServing
}

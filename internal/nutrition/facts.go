package nutrition

import "slices"

// Cell is what a panel says of one nutrient in one column.
type Cell struct {
	Amount  string  `json:"amount"`       // "4.5 g", "less than 5 mg"; "" while Open
	Percent string  `json:"percent"`      // of the daily value: "15 %"; "" where there is none, and while Open
	Or      []Print `json:"or,omitempty"` // what else may be printed in place of Amount
	OrDV    []Print `json:"or_dv,omitempty"`
	Actual  Amount  `json:"actual"`         // not rounded
	Open    bool    `json:"open,omitempty"` // what is missing decides what is printed: nothing is
}

// cell is what is printed of an amount.
func (r Rules) cell(n Nutrient, a Amount) Cell {
	return cellOf(a, func(x float64) Cell { return r.printed(n, r.line(n), x) })
}

// cellOf prints an amount. One that is not whole is printed if its least and its most print alike.
func cellOf(a Amount, printed func(float64) Cell) Cell {
	c := printed(a.Least)
	c.Actual = a
	if _, whole := a.Get(); whole {
		return c
	}
	most, bounded := a.Most.Get()
	if other := printed(most); !bounded || other.Amount != c.Amount || other.Percent != c.Percent {
		return Cell{Actual: a, Open: true}
	}
	return c
}

func (r Rules) printed(n Nutrient, line string, x float64) Cell {
	may := Allowed(line, x)
	if len(may) == 0 {
		return Cell{Open: true}
	}
	c := Cell{Amount: may[0].Text, Or: may[1:]}
	if dv := r.AllowedDV(n, x, may[0]); len(dv) > 0 {
		c.Percent, c.OrDV = dv[0].Text, dv[1:]
	}
	return c
}

// line is where the tables of rules have a nutrient.
func (r Rules) line(n Nutrient) string {
	if r == USDA && n == Potassium {
		return "potassium_usda_panel"
	}
	return kinds[n].line
}

// Fact is one nutrient, column by column.
type Fact struct {
	Nutrient Nutrient `json:"nutrient"`
	Cells    []Cell   `json:"cells"`
}

// required are the lines of every panel: the fifteen of 21 CFR 101.9(f), in the order of the panel.
var required = []Nutrient{Energy, Fat, SaturatedFat, TransFat, Cholesterol, Sodium, Carbohydrate, Fibre, Sugars, AddedSugars, Protein,
	VitaminD, Calcium, Iron, Potassium}

// Required are the nutrients that a panel must declare, or say that there is no significant source of them.
func Required() []Nutrient { return slices.Clone(required) }

// Facts are the lines that must be declared, of one column or more: a serving, a pack. Each column is rounded from its own amounts, never from
// another column. Energy is by the general factors.
func (r Rules) Facts(columns ...Amounts) []Fact {
	var all []Fact
	for _, n := range required {
		f := Fact{Nutrient: n}
		for _, a := range columns {
			f.Cells = append(f.Cells, r.cell(n, declaredOf(a, n)))
		}
		all = append(all, f)
	}
	return all
}

func declaredOf(a Amounts, n Nutrient) Amount {
	if n == Energy {
		return a.GeneralEnergy()
	}
	return a[n]
}

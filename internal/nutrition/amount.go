package nutrition

import (
	"slices"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/unit"
)

// Gap is a part that does not say how much it holds of a nutrient.
type Gap struct {
	Part string    `json:"part"`
	Mass unit.Mass `json:"mass_g"` // of the part
}

// Amount is how much there is of a nutrient, in its unit. The zero Amount is one of which nothing is known.
type Amount struct {
	Least   float64         `json:"least"` // what the parts add up to that say so: with Missing a lower bound
	Most    foodtable.Value `json:"most"`  // not given where nothing bounds it
	Missing []Gap           `json:"missing,omitempty"`
}

// Get is the amount and whether it is known whole.
func (a Amount) Get() (amount float64, whole bool) {
	if len(a.Missing) > 0 || !a.Most.IsGiven() {
		return 0, false
	}
	return a.Least, true
}

// exactly is an amount that is known.
func exactly(x float64) Amount { return Amount{Least: x, Most: foodtable.Given(x)} }

// times is the amount in so many times as much.
func (a Amount) times(k float64) Amount {
	a.Least *= k
	if most, given := a.Most.Get(); given {
		a.Most = foodtable.Given(most * k)
	}
	return a
}

// plus adds k times another amount.
func (a Amount) plus(k float64, b Amount) Amount {
	a.Least += k * b.Least
	most, given := a.Most.Get()
	more, too := b.Most.Get()
	if a.Most = (foodtable.Value{}); given && too {
		a.Most = foodtable.Given(most + k*more)
	}
	for _, g := range b.Missing {
		if !slices.Contains(a.Missing, g) {
			a.Missing = append(slices.Clip(a.Missing), g)
		}
	}
	return a
}

// Amounts are how much there is of every nutrient.
type Amounts [nutrients]Amount

// Times are the amounts in so many times as much.
func (a Amounts) Times(k float64) Amounts {
	for n := range a {
		a[n] = a[n].times(k)
	}
	return a
}

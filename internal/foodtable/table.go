package foodtable

import (
	_ "embed" // the four files of the table
	"slices"
	"strings"
	"sync"
)

//go:embed data/foods.csv
var foodsCSV string

//go:embed data/measures.csv
var measuresCSV string

//go:embed data/yields.csv
var yieldsCSV string

//go:embed data/densities.csv
var densitiesCSV string

var loadEmbedded = sync.OnceValues(func() (*Table, error) {
	return Parse(strings.NewReader(foodsCSV), strings.NewReader(measuresCSV), strings.NewReader(yieldsCSV), strings.NewReader(densitiesCSV))
})

// Default is the table that comes with kettlefrost. It is read at the first call; every call returns the same table.
func Default() (*Table, error) { return loadEmbedded() }

// Table is a food composition table. It does not change once read, so it may be used from many goroutines. What it returns are
// copies. Make one with Default or Parse; a zero Table holds no food.
type Table struct {
	foods      []Food
	at         map[string]int // NDB number to index in foods
	measures   map[string][]Measure
	yields     []Yield
	yieldsOf   map[string][]int // NDB number to indexes in yields
	densities  map[string][]Density
	foodWords  index
	yieldWords index
}

// Foods are all foods, in the order of the file (by NDB number in the table that comes with kettlefrost).
func (t *Table) Foods() []Food { return slices.Clone(t.foods) }

// Lookup is the food with an NDB number, all five digits of it.
func (t *Table) Lookup(ndb string) (Food, bool) {
	i, ok := t.at[ndb]
	if !ok {
		return Food{}, false
	}
	return t.foods[i], true
}

// Measures are the household measures of a food, in the source's order; none when it has none or is not in the table.
func (t *Table) Measures(ndb string) []Measure { return slices.Clone(t.measures[ndb]) }

// Yields are the yields whose outcome is the cooked food with this NDB number. They are there for foods outside the table too.
func (t *Table) Yields(ndb string) []Yield {
	var ys []Yield
	for _, i := range t.yieldsOf[ndb] {
		ys = append(ys, t.yields[i])
	}
	return ys
}

// Densities are the densities of a food, one for each form.
func (t *Table) Densities(ndb string) []Density { return slices.Clone(t.densities[ndb]) }

// Density is the density of a food in exactly this form, large and small letters alike; "" is the food as it is. Another form
// is never put in its place: a cup of chopped onion is not a cup of sliced onion.
func (t *Table) Density(ndb, form string) (Density, bool) {
	for _, d := range t.densities[ndb] {
		if strings.EqualFold(d.Form, form) {
			return d, true
		}
	}
	return Density{}, false
}

package app

import (
	"maps"
	"reflect"
	"sync"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Formulas keeps how all dishes stand, for as long as the book says the same: the kitchen's first page asks each time.
type Formulas struct {
	mu   sync.Mutex
	book kitchen.Book
	list formula.List
	made bool
}

// Of is how all dishes of a book stand. Nobody may change what it gives.
func (f *Formulas) Of(book kitchen.Book, foods *foodtable.Table) formula.List {
	f.mu.Lock()
	defer f.mu.Unlock()
	if what := formulated(book); !f.made || !reflect.DeepEqual(f.book, what) {
		f.book, f.list, f.made = what, formula.ListOf(book, foods), true
	}
	return f.list
}

// formulated is what of a book a formula depends on. What is on hand changes all day long and is none of it.
func formulated(b kitchen.Book) kitchen.Book {
	k := kitchen.Book{Kitchen: b.Kitchen, Equipment: b.Equipment, Media: b.Media, Dishes: b.Dishes, Ingredients: maps.Clone(b.Ingredients), Freezers: maps.Clone(b.Freezers), Bags: maps.Clone(b.Bags), Packs: maps.Clone(b.Packs)}
	for id, g := range k.Ingredients {
		g.Stock, g.Lots, g.Buy = unit.Amount{}, nil, nil
		k.Ingredients[id] = g
	}
	for id, x := range k.Freezers {
		x.Holds = 0
		k.Freezers[id] = x
	}
	for id, x := range k.Bags {
		x.Stock = 0
		k.Bags[id] = x
	}
	for id, x := range k.Packs {
		x.Frozen, x.Labels, x.Checks = 0, 0, nil
		k.Packs[id] = x
	}
	return k
}
